//! What the page stands at, and the link that says so.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use scenario::{control, controls};
use units::Style;

use crate::{PageError, Shelf};

/// Changed values by the control's name, as written.
pub(crate) type FieldValues = BTreeMap<&'static str, String>;

/// Longest value taken, in bytes. Chosen: the longest quantity has fewer.
pub(crate) const LONGEST: usize = 40;

/// The state of one page.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct PageState {
    /// The scenario it starts from; none for the one the page was started with.
    pub(crate) from: Option<String>,
    /// Units; none for the scenario's own.
    pub(crate) units: Option<Style>,
    /// What was changed.
    pub(crate) now: FieldValues,
    /// What was changed in the build pinned for comparison.
    pub(crate) pinned: Option<FieldValues>,
}

/// A state and the fields that came with it but are not part of it.
pub(crate) struct PageRequest {
    pub(crate) state: PageState,
    pub(crate) extra: BTreeMap<&'static str, String>,
}

impl PageRequest {
    /// Reads the fields of a link or a form; `extra` names further fields.
    pub(crate) fn of(
        fields: Vec<(String, String)>,
        extra: &[&'static str],
    ) -> Result<Self, PageError> {
        let mut asked = Self { state: PageState::default(), extra: BTreeMap::new() };
        for (field, value) in fields {
            let unknown = || PageError::Field { field: field.clone() };
            let old = if let Some(extra) = extra.iter().find(|name| **name == field) {
                asked.extra.insert(extra, value)
            } else if field == "from" {
                asked.state.from.replace(value)
            } else if field == "units" {
                let old = asked.state.units.replace(family(value)?);
                old.map(|_| String::new())
            } else if field == "pinned" {
                asked.state.pinned.get_or_insert_with(FieldValues::new);
                None
            } else if let Some(name) = field.strip_prefix("p.") {
                let id = control(name).ok_or_else(unknown)?.name();
                asked.state.pinned.get_or_insert_with(FieldValues::new).insert(id, short(&value)?)
            } else {
                let id = control(&field).ok_or_else(unknown)?.name();
                asked.state.now.insert(id, short(&value)?)
            };
            if old.is_some() {
                return Err(unknown());
            }
        }
        Ok(asked)
    }

    /// A further field.
    pub(crate) fn extra(&self, name: &str) -> &str {
        self.extra.get(name).map_or("", String::as_str)
    }
}

impl PageState {
    /// The link's fields, in a fixed order.
    pub(crate) fn link(&self) -> String {
        let mut fields: Vec<(String, &str)> = Vec::new();
        if let Some(from) = &self.from {
            fields.push(("from".to_owned(), from));
        }
        match self.units {
            Some(Style::Metric) => fields.push(("units".to_owned(), "metric")),
            Some(Style::Archery) => fields.push(("units".to_owned(), "archery")),
            None => {}
        }
        for name in controls().iter().map(scenario::Control::name) {
            if let Some(value) = self.now.get(name) {
                fields.push((name.to_owned(), value));
            }
        }
        if let Some(pinned) = &self.pinned {
            fields.push(("pinned".to_owned(), "1"));
            fields.extend(pinned.iter().map(|(id, value)| (format!("p.{id}"), value.as_str())));
        }
        let pairs: Vec<String> =
            fields.iter().map(|(name, value)| format!("{name}={}", encoded(value))).collect();
        pairs.join("&")
    }

    /// Checks the name of the file it starts from.
    pub(crate) fn file(&self) -> Result<Option<&str>, PageError> {
        self.from.as_deref().map(file_name).transpose()
    }
}

/// A name that is a scenario's and leads nowhere else.
pub(crate) fn file_name(name: &str) -> Result<&str, PageError> {
    let plain = |letter: char| letter.is_ascii_alphanumeric() || " ._-".contains(letter);
    let stem = name.strip_suffix(".toml").unwrap_or_default().trim();
    // A dash in front reads as an option, and some systems keep names for devices,
    // whatever follows the first dot.
    let first = stem.split('.').next().unwrap_or_default().trim_end().to_ascii_lowercase();
    let numbered = |device: &str| {
        first.strip_prefix(device).is_some_and(|rest| matches!(rest.as_bytes(), [b'0'..=b'9']))
    };
    let device = matches!(first.as_str(), "con" | "prn" | "aux" | "nul" | "conin" | "conout")
        || ["com", "lpt"].into_iter().any(numbered);
    let sound =
        !stem.is_empty() && !name.starts_with(['.', ' ', '-']) && !device && name.len() <= 100;
    if sound && name.chars().all(plain) {
        Ok(name)
    } else {
        Err(PageError::Name { name: name.to_owned() })
    }
}

/// A name like this one that is free.
pub(crate) fn free_name(name: &str, shelf: &dyn Shelf) -> String {
    let taken = shelf.list();
    let stem = name.strip_suffix(".toml").unwrap_or(name);
    let mut count = 2;
    loop {
        let free = format!("{stem}-{count}.toml");
        if !taken.contains(&free) {
            return free;
        }
        count += 1;
    }
}

fn short(value: &str) -> Result<String, PageError> {
    if value.len() > LONGEST {
        return Err(PageError::TooLong { length: value.len(), most: LONGEST });
    }
    Ok(value.trim().to_owned())
}

fn family(value: String) -> Result<Style, PageError> {
    match value.as_str() {
        "archery" => Ok(Style::Archery),
        "metric" => Ok(Style::Metric),
        _ => Err(PageError::Value { field: "units", value, allowed: "archery or metric" }),
    }
}

/// A value as it stands in a link.
pub(crate) fn encoded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for byte in text.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'.' | b'-' | b'_' => {
                out.push(char::from(byte));
            }
            b' ' => out.push('+'),
            _ => {
                let _ = write!(out, "%{byte:02X}");
            }
        }
    }
    out
}
