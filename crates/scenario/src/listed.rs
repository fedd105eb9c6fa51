//! A list of lengths, one by one.

use toml::de::DeValue;

use crate::entry::Entry;

/// The lengths of a list as written.
pub(crate) fn listed(entry: &Entry) -> Vec<String> {
    // It is TOML that this program wrote.
    let Ok(list) = DeValue::parse(&entry.written) else { return Vec::new() };
    let list = list.get_ref().as_array().into_iter().flatten();
    list.filter_map(|one| Some(one.get_ref().as_str()?.to_owned())).collect()
}
