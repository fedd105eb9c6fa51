use arrow::{Bend, Faults, Lean, Shift};
use body::Across;
use nalgebra::{Matrix3, Vector3};
use units::{Angle, Length};

use crate::Axis;

/// Places along a piece at which its curve is taken. Chosen: a third of an inch
/// apart on an arrow.
const PLACES: u32 = 90;

/// How far nock and front end reach into the shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seats {
    /// Engaged by the nock.
    pub nock: Length,
    /// Engaged by insert, outsert or point.
    pub front: Length,
}

impl Axis {
    /// The faults of an arrow made from a piece of this shaft: the constant
    /// curve that lies nearest to its axis, and at each end the lean and offset
    /// of the seat from that curve.
    pub fn faults(&self, rear: f64, length: f64, seats: &Seats) -> Faults {
        let (half, middle) = (length / 2.0, rear + length / 2.0);
        let at = |u: f64| self.at(middle + u);
        let row = |u: f64| Vector3::new(1.0, u, u * u / 2.0);
        let (mut normal, mut right0, mut right90) =
            (Matrix3::zeros(), Vector3::zeros(), Vector3::zeros());
        for place in 0..=PLACES {
            let u = half * (2.0 * f64::from(place) / f64::from(PLACES) - 1.0);
            let (row, y) = (row(u), at(u));
            normal += row * row.transpose();
            right0 += row * y.at0;
            right90 += row * y.at90;
        }
        // Distinct places make the matrix regular.
        let inverse = normal.try_inverse().unwrap_or_else(Matrix3::zeros);
        let (c0, c90) = (inverse * right0, inverse * right90);
        let fit = |u: f64| {
            let row = row(u);
            Across { at0: row.dot(&c0), at90: row.dot(&c90) }
        };
        let tangent = |u: f64| Across { at0: c0[1] + u * c0[2], at90: c90[1] + u * c90[2] };
        let curvature = Across { at0: c0[2], at90: c90[2] };
        // The seats guide by their own length of shaft, or by the last bit of it.
        let seat = |engaged: Length| engaged.si().clamp(1e-3, half);
        let nock = (at(seat(seats.nock) - half) - at(-half)) * (1.0 / seat(seats.nock));
        let front = (at(half) - at(half - seat(seats.front))) * (1.0 / seat(seats.front));
        // A lean of the nock moves its rear, so it is a slope backward.
        let nock_lean = tangent(-half) - nock;
        let front_lean = front - tangent(half);
        let bow = -curvature * (length * length / 8.0);
        Faults {
            bend: Some(Bend {
                bow: Length::from_si(bow.size()),
                span: Length::from_si(length),
                clock: Angle::from_si(bow.clock()),
            }),
            nock_cant: lean(nock_lean),
            groove_offset: shift(at(-half) - fit(-half)),
            point_cant: lean(front_lean),
            point_offset: shift(at(half) - fit(half)),
            ..Faults::default()
        }
    }
}

fn lean(of: Across) -> Lean {
    Lean { angle: Angle::from_si(of.size()), clock: Angle::from_si(of.clock()) }
}

fn shift(of: Across) -> Shift {
    Shift { offset: Length::from_si(of.size()), clock: Angle::from_si(of.clock()) }
}
