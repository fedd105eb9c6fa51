//! The columns of a file of shots.

use units::{Dimension, Unit};

use super::ShotsError;
use crate::text::between;

/// A column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Column {
    Distance,
    Pin,
    Speed,
    SpeedError,
    Mark,
    MarkError,
    Gap,
    GapError,
    Up,
    UpError,
}

/// The columns that make a line a shot.
pub(super) const LEADS: [Column; 4] = [Column::Speed, Column::Mark, Column::Gap, Column::Up];

const ALL: [Column; 10] = [
    Column::Distance,
    Column::Pin,
    Column::Speed,
    Column::SpeedError,
    Column::Mark,
    Column::MarkError,
    Column::Gap,
    Column::GapError,
    Column::Up,
    Column::UpError,
];

impl Column {
    /// Its head, without the unit.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Distance => "distance",
            Self::Pin => "pin",
            Self::Speed => "speed",
            Self::SpeedError => "speed error",
            Self::Mark => "mark",
            Self::MarkError => "mark error",
            Self::Gap => "gap",
            Self::GapError => "gap error",
            Self::Up => "up",
            Self::UpError => "up error",
        }
    }

    /// The column that holds the error of a reading.
    pub(super) fn error(self) -> Option<Self> {
        match self {
            Self::Speed => Some(Self::SpeedError),
            Self::Mark => Some(Self::MarkError),
            Self::Gap => Some(Self::GapError),
            Self::Up => Some(Self::UpError),
            _ => None,
        }
    }

    fn dimension(self) -> Dimension {
        match self {
            Self::Speed | Self::SpeedError => Dimension::Speed,
            _ => Dimension::Length,
        }
    }

    /// What is taken, SI. Chosen: wider than anything shot with a bow.
    fn range(self) -> (f64, f64) {
        match self {
            Self::Distance => (0.0, 200.0),
            Self::Pin => (1.0, 200.0),
            Self::Speed => (10.0, 200.0),
            Self::SpeedError => (0.001, 20.0),
            Self::Mark => (-1.0, 1.0),
            Self::Gap => (1e-4, 1.0),
            Self::MarkError | Self::GapError => (1e-6, 0.1),
            Self::Up => (-10.0, 10.0),
            Self::UpError => (1e-4, 5.0),
        }
    }
}

/// The names of every column.
pub(super) fn names() -> String {
    ALL.map(Column::name).join(", ")
}

/// A column and the unit of its cells.
#[derive(Debug, Clone, Copy)]
pub(super) struct Head {
    pub(super) column: Column,
    unit: &'static Unit,
}

/// Reads a head such as `distance [yd]`.
pub(super) fn head(text: &str) -> Result<Head, ShotsError> {
    let (name, unit) = match text.split_once('[') {
        Some((name, rest)) => (name.trim(), rest.trim_end().strip_suffix(']').map(str::trim)),
        None => (text.trim(), None),
    };
    let same = |column: &&Column| column.name().eq_ignore_ascii_case(name);
    let Some(&column) = ALL.iter().find(same) else {
        let near = ALL.map(Column::name).into_iter().find(|n| strsim::levenshtein(n, name) <= 2);
        return Err(ShotsError::Column { name: name.to_owned(), near });
    };
    let dimension = column.dimension();
    let name = column.name();
    match unit {
        None | Some("") => Err(ShotsError::NoUnit { name, dimension }),
        Some(symbol) => match dimension.unit(symbol) {
            Some(unit) => Ok(Head { column, unit }),
            None => Err(ShotsError::Unit { name, unit: symbol.to_owned(), dimension }),
        },
    }
}

impl Head {
    /// A cell, SI.
    pub(super) fn read(&self, text: &str) -> Result<f64, ShotsError> {
        let name = self.column.name();
        let value: f64 = text
            .parse()
            .ok()
            .filter(|value: &f64| value.is_finite())
            .ok_or_else(|| ShotsError::Cell { name, text: text.to_owned() })?;
        let si = self.unit.to_si(value);
        let (low, high) = self.column.range();
        // Rounding of a unit must not refuse the end of a range.
        let slack = 1e-12 * high;
        if si < low - slack || si > high + slack {
            let value = format!("{text} {}", self.unit.symbol);
            let allowed = between((low, high), self.unit);
            return Err(ShotsError::Range { name, value, allowed });
        }
        Ok(si)
    }
}
