//! The same arrow in axes fixed to it, with a quaternion, and time as variable:
//! how flight simulations are usually written. For comparison only.

use clothyard_benches::{Case, DISTANCE};
use nalgebra::{Matrix3, Quaternion, Rotation3, SVector, UnitQuaternion, Vector3};
use ode_solvers::dop_shared::OutputType;
use ode_solvers::{Dop853, System};

/// Place, velocity (line frame), quaternion, turning rates (arrow frame).
type State = SVector<f64, 13>;

struct Turning<'a>(&'a Case);

/// Gauss-Legendre points of the cross-flow integral, and weights.
const GAUSS: [(f64, f64); 3] =
    [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];

impl System<f64, State> for Turning<'_> {
    fn system(&self, _time: f64, s: &State, out: &mut State) {
        let Case { aero, built, density, gravity, wind, .. } = self.0;
        let half = 0.5 * density;
        let q = Quaternion::new(s[6], s[7], s[8], s[9]);
        let turned = UnitQuaternion::new_normalize(q).to_rotation_matrix();
        let v = Vector3::new(s[3], s[4], s[5]);
        let u = turned.inverse() * (v - Vector3::from(*wind));
        let speed = u.norm();
        let (roll, pitch, yaw) = (s[10], s[11], s[12]);
        // Rate of the axis across itself, left and up.
        let (wl, wu) = (yaw, -pitch);
        let (s0, s1, s2) = (aero.slope, aero.slope_arm, aero.slope_arm2);
        let push = |c: f64, w: f64, s0: f64, s1: f64| -speed * (s0 * c + s1 * w);
        let mut force = [push(u.y, wl, s0, s1), push(u.z, wu, s0, s1)];
        let mut moment = [push(u.y, wl, s1, s2), push(u.z, wu, s1, s2)];
        let (rear, front) = aero.shaft_span;
        let (middle, reach) = (0.5 * (rear + front), 0.5 * (front - rear));
        let along =
            GAUSS.map(|(at, weight)| (aero.cross_flow * weight * reach, middle + at * reach));
        for (area, arm) in along.into_iter().chain([aero.vane_flow]) {
            let local = [u.y + arm * wl, u.z + arm * wu];
            let pull = area * local[0].hypot(local[1]);
            for i in 0..2 {
                force[i] -= pull * local[i];
                moment[i] -= arm * pull * local[i];
            }
        }
        let dynamic = speed * speed;
        force[0] -= aero.side.at90 * dynamic;
        force[1] += aero.side.at0 * dynamic;
        moment[0] -= aero.side_arm.at90 * dynamic;
        moment[1] += aero.side_arm.at0 * dynamic;
        let drag = aero.drag[0] + speed * (aero.drag[1] + speed * aero.drag[2]);
        let pulled = Vector3::new(-drag * speed * u.x, force[0], force[1]);
        let mut slowed = turned * pulled * (half / built.mass.mass().si());
        slowed.z -= gravity;
        let (transverse, axial) = (built.mass.transverse().si(), built.mass.axial().si());
        let spun = half * (aero.roll_forcing * dynamic - aero.roll_damping * speed * roll);
        let stiff = transverse - axial;
        let dq = q * Quaternion::new(0.0, roll, pitch, yaw) * 0.5;
        let rates = [
            spun / axial,
            (-half * moment[1] + stiff * roll * yaw) / transverse,
            (half * moment[0] - stiff * roll * pitch) / transverse,
        ];
        *out = State::from_column_slice(&[
            v.x, v.y, v.z, slowed.x, slowed.y, slowed.z, dq.w, dq.i, dq.j, dq.k, rates[0],
            rates[1], rates[2],
        ]);
    }
}

/// Flies to the time of the reference and along the path to the target.
pub(crate) fn end(case: &Case, time: f64, relative: f64) -> [f64; 3] {
    let start = &case.start;
    let n = start.axis;
    let share = 1.0 / (1.0 + n.x);
    let left = Vector3::new(-n.y, 1.0 - n.y * n.y * share, -n.y * n.z * share);
    let up = Vector3::new(-n.z, -n.y * n.z * share, 1.0 - n.z * n.z * share);
    let (sin, cos) = start.roll.sin_cos();
    let axes = [n, left * cos + up * sin, up * cos - left * sin];
    let turned = Rotation3::from_matrix_unchecked(Matrix3::from_columns(&axes));
    let q = UnitQuaternion::from_rotation_matrix(&turned).into_inner();
    let rate = turned.inverse() * start.rate;
    let (r, v) = (start.position, start.velocity);
    let from = State::from_column_slice(&[
        r.x, r.y, r.z, v.x, v.y, v.z, q.w, q.i, q.j, q.k, start.spin, rate.y, rate.z,
    ]);
    let (safe, beta, least, most) = (0.9, 0.0, 0.333, 6.0);
    let mut solver = Dop853::from_param(
        Turning(case),
        0.0,
        time,
        time,
        from,
        relative,
        relative,
        safe,
        beta,
        least,
        most,
        time,
        0.0,
        100_000,
        1000,
        OutputType::Sparse,
    );
    // The failure would show as an error of the place.
    let _ = solver.integrate();
    let s = solver.y_out().last().copied().unwrap_or(from);
    let rest = (DISTANCE - s[0]) / s[3];
    [s[1] + s[4] * rest, s[2] + s[5] * rest, time + rest]
}
