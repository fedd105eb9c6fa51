//! What a measured thing holds besides the arrow it was measured with.

use units::Dimension::{Angle, AngularRate, Force, Length, Mass, Ratio, Speed};

use super::Column;
use super::make::column;

/// Kinds of things that can be measured.
pub(crate) static EVIDENCE_KINDS: &[(&str, &str)] = &[
    ("nock-turned", "how far the group moves when every nock is turned"),
    ("bare-shaft", "how far bare shafts hit from fletched ones"),
    ("builds-apart", "how far a build hits from another, shot with the same aim"),
    ("chronograph", "an arrow's speed"),
    ("drop", "how much lower arrows hit at the farther of two distances, the sight left alone"),
    ("push", "how far the nock of a bow without arrow gives way to a known force"),
    ("spin", "turns a second, from video"),
    ("tear", "a tear in paper, from the point's hole to the nock's end of it"),
    ("value", "a poorly known value itself, such as a cant or a fit"),
];

/// A key of `[[evidence]]` that holds a number.
pub(crate) struct EvidenceKey {
    pub(crate) column: Column,
    /// Kinds that cannot do without it, and others that know it.
    pub(crate) needs: &'static [&'static str],
    pub(crate) may: &'static [&'static str],
    /// How a missing one might be written.
    pub(crate) example: &'static str,
    pub(crate) doc: &'static str,
}

/// Keys that hold a text: name, kind, build, state of a pushed bow, key of a value.
pub(crate) const EVIDENCE_NAME: &str = "name";
pub(crate) const EVIDENCE_KIND: &str = "kind";
pub(crate) const EVIDENCE_BUILD: &str = "build";
pub(crate) const EVIDENCE_AGAINST: &str = "against";
pub(crate) const EVIDENCE_AT: &str = "at";
pub(crate) const EVIDENCE_KEY: &str = "key";
/// The key of a value's reading, and of any reading's error: what they measure goes
/// by the kind.
pub(crate) const EVIDENCE_VALUE: &str = "value";
pub(crate) const EVIDENCE_ERROR: &str = "error";
/// Where a pushed bow is held.
pub(crate) const EVIDENCE_HELD: &[&str] = &["brace", "full-draw"];

/// Texts, with their meaning.
pub(crate) static EVIDENCE_TEXTS: &[(&str, &str)] = &[
    (EVIDENCE_NAME, "What the answer calls it; without one, its kind and place in the list."),
    (EVIDENCE_KIND, "What was measured."),
    (EVIDENCE_BUILD, "The build it was measured with; without one, the first."),
    (EVIDENCE_AGAINST, "Of builds apart: the build it was shot against."),
    (EVIDENCE_AT, "Of a push: \"brace\" (as without it) or \"full-draw\"."),
    (EVIDENCE_KEY, "Of a value: its dotted key, one that is poorly known."),
    (EVIDENCE_VALUE, "Of a value: the reading."),
    (
        EVIDENCE_ERROR,
        "Standard error of each number, scatter and all; required for a value, else the usual \
         one of its kind (docs/model/evidence.md).",
    ),
];

/// Every name that a measured thing may hold of its own.
pub(crate) const EVIDENCE_OWN: &[&str] = &[
    "name",
    "kind",
    "build",
    "against",
    "at",
    "key",
    "value",
    "error",
    "distance",
    "far",
    "left",
    "up",
    "nock_turn",
    "speed",
    "mass",
    "drop",
    "force",
    "rate",
    "shots",
];

/// Keys that hold a number.
pub(crate) static EVIDENCE_KEYS: &[EvidenceKey] = &[
    EvidenceKey {
        column: column("distance", Length, "0.5 m", "200 m"),
        needs: &["nock-turned", "bare-shaft", "builds-apart", "drop", "spin", "tear"],
        may: &["chronograph"],
        example: "distance = \"20 yd\"",
        doc: "Where it was seen; of a drop the nearer distance, of a chronograph at the bow none.",
    },
    EvidenceKey {
        column: column("far", Length, "1 m", "200 m"),
        needs: &["drop"],
        may: &[],
        example: "far = \"40 yd\"",
        doc: "The farther distance.",
    },
    EvidenceKey {
        column: column("left", Length, "-2 m", "2 m"),
        needs: &[],
        may: &["nock-turned", "bare-shaft", "builds-apart", "push", "tear"],
        example: "left = \"1.5 in\"",
        doc: "How far to the left: the changed group from the unchanged one, the nock when pushed \
              left, or the nock's end of a tear from the point's hole. One of left and up will do.",
    },
    EvidenceKey {
        column: column("up", Length, "-2 m", "2 m"),
        needs: &[],
        may: &["nock-turned", "bare-shaft", "builds-apart", "push", "tear"],
        example: "up = \"-0.5 in\"",
        doc: "The same upwards.",
    },
    EvidenceKey {
        column: column("nock_turn", Angle, "-1 turn", "1 turn"),
        needs: &["nock-turned"],
        may: &[],
        example: "nock_turn = \"180 deg\"",
        doc: "By how much every nock was turned, clockwise seen from the nock.",
    },
    EvidenceKey {
        column: column("speed", Speed, "10 m/s", "200 m/s"),
        needs: &["chronograph"],
        may: &[],
        example: "speed = \"280 ft/s\"",
        doc: "The reading, or the mean of several.",
    },
    EvidenceKey {
        column: column("mass", Mass, "50 gr", "3000 gr"),
        needs: &[],
        may: &["chronograph"],
        example: "mass = \"420 gr\"",
        doc: "Mass of the arrow that was shot, where it is not the build's.",
    },
    EvidenceKey {
        column: column("drop", Length, "-20 m", "60 m"),
        needs: &["drop"],
        may: &[],
        example: "drop = \"22 in\"",
        doc: "How much lower, against the point aimed at, the far group hit than the near one.",
    },
    EvidenceKey {
        column: column("force", Force, "0.1 N", "200 N"),
        needs: &["push"],
        may: &[],
        example: "force = \"5 lbf\"",
        doc: "The force on the nock, or the weight hung from it.",
    },
    EvidenceKey {
        column: column("rate", AngularRate, "-200 turn/s", "200 turn/s"),
        needs: &["spin"],
        may: &[],
        example: "rate = \"30 turn/s\"",
        doc: "Clockwise seen from the nock.",
    },
    EvidenceKey {
        column: column("shots", Ratio, "1", "1000"),
        needs: &[],
        may: &["nock-turned", "bare-shaft", "builds-apart", "chronograph", "drop", "spin", "tear"],
        example: "shots = 12",
        doc: "Shots in each group, or sheets: the scatter of arrows and archer is taken over the \
              root of it; one where nothing is said.",
    },
];
