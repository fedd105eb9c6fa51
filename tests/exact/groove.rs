//! What a groove beside the shaft's line does at 60 yd, against another program.

use arrow::Faults;
use clothyard_tests::groove::{arrow, compound, groove, kick, linear, plain, point, pushed};

/// What is off, by the plane it is off in.
type Off = fn(usize) -> Faults;

/// C: an own finite-element arrow, bow and linear flight in another program; its
/// compound, arrow and rest are stated with it. Impacts at 60 yd, in, of a groove and
/// of a point 0.1 mm to the side, and up: field point, then fixed blades.
///
/// That program's rest holds both ways, and its flight has neither drag along the
/// shaft nor carry-over nor wake. Here the push is this program's with such a rest,
/// and the flight is like that one's; nothing is fitted. What each of these parts
/// does by itself is in `regress_parts_of_the_kick_of_a_groove`.
#[test]
fn exact_impact_of_a_groove_agrees_with_another_program() {
    let rows: [(&str, Off, [[f64; 2]; 2]); 2] = [
        ("groove", groove, [[-0.094, 0.103], [1.026, 0.779]]),
        ("point", point, [[0.210, 0.191], [0.526, 0.536]]),
    ];
    let bow = compound();
    for (name, fault, want) in rows {
        for (bladed, want) in [false, true].into_iter().zip(want) {
            let parts = arrow(bladed);
            let (departure, built) = pushed(&bow, &parts, &Faults::default());
            let sums = plain(&parts, &built);
            for (plane, want) in want.into_iter().enumerate() {
                let start = kick(&bow, &parts, &fault(plane), plane);
                let own = linear(start, departure.speed, &built, sums, 0.0);
                let what = if bladed { "blades" } else { "field point" };
                assert!((own - want).abs() < 0.02, "{name}, {what}, {plane}: {own} {want}");
            }
        }
    }
}
