//! What is read of an arrow on the bench, in order.

use units::{Role, Style};
use workbench::{Measured, Worked};

use crate::show;

/// A reading: its word, what it measures, and how to find it.
pub(super) struct Reading {
    pub(super) word: &'static str,
    pub(super) role: Role,
    pub(super) of: fn(&Measured) -> Option<f64>,
}

impl Reading {
    /// The number alone, as it stands below the reading's word and unit on paper.
    pub(super) fn number(&self, si: f64, style: Style) -> String {
        match self.role {
            Role::Spine => show::spine_number(si),
            role => role.number(si, style),
        }
    }

    /// The unit of that number.
    pub(super) fn symbol(&self, style: Style) -> &'static str {
        match self.role {
            Role::Spine => "0.001 in",
            role => role.symbol(style),
        }
    }

    /// The number with its unit, in a sentence.
    pub(super) fn text(&self, si: f64, style: Style) -> String {
        match self.role {
            Role::Spine => show::spine(si),
            role => role.text(si, style),
        }
    }
}

pub(super) const MASS: Reading =
    Reading { word: "mass", role: Role::Mass, of: |m| m.mass.map(units::Mass::si) };
pub(super) const SPINE: Reading =
    Reading { word: "spine", role: Role::Spine, of: |m| m.spine.map(units::Length::si) };
pub(super) const LENGTH: Reading =
    Reading { word: "length", role: Role::Part, of: |m| m.length.map(units::Length::si) };
pub(super) const RUN_OUT: Reading =
    Reading { word: "run-out", role: Role::Gauge, of: |m| m.run_out.map(|r| r.total.si()) };
pub(super) const TIP: Reading =
    Reading { word: "tip wobble", role: Role::Gauge, of: |m| m.tip.map(|r| r.total.si()) };
pub(super) const NOCK: Reading =
    Reading { word: "nock wobble", role: Role::Gauge, of: |m| m.groove.map(|r| r.total.si()) };

/// All of them, in the order of the work.
pub(super) const READINGS: [Reading; 6] = [SPINE, RUN_OUT, LENGTH, MASS, TIP, NOCK];

/// Readings, and the arrows that lack them though others at the same stage have them. A blank
/// stays a blank; it is named, never filled.
pub(super) fn blanks(arrows: &[Worked]) -> Vec<(Vec<&str>, Vec<&str>)> {
    let now: Vec<(&str, Measured)> = arrows
        .iter()
        .filter(|arrow| arrow.out.is_none())
        .filter_map(|arrow| Some((arrow.name.as_str(), arrow.now()?)))
        .collect();
    let mut found: Vec<(Vec<&str>, Vec<&str>)> = Vec::new();
    for reading in READINGS {
        let lacks = |(_, one): &&(&str, Measured)| {
            let others =
                |o: &(&str, Measured)| o.1.stage == one.stage && (reading.of)(&o.1).is_some();
            (reading.of)(one).is_none() && now.iter().any(others)
        };
        let names: Vec<&str> = now.iter().filter(lacks).map(|(name, _)| *name).collect();
        match found.iter_mut().find(|(_, same)| *same == names) {
            _ if names.is_empty() => {}
            Some((words, _)) => words.push(reading.word),
            None => found.push((vec![reading.word], names)),
        }
    }
    found
}
