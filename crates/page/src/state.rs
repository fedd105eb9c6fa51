//! What the page stands at, and the link that says so.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use scenario::{Control, Field, Form, control, controls};
use units::Style;

use crate::{PageError, Shelf};

/// A field: the number of the build it is of, 0 for all builds that say the same, and
/// the control's name.
pub(crate) type FieldName = (usize, &'static str);
/// Changed values, as written.
pub(crate) type FieldValues = BTreeMap<FieldName, String>;

/// Longest value of a quantity, in bytes. Chosen: the longest has fewer.
pub(crate) const LONGEST: usize = 40;
/// Longest text, list or law, in bytes. Chosen: a force-draw curve of an inch a step.
pub(crate) const LONGEST_WRITTEN: usize = 2_000;
/// Longest name of a build, in bytes. Chosen: it stands over a column.
pub(crate) const LONGEST_NAME: usize = 60;
/// Largest number of a build. Chosen: a scenario has at most 24, and some come and go.
const LAST_BUILD: usize = 99;

/// What was done to a build as a whole.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct BuildState {
    /// The number of the scenario's build that it is a copy of; none for one of those.
    pub(crate) copy: Option<usize>,
    /// Its new name.
    pub(crate) name: Option<String>,
    /// Whether it was taken away.
    pub(crate) gone: bool,
}

/// A build held beside the others.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Pinned {
    /// Its number.
    pub(crate) build: usize,
    /// What was changed when it was pinned.
    pub(crate) values: FieldValues,
}

/// The state of one page.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct PageState {
    /// The scenario it starts from; none for the one the page was started with.
    pub(crate) from: Option<String>,
    /// Units; none for the scenario's own.
    pub(crate) units: Option<Style>,
    /// The number of the build that the controls show; none for what builds share.
    pub(crate) build: Option<usize>,
    /// What was done to whole builds, by number.
    pub(crate) builds: BTreeMap<usize, BuildState>,
    /// What was changed.
    pub(crate) now: FieldValues,
    /// The build pinned for comparison.
    pub(crate) pinned: Option<Pinned>,
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
            let again = if let Some(extra) = extra.iter().find(|name| **name == field) {
                asked.extra.insert(extra, value).is_some()
            } else {
                asked.state.take(&field, value)?
            };
            if again {
                return Err(PageError::Field { field });
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
    /// Takes in one field; whether it stood there before.
    fn take(&mut self, field: &str, value: String) -> Result<bool, PageError> {
        match field {
            "from" => return Ok(self.from.replace(value).is_some()),
            "units" => return Ok(self.units.replace(family(value)?).is_some()),
            // The no script form sends "all builds" as nothing.
            "build" if value.is_empty() => return Ok(false),
            "build" => return Ok(self.build.replace(number("build", &value)?).is_some()),
            "pinned" => {
                self.pin().build = number("pinned", &value)?;
                return Ok(false);
            }
            _ => {}
        }
        let unknown = || PageError::Field { field: field.to_owned() };
        let (pinned, rest) = field.strip_prefix("p.").map_or((false, field), |rest| (true, rest));
        let numbered =
            rest.split_once('.').filter(|(at, _)| at.bytes().all(|b| b.is_ascii_digit()));
        let (build, name) = match numbered {
            Some((at, name)) => (number("build", at)?, name),
            None => (0, rest),
        };
        if build > 0 && !pinned && ["copy", "name", "gone"].contains(&name) {
            let whole = self.builds.entry(build).or_default();
            return Ok(match name {
                "copy" => whole.copy.replace(number("copy", &value)?).is_some(),
                "gone" => std::mem::replace(&mut whole.gone, true),
                _ => whole.name.replace(fits(&value, LONGEST_NAME)?).is_some(),
            });
        }
        let control = control(name).ok_or_else(unknown)?;
        if build > 0 && !control.built() {
            return Err(unknown());
        }
        let most = longest(control, &value);
        let values = if pinned { &mut self.pin().values } else { &mut self.now };
        Ok(values.insert((build, control.name()), fits(&value, most)?).is_some())
    }

    fn pin(&mut self) -> &mut Pinned {
        self.pinned.get_or_insert_with(|| Pinned { build: 1, values: FieldValues::new() })
    }

    /// Every field of the link in a fixed order, name and value.
    pub(crate) fn fields(&self) -> Vec<(String, String)> {
        let mut fields: Vec<(String, String)> = Vec::new();
        let mut add = |name: String, value: &str| fields.push((name, value.to_owned()));
        if let Some(from) = &self.from {
            add("from".to_owned(), from);
        }
        match self.units {
            Some(Style::Metric) => add("units".to_owned(), "metric"),
            Some(Style::Archery) => add("units".to_owned(), "archery"),
            None => {}
        }
        if let Some(build) = self.build {
            add("build".to_owned(), &build.to_string());
        }
        for (at, whole) in &self.builds {
            if let Some(copy) = whole.copy {
                add(format!("{at}.copy"), &copy.to_string());
            }
            if let Some(name) = &whole.name {
                add(format!("{at}.name"), name);
            }
            if whole.gone {
                add(format!("{at}.gone"), "1");
            }
        }
        for (name, value) in in_order(&self.now) {
            add(spelled(name), value);
        }
        if let Some(pinned) = &self.pinned {
            add("pinned".to_owned(), &pinned.build.to_string());
            for (name, value) in in_order(&pinned.values) {
                add(format!("p.{}", spelled(name)), value);
            }
        }
        fields
    }

    /// Whether anything of the scenario was changed, beside which of its distances is looked at.
    pub(crate) fn changes(&self) -> bool {
        let value =
            |name: &&FieldName| control(name.1).is_none_or(|control| control.form() != Form::Among);
        !self.builds.is_empty() || self.now.keys().any(|name| value(&name))
    }

    /// The link's fields.
    pub(crate) fn link(&self) -> String {
        let pair = |(name, value): (String, String)| format!("{name}={}", encoded(&value));
        self.fields().into_iter().map(pair).collect::<Vec<_>>().join("&")
    }

    /// Checks the name of the file it starts from.
    pub(crate) fn file(&self) -> Result<Option<&str>, PageError> {
        self.from.as_deref().map(file_name).transpose()
    }
}

/// Values in the order of the controls, and in each that of the builds.
pub(crate) fn in_order(values: &FieldValues) -> impl Iterator<Item = (FieldName, &String)> {
    let of = |name: &'static str| values.iter().filter(move |((_, own), _)| *own == name);
    controls()
        .iter()
        .flat_map(move |control| of(control.name()))
        .map(|(name, value)| (*name, value))
}

/// A field as it stands in a link.
pub(crate) fn spelled((build, name): FieldName) -> String {
    if build == 0 { name.to_owned() } else { format!("{build}.{name}") }
}

fn number(field: &'static str, value: &str) -> Result<usize, PageError> {
    let read = value.parse().ok().filter(|at| (1..=LAST_BUILD).contains(at));
    let value = value.chars().take(20).collect();
    read.ok_or(PageError::Value { field, value, allowed: "the number of a build, 1 to 99" })
}

/// How long a value of a control may be.
fn longest(control: &Control, value: &str) -> usize {
    match control.field() {
        Field::Amount(_) if !value.starts_with('{') => LONGEST,
        Field::Words(_) | Field::Count(..) => LONGEST,
        Field::Amount(_) | Field::Text | Field::Written => LONGEST_WRITTEN,
    }
}

/// A name that is a scenario's and leads nowhere else.
pub(crate) fn file_name(name: &str) -> Result<&str, PageError> {
    let plain = |letter: char| letter.is_ascii_alphanumeric() || " ._-".contains(letter);
    let stem = name.strip_suffix(".toml").unwrap_or_default().trim();
    // A dash in front reads as an option.
    let begins = !stem.is_empty() && !name.starts_with(['.', ' ', '-']);
    let sound = begins && !device(stem) && name.len() <= 100;
    if sound && name.chars().all(plain) {
        Ok(name)
    } else {
        Err(PageError::Name { name: name.to_owned() })
    }
}

/// Whether some system keeps a name for a device, whatever follows its first dot.
pub fn device(name: &str) -> bool {
    let first = name.split('.').next().unwrap_or_default().trim().to_ascii_lowercase();
    let numbered = |device: &str| {
        first.strip_prefix(device).is_some_and(|rest| matches!(rest.as_bytes(), [b'0'..=b'9']))
    };
    matches!(first.as_str(), "con" | "prn" | "aux" | "nul" | "conin" | "conout")
        || ["com", "lpt"].into_iter().any(numbered)
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

/// A text of a field that is not too long.
pub(crate) fn fits(value: &str, most: usize) -> Result<String, PageError> {
    if value.len() > most {
        return Err(PageError::TooLong { length: value.len(), most });
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
