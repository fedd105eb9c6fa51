//! What is set anew in a scenario.

/// A key and what it is set to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The dotted key, or the path of a table.
    pub key: &'static str,
    /// What it is set to.
    pub to: Setting,
    /// The one build it is set in, counted from 0; none for all builds that say the same.
    pub build: Option<usize>,
}

/// What a key is set to. Texts are what would stand in quotes in a file, or lists,
/// tables and bare numbers as they would stand in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Setting {
    /// A quantity, a word, or anything else as it is written in a file.
    Value(String),
    /// A Rayleigh law of this scale; at zero, zero.
    Size(String),
    /// A normal law about zero of this standard deviation; at zero, zero.
    Spread(String),
    /// One of a list of lengths, put in where it is not there yet.
    Among(String),
    /// A wind across, from the right above zero and from the left below.
    Side(String),
    /// Nothing: what holds where nothing is written.
    Unset,
    /// For the name of a table: that it is there.
    Table,
    /// For the name of a table: that it is not there.
    NoTable,
}

impl Setting {
    /// The text, as typed.
    pub(crate) fn text(&self) -> &str {
        match self {
            Self::Value(text)
            | Self::Size(text)
            | Self::Spread(text)
            | Self::Among(text)
            | Self::Side(text) => text,
            Self::Unset | Self::Table | Self::NoTable => "",
        }
    }
}
