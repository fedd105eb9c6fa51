/// A slip of which it is known how the line was meant.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{said} {what}")]
pub struct Slip {
    /// What is wrong.
    pub what: Slipped,
    /// What was written, as much of it as matters.
    pub said: String,
    /// How it is written.
    pub like: String,
}

/// What is wrong with a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Slipped {
    /// Quotes of a word processor.
    #[error("stands in curly quotes")]
    Curly,
    /// A quote before a value or behind it, not both.
    #[error("has a quote on one side only")]
    HalfQuoted,
    /// A text without quotes.
    #[error("is not in quotes")]
    Unquoted,
    /// A key of several words.
    #[error("is several words, not one key")]
    BlankInKey,
    /// Something else, or nothing, between key and value.
    #[error("has no = between key and value")]
    NoEquals,
    /// Several values in one text.
    #[error("is one text, not a list")]
    NotAList,
    /// A wind that may come from several sides, and why.
    #[error("is not clear: {0}")]
    Wind(&'static str),
}

impl Slip {
    /// A few words to stand under the marked place.
    pub(crate) fn label(&self) -> String {
        let label = match self.what {
            Slipped::Curly => "quotes must be straight",
            Slipped::HalfQuoted => "one quote is missing",
            Slipped::Unquoted => "needs quotes",
            Slipped::BlankInKey => "a key holds no blank",
            Slipped::NoEquals => "= is missing",
            Slipped::NotAList => "needs a list",
            Slipped::Wind(_) => "from which side?",
        };
        label.to_owned()
    }

    /// What to do about it.
    pub(crate) fn helps(&self) -> Vec<String> {
        let help = match self.what {
            Slipped::Curly => {
                format!("write {}, with the straight quotes of a keyboard", self.like)
            }
            _ => format!("write {}", self.like),
        };
        vec![help]
    }
}
