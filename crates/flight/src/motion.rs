//! The equations of motion: the one statement of the force on an arrow.

use solve::Number;

use crate::model::{Model, SIX};
use crate::turning::{Met, Pull, dot, moved};

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
        let mut pull = Pull { force: [speed; 3], moment: [speed; 3] };
        let [s0, s1, s2] = self.slope.map(
            #[inline(always)]
            |slope| slope * speed,
        );
        for i in 0..3 {
            pull.force[i] = s0.mul_add(across[i], s1 * w[i]);
            pull.moment[i] = s1.mul_add(across[i], s2 * w[i]);
        }
        for &(area, arm) in &self.cross {
            let local = moved(&across, arm, &w);
            pull.add(area * dot(&local, &local).sqrt(), &local, arm);
        }
        if self.acts.lopsided || self.acts.two_blades || self.acts.wake {
            self.turning(&mut pull, &Met { n, w, across, speed, p, roll });
        }
        let Pull { force, moment } = pull;
        let drag = self.drag_area(x, speed) * speed * along;
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
