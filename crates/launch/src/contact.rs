//! What a rest does to the shaft. Model card: docs/model/push.md.

use crate::bow::{Bow, RestKind, Side};

/// Depth of a contact over which its damping grows to the whole, m. Chosen: with
/// a damper that switches on at once, steps of any method converge to first
/// order alone; a soft surface takes hold over some hundredths of a millimetre.
pub(crate) const SOFT: f64 = 5e-5;

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
        let damping = self.damping * (pressed / SOFT).min(1.0);
        self.push * (spring - self.push * damping * velocity).max(0.0)
    }

    /// Stiffest it gets, N/m.
    pub(crate) fn stiffest(&self) -> f64 {
        if self.preload > 0.0 { LEAST_STOP.max(STOP * self.stiffness) } else { self.stiffness }
    }

    /// Whether it pulls as well as pushes, so that it never opens.
    pub(crate) fn holds(&self) -> bool {
        self.push == 0.0
    }

    /// How far it gives under a steady force (N), m; not at all without a spring.
    pub(crate) fn sag(&self, force: f64) -> f64 {
        if self.stiffness > 0.0 { force / self.stiffness } else { 0.0 }
    }

    /// How deep a place of the shaft presses it; none for one that holds.
    pub(crate) fn depth(&self, place: f64) -> Option<f64> {
        (!self.holds()).then_some(-self.push * place)
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
        // The launcher's fork holds the shaft to both sides, and only carries it.
        RestKind::DropAway => [plain(0.0), plain(1.0)],
        RestKind::Containment => [plain(0.0), plain(0.0)],
        RestKind::SidePoint => [Contact { preload: rest.preload.si(), ..plain(out) }, plain(1.0)],
        RestKind::Shelf => [plain(out), plain(1.0)],
    }
}
