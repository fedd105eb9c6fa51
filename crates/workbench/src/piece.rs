use arrow::{Bend, Faults, Lean, Shift};
use body::Across;
use nalgebra::{Complex, Matrix3, Vector3};
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

/// What the crooked faults of a shaft throw, each in the direction of its own clock
/// position and linear in its size: m of impact for a unit of the fault.
///
/// The impact of a vector g, as left + up i, is `with` g + `against` conj(g): both
/// directions of the face need not answer alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Throw {
    /// What the arrow does by itself as its nock turns.
    pub home: [Complex<f64>; 2],
    /// Bow of the piece, lean of the nock, groove off centre, lean of the point, point
    /// off centre.
    pub faults: [[Complex<f64>; 2]; 5],
}

impl Seats {
    /// How each fault of a piece is summed from places on its axis: the place from
    /// the middle, and its weight in the five faults of [`Throw`].
    pub(crate) fn weights(&self, length: f64) -> Vec<(f64, [f64; 5])> {
        let half = length / 2.0;
        let row = |u: f64| Vector3::new(1.0, u, u * u / 2.0);
        let places: Vec<f64> = (0..=PLACES)
            .map(|place| half * (2.0 * f64::from(place) / f64::from(PLACES) - 1.0))
            .collect();
        let normal: Matrix3<f64> = places.iter().map(|u| row(*u) * row(*u).transpose()).sum();
        // Distinct places make the matrix regular.
        let inverse = normal.try_inverse().unwrap_or_else(Matrix3::zeros);
        let slope = |u: f64| Vector3::new(0.0, 1.0, u);
        // The seats guide by their own length of shaft, or by the last bit of it.
        let seat = |engaged: Length| engaged.si().clamp(1e-3, half);
        let (nock, front) = (seat(self.nock), seat(self.front));
        let fitted = |u: f64| {
            let c = inverse * row(u);
            // A lean of the nock moves its rear, so it is a slope backward.
            [
                -c[2] * length * length / 8.0,
                slope(-half).dot(&c),
                -row(-half).dot(&c),
                -slope(half).dot(&c),
                -row(half).dot(&c),
            ]
        };
        let mut all: Vec<(f64, [f64; 5])> = places.iter().map(|u| (*u, fitted(*u))).collect();
        all.push((-half, [0.0, 1.0 / nock, 1.0, 0.0, 0.0]));
        all.push((nock - half, [0.0, -1.0 / nock, 0.0, 0.0, 0.0]));
        all.push((half, [0.0, 0.0, 0.0, 1.0 / front, 1.0]));
        all.push((half - front, [0.0, 0.0, 0.0, -1.0 / front, 0.0]));
        all
    }
}

impl Axis {
    /// The faults of an arrow made from a piece of this shaft: the constant
    /// curve that lies nearest to its axis, and at each end the lean and offset
    /// of the seat from that curve.
    pub fn faults(&self, rear: f64, length: f64, seats: &Seats) -> Faults {
        let mut sums = [Across::ZERO; 5];
        for (u, weights) in seats.weights(length) {
            let off = self.at(rear + length / 2.0 + u);
            for (sum, weight) in sums.iter_mut().zip(weights) {
                *sum = *sum + off * weight;
            }
        }
        let [bow, nock_lean, groove, front_lean, point] = sums;
        Faults {
            bend: Some(Bend {
                bow: Length::from_si(bow.size()),
                span: Length::from_si(length),
                clock: Angle::from_si(bow.clock()),
            }),
            nock_cant: lean(nock_lean),
            groove_offset: shift(groove),
            point_cant: lean(front_lean),
            point_offset: shift(point),
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
