//! A list of lengths, one by one.

use toml::de::DeValue;

use crate::entry::Entry;
use crate::schema::{Fallback, Id};

/// The lengths of a list as written, or those of its default.
pub(crate) fn listed(id: Id, entry: Option<&Entry>) -> Vec<String> {
    let Some(entry) = entry else {
        let Fallback::Is { usual, .. } = id.key().fallback else { return Vec::new() };
        return usual.text.split(", ").map(str::to_owned).collect();
    };
    // It is TOML that this program wrote.
    let Ok(list) = DeValue::parse(&entry.written) else { return Vec::new() };
    let list = list.get_ref().as_array().into_iter().flatten();
    list.filter_map(|one| Some(one.get_ref().as_str()?.to_owned())).collect()
}
