//! The arrow at full draw, and how finely its push is followed.

use crate::LaunchError;
use crate::bow::RestKind;
use crate::elastic::MOTIONS;
use crate::sway::{INSIDE, SIZE, State, Track, dot};

/// Largest turn of the fastest swing in one step, rad, where the motion is
/// linear, and where contacts open and close. Chosen: doubling the steps then
/// moves no departure rate by 1e-3 of itself (tested).
const TURN: [f64; 2] = [1.6, 0.6];
/// Most steps. Chosen: a hundred times what a stiff real rest asks for.
const MOST_STEPS: f64 = 50_000.0;

impl Track<'_> {
    /// The arrow at full draw: nock on its line, shaft hanging between nock and
    /// rest, still but for the release.
    ///
    /// The weight m g at the balance point is borne by the rest, m g `l/x_r`, and
    /// by the nock; a mode gives way to these two by `w_k/omega_k^2`. The release
    /// is an impulse J on the nock. The string's mass there goes with it: the
    /// nock gets off at J/(M + 1/c), c the sum of `w_i(0)^2/M_i`, and the arrow
    /// gets of J what is left when the string has its own.
    pub(crate) fn full_draw(&self) -> State {
        let arrow = self.arrow;
        let rest = self.bow.rest.ahead.si() + self.stroke;
        let impulse = [self.bow.release.left.si(), self.bow.release.up.si()];
        let (over, _) = arrow.at(rest);
        let held = self.let_go > 0.0;
        let hold = self.push.at(0.0).hold;
        let mut state = [0.0; SIZE];
        for plane in 0..2 {
            let forcing = &self.forcings[plane];
            let weight = if plane == 1 && held { arrow.mass * self.bow.gravity.si() } else { 0.0 };
            let on_rest = weight * arrow.lever / rest;
            let mut motion = [0.0; MOTIONS];
            for k in 2..self.modes + 2 {
                let pushed = arrow.groove[k] * (weight - on_rest) + over[k] * on_rest;
                motion[k] = pushed / arrow.spring[k];
            }
            let bent = |shape: &[f64; MOTIONS]| dot(shape, &motion);
            let sag = self.contacts[plane].sag(on_rest);
            let (nock, shaft) = (bent(&arrow.groove), bent(&over));
            let angle = (forcing.groove + nock - sag - forcing.shaft(rest).0 - shaft) / rest;
            motion[1] = angle;
            motion[0] = arrow.lever * angle - forcing.groove - nock;
            state[plane * MOTIONS..(plane + 1) * MOTIONS].copy_from_slice(&motion);
            let (moved, inner) = match plane {
                0 => (hold.mass, 0.0),
                _ => (hold.mass - hold.across.powi(2) / hold.inside[0], hold.across),
            };
            let off = impulse[plane] * self.ease / (1.0 + moved * self.ease);
            let given = off / self.ease;
            for i in 0..self.modes + 2 {
                state[(2 + plane) * MOTIONS + i] =
                    given * arrow.groove[i] * arrow.inverse_modal_mass[i];
            }
            if plane == 1 {
                state[INSIDE + 2] = -inner * off / hold.inside[0];
            }
        }
        state
    }

    /// Steps that the fastest swing asks for: no square of a frequency is above
    /// the sum of stiffness over mass of what swings together.
    pub(crate) fn needed(&self) -> Result<usize, LaunchError> {
        /// Places looked at; the stiffness changes little between them.
        const PLACES: u32 = 8;
        let arrow = self.arrow;
        let give = |shape: &[f64; MOTIONS]| -> f64 {
            (0..self.modes + 2).map(|i| shape[i] * shape[i] * arrow.inverse_modal_mass[i]).sum()
        };
        let bend = if self.modes > 0 { arrow.spring[self.modes + 1] } else { 0.0 };
        let mut fastest: f64 = 0.0;
        for place in 0..=PLACES {
            let time = self.end * f64::from(place) / f64::from(PLACES);
            let stage = self.pushed(time, time <= self.let_go);
            let hold = &stage.at.hold;
            let ease = self.ease / (1.0 + self.ease * hold.mass);
            let inside = (hold.up[3] / hold.inside[0]).max(0.0) + hold.up[5] / hold.inside[1];
            let mut square = bend + (hold.side * ease).max(hold.up[0] * ease + inside);
            if let Some(over) = &stage.over {
                let give = give(&over.value);
                for contact in &self.contacts {
                    square = square.max(bend + contact.stiffest() * give);
                    square = square.max((contact.damping() * give).powi(2));
                }
            }
            fastest = fastest.max(square.sqrt());
        }
        let opens =
            self.bow.rest.kind != RestKind::Containment && self.bow.rest.kind != RestKind::DropAway;
        let steps = (fastest * self.end / TURN[usize::from(opens)]).ceil();
        if steps > MOST_STEPS {
            return Err(LaunchError::TooStiff { steps, most: MOST_STEPS });
        }
        // A whole number from 0 to MOST_STEPS.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        Ok(steps as usize)
    }
}
