//! The arrow at full draw, and how finely its push is followed.

use solve::Number;

use crate::LaunchError;
use crate::bow::Bow;
use crate::course::let_go;
use crate::elastic::MOTIONS;
use crate::nominal::NominalPush;
use crate::stage::Stage;
use crate::track::{INSIDE, Track};

/// How long a step may be where the motion is linear, where contacts open and
/// close, and where one of them is preloaded too. Chosen: the impact at 100 yd is
/// then within 0.05 mm of that with eight times the steps (tested).
const PACES: [Pace; 3] = [
    Pace { turn: 1.6, gentle: 3.5e-5, power: 0.25 },
    Pace { turn: 0.6, gentle: 3e-3, power: 0.5 },
    Pace { turn: 0.6, gentle: 4e-4, power: 0.5 },
];
/// Length of a step.
struct Pace {
    /// Largest turn of the fastest swing in it, rad.
    turn: f64,
    /// Impulse of a release, N s, above which steps grow shorter: the error goes
    /// with the swing times a power of the step, and the step so with the impulse
    /// to this power.
    gentle: f64,
    power: f64,
}
/// Most steps. Chosen: a hundred times what a stiff real rest asks for.
const MOST_STEPS: f64 = 50_000.0;

impl<N: Number> Track<N> {
    /// The arrow at full draw: nock on its line, shaft hanging between nock and
    /// rest, still but for the release.
    ///
    /// The weight m g at the balance point is borne by the rest, m g `l/x_r`, and
    /// by the nock; a mode gives way to these two by `w_k/omega_k^2`. The release
    /// is an impulse J on the nock. The string's mass there goes with it: the
    /// nock gets off at J/(M + 1/c), c the sum of `w_i(0)^2/M_i`, and the arrow
    /// gets of J what is left when the string has its own.
    #[inline(always)]
    pub(crate) fn full_draw<const ROOM: usize>(&self, first: &Stage<N>) -> [N; ROOM] {
        let none = self.mass.same(0.0);
        let rest = self.ahead + self.stroke;
        let over = self.over(rest);
        let mut state = [none; ROOM];
        for plane in 0..2 {
            let weight = if plane == 1 && first.held { self.mass * self.gravity } else { none };
            let on_rest = weight * self.lever / rest;
            let mut motion = [none; MOTIONS];
            let (mut nock, mut shaft) = (none, none);
            for (k, bent) in motion.iter_mut().enumerate().skip(2) {
                let pushed = self.groove[k] * (weight - on_rest) + over.value[k] * on_rest;
                // A mode that is not in use has no spring.
                *bent = self.spring[k].if_above_zero(pushed / self.spring[k], none);
                nock = self.groove[k].mul_add(*bent, nock);
                shaft = over.value[k].mul_add(*bent, shaft);
            }
            let sag = self.contacts[plane].sag(on_rest);
            let groove = self.forcings[plane].groove;
            let angle = (groove + nock - sag - over.line[plane].0 - shaft) / rest;
            motion[1] = angle;
            motion[0] = self.lever * angle - groove - nock;
            let moved = first.string.mass[plane];
            let given = self.release[plane] / (none.same(1.0) + moved * self.ease);
            for i in 0..MOTIONS {
                state[plane * MOTIONS + i] = motion[i];
                state[(2 + plane) * MOTIONS + i] = given * self.weighed[i];
            }
            if plane == 1 {
                state[INSIDE + 2] = -(first.string.share * given * self.ease);
            }
        }
        state
    }
}

impl Track<f64> {
    /// Steps that the fastest swing asks for: no square of a frequency is above
    /// the sum of stiffness over mass of what swings together.
    pub(crate) fn needed(&self, push: &NominalPush, bow: &Bow) -> Result<usize, LaunchError> {
        /// Places looked at; the stiffness changes little between them.
        const PLACES: u32 = 8;
        let give = |shape: &[f64; MOTIONS]| -> f64 {
            shape.iter().zip(self.inverse_modal_mass).map(|(w, m)| w * w * m).sum()
        };
        let bend = self.spring.iter().copied().fold(0.0, f64::max);
        let (end, fallen) = (push.duration(), let_go(push, bow));
        let mut fastest: f64 = 0.0;
        for place in 0..=PLACES {
            let time = end * f64::from(place) / f64::from(PLACES);
            let at = push.at(time);
            let hold = at.hold.scaled(bow.restraint.left.si(), bow.restraint.up.si());
            let ease = self.ease / (1.0 + self.ease * hold.mass);
            let inside = (hold.up[3] / hold.inside[0]).max(0.0) + hold.up[5] / hold.inside[1];
            let mut square = bend + (hold.side * ease).max(hold.up[0] * ease + inside);
            if time <= fallen {
                let give = give(&self.over(self.ahead + at.left).value);
                for contact in &self.contacts {
                    square = square.max(bend + contact.stiffest() * give);
                    square = square.max((contact.damping() * give).powi(2));
                }
            }
            fastest = fastest.max(square.sqrt());
        }
        let side = &self.contacts[0];
        let pace = &PACES[usize::from(!side.holds()) + usize::from(side.preloaded())];
        let impulse = self.release[0].hypot(self.release[1]);
        let shorter = (pace.gentle / impulse.max(pace.gentle)).powf(pace.power);
        let steps = (fastest * end / (pace.turn * shorter)).ceil();
        if steps > MOST_STEPS {
            return Err(LaunchError::TooStiff { steps, most: MOST_STEPS });
        }
        // A whole number from 0 to MOST_STEPS.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        Ok(steps as usize)
    }
}
