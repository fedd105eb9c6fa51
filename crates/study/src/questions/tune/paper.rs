//! The tear in a sheet of paper.

use std::sync::atomic::Ordering;

use body::{Attitude, State};
use units::Length;

use super::bench::UndrawnShots;
use crate::shoot::Shooter;
use crate::{Offset, StudyError, Tear};

/// One sheet shot through.
pub(crate) struct Torn {
    /// From the tip's hole to the nock's place, left and up, m.
    pub(crate) nock: [f64; 2],
    tip: State,
    roll: f64,
}

impl UndrawnShots<'_> {
    /// The tear at each sheet, m along the line; none where the arrow does not
    /// get there.
    pub(crate) fn tears(
        &self,
        shot: &Shooter,
        sheets: &[f64],
    ) -> Result<Vec<Option<Torn>>, StudyError> {
        sheets.iter().map(|&sheet| self.tear(shot, sheet)).collect()
    }

    /// The tip makes the hole; the tear ends where the groove passes the sheet.
    /// Between the two the arrow flies freely: the paper's own push is left
    /// out.
    fn tear(&self, shot: &Shooter, sheet: f64) -> Result<Option<Torn>, StudyError> {
        let built = &shot.built;
        let lever = built.mass.balance().si();
        let front = shot.front();
        if sheet <= front {
            let who = self.tag().who();
            return Err(StudyError::Near { who, distance: sheet, front });
        }
        self.flown.fetch_add(1, Ordering::Relaxed);
        let marks = [sheet - front, sheet + lever];
        let flight = shot.fly(&marks)?;
        let [tip, nock] = flight.marks[..] else { return Ok(None) };
        let flex = &shot.departure.flex;
        let (hole, end) = (built.effects.tip_offset, built.effects.groove_offset);
        let place = |state: &State, ahead: f64, beside: (f64, f64), swing: [f64; 2]| {
            let along = state.axis * ahead;
            [
                state.position.y + along.y + beside.0 + swing[0],
                state.position.z + along.z + beside.1 + swing[1],
            ]
        };
        let from = place(&tip, front, hole.left_up(tip.roll), flex.tip_at(tip.time));
        let to = place(&nock, -lever, end.left_up(nock.roll), flex.nock_at(nock.time));
        Ok(Some(Torn { nock: [to[0] - from[0], to[1] - from[1]], tip, roll: nock.roll }))
    }
}

impl Torn {
    /// The answer.
    pub(crate) fn tear(&self, sheet: f64, vanes: u8) -> Tear {
        let (nose, path) = (self.tip.attitude(), Attitude::of(&self.tip.velocity));
        let between = std::f64::consts::TAU / f64::from(vanes);
        Tear {
            distance: Length::from_si(sheet),
            nock: Offset::new(self.nock),
            yaw: nose.yaw - path.yaw,
            pitch: nose.pitch - path.pitch,
            vanes: (0..vanes).map(|k| self.roll + between * f64::from(k)).collect(),
        }
    }
}
