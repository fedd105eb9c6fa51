//! What is set anew in a scenario.

/// A key and what it is set to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The dotted key.
    pub key: &'static str,
    /// What it is set to.
    pub to: Setting,
}

/// What a key is set to. Texts are what would stand in quotes in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Setting {
    /// A quantity or a word.
    Value(String),
    /// A Rayleigh law of this scale.
    Size(String),
    /// A normal law about zero of this standard deviation.
    Spread(String),
    /// One of a list of lengths, put in where it is not there yet.
    Among(String),
    /// For the name of a table: that it is there.
    Table,
}

impl Setting {
    /// The text, as typed.
    pub(crate) fn text(&self) -> &str {
        match self {
            Self::Value(text) | Self::Size(text) | Self::Spread(text) | Self::Among(text) => text,
            Self::Table => "",
        }
    }
}
