//! The arrow as the push moves it: two rigid motions and a few bending modes
//! in each plane, and what its faults do to them. Model card:
//! docs/model/push.md.

use arrow::{Built, PIECES, Parts, PieceOf};
use body::Across;
use solve::Number;

use crate::LaunchError;
use crate::beam::{Beam, Lump, Modes};
use crate::crooked::Crooked;
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
    /// Displacement of the groove in each motion, and slope.
    pub(crate) groove: [f64; MOTIONS],
    at_groove: [f64; MOTIONS],
    /// Slope of each motion where a piece balances.
    at_pieces: [[f64; MOTIONS]; PIECES],
    /// Station of the middle of the shaft, m.
    pub(crate) middle: f64,
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
        Ok(Self::bending(parts, built, beam(parts, built).shapes()?))
    }

    /// An arrow of other parts, not far from this one.
    pub(crate) fn near(&self, parts: &Parts, built: &Built) -> Result<Self, LaunchError> {
        let modes = beam(parts, built).shapes_near(&self.modes)?;
        Ok(Self::bending(parts, built, modes))
    }

    fn bending(parts: &Parts, built: &Built, modes: Modes<MODES>) -> Self {
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
        let at = |station: f64| motions(0.0, 1.0, &modes.at(station).1);
        Self {
            at_groove: at(0.0),
            at_pieces: built.shape.pieces.map(|piece| at(piece.station)),
            mass,
            inverse_modal_mass,
            lever,
            tip: built.layout.tip.si(),
            modes,
            thrust,
            line_thrust,
            groove,
            middle,
            spring,
            damping,
            stiff,
        }
    }

    /// An arrow of the same parts and other faults: it bends alike.
    pub(crate) fn of_alike(&self, built: &Built) -> Self {
        let mut alike = self.clone();
        alike.mass = built.mass.mass().si();
        alike.lever = built.mass.balance().si();
        alike.groove[1] = -alike.lever;
        alike.thrust[1][1] = alike.mass * alike.lever;
        alike.inverse_modal_mass[0] = 1.0 / alike.mass;
        alike.inverse_modal_mass[1] = 1.0 / built.mass.transverse().si();
        alike
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
        Crooked::of(built, roll).map(|crooked| self.forcing(&crooked))
    }

    /// What an arrow that is so crooked adds in a plane.
    pub(crate) fn forcing(&self, crooked: &Crooked) -> FaultForcing<f64> {
        let [offset, slope, curvature, groove, ref beside @ ..] = crooked.0;
        let beam = self.modes.beam();
        let line = crooked.line_at(0.0, (beam.rear, beam.front), self.middle);
        let pulled = self.mass * (groove - line);
        let mut thrust = [0.0; MOTIONS];
        for (i, thrust) in thrust.iter_mut().enumerate().skip(2) {
            // Thrust along a line that is not straight; masses beside the line, and
            // the groove beside it.
            *thrust = self.line_thrust[i][0] * slope + self.line_thrust[i][1] * curvature
                - pulled * self.at_groove[i];
            for (beside, at) in beside.iter().zip(&self.at_pieces) {
                *thrust += beside * at[i];
            }
        }
        // Exactly the rigid lever, whatever the sums rounded to.
        thrust[1] = -self.mass * groove;
        FaultForcing { thrust, groove, line: [offset, slope, curvature], middle: self.middle }
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
