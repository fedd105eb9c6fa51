//! What a rest does to the shaft. Model card: docs/model/push.md.

use solve::Number;

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
pub(crate) struct Contact<N> {
    stiffness: N,
    damping: N,
    preload: N,
    /// Stiffest it gets, N/m.
    stop: N,
    /// Direction in which it can push; zero where it also pulls.
    push: f64,
}

impl<N: Number> Contact<N> {
    /// Force on the shaft at a place (m) and velocity (m/s) of the contact.
    #[inline(always)]
    pub(crate) fn force(&self, place: N, velocity: N) -> N {
        if self.push == 0.0 {
            return -(self.stiffness * place + self.damping * velocity);
        }
        let (none, push) = (place.same(0.0), place.same(self.push));
        let pressed = -(push * place);
        let spring = (self.stop * pressed).min(self.stiffness.mul_add(pressed, self.preload));
        let damping = self.damping * (pressed * place.same(1.0 / SOFT)).min(place.same(1.0));
        let force = push * (spring - push * damping * velocity).max(none);
        pressed.if_above_zero(force, none)
    }

    /// How far it gives under a steady force (N), m; not at all without a spring.
    #[inline(always)]
    pub(crate) fn sag(&self, force: N) -> N {
        self.stiffness.if_above_zero(force / self.stiffness, force.same(0.0))
    }

    /// How deep a place of the shaft presses it; without end for one that holds.
    #[inline(always)]
    pub(crate) fn depth(&self, place: N) -> N {
        if self.push == 0.0 { place.same(f64::MAX) } else { -(place.same(self.push) * place) }
    }

    /// Whether it pulls as well as pushes, so that it never opens.
    pub(crate) fn holds(&self) -> bool {
        self.push == 0.0
    }

    /// Its numbers in lanes.
    #[inline(always)]
    pub(crate) fn with<M: Number>(&self, load: impl Fn(&dyn Fn(&Self) -> N) -> M) -> Contact<M> {
        Contact {
            stiffness: load(&|c| c.stiffness),
            damping: load(&|c| c.damping),
            preload: load(&|c| c.preload),
            stop: load(&|c| c.stop),
            push: self.push,
        }
    }
}

impl Contact<f64> {
    /// Stiffest it gets, N/m.
    pub(crate) fn stiffest(&self) -> f64 {
        self.stop
    }

    /// Whether its spring begins to give at a force of its own.
    pub(crate) fn preloaded(&self) -> bool {
        self.preload > 0.0
    }

    pub(crate) fn damping(&self) -> f64 {
        self.damping
    }
}

/// The contacts of a bow's rest, left and up.
pub(crate) fn contacts(bow: &Bow) -> [Contact<f64>; 2] {
    let rest = &bow.rest;
    let (stiffness, damping) = (rest.stiffness.si(), rest.damping.si());
    let plain = |push: f64| Contact { stiffness, damping, preload: 0.0, stop: stiffness, push };
    let out = match rest.side {
        Side::Left => 1.0,
        Side::Right => -1.0,
    };
    match rest.kind {
        // The launcher's fork holds the shaft to both sides, and only carries it.
        RestKind::DropAway => [plain(0.0), plain(1.0)],
        RestKind::Containment => [plain(0.0), plain(0.0)],
        RestKind::SidePoint => {
            let preload = rest.preload.si();
            let stop = if preload > 0.0 { LEAST_STOP.max(STOP * stiffness) } else { stiffness };
            [Contact { preload, stop, ..plain(out) }, plain(1.0)]
        }
        RestKind::Shelf => [plain(out), plain(1.0)],
    }
}
