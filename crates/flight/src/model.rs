use std::f64::consts::PI;

use arrow::{Built, Parts};
use body::{Across, State};
use nalgebra::Vector3;
use solve::{LANES_MAX, Number};
use units::Speed;

use crate::aero::{Aero, aero};
use crate::extra::{Trip, TwoBlades, Wake};
use crate::wind::WindField;
use crate::{AeroChoice, Air, FlightError, Site};

/// Number of components of the six-degree-of-freedom state.
pub(crate) const SIX: usize = 14;

/// Everything the motion of one arrow depends on, per mass and inertia.
///
/// Generic over the number type, so that the same equations run on one flight
/// or on many side by side.
#[derive(Debug, Clone, Copy)]
pub struct Model<N> {
    /// Half air density over mass: turns areas into accelerations per speed
    /// squared, 1/m3 per m2 of area.
    pub(crate) by_mass: N,
    /// Half air density over transverse inertia.
    pub(crate) by_transverse: N,
    /// Half air density over axial inertia.
    pub(crate) by_axial: N,
    /// Axial over transverse inertia.
    pub(crate) gyro: N,
    /// Drag area as a polynomial in speed.
    pub(crate) drag: [N; 3],
    /// What a layer tripped at departure adds.
    pub(crate) trip: Trip<N>,
    /// Sums of slope, slope times arm, slope times arm squared.
    pub(crate) slope: [N; 3],
    /// Cross-flow: the stations, the vanes last.
    pub(crate) cross: [Station<N>; STATIONS + 1],
    pub(crate) wake: Wake<N>,
    pub(crate) two_blades: TwoBlades<N>,
    /// Roll forcing and damping.
    pub(crate) roll: [N; 2],
    /// Side force turning with the arrow, toward clock 0 and 90 degrees.
    pub(crate) side: [N; 2],
    /// Its moment.
    pub(crate) side_arm: [N; 2],
    /// Gravity in the line frame (no sideways part).
    pub(crate) gravity: [N; 2],
    pub(crate) wind: WindField<N>,
    /// Height above ground of the start, and its growth with x and z.
    pub(crate) height: [N; 3],
    pub(crate) acts: Acts,
}

/// A station of the cross-flow.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Station<N> {
    pub(crate) arm: N,
    /// Drag area times the arm to the power of 0, 1 and 2.
    pub(crate) areas: [N; 3],
}

impl Station<f64> {
    fn new((area, arm): (f64, f64)) -> Self {
        Self { arm, areas: [area, area * arm, area * arm * arm] }
    }
}

/// Which parts of the force model act. Whether a part acts or adds nothing gives
/// the same bits, so flights side by side share the union.
#[derive(Debug, Clone, Copy)]
#[expect(clippy::struct_excessive_bools, reason = "each part acts or not, whatever the others do")]
pub(crate) struct Acts {
    /// Something turns with the arrow.
    pub(crate) lopsided: bool,
    /// The wake of blades meets vanes.
    pub(crate) wake: bool,
    /// A head of two blades.
    pub(crate) two_blades: bool,
    /// A layer tripped at departure.
    pub(crate) trip: bool,
}

/// Stations of the cross-flow integral along the shaft.
const STATIONS: usize = 3;
/// Gauss-Legendre points on (-1, 1) and their weights [dlmf]; exact for a fifth
/// degree polynomial, and so where the flow across has one sign. Where it turns
/// round on the shaft they are worst for turning about the middle: the moment
/// comes out 3 % too large, a third of the coefficient's own range.
const GAUSS: [(f64, f64); STATIONS] =
    [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];

/// Makes the model of an arrow in some air.
///
/// `speed` is the departure speed, at which drag is built up exactly; it
/// follows the built-up curve down to half of it.
///
/// # Errors
/// [`FlightError`] when the air is out of range or a coefficient is not finite.
pub fn model(
    parts: &Parts,
    built: &Built,
    choice: &AeroChoice,
    site: &Site,
    speed: Speed,
) -> Result<Model<f64>, FlightError> {
    let air = Air::of(&site.weather)?;
    let aero = aero(parts, built, choice, &air, speed.si())?;
    Model::new(&aero, built, &air, site)
}

impl Model<f64> {
    /// From coefficients, mass properties, air and site.
    ///
    /// # Errors
    /// [`FlightError::OutOfRange`] for a wind profile outside its range.
    pub fn new(aero: &Aero, built: &Built, air: &Air, site: &Site) -> Result<Self, FlightError> {
        let (mass, transverse, axial) =
            (built.mass.mass().si(), built.mass.transverse().si(), built.mass.axial().si());
        let half = 0.5 * air.density;
        let (rear, front) = aero.shaft_span;
        let (middle, reach) = (0.5 * (rear + front), 0.5 * (front - rear));
        let (sin, cos) = site.shot_angle.si().sin_cos();
        let g = site.gravity.si();
        let pair = |a: Across| [a.at0, a.at90];
        let along = |(at, weight)| (aero.cross_flow * weight * reach, middle + at * reach);
        let [a, b, c] = GAUSS.map(along);
        let wake = aero.wake;
        let two = aero.two_blades.map_or([0.0; 4], |two| {
            let (sin, cos) = (2.0 * two.clock).sin_cos();
            [two.slope, two.arm, cos, sin]
        });
        Ok(Self {
            by_mass: half / mass,
            by_transverse: half / transverse,
            by_axial: half / axial,
            gyro: axial / transverse,
            drag: aero.drag,
            trip: Trip {
                drag: aero.tripped,
                per_length: if aero.trips_until > 0.0 {
                    PI / 8.0_f64.sqrt() / aero.trips_until
                } else {
                    0.0
                },
            },
            slope: [aero.slope, aero.slope_arm, aero.slope_arm2],
            cross: [a, b, c, aero.vane_flow].map(Station::new),
            wake: Wake {
                slope: wake.slope,
                arm: wake.arm,
                lead: wake.lead,
                drift: wake.drift,
                lag: wake.lag,
                side: pair(aero.wake_side),
            },
            two_blades: TwoBlades {
                slope: two[0],
                arm: two[1],
                twice: [two[2], two[3]],
                present: if aero.two_blades.is_some() { 1.0 } else { 0.0 },
            },
            roll: [aero.roll_forcing, aero.roll_damping],
            side: pair(aero.side),
            side_arm: pair(aero.side_arm),
            gravity: [-g * sin, -g * cos],
            wind: WindField::new(&site.wind, site.shot_angle.si())?,
            height: [site.release_height.si(), sin, cos],
            acts: Acts {
                lopsided: aero.side != Across::ZERO || aero.side_arm != Across::ZERO,
                wake: aero.wake.slope != 0.0,
                two_blades: aero.two_blades.is_some(),
                trip: aero.trips_until > 0.0,
            },
        })
    }

    /// Spin at which roll forcing and damping balance, over speed, rad/m.
    pub fn turn_per_length(&self) -> f64 {
        if self.roll[1] > 0.0 { self.roll[0] / self.roll[1] } else { 0.0 }
    }

    /// How often what the shaft carries round comes back in a turn: twice for
    /// two blades, once for anything that pulls aside, never for neither.
    pub fn beats(&self) -> f64 {
        if self.acts.two_blades {
            2.0
        } else if self.acts.lopsided {
            1.0
        } else {
            0.0
        }
    }
}

impl Model<f64> {
    /// Several models side by side: `load` makes a lane number from the value
    /// each model has.
    #[inline(always)]
    pub fn side_by_side<N: Number>(
        models: &[&Self; LANES_MAX],
        load: impl Fn(&[f64; LANES_MAX]) -> N,
    ) -> Model<N> {
        // Not a closure that takes closures: each field's would be called, not copied.
        macro_rules! all {
            ($($field:tt)+) => {{
                let mut values = [0.0; LANES_MAX];
                for (value, model) in values.iter_mut().zip(models) {
                    *value = model.$($field)+;
                }
                load(&values)
            }};
        }
        macro_rules! two {
            ($($field:tt)+) => { [all!($($field)+[0]), all!($($field)+[1])] };
        }
        macro_rules! three {
            ($($field:tt)+) => { [all!($($field)+[0]), all!($($field)+[1]), all!($($field)+[2])] };
        }
        macro_rules! station {
            ($i:tt) => {
                Station { arm: all!(cross[$i].arm), areas: three!(cross[$i].areas) }
            };
        }
        Model {
            by_mass: all!(by_mass),
            by_transverse: all!(by_transverse),
            by_axial: all!(by_axial),
            gyro: all!(gyro),
            drag: three!(drag),
            slope: three!(slope),
            trip: Trip { drag: three!(trip.drag), per_length: all!(trip.per_length) },
            cross: [station!(0), station!(1), station!(2), station!(3)],
            wake: Wake {
                slope: all!(wake.slope),
                arm: all!(wake.arm),
                lead: all!(wake.lead),
                drift: all!(wake.drift),
                lag: all!(wake.lag),
                side: two!(wake.side),
            },
            two_blades: TwoBlades {
                slope: all!(two_blades.slope),
                arm: all!(two_blades.arm),
                twice: two!(two_blades.twice),
                present: all!(two_blades.present),
            },
            roll: two!(roll),
            side: two!(side),
            side_arm: two!(side_arm),
            gravity: two!(gravity),
            wind: WindField::side_by_side(&models.map(|m| &m.wind), &load),
            height: three!(height),
            acts: Acts {
                lopsided: models.iter().any(|m| m.acts.lopsided),
                wake: models.iter().any(|m| m.acts.wake),
                two_blades: models.iter().any(|m| m.acts.two_blades),
                trip: models.iter().any(|m| m.acts.trip),
            },
        }
    }
}

/// The components of a state as the integrator carries them.
pub(crate) fn pack(state: &State) -> [f64; SIX] {
    let w = state.rate.cross(&state.axis);
    let (r, v, n) = (&state.position, &state.velocity, &state.axis);
    [state.time, r.y, r.z, v.x, v.y, v.z, n.x, n.y, n.z, w.x, w.y, w.z, state.spin, state.roll]
}

/// A state from its components at distance `x`.
pub(crate) fn unpack(x: f64, s: &[f64; SIX]) -> State {
    let axis = Vector3::new(s[6], s[7], s[8]).normalize();
    State {
        time: s[0],
        position: Vector3::new(x, s[1], s[2]),
        velocity: Vector3::new(s[3], s[4], s[5]),
        axis,
        rate: axis.cross(&Vector3::new(s[9], s[10], s[11])),
        spin: s[12],
        roll: s[13],
    }
}
