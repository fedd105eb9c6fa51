use units::Dimension;

use super::column::names;

/// Why a file of shots is refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ShotsError {
    /// No shot in the file.
    #[error("there is no shot in this file")]
    Empty,
    /// A head that is no column.
    #[error("there is no column \"{name}\"")]
    Column {
        /// What it says.
        name: String,
        /// The column it may mean.
        near: Option<&'static str>,
    },
    /// A column headed twice.
    #[error("the column {name} stands here twice")]
    Twice {
        /// Its name.
        name: &'static str,
    },
    /// A head without a unit.
    #[error("the column {name} has no unit")]
    NoUnit {
        /// Its name.
        name: &'static str,
        /// What it measures.
        dimension: Dimension,
    },
    /// A head with a unit of something else, or of nothing.
    #[error("\"{unit}\" is no unit of {dimension}, which the column {name} holds")]
    Unit {
        /// Its name.
        name: &'static str,
        /// The unit.
        unit: String,
        /// What it measures.
        dimension: Dimension,
    },
    /// A column that every file needs.
    #[error("there is no column {name}")]
    NoColumn {
        /// Its name.
        name: &'static str,
    },
    /// No column of readings.
    #[error("there is no column of readings")]
    NoReadingColumn,
    /// A line with more cells than there are heads.
    #[error("this line has {found} cells for {heads} heads")]
    Long {
        /// Cells.
        found: usize,
        /// Heads.
        heads: usize,
    },
    /// A cell that is no number.
    #[error("{name}: \"{text}\" is not a number")]
    Cell {
        /// The column.
        name: &'static str,
        /// The cell.
        text: String,
    },
    /// A number outside what is taken.
    #[error("{name} = {value} is outside {allowed}")]
    Range {
        /// The column.
        name: &'static str,
        /// The value with its unit.
        value: String,
        /// The allowed range.
        allowed: String,
    },
    /// No reading on a line, or several.
    #[error("{}", readings(found))]
    Readings {
        /// The readings found.
        found: Vec<&'static str>,
    },
    /// A reading without a number it needs.
    #[error("a {reading} needs a {name}, which is empty on this line")]
    NoCell {
        /// The empty column.
        name: &'static str,
        /// The reading.
        reading: &'static str,
    },
    /// A sight reading at the bow itself.
    #[error("a {reading} at no distance says nothing")]
    AtBow {
        /// The reading.
        reading: &'static str,
    },
    /// A pin beside a reading that has none.
    #[error("a {reading} has no pin")]
    IdlePin {
        /// The reading.
        reading: &'static str,
    },
    /// The error of another reading.
    #[error("{name} is given, but the reading of this line is a {reading}")]
    IdleError {
        /// The column of the error.
        name: &'static str,
        /// The reading.
        reading: &'static str,
    },
}

fn readings(found: &[&str]) -> String {
    if found.is_empty() {
        "this line holds no reading".to_owned()
    } else {
        format!("this line holds {} readings: {}", found.len(), found.join(", "))
    }
}

impl ShotsError {
    /// The words under the carets.
    pub(crate) fn label(&self) -> String {
        match self {
            Self::Empty => "nothing below this".to_owned(),
            Self::Column { near: Some(near), .. } => format!("did you mean {near}?"),
            Self::Column { .. } | Self::NoColumn { .. } | Self::NoReadingColumn => {
                "these heads".to_owned()
            }
            Self::Twice { name } => format!("two columns {name}"),
            Self::NoUnit { name, dimension } => {
                format!("write \"{name} [{}]\"", usual(*dimension))
            }
            Self::Unit { name, .. } => format!("the unit of {name}"),
            Self::Range { allowed, .. } => format!("allowed: {allowed}"),
            Self::Long { heads, .. } => format!("only {heads} have a head"),
            Self::Cell { name, .. } | Self::NoCell { name, .. } | Self::IdleError { name, .. } => {
                format!("the cell under {name}")
            }
            Self::Readings { .. } => "one shot, one reading".to_owned(),
            Self::AtBow { .. } => "distance 0".to_owned(),
            Self::IdlePin { .. } => "leave the cell under pin empty".to_owned(),
        }
    }

    /// What to do about it.
    pub(crate) fn helps(&self) -> Vec<String> {
        let help = match self {
            Self::Column { .. } => format!("columns: {}", names()),
            Self::Unit { dimension, .. } => {
                let units: Vec<&str> = dimension.units().iter().map(|unit| unit.symbol).collect();
                format!("units of {dimension}: {}", units.join(", "))
            }
            Self::NoColumn { .. } | Self::NoReadingColumn | Self::Empty => {
                "begin with a line such as distance [yd],mark [mm] and write one shot a line; \
                 readings are speed, mark, gap and up"
                    .to_owned()
            }
            Self::Readings { .. } => "write each reading on a line of its own".to_owned(),
            Self::Cell { .. } => "write a number with a decimal point; its unit stands in the \
                                  head"
                .to_owned(),
            _ => return Vec::new(),
        };
        vec![help]
    }
}

fn usual(dimension: Dimension) -> &'static str {
    if dimension == Dimension::Speed { "ft/s" } else { "yd" }
}
