//! What may be wrong with a measured table beyond what may be wrong with any
//! value: part of [`crate::ScenarioError`].

/// What people write where they read nothing.
const NOTHING: [&str; 8] = ["-", "--", "\u{2013}", "?", "x", "n/a", "na", "none"];

/// Why a measured table is refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TableMistake {
    /// The file is not UTF-8 text.
    #[error("this is not UTF-8 text")]
    NotUtf8,
    /// A table stands where a scenario belongs: the file.
    #[error("{0} looks like a table, and a scenario belongs here")]
    ForScenario(String),
    /// A quote that is never closed.
    #[error("this quote is never closed")]
    OpenQuote,
    /// No line of heads; the columns there may be.
    #[error("there is no line with the names of the columns")]
    NoHead(String),
    /// So many rows, and the fewest.
    #[error("too few rows below the names of the columns: {0}")]
    Few(usize, usize),
    /// A name that is nearly that of a column not there, or none that a new row
    /// can fill; the column meant, and those there may be.
    #[error("this is no column of such a table")]
    Unknown(Option<&'static str>, String),
    /// So many columns or rows, and the most.
    #[error("there are {1} {0}; at most {2} are read")]
    TooMany(&'static str, usize, usize),
    /// The same thing given twice: letter and head of the first.
    #[error("this is given already, in column {0}")]
    Twice(String),
    /// A column that must be there: its names, who needs it, a head for it, the
    /// heads there are.
    #[error("there is no column {0}{1}")]
    Missing(String, String, String, String),
    /// A bare number in a column without a unit: number, column, a unit.
    #[error("{0} has no unit")]
    NoUnit(String, &'static str, &'static units::Unit),
    /// A bare number for a clock position, and the column.
    #[error("{0} has no unit")]
    NoHour(String, &'static str),
    /// Not a number, and how one would be written.
    #[error("\"{0}\" is not a number")]
    NotANumber(String, String),
    /// A blank cell, and who needs it.
    #[error("this cell is blank")]
    Blank(String),
    /// A cell that says nothing of what its row holds.
    #[error("this does not belong to {0}")]
    Idle(&'static str),
    /// A sight reading at the bow itself.
    #[error("{0} at no distance says nothing")]
    AtBow(&'static str),
    /// A row of so many cells under so many heads; whether commas part them.
    #[error("this row has {0} cells under {1} heads")]
    Long(usize, usize, bool),
    /// The readings of a row that must hold one, and those it may hold.
    #[error("{}", if .0.is_empty() {
        "this row holds no reading".to_owned()
    } else {
        format!("this row holds {} readings: {}", .0.len(), .0.join(", "))
    })]
    OneOf(Vec<&'static str>, Vec<&'static str>),
    /// Something that another line tells otherwise: what, here, there, the line.
    #[error("{0} is {1} here, but {2} in line {3}")]
    Differs(&'static str, String, String, usize),
    /// A name that another line has already; whether such a table has corrections.
    #[error("\"{0}\" stands in line {1} already")]
    NameTwice(String, usize, bool),
    /// A row that voids one that is not there.
    #[error("there is no entry of this to take back")]
    NothingVoid,
    /// A job of no arrows.
    #[error("a job has one arrow or more")]
    NoArrows,
    /// A second row of what a table says once.
    #[error("this is told in line {0} already")]
    Once(usize),
    /// A value so many times the middle of so many others.
    #[error("this is {0} times the middle of the {1} others")]
    FarOff(String, usize),
    /// A value that hardly any has, and the ends between which nearly all lie; what may
    /// be meant.
    #[error("{0} is hardly ever so: nearly all lie within {1}")]
    Unlikely(String, String, Option<String>),
    /// A value that cannot be, what may be meant, and the range.
    #[error("{0} is out of range: it goes from {2}")]
    Meant(String, String, String),
    /// A reading that no sound part gives, as the bench refuses it.
    #[error("{0}")]
    Unsound(String),
    /// Something that a trial does not have, and what it has.
    #[error("{0} is not of this trial")]
    NotInTrial(String, String),
    /// An end of a trial without some of its arrows.
    #[error("end {0} lacks {1}")]
    EndShort(u32, String),
    /// More rows than there may be: of what, and the most.
    #[error("a row too many")]
    Over(&'static str, usize),
}

impl TableMistake {
    /// The words under the carets.
    pub(crate) fn label(&self) -> String {
        match self {
            Self::NotUtf8 => "from here on".into(),
            Self::ForScenario(_) => "a table".into(),
            Self::OpenQuote => "opened here".into(),
            Self::NoHead(_) | Self::Missing(..) => "these heads".into(),
            Self::Few(_, least) => format!("needs {least} or more"),
            Self::TooMany(..) => "split the table".into(),
            Self::Unknown(Some(near), _) => format!("did you mean {near}?"),
            Self::Unknown(None, _) => "no such column".into(),
            Self::Twice(_) => "once is enough".into(),
            Self::NoUnit(value, _, unit) => format!("write {}", units::like(value, unit)),
            Self::NoHour(value, _) => format!("write {value} o'clock, or {value} deg"),
            Self::NotANumber(_, example) => format!("write it like {example}"),
            Self::Blank(who) => format!("{who} needs it"),
            Self::Idle(_) => "leave this cell blank".into(),
            Self::AtBow(_) => "write how far it was".into(),
            Self::Long(_, heads, _) => format!("only {heads} have a head"),
            Self::OneOf(_, of) => format!("one of {}", of.join(", ")),
            Self::Differs(..) => "one of the two is wrong".into(),
            Self::NameTwice(..) => "named again here".into(),
            Self::NothingVoid => "leave this row out".into(),
            Self::NoArrows => "how many are there to be?".into(),
            Self::Once(_) => "a second row here".into(),
            Self::FarOff(..) | Self::Unlikely(.., None) | Self::Unsound(_) => "is that so?".into(),
            Self::Unlikely(.., Some(meant)) | Self::Meant(_, meant, _) => {
                format!("did you mean {meant}?")
            }
            Self::NotInTrial(_, allowed) => allowed.clone(),
            Self::EndShort(..) => "up to here".into(),
            Self::Over(what, most) => format!("{what}, {most} row"),
        }
    }

    /// What to do about it.
    pub(crate) fn helps(&self) -> Vec<String> {
        match self {
            Self::ForScenario(_) => vec![
                "give the scenario first, such as scenarios/bench/bench.toml; a table goes where the \
                 command asks for one, such as `clothyard bench sort SCENARIO --batch TABLE`"
                    .into(),
            ],
            Self::NotUtf8 => vec!["save the sheet as CSV in UTF-8".into()],
            Self::NoHead(allowed) | Self::Unknown(None, allowed) => {
                vec![format!("columns may be: {allowed}")]
            }
            Self::Unknown(_, allowed) => vec![
                format!("columns may be: {allowed}"),
                "a column of your own needs a name less like these".into(),
            ],
            Self::Missing(_, _, head, found) => {
                vec![format!("columns here: {found}"), format!("head it, say, \"{head}\"")]
            }
            Self::NoUnit(_, name, unit) => {
                vec![format!("or head the column \"{name} [{}]\"", unit.symbol)]
            }
            Self::NoHour(_, name) => {
                vec![format!("or head the column \"{name} [o'clock]\" or \"{name} [deg]\"")]
            }
            Self::Long(_, _, true) => vec![
                "with a decimal comma, put semicolons between the cells or quotes round the number"
                    .into(),
            ],
            Self::NotANumber(value, _) if NOTHING.contains(&value.to_lowercase().as_str()) => {
                vec!["where nothing was read, leave the cell blank".into()]
            }
            Self::NameTwice(.., true) | Self::Once(_) => {
                vec![
                    "to correct a row, add a new one with \"yes\" in a column \"correction\""
                        .into(),
                ]
            }
            Self::OneOf(found, _) if !found.is_empty() => {
                vec!["write each reading in a row of its own".into()]
            }
            Self::FarOff(..) | Self::Unlikely(..) => vec![
                "a slipped decimal point or another unit is likely; if it is so, note it again \
                 with correction=sure, that is with \"sure\" in a column \"correction\""
                    .into(),
            ],
            Self::Unsound(_) => vec![
                "where it is so, take the arrow out: in a batch write why in a column \"out\"; \
                 elsewhere note it again with correction=sure"
                    .into(),
            ],
            Self::EndShort(..) => vec![
                "an end counts whole or not at all: where an arrow missed or broke, shoot the end \
                 again"
                    .into(),
            ],
            _ => Vec::new(),
        }
    }
}
