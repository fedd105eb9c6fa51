//! What may be wrong with a table of shots: part of [`crate::ScenarioError`].

/// Why a table of shots is refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ImpactsError {
    /// A table of shots without a column that is needed.
    #[error("no column gives {name} or {other}")]
    Column {
        /// The column.
        name: &'static str,
        /// What it may be called as well.
        other: &'static str,
        /// The columns there are.
        found: Vec<String>,
    },
    /// A table of shots with two columns for one thing.
    #[error("{name} is given by a column already")]
    Twice {
        /// The second column.
        name: &'static str,
    },
    /// A line of a table of shots with more fields than there are columns.
    #[error("{count} fields in a table of {columns} columns")]
    Wide {
        /// Its fields.
        count: usize,
        /// The columns.
        columns: usize,
    },
    /// A line of a table of shots without a field that is needed.
    #[error("{name} is missing")]
    Empty {
        /// The column.
        name: &'static str,
    },
    /// A field of a table of shots that is no number.
    #[error("{name} is \"{text}\", not a number")]
    Number {
        /// The column.
        name: &'static str,
        /// The field.
        text: String,
    },
    /// A number without a unit in a table of shots.
    #[error("{name} = {number} has no unit")]
    Bare {
        /// The column.
        name: &'static str,
        /// The number.
        number: String,
    },
    /// A table of too few shots.
    #[error("{count} shot{} in the table", if *count == 1 { "" } else { "s" })]
    Few {
        /// How many there are.
        count: usize,
        /// The fewest.
        least: usize,
    },
}

impl ImpactsError {
    /// The words under the carets.
    pub(crate) fn label(&self) -> String {
        match self {
            Self::Column { name, .. } | Self::Empty { name } => format!("no {name} here"),
            Self::Twice { .. } => "one column is enough".into(),
            Self::Wide { .. } => "too many fields".into(),
            Self::Number { .. } => "needs a number".into(),
            Self::Bare { .. } => "in which unit?".into(),
            Self::Few { least, .. } => format!("needs {least} or more"),
        }
    }

    /// What to do about it.
    pub(crate) fn helps(&self) -> Vec<String> {
        match self {
            Self::Column { name, other, found } => vec![
                format!("columns here: {}", found.join(", ")),
                format!("name it {name} or {other}, with its unit: {name} [in]"),
            ],
            Self::Wide { .. } => {
                vec!["numbers with a decimal comma need semicolons between the columns".to_owned()]
            }
            Self::Bare { name, .. } => {
                vec![format!("name the column {name} [in], or {name} [cm]")]
            }
            _ => Vec::new(),
        }
    }
}
