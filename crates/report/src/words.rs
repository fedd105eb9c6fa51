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
        Owner::Weights => "part weights",
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

/// The name of a cause in plain words.
pub(crate) fn cause(name: &str) -> String {
    let known = match name {
        "faults.point_end" => "point end face",
        "faults.insert_face" => "insert face",
        "faults.point_cant" => "point cant",
        "faults.tip_runout" => "tip run-out",
        "faults.point_offset" => "point off centre",
        "faults.nock_end" => "nock end face",
        "faults.nock_cant" => "nock cant",
        "faults.nock_offset" => "nock off centre",
        "faults.groove_offset" => "groove off centre",
        "faults.wall_offset" => "uneven wall",
        "faults.bend" => "shaft bend",
        "faults.vane.angle" => "vane angle",
        "faults.vane.around" => "vane spacing",
        "faults.vane.forward" => "vane set forward",
        "archer.aim_left" => "aim sideways",
        "archer.aim_up" => "aim up-down",
        "archer.speed" => "archer's speed",
        "archer.release_left" => "release sideways",
        "archer.release_up" => "release up-down",
        "arrow.index" => "nock turned",
        "wind" => "wind",
        _ => {
            let name = name.strip_prefix("faults.").unwrap_or(name);
            return value(name);
        }
    };
    known.to_owned()
}

/// "a, b and c".
pub(crate) fn listed(all: &[String], joint: &str) -> String {
    match all {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} {joint} {last}", most.join(", ")),
    }
}
