//! The arrow between the string's release and the rest.

use solve::Number;

use crate::course::BowAt;
use crate::elastic::MOTIONS;
use crate::track::Track;

impl<N: Number> Track<N> {
    /// From the string's release until the shaft has passed the rest, carried
    /// back to the release by free motion; the state as it was where the rest
    /// never touches.
    #[inline(always)]
    pub(crate) fn pass<const ROOM: usize>(
        &self,
        count: usize,
        masses: &[N; 3],
        last: &BowAt<N>,
        state: &[N; ROOM],
    ) -> [N; ROOM] {
        let none = self.mass.same(0.0);
        let time = (self.ahead + last.left - self.rear) / last.speed;
        let step = time * none.same(1.0 / count as f64);
        let mut touched = none;
        let mut first = self.free(last, none);
        let mut now = *state;
        for done in 0..count {
            let after = |half: usize| none.same(0.5 * half as f64) * step;
            let (half, end) =
                (self.free(last, after(2 * done + 1)), self.free(last, after(2 * done + 2)));
            now = self.advance(masses, [&first, &half, &end], step, &now);
            first = end;
            for plane in 0..2 {
                touched = touched.max(self.pull(masses, &first, &now, plane, none).rest.abs());
            }
        }
        let back = self.back(&now, time);
        let mut out = *state;
        for i in 0..ROOM {
            // What is not a number stays seen.
            let untouched = state[i] + touched * none;
            let passed = touched.if_above_zero(back[i], untouched);
            out[i] = time.if_above_zero(passed, state[i]);
        }
        out
    }

    /// Free motion backward: even and falling, and swinging with damping.
    #[inline(always)]
    fn back<const ROOM: usize>(&self, state: &[N; ROOM], time: N) -> [N; ROOM] {
        let none = self.mass.same(0.0);
        let (half, one) = (none.same(0.5), none.same(1.0));
        let mut out = *state;
        for plane in 0..2 {
            let g = if plane == 1 { self.gravity } else { none };
            let (y, v) = (plane * MOTIONS, (2 + plane) * MOTIONS);
            out[v] = state[v] + g * time;
            out[y] = state[y] - state[v] * time - half * g * time * time;
            out[y + 1] = state[y + 1] - state[v + 1] * time;
            for k in 2..MOTIONS {
                let decay = half * self.damping[k];
                let square = self.spring[k] - decay * decay;
                // A mode that is not in use stands still.
                let omega = square.if_above_zero(square.sqrt(), one);
                let (sin, cos) = (-(omega * time)).sin_cos();
                let (q, p) = (state[y + k], state[v + k]);
                let grown = (decay * time).exp();
                out[y + k] = grown * (q * cos + (p + decay * q) / omega * sin);
                out[v + k] = grown * (p * cos - (decay * p + self.spring[k] * q) / omega * sin);
            }
        }
        out
    }
}
