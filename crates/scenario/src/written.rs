//! Values as TOML.

use study::Per;

use crate::entry::Scalar;

/// A text as a TOML string.
pub(crate) fn quoted(text: &str) -> String {
    toml::Value::from(text).to_string()
}

/// Scalars, comma separated.
pub(crate) fn joined(scalars: &[Scalar]) -> String {
    let written: Vec<String> = scalars
        .iter()
        .map(|s| if s.bare { s.text.clone() } else { quoted(s.text.trim()) })
        .collect();
    written.join(", ")
}

/// How `per` is written.
pub(crate) fn per_word(per: Per) -> &'static str {
    match per {
        Per::Arrow => "arrow",
        Per::Shot => "shot",
    }
}

/// A clock that may be anywhere.
pub(crate) fn any_clock(per: Per) -> String {
    format!("{{ low = \"0 turn\", high = \"1 turn\", per = \"{}\" }}", per_word(per))
}
