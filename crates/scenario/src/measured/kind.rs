//! Which tables rows can be added to.

use std::path::Path;

use units::Style;

use super::batch::{Batch, batch};
use super::column::{Column, Columns, Holds};
use super::ends::round_ends;
use super::faces::{Faces, faces};
use super::hits::{Turns, turns};
use super::job::{Heading, job};
use super::known::KnownColumn;
use super::parts::{Parts, parts};
use super::profile::{Profile, profiles};
use super::settle::Rule;
use super::three::{Three, three};
use crate::Report;

/// A kind of table that rows can be added to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Shafts or arrows, one to a row.
    Batch,
    /// End faces, one reading to a row.
    Faces,
    /// Run-out along shafts, one reading to a row.
    Profile,
    /// Three readings of a shaft, one shaft to a row.
    Three,
    /// Shots with nocks turned, one to a row.
    Turns,
    /// What a job is.
    Job,
    /// Loose parts, one to a row.
    Parts,
}

impl Kind {
    pub(super) fn columns(self) -> &'static [Column] {
        match self {
            Self::Batch => Batch::ALL,
            Self::Faces => Faces::ALL,
            Self::Profile => Profile::ALL,
            Self::Three => Three::ALL,
            Self::Turns => Turns::ALL,
            Self::Job => Heading::ALL,
            Self::Parts => Parts::ALL,
        }
    }

    /// Which rows are of one thing.
    pub(super) fn rule(self) -> Rule {
        match self {
            Self::Batch => super::batch::RULE,
            Self::Faces => super::faces::RULE,
            Self::Profile => super::profile::RULE,
            Self::Three => super::three::RULE,
            Self::Turns => super::hits::RULE,
            Self::Job => super::job::RULE,
            Self::Parts => super::parts::RULE,
        }
    }

    /// Every kind with its word.
    pub const ALL: [(&'static str, Self); 7] = [
        ("batch", Self::Batch),
        ("faces", Self::Faces),
        ("profile", Self::Profile),
        ("three", Self::Three),
        ("shots", Self::Turns),
        ("job", Self::Job),
        ("parts", Self::Parts),
    ];

    /// The columns, for whoever writes a table or matches one.
    pub fn known(self) -> Vec<KnownColumn> {
        self.columns().iter().map(KnownColumn::from).collect()
    }

    /// The columns, one line each: name, unit, other names, whether it must be there, and
    /// outside which range it is asked about.
    pub fn told(self, style: Style) -> String {
        let one = |column: &Column| {
            let needed = if column.needed { "; every row needs it" } else { "" };
            let also = if column.also.is_empty() {
                String::new()
            } else {
                format!("; or: {}", column.also.join(", "))
            };
            let against = if column.against.is_empty() {
                String::new()
            } else {
                format!("; counted the other way: {}", column.against.join(", "))
            };
            let words = match column.holds {
                Holds::Word(words) => format!("; one of {}", words.join(", ")),
                _ => String::new(),
            };
            let head = column.head(style == Style::Metric);
            let asked = match (column.likely, column.holds) {
                (Some(ends), Holds::Amount(dimension, _, _, units)) => {
                    let unit = dimension.unit(units[usize::from(style == Style::Metric)]);
                    let range = unit.map(|unit| round_ends(ends, unit)).unwrap_or_default();
                    format!("; asked about outside {range}")
                }
                _ => String::new(),
            };
            format!("{head}{words}{also}{against}{needed}{asked}\n")
        };
        self.columns().iter().map(one).collect()
    }

    /// An empty sheet to fill in, as CSV: the heads with their units, and one row as an
    /// example, to be written over.
    pub fn sheet(self, style: Style) -> String {
        let metric = style == Style::Metric;
        let heads: Vec<String> = self.columns().iter().map(|c| c.head(metric)).collect();
        let cell = |column: &Column| {
            let given = self.example().iter().find(|(name, _)| *name == column.name);
            given.map_or(String::new(), |(_, value)| (*value).to_owned())
        };
        let cells: Vec<String> = self.columns().iter().map(cell).collect();
        format!("{}\n{}\n", heads.join(","), cells.join(","))
    }

    /// A row that reads, each quantity with its unit.
    fn example(self) -> &'static [(&'static str, &'static str)] {
        match self {
            Self::Batch => &[
                ("arrow", "1"),
                ("stage", "built"),
                ("mass", "425.3 gr"),
                ("spine", "0.340 in"),
                ("length", "28 7/8 in"),
                ("run-out", "0.002 in"),
                ("run-out high", "3 o'clock"),
                ("note", "example: write over it"),
            ],
            Self::Faces => &[
                ("arrow", "1"),
                ("where", "front"),
                ("stage", "as sawn"),
                ("gauge", "leaf"),
                ("reading", "0.05 mm"),
                ("step", "0.01 mm"),
                ("across", "6.2 mm"),
                ("note", "example: write over it"),
            ],
            Self::Profile => &[
                ("shaft", "1"),
                ("station", "8 in"),
                ("clock", "90 deg"),
                ("reading", "0.0205 in"),
                ("stock", "32 in"),
                ("note", "example: write over it"),
            ],
            Self::Three => &[
                ("shaft", "1"),
                ("stock", "32 in"),
                ("middle", "0.003 in"),
                ("middle high", "3 o'clock"),
                ("nock end", "0.006 in"),
                ("nock end high", "5 o'clock"),
                ("point end", "0.002 in"),
                ("point end high", "12 o'clock"),
                ("note", "example: write over it"),
            ],
            Self::Turns => &[
                ("arrow", "7"),
                ("turn", "120 deg"),
                ("left", "-2.1 in"),
                ("up", "0.4 in"),
                ("note", "example: write over it"),
            ],
            Self::Job => &[
                ("customer", "Tansy Creek (invented)"),
                ("bow", "hunting bow of 60 lb"),
                ("batch", "340 shafts of box 3"),
                ("arrows", "12"),
                ("cut to", "28 1/2 in"),
                ("note", "example: write over it"),
            ],
            Self::Parts => &[
                ("part", "point"),
                ("name", "1"),
                ("mass", "100.3 gr"),
                ("note", "example: write over it"),
            ],
        }
    }

    /// What is wrong with a table of this kind.
    pub(super) fn mistakes(self, path: &Path, bytes: Vec<u8>) -> Option<Report> {
        match self {
            Self::Batch => batch(path, Ok(bytes)).err(),
            Self::Faces => faces(path, Ok(bytes)).err(),
            Self::Profile => profiles(path, Ok(bytes)).err(),
            Self::Three => three(path, Ok(bytes)).err(),
            Self::Turns => turns(path, Ok(bytes)).err(),
            Self::Job => job(path, Ok(bytes)).err(),
            Self::Parts => parts(path, Ok(bytes)).err(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The sheet that is offered reads as it is.
    #[test]
    fn law_every_empty_sheet_reads() {
        for (word, kind) in Kind::ALL {
            for style in [Style::Archery, Style::Metric] {
                let text = kind.sheet(style);
                let wrong = kind.mistakes(Path::new("sheet.csv"), text.clone().into_bytes());
                assert!(wrong.is_none(), "{word}: {text}{wrong:?}");
            }
        }
    }
}
