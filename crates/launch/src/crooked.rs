//! What is not straight about an arrow, as the push sees it, apart from how it
//! bends.

use arrow::{Built, PIECES, PieceOf};
use body::Across;

/// Numbers that say how crooked an arrow is in a plane.
pub(crate) const CROOKED: usize = 4 + PIECES;

/// How crooked an arrow is in one plane, measured from its principal axis: line of
/// the shaft at its middle (m), slope there, curvature (1/m), groove (m), and the
/// first moment (kg m) of each piece beside the shaft's line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Crooked(pub(crate) [f64; CROOKED]);

impl Crooked {
    /// One of the numbers alone, of size one.
    pub(crate) fn unit(index: usize) -> Self {
        Self(std::array::from_fn(|i| if i == index { 1.0 } else { 0.0 }))
    }

    /// How crooked a built arrow is, left and up, with the index vane rolled by an
    /// angle (rad).
    pub(crate) fn of(built: &Built, roll: f64) -> [Self; 2] {
        let (shape, axis) = (&built.shape, &built.whole.principal);
        let (rear, front) = (built.layout.shaft_rear.si(), built.layout.shaft_front.si());
        let middle = shape.centre.middle;
        let tangent = shape.centre.tangent(middle);
        let split = |v: Across| {
            let (left, up) = v.left_up(roll);
            [left, up]
        };
        let lines = [
            split(tangent.offset - axis.at(middle)),
            split(tangent.slope - axis.slope),
            split(shape.centre.curvature),
            split(shape.groove - axis.at(0.0)),
        ];
        let mut out = [Self([0.0; CROOKED]); 2];
        for (plane, out) in out.iter_mut().enumerate() {
            for (number, line) in out.0.iter_mut().zip(&lines) {
                *number = line[plane];
            }
        }
        // A straight arrow is straight whatever the sums below round to.
        if lines.iter().flatten().all(|number| *number == 0.0) {
            return out;
        }
        for (index, piece) in shape.pieces.iter().enumerate().filter(|(_, p)| p.mass > 0.0) {
            let offset = split(piece.offset - axis.at(piece.station));
            for (out, offset) in out.iter_mut().zip(offset) {
                // The shaft's own mass lies along its line, not at one place.
                let own = if piece.of == PieceOf::Shaft {
                    let half = 0.5 * (front - rear);
                    out.0[0] + out.0[2] * half * half / 6.0
                } else {
                    out.line_at(piece.station, (rear, front), middle)
                };
                out.0[4 + index] = piece.mass * (offset - own);
            }
        }
        out
    }

    /// The shaft's line at a station, beyond its ends straight on, m.
    pub(crate) fn line_at(&self, x: f64, (rear, front): (f64, f64), middle: f64) -> f64 {
        let [offset, slope, curvature, ..] = self.0;
        let end = x.clamp(rear, front);
        let ahead = end - middle;
        offset + ahead * (slope + 0.5 * curvature * ahead) + (slope + curvature * ahead) * (x - end)
    }
}
