//! What rest and string do to the arrow sideways.

use crate::bow::{Bow, BowKind, RestKind, Side};

/// Stiffness of a preloaded spring's stop over that of the spring. Chosen.
const STOP: f64 = 10.0;
/// Least stiffness of a stop, N/m. Chosen: a preload of a few newtons is then
/// met within a tenth of a millimetre.
const LEAST_STOP: f64 = 5e4;

/// A contact in one plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Contact {
    stiffness: f64,
    damping: f64,
    preload: f64,
    /// Direction in which it can push; zero where it also pulls.
    push: f64,
}

impl Contact {
    /// Force on the shaft at a place (m) and velocity (m/s) of the contact.
    pub(crate) fn force(&self, place: f64, velocity: f64) -> f64 {
        if self.push == 0.0 {
            return -self.stiffness * place - self.damping * velocity;
        }
        let pressed = -self.push * place;
        if pressed <= 0.0 {
            return 0.0;
        }
        let spring = if self.preload > 0.0 {
            (self.stiffest() * pressed).min(self.preload + self.stiffness * pressed)
        } else {
            self.stiffness * pressed
        };
        self.push * (spring - self.push * self.damping * velocity).max(0.0)
    }

    /// Stiffest it gets, N/m.
    pub(crate) fn stiffest(&self) -> f64 {
        if self.preload > 0.0 { LEAST_STOP.max(STOP * self.stiffness) } else { self.stiffness }
    }

    /// Whether it pulls as well as pushes, so that it never opens.
    pub(crate) fn holds(&self) -> bool {
        self.push == 0.0
    }

    pub(crate) fn damping(&self) -> f64 {
        self.damping
    }
}

/// The contacts of a bow's rest, left and up.
pub(crate) fn contacts(bow: &Bow) -> [Contact; 2] {
    let rest = &bow.rest;
    let (stiffness, damping) = (rest.stiffness.si(), rest.damping.si());
    let plain = |push: f64| Contact { stiffness, damping, preload: 0.0, push };
    let out = match rest.side {
        Side::Left => 1.0,
        Side::Right => -1.0,
    };
    match rest.kind {
        RestKind::DropAway | RestKind::Containment => [plain(0.0), plain(0.0)],
        RestKind::SidePoint => [Contact { preload: rest.preload.si(), ..plain(out) }, plain(1.0)],
        RestKind::Shelf => [plain(out), plain(1.0)],
    }
}

/// Restraint of the string on the nock, left and up, over the push, 1/m, with
/// the nock this far behind the line of the limb tips.
///
/// Sideways the string is a pendulum about that line, F/h. Along itself it is
/// F h/L^2, L from tip to nock: for a string of constant length, because the
/// nock runs on an ellipse about the tips; for one that cams pay out at even
/// tension, because the two pulls turn. The first length is that at brace, the
/// second grows with h.
pub(crate) fn string(bow: &Bow, behind: f64) -> [f64; 2] {
    let half = bow.half_string.si();
    let paid_out = match bow.kind {
        BowKind::Compound => behind * behind - bow.tip_line.si().powi(2),
        BowKind::Recurve | BowKind::Longbow => 0.0,
    };
    let k = bow.restraint.si();
    [k / behind, k * behind / (half * half + paid_out)]
}
