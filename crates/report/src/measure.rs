//! What a person can do, at home or on the range, about a value that is poorly
//! known.

/// A way to know a value better.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Measure {
    /// Dotted key of the value, or how the keys of several begin.
    key: &'static str,
    /// What to do.
    pub(crate) how: &'static str,
    /// How long it takes (chosen, from common practice).
    pub(crate) minutes: u32,
    /// Shots it takes.
    pub(crate) arrows: u32,
}

const fn by(key: &'static str, how: &'static str, minutes: u32, arrows: u32) -> Measure {
    Measure { key, how, minutes, arrows }
}

const FIT: &str =
    "measure bore and shank with a pin gauge and a micrometer, and write the difference";
const AIR: &str =
    "shoot one mark at a near and at a far distance and measure how much lower the far group sits";
const SPIN: &str = "film a marked vane against a grid and count the turns over some yards";
const HOLD: &str = "push the nock at brace sideways and up with a spring scale, or shoot a group with the nock turned by one vane";

/// The first whose key begins a value's own is meant.
const MEASURES: [Measure; 25] = [
    by("bow.restraint", HOLD, 30, 24),
    by("bow.let_off", "read the force at full draw on a bow scale", 10, 0),
    by("bow.hysteresis", "read the bow scale inch by inch on the draw and on the way back", 30, 0),
    by(
        "bow.limb_mass",
        "chronograph a light and a heavy arrow and write both as bow.readings",
        20,
        6,
    ),
    by(
        "bow.half_string",
        "measure the string from tip to tip, or from axle to axle, and halve it",
        5,
        0,
    ),
    by("bow.tip_line", "measure from the axle straight back to the string at brace", 5, 0),
    by("bow.string.grip", "pull the nock off the string with a spring scale", 5, 0),
    by(
        "bow.release",
        "film the nock end at full speed from behind as it leaves the fingers",
        30,
        6,
    ),
    by(
        "bow.path",
        "draw the bow slowly on a board beside a straight line and measure how far the nock strays from it halfway",
        20,
        0,
    ),
    by(
        "bow.rest.stiffness",
        "press the launcher down with a known weight and measure how far it gives",
        10,
        0,
    ),
    by("bow.rest.damping", "flick the launcher and film how soon it comes to rest", 15, 0),
    by("bow.rest.preload", "press the side point with a spring scale until it moves", 5, 0),
    by(
        "bow.rest.share",
        "film the rest as the arrow leaves, and read how far the string had gone when it let the shaft go",
        20,
        3,
    ),
    by("arrow.shaft.density", "weigh a bare shaft, divide by its length", 5, 0),
    by("arrow.shaft.damping", "clamp a shaft, pluck it and film how soon it comes to rest", 20, 0),
    by("arrow.shaft.", "measure the shaft with a micrometer, or ask its maker's sheet", 10, 0),
    by("arrow.", FIT, 10, 0),
    by("aero.turbulence", AIR, 45, 12),
    by("aero.nock_drag", AIR, 45, 12),
    by("aero.trips_until", AIR, 45, 12),
    by("aero.cross_flow", AIR, 45, 12),
    by("aero.roll_level", SPIN, 40, 6),
    by("aero.spin_ratio", SPIN, 40, 6),
    by(
        "aero.vane",
        "shoot bare shafts and fletched arrows with one aim and measure how far they land apart",
        30,
        12,
    ),
    by(
        "aero.",
        "shoot the head against field points with one aim at the farthest distance",
        45,
        24,
    ),
];

/// How to know a value better, by its dotted key.
pub(crate) fn measure(key: &str) -> Option<&'static Measure> {
    MEASURES.iter().find(|measure| key.starts_with(measure.key))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_the_nearest_key_is_meant() {
        assert_eq!(measure("bow.restraint.left").map(|m| m.arrows), Some(24));
        // Its weight was to be found with a pin gauge.
        assert!(measure("arrow.shaft.density").is_some_and(|m| m.how.contains("weigh")));
        assert!(measure("arrow.point.clearance").is_some_and(|m| m.how.contains("pin gauge")));
        assert_eq!(measure("aero.vane_slope").map(|m| m.arrows), Some(12));
        assert_eq!(measure("aero.wake").map(|m| m.arrows), Some(24));
        assert_eq!(measure("archer.aim_left"), None);
    }
}
