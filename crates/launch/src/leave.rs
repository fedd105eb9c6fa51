//! The arrow between the string's release and the rest.

use crate::elastic::MOTIONS;
use crate::nominal::Instant;
use crate::sway::{Stage, State, Track};

impl Track<'_> {
    /// The same a time after the string has let go.
    pub(crate) fn free(&self, last: &Instant, after: f64) -> Stage {
        let left = last.left - last.speed * after;
        let at = Instant { left, acceleration: 0.0, tension: 0.0, ..*last };
        Stage { over: Some(self.over(left)), path: [0.0; 2], drift: [0.0; 2], at, strung: false }
    }

    /// From the string's release until the shaft has passed the rest, carried
    /// back to the release by free motion; none where the rest never touches.
    pub(crate) fn pass(&self, last: &Instant, step: f64, state: &State) -> Option<State> {
        let way = self.bow.rest.ahead.si() + last.left - self.arrow.modes.beam().rear;
        let time = way / last.speed;
        if time <= 0.0 {
            return None;
        }
        let count = (time / step).ceil();
        let step = time / count;
        let (mut touched, mut done) = (false, 0.0);
        let mut first = self.free(last, 0.0);
        let mut now = *state;
        while done < count {
            let (half, end) =
                (self.free(last, (done + 0.5) * step), self.free(last, (done + 1.0) * step));
            now = self.advance([&first, &half, &end], step, &now);
            first = end;
            done += 1.0;
            touched =
                touched || (0..2).any(|plane| self.pull(&first, &now, plane, 0.0).rest != 0.0);
        }
        touched.then(|| self.back(&now, time))
    }

    /// Free motion backward: even and falling, and swinging with damping.
    fn back(&self, state: &State, time: f64) -> State {
        let mut out = *state;
        let fall = self.bow.gravity.si();
        for plane in 0..2 {
            let g = if plane == 1 { fall } else { 0.0 };
            let (y, v) = (plane * MOTIONS, (2 + plane) * MOTIONS);
            out[v] = state[v] + g * time;
            out[y] = state[y] - state[v] * time - 0.5 * g * time * time;
            out[y + 1] = state[y + 1] - state[v + 1] * time;
            for k in 2..MOTIONS {
                let decay = 0.5 * self.arrow.damping[k];
                let omega = (self.arrow.spring[k] - decay * decay).sqrt();
                let (sin, cos) = (-omega * time).sin_cos();
                let (q, p) = (state[y + k], state[v + k]);
                let grown = (decay * time).exp();
                out[y + k] = grown * (q * cos + (p + decay * q) / omega * sin);
                out[v + k] =
                    grown * (p * cos - (decay * p + self.arrow.spring[k] * q) / omega * sin);
            }
        }
        out
    }
}
