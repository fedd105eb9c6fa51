//! A push watched: every step told, with the work done.

use crate::course::Course;
use crate::elastic::MOTIONS;
use crate::frame::{Frame, Work};
use crate::sway::{Seen, Witness};
use crate::track::{SIZE, Track, WATCHED};

/// Keeps every step.
#[derive(Default)]
pub(crate) struct Film(pub(crate) Vec<Frame>);

impl Witness<f64, WATCHED> for Film {
    #[inline(always)]
    fn see(&mut self, track: &Track<f64>, _: &Course, seen: &Seen<f64>, state: &[f64; WATCHED]) {
        self.0.push(track.frame(seen, state));
    }
}

impl Track<f64> {
    #[inline(always)]
    fn frame(&self, seen: &Seen<f64>, state: &[f64; WATCHED]) -> Frame {
        let stage = seen.stage;
        let pulls = [0, 1].map(|plane| {
            let free = self.inner(stage, state, plane).free;
            self.pull(seen.masses, stage, state, plane, free)
        });
        let [thrust, string, rest, damping, weight] = std::array::from_fn(|i| state[SIZE + i]);
        Frame {
            time: seen.time,
            travelled: 1.0 - stage.at.left / self.stroke,
            speed: stage.at.speed,
            push: stage.at.acceleration * self.mass,
            string: [pulls[0].string, pulls[1].string],
            rest: [pulls[0].rest, pulls[1].rest],
            motion: [part(state, 0), part(state, 1)],
            rate: [part(state, 2), part(state, 3)],
            work: Work { thrust, string, rest, damping, weight },
        }
    }

    /// Energy of the sideways motion, J: swinging, turning and bent.
    pub(crate) fn sideways_energy(&self, frame: &Frame) -> f64 {
        let [more, cross] = self.stiff;
        let mut sum = 0.0;
        for i in 0..MOTIONS {
            let [l, u] = [frame.motion[0][i], frame.motion[1][i]];
            let bent = (1.0 + more) * l * l + (1.0 - more) * u * u + 2.0 * cross * l * u;
            let moving = frame.rate[0][i].powi(2) + frame.rate[1][i].powi(2);
            sum += 0.5 * (moving / self.inverse_modal_mass[i] + self.spring[i] * bent);
        }
        sum
    }
}

/// Motions or rates of a plane.
pub(crate) fn part(state: &[f64], index: usize) -> [f64; MOTIONS] {
    std::array::from_fn(|i| state[index * MOTIONS + i])
}
