//! The arrow as the push moves it: two rigid motions and a few bending modes
//! in each plane, and what its faults do to them. Model card:
//! docs/model/push.md.

use arrow::{Built, Parts, PieceOf};
use body::Across;
use solve::Number;

use crate::LaunchError;
use crate::beam::{Beam, Lump, Modes};
use crate::flex::MODES;

/// Motions in each plane: place of the balance point, angle, bending modes.
pub(crate) const MOTIONS: usize = 2 + MODES;

/// A perfect arrow, elastic, SI.
#[derive(Debug, Clone, PartialEq)]
pub struct Elastic {
    /// Mass, kg.
    pub(crate) mass: f64,
    /// One over the modal mass of each motion.
    pub(crate) inverse_modal_mass: [f64; MOTIONS],
    /// Balance point ahead of the groove, m.
    pub(crate) lever: f64,
    /// Station of the tip, m from the groove.
    pub(crate) tip: f64,
    /// Bending modes.
    pub(crate) modes: Modes<MODES>,
    /// How thrust turns and bends the arrow, over its acceleration.
    pub(crate) thrust: [[f64; MOTIONS]; MOTIONS],
    /// Thrust times lever, over the acceleration, of a line that leans by one
    /// all along, and of one of unit curvature about the shaft's middle.
    line_thrust: [[f64; 2]; MOTIONS],
    /// Displacement of the groove in each motion.
    pub(crate) groove: [f64; MOTIONS],
    /// Square of each frequency, 1/s2; zero for the rigid motions.
    pub(crate) spring: [f64; MOTIONS],
    /// Twice the decay rate of each mode, 1/s.
    pub(crate) damping: [f64; MOTIONS],
    /// Stiffness of the stiff side over the mean, less one, and its clock.
    pub(crate) stiff: Across,
}

/// What faults add to the equations of one plane, all linear in the faults.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct FaultForcing<N> {
    /// Thrust times lever of each motion over the acceleration.
    pub(crate) thrust: [N; MOTIONS],
    /// Groove from the principal axis, m.
    pub(crate) groove: N,
    /// Shaft's centre line from the principal axis at the middle of the shaft,
    /// m, its slope there, and its curvature, 1/m.
    pub(crate) line: [N; 3],
    /// Station of that middle, m.
    pub(crate) middle: N,
}

/// Numbers a flaw consists of.
pub(crate) const FLAWS: usize = MOTIONS + 4;

impl FaultForcing<f64> {
    /// A flaw with one of its numbers set, for building maps.
    pub(crate) fn unit(index: usize, size: f64, middle: f64) -> Self {
        let mut forcing = Self { middle, ..Self::default() };
        match index {
            i if i < MOTIONS => forcing.thrust[i] = size,
            i if i == MOTIONS => forcing.groove = size,
            i => forcing.line[i - MOTIONS - 1] = size,
        }
        forcing
    }

    pub(crate) fn numbers(&self) -> [f64; FLAWS] {
        std::array::from_fn(|i| match i {
            i if i < MOTIONS => self.thrust[i],
            i if i == MOTIONS => self.groove,
            i => self.line[i - MOTIONS - 1],
        })
    }

}

impl<N: Number> FaultForcing<N> {
    /// Shaft's centre line at a station, m, and its slope.
    #[inline(always)]
    pub(crate) fn shaft(&self, station: N) -> (N, N) {
        let ahead = station - self.middle;
        let [offset, slope, curvature] = self.line;
        let half = curvature * station.same(0.5);
        (ahead.mul_add(half.mul_add(ahead, slope), offset), curvature.mul_add(ahead, slope))
    }
}

impl Elastic {
    /// The arrow of these parts.
    ///
    /// # Errors
    /// [`LaunchError::NoModes`] when it cannot bend.
    pub fn new(parts: &Parts, built: &Built) -> Result<Self, LaunchError> {
        let modes = beam(parts, built).shapes::<MODES>()?;
        let mass = built.mass.mass().si();
        let lever = built.mass.balance().si();
        let (groove_modes, _) = modes.at(0.0);
        let groove = motions(1.0, -lever, &groove_modes);
        let mut thrust = [[0.0; MOTIONS]; MOTIONS];
        let mut line_thrust = [[0.0; 2]; MOTIONS];
        let middle = built.shape.centre.middle;
        let (rear, front) = (modes.beam().rear, modes.beam().front);
        modes.thrust(|station, slope, weight| {
            let slope = motions(0.0, 1.0, slope);
            for i in 0..MOTIONS {
                line_thrust[i][0] += weight * slope[i];
                line_thrust[i][1] += weight * slope[i] * (station.clamp(rear, front) - middle);
                for j in 0..MOTIONS {
                    thrust[i][j] += weight * slope[i] * slope[j];
                }
            }
        });
        // Values given directly for the whole arrow rule its rigid motion.
        thrust[1][1] = mass * lever;
        let mut inverse_modal_mass = [1.0; MOTIONS];
        inverse_modal_mass[0] = 1.0 / mass;
        inverse_modal_mass[1] = 1.0 / built.mass.transverse().si();
        let mut spring = [0.0; MOTIONS];
        let mut damping = [0.0; MOTIONS];
        for k in 0..MODES {
            spring[2 + k] = modes.frequency[k].powi(2);
            damping[2 + k] = 2.0 * parts.shaft.damping.si() * modes.frequency[k];
        }
        let stiff = Across::polar(parts.shaft.stiff_side.si(), 2.0 * parts.shaft.stiff_clock.si());
        Ok(Self {
            mass,
            inverse_modal_mass,
            lever,
            tip: built.layout.tip.si(),
            modes,
            thrust,
            line_thrust,
            groove,
            spring,
            damping,
            stiff,
        })
    }

    /// Speed lost to the cross-flow on the swinging shaft until it has died
    /// down, over air density and cross-flow drag per length, for an amplitude
    /// cubed of one in the first mode.
    ///
    /// The mean over a swing of `|u| u w'` along the shaft, `u = V w' - w_t`, is
    /// the drag at first; it dies three times as fast as the amplitude.
    pub(crate) fn slowing(&self, speed: f64) -> f64 {
        /// Places along the shaft. Chosen: the sum is wanted to a few per cent.
        const PLACES: usize = 24;
        let decay = 0.5 * self.damping[2];
        if decay <= 0.0 {
            return 0.0;
        }
        let beam = self.modes.beam();
        let omega = self.modes.frequency[0];
        let length = (beam.front - beam.rear) / PLACES as f64;
        let mut sum = 0.0;
        for place in 0..PLACES {
            let station = beam.rear + (place as f64 + 0.5) * length;
            let (value, slope) = self.modes.at(station);
            // u is a swing of size A, cos = V w'/A of it in step with w'; the mean
            // of |cos|^3 over a turn is 4/(3 pi).
            let across = speed * slope[0];
            sum += across.hypot(omega * value[0]) * across * slope[0];
        }
        let mean = 4.0 / (3.0 * std::f64::consts::PI) * sum * length;
        0.5 * mean / (3.0 * decay * self.mass)
    }

    /// Displacement and slope of every motion at a station.
    pub(crate) fn at(&self, station: f64) -> ([f64; MOTIONS], [f64; MOTIONS]) {
        let (value, slope) = self.modes.at(station);
        (motions(1.0, station - self.lever, &value), motions(0.0, 1.0, &slope))
    }

    /// What the faults of a built arrow add, left and up, for this roll of the
    /// index vane (rad).
    pub(crate) fn forcings(&self, built: &Built, roll: f64) -> [FaultForcing<f64>; 2] {
        let shape = &built.shape;
        let axis = &built.whole.principal;
        let beam = self.modes.beam();
        let middle = shape.centre.middle;
        let tangent = shape.centre.tangent(middle);
        let split = |v: Across| {
            let (left, up) = v.left_up(roll);
            [left, up]
        };
        let offset = split(tangent.offset - axis.at(middle));
        let slope = split(tangent.slope - axis.slope);
        let curvature = split(shape.centre.curvature);
        let groove = split(shape.groove - axis.at(0.0));
        let mut forcings: [FaultForcing<f64>; 2] = std::array::from_fn(|plane| FaultForcing {
            groove: groove[plane],
            line: [offset[plane], slope[plane], curvature[plane]],
            middle,
            ..FaultForcing::default()
        });
        if forcings.iter().all(|f| f.numbers().iter().all(|n| *n == 0.0)) {
            return forcings;
        }
        let on_shaft = |x: f64| x.clamp(beam.rear, beam.front);
        // Thrust along a line that is not straight.
        for forcing in &mut forcings {
            for i in 1..MOTIONS {
                forcing.thrust[i] = self.line_thrust[i][0] * forcing.line[1]
                    + self.line_thrust[i][1] * forcing.line[2];
            }
        }
        // Masses beside the line, and the groove beside it.
        let line_at = |forcing: &FaultForcing<f64>, x: f64| {
            let end = on_shaft(x);
            let (offset, slope) = forcing.shaft(end);
            offset + slope * (x - end)
        };
        for piece in shape.pieces.iter().filter(|piece| piece.mass > 0.0) {
            let offset = split(piece.offset - axis.at(piece.station));
            // The shaft's own mass lies along its line, not at one place.
            let own = |forcing: &FaultForcing<f64>| match piece.of {
                PieceOf::Shaft => {
                    let half = 0.5 * (beam.front - beam.rear);
                    forcing.line[0] + forcing.line[2] * half * half / 6.0
                }
                _ => line_at(forcing, piece.station),
            };
            let (_, slope) = self.at(piece.station);
            for (forcing, offset) in forcings.iter_mut().zip(offset) {
                let beside = piece.mass * (offset - own(forcing));
                for (thrust, slope) in forcing.thrust.iter_mut().zip(slope).skip(1) {
                    *thrust += beside * slope;
                }
            }
        }
        let (_, slope) = self.at(0.0);
        for forcing in &mut forcings {
            let beside = self.mass * (forcing.groove - line_at(forcing, 0.0));
            for (thrust, slope) in forcing.thrust.iter_mut().zip(slope).skip(2) {
                *thrust -= beside * slope;
            }
            // Exactly the rigid lever, whatever the sums rounded to.
            forcing.thrust[1] = -self.mass * forcing.groove;
        }
        forcings
    }
}

fn motions(place: f64, angle: f64, modes: &[f64; MODES]) -> [f64; MOTIONS] {
    std::array::from_fn(|i| match i {
        0 => place,
        1 => angle,
        k => modes[k - 2],
    })
}

/// The beam of an arrow's parts.
pub fn beam(parts: &Parts, built: &Built) -> Beam {
    let (outer, inner) = (0.5 * parts.shaft.outside.si(), 0.5 * parts.shaft.inside.si());
    let lumps = built.shape.pieces.iter().filter(|p| p.of != PieceOf::Shaft && p.mass > 0.0);
    Beam {
        rear: built.layout.shaft_rear.si(),
        front: built.layout.shaft_front.si(),
        stiffness: built.stiffness.si(),
        density: parts.shaft.density.si(),
        gyration2: 0.25 * (outer * outer + inner * inner),
        lumps: lumps
            .map(|p| Lump { mass: p.mass, station: p.station, inertia: p.transverse })
            .collect(),
    }
}
