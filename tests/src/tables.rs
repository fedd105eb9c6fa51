//! A small invented table of each kind that is measured, and how to read it.

use std::fmt::Debug;
use std::io;
use std::path::Path;

use scenario::measured::{Opened, Table, batch, faces, impacts, profiles, shots, turns};
use scenario::{Report, ScenarioError};

/// Every value read and what was passed over, or everything that is wrong.
pub type Shown = Result<(String, Vec<String>), Report>;

/// A kind of table: an example, and its reader.
pub struct Sample {
    /// The kind.
    pub name: &'static str,
    /// Its rows, the heads first, with a bar between cells.
    pub rows: &'static [&'static str],
    /// Reads a text and gives every value read, bit by bit, with what was
    /// passed over; or everything that is wrong.
    pub read: fn(&[u8]) -> Shown,
}

fn shown<T: Debug>(read: Result<Table<T>, Report>) -> Shown {
    read.map(|table| (format!("{:?}", table.found), table.passed_over))
}

macro_rules! samples {
    ($($name:literal $read:ident $rows:expr;)*) => {
        /// One of each kind. Its first column with a unit is the third or the
        /// last.
        pub const SAMPLES: &[Sample] = &[$(Sample {
            name: $name,
            rows: $rows,
            read: |text| shown($read(Path::new(concat!($name, ".csv")), Ok(text.to_vec()))),
        }),*];
    };
}

samples! {
    "batch" batch &["arrow|mass [gr]|spine [in]", "1|424.6|0.342", "2|426.75|0.3415"];
    "faces" faces &[
        "arrow|where|gauge|reading [mm]|step [mm]|across [mm]",
        "1|front|leaf|0.05|0.01|6.2",
        "1|rear|leaf|0.03|0.01|6.2",
    ];
    "profile" profiles &[
        "shaft|station [in]|clock [deg]|reading [in]",
        "1|2.5|90|0.0105",
        "1|4.5|90|-0.002",
    ];
    "turns" turns &["arrow|turn [deg]|left [in]|up [in]", "7|0|-2.1|1.3", "7|120.5|0.5|-0.25"];
    "shots" shots &["distance [yd]|mark [mm]", "20|12.5", "60.5|31.9"];
    "impacts" impacts &["left [in]|up [in]", "0.5|-1.25", "-2|0.75"];
}

/// The errors of a report.
pub fn errors(report: &Report) -> Vec<ScenarioError> {
    report.problems().iter().map(|problem| problem.error.clone()).collect()
}

/// What opening a file that is not there gives.
pub fn gone() -> Opened {
    Err(io::ErrorKind::NotFound.into())
}

impl Sample {
    /// The rows as a file, with cells parted by this and changed by that.
    pub fn file(&self, separator: &str, change: impl Fn(&str) -> String) -> String {
        let row = |row: &&str| row.split('|').map(&change).collect::<Vec<_>>().join(separator);
        self.rows.iter().map(row).collect::<Vec<_>>().join("\n") + "\n"
    }
}
