use arrow::{Built, Parts};
use body::{Across, State};
use nalgebra::Vector3;
use solve::{LANES_MAX, Number};
use units::Speed;

use crate::aero::{Aero, aero};
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
    by_mass: N,
    /// Half air density over transverse inertia.
    by_transverse: N,
    /// Half air density over axial inertia.
    by_axial: N,
    /// Axial over transverse inertia.
    gyro: N,
    /// Drag area as a polynomial in speed.
    drag: [N; 3],
    /// Sums of slope, slope times arm, slope times arm squared.
    slope: [N; 3],
    /// Cross-flow: weight (drag area of the station) and arm of each station.
    cross: [(N, N); STATIONS],
    /// Roll forcing and damping.
    roll: [N; 2],
    /// Side force turning with the arrow, toward clock 0 and 90 degrees.
    side: [N; 2],
    /// Its moment.
    side_arm: [N; 2],
    /// Gravity in the line frame (no sideways part).
    gravity: [N; 2],
    wind: WindField<N>,
    /// Height above ground of the start, and its growth with x and z.
    height: [N; 3],
    /// Whether anything turns with the arrow.
    lopsided: bool,
}

/// Stations of the cross-flow integral along the shaft.
const STATIONS: usize = 4;
/// Gauss-Legendre points on (-1, 1) and their weights; integrates a seventh
/// degree polynomial exactly [dlmf].
const GAUSS: [(f64, f64); STATIONS] = [
    (-0.861_136_311_594_052_6, 0.347_854_845_137_453_86),
    (-0.339_981_043_584_856_26, 0.652_145_154_862_546_1),
    (0.339_981_043_584_856_26, 0.652_145_154_862_546_1),
    (0.861_136_311_594_052_6, 0.347_854_845_137_453_86),
];

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
        Ok(Self {
            by_mass: half / mass,
            by_transverse: half / transverse,
            by_axial: half / axial,
            gyro: axial / transverse,
            drag: aero.drag,
            slope: [aero.slope, aero.slope_arm, aero.slope_arm2],
            cross: GAUSS
                .map(|(at, weight)| (aero.cross_flow * weight * reach, middle + at * reach)),
            roll: [aero.roll_forcing, aero.roll_damping],
            side: pair(aero.side),
            side_arm: pair(aero.side_arm),
            gravity: [-g * sin, -g * cos],
            wind: WindField::new(&site.wind, site.shot_angle.si())?,
            height: [site.release_height.si(), sin, cos],
            lopsided: aero.side != Across::ZERO || aero.side_arm != Across::ZERO,
        })
    }

    /// Spin at which roll forcing and damping balance, over speed, rad/m.
    pub fn turn_per_length(&self) -> f64 {
        if self.roll[1] > 0.0 { self.roll[0] / self.roll[1] } else { 0.0 }
    }

    /// Whether anything fixed to the shaft pulls it aside.
    pub fn is_lopsided(&self) -> bool {
        self.lopsided
    }
}

impl<N: Number> Model<N> {
    /// Derivative of the six-degree-of-freedom state by distance along the line.
    #[inline(always)]
    pub fn slope(&self, x: N, s: &[N; SIX]) -> [N; SIX] {
        let mut slope = self.derivative(x, s);
        let per_length = x.same(1.0) / s[3];
        for d in &mut slope {
            *d = *d * per_length;
        }
        slope
    }

    /// Time derivative of the six-degree-of-freedom state at distance `x`.
    ///
    /// The state is `[t, y, z, v(3), n(3), n'(3), p, roll]`: time, place across
    /// the line, velocity, unit axis, rate of the axis, spin and roll. With
    /// `Q` the sum of arm times side force, the axis obeys
    /// `It n'' = Q + Ia p (n x n') - It |n'|^2 n`, which is Euler's equation of
    /// a body of revolution in a frame that does not roll.
    /// See `docs/model/six-dof.md`.
    #[inline(always)]
    pub fn derivative(&self, x: N, s: &[N; SIX]) -> [N; SIX] {
        let [_, _, z, vx, vy, vz, nx, ny, nz, wx, wy, wz, p, roll] = *s;
        let (n, w) = ([nx, ny, nz], [wx, wy, wz]);
        let wind = self.wind.at(self.height_at(x, z));
        let u = [vx - wind[0], vy - wind[1], vz - wind[2]];
        let speed = dot(&u, &u).sqrt();
        let along = dot(&u, &n);
        let back = -along;
        let across = [back.mul_add(nx, u[0]), back.mul_add(ny, u[1]), back.mul_add(nz, u[2])];

        // Force and moment arm across the shaft, backward, over half the density.
        let mut force = [speed; 3];
        let mut moment = [speed; 3];
        let [s0, s1, s2] = self.slope.map(
            #[inline(always)]
            |slope| slope * speed,
        );
        for i in 0..3 {
            force[i] = s0.mul_add(across[i], s1 * w[i]);
            moment[i] = s1.mul_add(across[i], s2 * w[i]);
        }
        for &(weight, arm) in &self.cross {
            let mut local = across;
            for i in 0..3 {
                local[i] = arm.mul_add(w[i], across[i]);
            }
            let pull = weight * dot(&local, &local).sqrt();
            let turn = arm * pull;
            for i in 0..3 {
                force[i] = pull.mul_add(local[i], force[i]);
                moment[i] = turn.mul_add(local[i], moment[i]);
            }
        }
        if self.lopsided {
            let (left, up) = basis(&n);
            let (sin, cos) = roll.sin_cos();
            let (sin, cos) = (sin * speed * speed, cos * speed * speed);
            let (fl, fu) = turned(&self.side, sin, cos);
            let (ml, mu) = turned(&self.side_arm, sin, cos);
            for i in 0..3 {
                force[i] = fl.mul_add(left[i], fu.mul_add(up[i], force[i]));
                moment[i] = ml.mul_add(left[i], mu.mul_add(up[i], moment[i]));
            }
        }
        let drag = self.drag_area(speed) * speed * along;
        let (m, i) = (-self.by_mass, -self.by_transverse);
        let gyro = self.gyro * p;
        let turn = cross(&n, &w);
        let w2 = -dot(&w, &w);
        let [g_x, g_z] = self.gravity;
        let slowed = speed * self.by_axial;
        [
            x.same(1.0),
            vy,
            vz,
            drag.mul_add(nx, force[0]).mul_add(m, g_x),
            drag.mul_add(ny, force[1]) * m,
            drag.mul_add(nz, force[2]).mul_add(m, g_z),
            wx,
            wy,
            wz,
            i.mul_add(moment[0], gyro.mul_add(turn[0], w2 * nx)),
            i.mul_add(moment[1], gyro.mul_add(turn[1], w2 * ny)),
            i.mul_add(moment[2], gyro.mul_add(turn[2], w2 * nz)),
            slowed * self.roll[0].mul_add(speed, -(self.roll[1] * p)),
            p,
        ]
    }

    /// Acceleration of a point mass at distance `x`, height `z`, velocity `v`:
    /// the arrow points where it goes.
    #[inline(always)]
    pub fn acceleration(&self, x: N, z: N, v: [N; 3]) -> [N; 3] {
        let wind = self.wind.at(self.height_at(x, z));
        let u = [v[0] - wind[0], v[1] - wind[1], v[2] - wind[2]];
        let speed = dot(&u, &u).sqrt();
        let slow = -(self.by_mass * self.drag_area(speed) * speed);
        [slow.mul_add(u[0], self.gravity[0]), slow * u[1], slow.mul_add(u[2], self.gravity[1])]
    }

    #[inline(always)]
    fn height_at(&self, x: N, z: N) -> N {
        z.mul_add(self.height[2], x.mul_add(self.height[1], self.height[0]))
    }

    #[inline(always)]
    fn drag_area(&self, speed: N) -> N {
        speed.mul_add(speed.mul_add(self.drag[2], self.drag[1]), self.drag[0])
    }
}

#[inline(always)]
fn dot<N: Number>(a: &[N; 3], b: &[N; 3]) -> N {
    a[0].mul_add(b[0], a[1].mul_add(b[1], a[2] * b[2]))
}

#[inline(always)]
fn cross<N: Number>(a: &[N; 3], b: &[N; 3]) -> [N; 3] {
    let part = |i: usize, j: usize| a[i].mul_add(b[j], -(a[j] * b[i]));
    [part(1, 2), part(2, 0), part(0, 1)]
}

/// Backward push to the left and up of something pushed toward clock 0 and 90
/// degrees, turned by the roll.
#[inline(always)]
fn turned<N: Number>(push: &[N; 2], sin: N, cos: N) -> (N, N) {
    (push[0].mul_add(sin, push[1] * cos), push[1].mul_add(sin, -(push[0] * cos)))
}

/// Left and up across the axis: the images of y and z under the shortest turn
/// that takes x to the axis.
#[inline(always)]
fn basis<N: Number>(n: &[N; 3]) -> ([N; 3], [N; 3]) {
    let one = n[0].same(1.0);
    let share = one / (one + n[0]);
    let (a, b) = (-(n[1] * share), -(n[2] * share));
    ([-n[1], a.mul_add(n[1], one), a * n[2]], [-n[2], b * n[1], b.mul_add(n[2], one)])
}

impl Model<f64> {
    /// Several models side by side: `load` makes a lane number from the value
    /// each model has.
    #[inline(always)]
    pub fn side_by_side<N: Number>(
        models: &[&Self; LANES_MAX],
        load: impl Fn(&[f64; LANES_MAX]) -> N,
    ) -> Model<N> {
        let all = |field: &dyn Fn(&Self) -> f64| {
            let mut values = [0.0; LANES_MAX];
            for (value, model) in values.iter_mut().zip(models) {
                *value = field(model);
            }
            load(&values)
        };
        let three = |field: &dyn Fn(&Self) -> [f64; 3]| {
            [all(&|m| field(m)[0]), all(&|m| field(m)[1]), all(&|m| field(m)[2])]
        };
        let two =
            |field: &dyn Fn(&Self) -> [f64; 2]| [all(&|m| field(m)[0]), all(&|m| field(m)[1])];
        let station = |i: usize| (all(&|m| m.cross[i].0), all(&|m| m.cross[i].1));
        Model {
            by_mass: all(&|m| m.by_mass),
            by_transverse: all(&|m| m.by_transverse),
            by_axial: all(&|m| m.by_axial),
            gyro: all(&|m| m.gyro),
            drag: three(&|m| m.drag),
            slope: three(&|m| m.slope),
            cross: [station(0), station(1), station(2), station(3)],
            roll: two(&|m| m.roll),
            side: two(&|m| m.side),
            side_arm: two(&|m| m.side_arm),
            gravity: two(&|m| m.gravity),
            wind: WindField::side_by_side(&models.map(|m| &m.wind), &load),
            height: three(&|m| m.height),
            lopsided: models.iter().any(|m| m.lopsided),
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
