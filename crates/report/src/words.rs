//! Short names of things.

use study::{Owner, Seen};

/// A value in words, from its dotted key: the last two names, such as "point
/// mass" for `arrow.point.mass`.
pub(crate) fn value(key: &str) -> String {
    let names: Vec<&str> = key.split('.').collect();
    names[names.len().saturating_sub(2)..].join(" ").replace('_', " ")
}

/// Whose faults, in plain words.
pub(crate) fn owner(owner: Owner) -> &'static str {
    match owner {
        Owner::Archer => "archer",
        Owner::FrontEnd => "front end",
        Owner::NockEnd => "nock end",
        Owner::Shaft => "shaft",
        Owner::Vanes => "vanes",
        Owner::Weights => "weights",
        Owner::Bow => "bow",
        Owner::Weather => "weather",
    }
}

/// Who would see a difference, in plain words.
pub(crate) fn seen(seen: Seen) -> &'static str {
    match seen {
        Seen::Archer => "archer",
        Seen::MachineOnly => "machine",
        Seen::Nobody => "nobody",
    }
}
