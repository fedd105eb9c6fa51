//! How near the vanes come to riser and rest.

use arrow::Vanes;
use launch::{Detail, History, RestKind, Side, power_stroke, watch};

use super::bench::UndrawnShots;
use crate::StudyError;
use crate::shoot::Shooter;

/// How far back from the rest the riser stands beside the arrow, m. Chosen:
/// two inches of riser behind the rest, as shelves are.
const RISER_BEHIND: f64 = 0.05;
/// How far to each side a rest that has fallen away reaches, m. Chosen: half
/// the width of a common launcher with room.
const FALLEN_HALF_WIDTH: f64 = 0.012;
/// Step of the arrow after the string, m. Chosen: a fortieth of a short vane.
const STEP: f64 = 1e-3;
/// Places along a vane, and from its root to its edge.
const ALONG: u32 = 24;
const ACROSS: u32 = 8;

/// The nearest pass so far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pass {
    pub(crate) gap: f64,
    pub(crate) travel: f64,
    pub(crate) station: f64,
    pub(crate) clock: f64,
    pub(crate) after: bool,
}

/// To riser and rest.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Passes {
    pub(crate) riser: Option<Pass>,
    pub(crate) rest: Option<Pass>,
}

/// Where the rest's top is, and how far it reaches to the sides, m.
struct Bar {
    top: f64,
    from: f64,
    to: f64,
}

/// Bow and arrow as the vanes pass.
struct Scene<'a> {
    vanes: &'a Vanes,
    radius: f64,
    roll: f64,
    out: f64,
    riser_gap: f64,
    bar: Option<Bar>,
    passes: Passes,
}

impl UndrawnShots<'_> {
    /// Follows the vanes past the bow: through the push, then coasting until
    /// the last vane is past the rest. Values given directly for the departure
    /// play no part.
    pub(crate) fn clearance(&self, shot: &Shooter) -> Result<Passes, StudyError> {
        let setup = &shot.setup;
        let Some(vanes) = &setup.parts.vanes else { return Ok(Passes::default()) };
        let refused = |source| StudyError::Launch { who: self.tag().who(), source };
        let built = &shot.built;
        let detail = Detail::default();
        let history = watch(&setup.bow, &setup.parts, built, setup.index, &setup.form, detail)
            .map_err(refused)?;
        let bow = &setup.bow;
        let stroke = power_stroke(bow.draw_length, bow.brace_height).map_err(refused)?.si();
        let mut scene = Scene::new(shot, vanes);
        let ahead = bow.rest.ahead.si();
        for frame in &history.frames {
            let travel = stroke * frame.travelled;
            let over = ahead + stroke - travel;
            scene.look(over, travel, false, &|station| history.shaft(frame, station));
        }
        scene.coast(&history, ahead, stroke);
        Ok(scene.passes)
    }
}

impl<'a> Scene<'a> {
    fn new(shot: &Shooter, vanes: &'a Vanes) -> Self {
        let rest = &shot.setup.bow.rest;
        let radius = shot.setup.parts.shaft.outside.si() / 2.0;
        let out = match rest.side {
            Side::Left => 1.0,
            Side::Right => -1.0,
        };
        let riser_gap = rest.riser_gap.si();
        let bar = match rest.kind {
            RestKind::Containment => None,
            RestKind::DropAway if rest.share.si() < 1.0 => {
                Some(Bar { top: -rest.drop.si(), from: -FALLEN_HALF_WIDTH, to: FALLEN_HALF_WIDTH })
            }
            // From the riser to the far side of the shaft that lies on it.
            RestKind::DropAway | RestKind::SidePoint | RestKind::Shelf => {
                let (riser, far) = (-out * riser_gap, out * radius);
                Some(Bar { top: -radius, from: riser.min(far), to: riser.max(far) })
            }
        };
        let roll = shot.setup.index.si();
        Self { vanes, radius, roll, out, riser_gap, bar, passes: Passes::default() }
    }

    /// From the string to where the rear of the vanes has passed the rest.
    fn coast(&mut self, history: &History, ahead: f64, stroke: f64) {
        let speed = history.departure.speed;
        let mut gone = STEP;
        while ahead - gone > self.vanes.position.si() {
            let time = gone / speed;
            self.look(ahead - gone, stroke + gone, true, &|station| {
                history.coasting(time, station)
            });
            gone += STEP;
        }
    }

    /// Height of a vane above the shaft at a station, m; none off the vane.
    fn height(&self, station: f64) -> Option<f64> {
        let v = self.vanes;
        let back = station - v.position.si();
        let front = v.root.si() - back;
        if back < 0.0 || front < 0.0 {
            return None;
        }
        let rear_slope = v.root.si() - v.sweep.si() - v.tip.si();
        let share = |from_end: f64, slope: f64| {
            if slope > 0.0 { (from_end / slope).min(1.0) } else { 1.0 }
        };
        Some(v.span.si() * share(front, v.sweep.si()).min(share(back, rear_slope)))
    }

    /// The arrow at an instant, station `over` of it above the rest.
    fn look(&mut self, over: f64, travel: f64, after: bool, line: &dyn Fn(f64) -> [f64; 2]) {
        let (rear, front) =
            (self.vanes.position.si(), self.vanes.position.si() + self.vanes.root.si());
        if over - RISER_BEHIND > front || over < rear {
            return;
        }
        let between = std::f64::consts::TAU / f64::from(self.vanes.count);
        for vane in 0..self.vanes.count {
            let clock = self.roll + between * f64::from(vane);
            let (sin, cos) = clock.sin_cos();
            for place in 0..=ALONG {
                let share = f64::from(place) / f64::from(ALONG);
                let station = (over - RISER_BEHIND) + share * RISER_BEHIND;
                let Some(height) = self.height(station) else { continue };
                let centre = line(station);
                let reach = self.radius + height;
                let gap = self.out * (centre[0] - reach * sin) + self.riser_gap;
                keep(&mut self.passes.riser, Pass { gap, travel, station, clock, after });
            }
            let (Some(height), Some(bar)) = (self.height(over), &self.bar) else { continue };
            let centre = line(over);
            for place in 0..=ACROSS {
                let reach = self.radius + height * f64::from(place) / f64::from(ACROSS);
                let gap = bar.gap(centre[0] - reach * sin, centre[1] + reach * cos);
                keep(&mut self.passes.rest, Pass { gap, travel, station: over, clock, after });
            }
        }
    }
}

impl Bar {
    /// Distance of a place from the bar; below its top, how far below.
    fn gap(&self, left: f64, up: f64) -> f64 {
        let beside = (self.from - left).max(left - self.to).max(0.0);
        let above = up - self.top;
        if beside > 0.0 { beside.hypot(above.max(0.0)) } else { above }
    }
}

fn keep(least: &mut Option<Pass>, pass: Pass) {
    if least.is_none_or(|least| pass.gap < least.gap) {
        *least = Some(pass);
    }
}
