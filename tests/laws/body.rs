//! Mirror and rotation of directions across the shaft.

use body::{Across, Attitude};
use nalgebra::Vector3;
use proptest::prelude::*;

proptest! {
    /// Mirrored left to right, clock positions and roll change sign: left
    /// becomes right and up stays up.
    #[test]
    fn law_mirror_of_a_clock_position(
        size in 0.0..1.0_f64, clock in -7.0..7.0_f64, roll in -50.0..50.0_f64,
    ) {
        let (left, up) = Across::polar(size, clock).left_up(roll);
        let mirrored = Across::polar(size, -clock).left_up(-roll);
        prop_assert_eq!(mirrored, (-left, up));
    }

    /// Turning a fault on the shaft forward and the shaft back changes nothing.
    #[test]
    fn law_rotation_of_a_clock_position(
        size in 0.0..1.0_f64, clock in -7.0..7.0_f64, roll in -7.0..7.0_f64, turn in -7.0..7.0_f64,
    ) {
        let (left, up) = Across::polar(size, clock).left_up(roll);
        let (l, u) = Across::polar(size, clock + turn).left_up(roll - turn);
        // Rounding of angles up to 14 rad.
        prop_assert!((left - l).abs() < 1e-14 && (up - u).abs() < 1e-14);
    }

    /// Mirrored left to right, yaw changes sign and pitch does not.
    #[test]
    fn law_mirror_of_an_attitude(x in -1.0..1.0_f64, y in -1.0..1.0_f64, z in -1.0..1.0_f64) {
        let of = Attitude::of(&Vector3::new(x, y, z));
        let mirrored = Attitude::of(&Vector3::new(x, -y, z));
        prop_assert_eq!(mirrored, Attitude { yaw: -of.yaw, pitch: of.pitch });
    }
}
