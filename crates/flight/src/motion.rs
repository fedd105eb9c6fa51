//! The equations of motion: the one statement of the force on an arrow.

use solve::Number;

use crate::model::{Model, SIX};
use crate::turning::{Met, Pull, dot};

impl<N: Number> Model<N> {
    /// Derivative of the six-degree-of-freedom state by distance along the line.
    #[inline(always)]
    pub fn slope(&self, x: N, s: &[N; SIX]) -> [N; SIX] {
        self.rise(
            x,
            s,
            x.same(1.0),
            #[inline(always)]
            |angle| angle.sin_cos(),
        )
    }

    /// Derivative of the six-degree-of-freedom state at distance `x`, times a
    /// step along the line.
    ///
    /// The state is `[t, y, z, v(3), n(3), n'(3), p, roll]`: time, place across
    /// the line, velocity, unit axis, rate of the axis, spin and roll. With
    /// `Q` the sum of arm times side force, the axis obeys
    /// `It n'' = Q + Ia p (n x n') - It |n'|^2 n`, which is Euler's equation of
    /// a body of revolution in a frame that does not roll.
    /// See `docs/model/six-dof.md`.
    ///
    /// A station of the cross-flow at the arm `a` meets the velocity `u + a w`
    /// across, whose square is `u.u + a (2 u.w + a w.w)`; what all stations and
    /// surfaces pull is `A u + B w` and its moment `B u + C w`, A, B and C their
    /// sums by the arm to the power of 0, 1 and 2. So no station needs a vector.
    #[inline(always)]
    pub fn rise(&self, x: N, s: &[N; SIX], step: N, sin_cos: impl Fn(N) -> (N, N)) -> [N; SIX] {
        let [_, _, z, vx, vy, vz, nx, ny, nz, wx, wy, wz, p, roll] = *s;
        let (n, w) = ([nx, ny, nz], [wx, wy, wz]);
        let wind = self.wind.at(self.height_at(x, z));
        let u = [vx - wind[0], vy - wind[1], vz - wind[2]];
        let speed = dot(&u, &u).sqrt();
        let along = dot(&u, &n);
        let back = -along;
        let across = [back.mul_add(nx, u[0]), back.mul_add(ny, u[1]), back.mul_add(nz, u[2])];
        let w2 = dot(&w, &w);

        // Over half the density.
        let still = dot(&across, &across);
        let both = dot(&across, &w);
        let both = both + both;
        let [mut a, mut b, mut c] = self.slope.map(
            #[inline(always)]
            |slope| slope * speed,
        );
        for station in &self.cross {
            let [area, first, second] = station.areas;
            let arm = station.arm;
            // Where the flow turns round, rounding could make a square below zero.
            let met = arm.mul_add(arm.mul_add(w2, both), still).abs().sqrt();
            a = area.mul_add(met, a);
            b = first.mul_add(met, b);
            c = second.mul_add(met, c);
        }
        let mut pull = Pull { force: across, moment: across };
        for i in 0..3 {
            pull.force[i] = a.mul_add(across[i], b * w[i]);
            pull.moment[i] = b.mul_add(across[i], c * w[i]);
        }
        // One quotient for two.
        let ahead = nx + x.same(1.0);
        let quotient = x.same(1.0) / (ahead * vx);
        if self.acts.lopsided || self.acts.two_blades || self.acts.wake {
            let share = quotient * vx;
            let met = Met { n, w, across, speed, p, roll, share };
            self.turning(&mut pull, &met, sin_cos);
        }
        let Pull { force, moment } = pull;
        let drag = self.drag_area(x, speed) * speed * along;
        let (m, i) = (-self.by_mass, -self.by_transverse);
        let gyro = self.gyro * p;
        let turn = cross(&n, &w);
        let held = -w2;
        let [g_x, g_z] = self.gravity;
        let slowed = speed * self.by_axial;
        let by = step * (quotient * ahead);
        let mut rise = [
            x.same(1.0),
            vy,
            vz,
            drag.mul_add(nx, force[0]).mul_add(m, g_x),
            drag.mul_add(ny, force[1]) * m,
            drag.mul_add(nz, force[2]).mul_add(m, g_z),
            wx,
            wy,
            wz,
            i.mul_add(moment[0], gyro.mul_add(turn[0], held * nx)),
            i.mul_add(moment[1], gyro.mul_add(turn[1], held * ny)),
            i.mul_add(moment[2], gyro.mul_add(turn[2], held * nz)),
            slowed * self.roll[0].mul_add(speed, -(self.roll[1] * p)),
            p,
        ];
        for d in &mut rise {
            *d = *d * by;
        }
        rise
    }

    /// Acceleration of a point mass at distance `x`, height `z`, velocity `v`:
    /// the arrow points where it goes.
    #[inline(always)]
    pub fn acceleration(&self, x: N, z: N, v: [N; 3]) -> [N; 3] {
        let wind = self.wind.at(self.height_at(x, z));
        let u = [v[0] - wind[0], v[1] - wind[1], v[2] - wind[2]];
        let speed = dot(&u, &u).sqrt();
        let slow = -(self.by_mass * self.drag_area(x, speed) * speed);
        [slow.mul_add(u[0], self.gravity[0]), slow * u[1], slow.mul_add(u[2], self.gravity[1])]
    }

    #[inline(always)]
    fn height_at(&self, x: N, z: N) -> N {
        z.mul_add(self.height[2], x.mul_add(self.height[1], self.height[0]))
    }

    #[inline(always)]
    fn drag_area(&self, x: N, speed: N) -> N {
        let settled = polynomial(&self.drag, speed);
        if self.acts.trip {
            let far = x * self.trip.per_length;
            let far = far * far;
            let share = x.same(1.0) / far.mul_add(far, x.same(1.0));
            share.mul_add(polynomial(&self.trip.drag, speed), settled)
        } else {
            settled
        }
    }
}

#[inline(always)]
fn cross<N: Number>(a: &[N; 3], b: &[N; 3]) -> [N; 3] {
    let part = |i: usize, j: usize| a[i].mul_add(b[j], -(a[j] * b[i]));
    [part(1, 2), part(2, 0), part(0, 1)]
}

#[inline(always)]
fn polynomial<N: Number>(c: &[N; 3], x: N) -> N {
    x.mul_add(x.mul_add(c[2], c[1]), c[0])
}
