//! What other notebooks of the same job say of raw shafts, so that nobody measures twice.

use std::collections::BTreeMap;
use std::path::Path;

use scenario::measured;
use units::Length;
use workbench::{Measured, Stage};

use crate::shelf::{LARGEST_TABLE, read};

/// Lengths of raw shafts by their names.
pub(super) type RawLengths = BTreeMap<String, Length>;

/// The lengths of raw shafts that the notebooks beside this one have, where it belongs to a
/// job. One that cannot be read says nothing here; its own command tells why.
pub(super) fn raw_lengths(notebook: &Path) -> RawLengths {
    let mut found = RawLengths::new();
    let Some(folder) = notebook.parent().filter(|folder| folder.join("job.csv").is_file()) else {
        return found;
    };
    let open = |name: &str| {
        let path = folder.join(name);
        let bytes = read(&path, LARGEST_TABLE);
        (path, bytes)
    };
    let (path, bytes) = open("arrows.csv");
    for arrow in measured::worked(&path, bytes).map(|table| table.found).unwrap_or_default() {
        let raw = arrow.stages.iter().find(|of| of.stage == Stage::Raw);
        if let Some(length) = raw.and_then(|of| of.length) {
            found.insert(arrow.name, length);
        }
    }
    let (path, bytes) = open("three.csv");
    let three = measured::three(&path, bytes).map(|table| table.found).unwrap_or_default();
    let (path, bytes) = open("profile.csv");
    let along = measured::profiles(&path, bytes).map(|table| table.found).unwrap_or_default();
    let three = three.into_iter().map(|shaft| (shaft.name, shaft.stock));
    let along = along.into_iter().map(|shaft| (shaft.name, shaft.stock));
    for (name, stock) in three.chain(along) {
        if let Some(length) = stock {
            found.entry(name).or_insert(length);
        }
    }
    found
}

/// An arrow with the length of its raw shaft where it lacks it, and with what its bare shaft
/// weighs by that.
pub(super) fn carried(mut arrow: Measured, lengths: &RawLengths) -> Measured {
    if let Some(length) = lengths.get(&arrow.name) {
        if arrow.stage == Stage::Raw {
            arrow.length.get_or_insert(*length);
        }
        // Only a mass of the raw shaft is over that length.
        if arrow.earlier.mass.is_some() {
            arrow.earlier.length.get_or_insert(*length);
        }
    }
    arrow.weighed()
}
