//! What no input may do: end a reader, make it slow, or bring forth a value that
//! is no number. Targets take bytes, so that a fuzzer that follows the branches of
//! the code can drive them (`tests/fuzz/`), and so can chance (`cargo hammer`).

mod corners;
mod mutate;
mod reply;
mod requests;

use std::path::Path;

use scenario::measured::{self, Kind};
use units::{Dimension, Style};

pub use corners::{Corners, corner};
pub use mutate::Mutator;
pub use reply::Reply;
pub use requests::Visitor;

/// Reads a text as a scenario. One that is accepted must read back from its
/// resolved form and from the form the page saves. Says whether it is.
///
/// # Panics
/// Where that fails.
pub fn scenario(bytes: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else { return false };
    // A part file names the scenario itself: a circle is a mistake as any other.
    let read = |text: &str| scenario::read(Path::new("a.toml"), &|_| Ok(text.to_owned()));
    let scenario = match read(text) {
        Ok(scenario) => scenario,
        Err(report) => {
            assert!(!report.problems().is_empty() && !report.render(false).is_empty());
            return false;
        }
    };
    for form in [scenario.resolved(), scenario.written("from a test", None)] {
        if let Err(report) = read(&form) {
            panic!("{form}\n{report}");
        }
    }
    let _ = scenario.plan();
    true
}

/// Reads bytes as a measured table; the first says of which kind. A row that is
/// added to a sound one leaves it sound. Says whether it is.
///
/// # Panics
/// Where that fails.
pub fn table(bytes: &[u8]) -> bool {
    let Some((kind, bytes)) = bytes.split_first() else { return false };
    let (path, opened) = (Path::new("a.csv"), Ok(bytes.to_vec()));
    let (report, kind) = match kind % 6 {
        0 => (measured::batch(path, opened).err(), Some(Kind::Batch)),
        1 => (measured::faces(path, opened).err(), Some(Kind::Faces)),
        2 => (measured::profiles(path, opened).err(), Some(Kind::Profile)),
        3 => (measured::turns(path, opened).err(), Some(Kind::Turns)),
        4 => (measured::impacts(path, opened).err(), None),
        _ => (measured::shots(path, opened).err(), None),
    };
    if let Some(report) = report {
        assert!(!report.problems().is_empty() && !report.render(false).is_empty());
        return false;
    }
    if let Some(kind) = kind {
        let values = [("arrow".to_owned(), "a new one".to_owned())];
        if let Ok(whole) = measured::with_row(kind, path, Some(bytes), &values, Style::Archery) {
            assert!(whole.text.starts_with(bytes));
        }
    }
    true
}

/// Reads a text as a quantity of many dimensions; says whether it is one of any.
///
/// # Panics
/// Where a number that was read is none.
pub fn units(bytes: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else { return false };
    let mut some = false;
    for dimension in [
        Dimension::Length,
        Dimension::Mass,
        Dimension::Angle,
        Dimension::Speed,
        Dimension::Force,
        Dimension::Temperature,
        Dimension::Pressure,
        Dimension::Ratio,
    ] {
        match units::parse_si(dimension, text) {
            Ok(value) => {
                assert!(value.is_finite(), "{text:?} is {value}");
                some = true;
            }
            Err(error) => assert!(!error.to_string().is_empty()),
        }
    }
    some
}
