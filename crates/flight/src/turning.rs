//! What acts beside plain lift and drag: what the shaft carries round, the wake
//! of blades, a layer tripped at departure.

use solve::Number;

use crate::extra::TwoBlades;
use crate::model::Model;

/// How the arrow meets the air.
pub(crate) struct Met<N> {
    /// Axis, its rate, and velocity across it.
    pub(crate) n: [N; 3],
    pub(crate) w: [N; 3],
    pub(crate) across: [N; 3],
    pub(crate) speed: N,
    pub(crate) p: N,
    pub(crate) roll: N,
    /// One over one more than the axis's part along the line.
    pub(crate) share: N,
}

/// Backward force across the shaft and its moment arm, over half the density.
pub(crate) struct Pull<N> {
    pub(crate) force: [N; 3],
    pub(crate) moment: [N; 3],
}

impl<N: Number> Pull<N> {
    /// Adds something that pulls back against a velocity, at an arm.
    #[inline(always)]
    pub(crate) fn add(&mut self, by: N, velocity: &[N; 3], arm: N) {
        let turn = arm * by;
        let (force, moment) = (self.force, self.moment);
        self.force = std::array::from_fn(
            #[inline(always)]
            |i| by.mul_add(velocity[i], force[i]),
        );
        self.moment = std::array::from_fn(
            #[inline(always)]
            |i| turn.mul_add(velocity[i], moment[i]),
        );
    }
}

impl<N: Number> TwoBlades<N> {
    /// A velocity across the shaft mirrored about the normal of the blades'
    /// plane, whose clock position the roll turns. With `m` the normal, half the
    /// sum of velocity and image is the part along it, `(u m) m`.
    #[inline(always)]
    fn mirrored(&self, u: &[N; 3], (left, up): (&[N; 3], &[N; 3]), (sin, cos): (N, N)) -> [N; 3] {
        let (s2, c2) = ((sin + sin) * cos, cos.mul_add(cos, -(sin * sin)));
        let [c, s] = self.twice;
        let (sin, cos) = (s2.mul_add(c, c2 * s), c2.mul_add(c, -(s2 * s)));
        let (l, h) = (dot(u, left), dot(u, up));
        let (l, h) = (cos.mul_add(l, sin * h), sin.mul_add(l, -(cos * h)));
        std::array::from_fn(
            #[inline(always)]
            |i| l.mul_add(left[i], h * up[i]),
        )
    }
}

impl<N: Number> Model<N> {
    /// What the shaft carries round: what pulls aside, two blades, and the wake
    /// that the head's blades leave over the vanes one lag later.
    #[inline(always)]
    pub(crate) fn turning(&self, pull: &mut Pull<N>, met: &Met<N>, sin_cos: impl Fn(N) -> (N, N)) {
        let Met { n, w, across, speed, p, roll, share } = met;
        let (left, up) = basis(n, *share);
        let (sin, cos) = sin_cos(*roll);
        let dynamic = *speed * *speed;
        let (fl, fu) = turned(&self.side, sin * dynamic, cos * dynamic);
        let (ml, mu) = turned(&self.side_arm, sin * dynamic, cos * dynamic);
        for i in 0..3 {
            pull.force[i] = fl.mul_add(left[i], fu.mul_add(up[i], pull.force[i]));
            pull.moment[i] = ml.mul_add(left[i], mu.mul_add(up[i], pull.moment[i]));
        }
        let two = &self.two_blades;
        if self.acts.two_blades {
            let local = moved(across, two.arm, w);
            let mirrored = two.mirrored(&local, (&left, &up), (sin, cos));
            pull.add(two.slope * *speed, &mirrored, two.arm);
        }
        if self.acts.wake {
            let wake = &self.wake;
            // What has not drifted off the vanes.
            let left_of_it = dynamic / wake.drift.mul_add(dot(across, across), dynamic);
            let (sin, cos) = sin_cos(*roll - *p * wake.lag / *speed);
            let mut local = moved(across, wake.lead, w);
            if self.acts.two_blades {
                let mirrored = two.mirrored(&local, (&left, &up), (sin, cos));
                for i in 0..3 {
                    local[i] = mirrored[i].mul_add(two.present, local[i]);
                }
            }
            pull.add(-(wake.slope * left_of_it * *speed), &local, wake.arm);
            let share = dynamic * left_of_it;
            let (fl, fu) = turned(&wake.side, sin * share, cos * share);
            let tilted = std::array::from_fn(
                #[inline(always)]
                |i| fl.mul_add(left[i], fu * up[i]),
            );
            pull.add(-speed.same(1.0), &tilted, wake.arm);
        }
    }
}

#[inline(always)]
pub(crate) fn dot<N: Number>(a: &[N; 3], b: &[N; 3]) -> N {
    a[0].mul_add(b[0], a[1].mul_add(b[1], a[2] * b[2]))
}

/// Velocity across the shaft at an arm.
#[inline(always)]
fn moved<N: Number>(across: &[N; 3], arm: N, w: &[N; 3]) -> [N; 3] {
    std::array::from_fn(
        #[inline(always)]
        |i| arm.mul_add(w[i], across[i]),
    )
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
fn basis<N: Number>(n: &[N; 3], share: N) -> ([N; 3], [N; 3]) {
    let one = n[0].same(1.0);
    let (a, b) = (-(n[1] * share), -(n[2] * share));
    ([-n[1], a.mul_add(n[1], one), a * n[2]], [-n[2], b * n[1], b.mul_add(n[2], one)])
}
