//! The nock turned in the shaft.

use rayon::prelude::*;
use units::Angle;

use super::bench::{Bench, Places, Shot, less};
use crate::group::{Ground, Rig};
use crate::take::Take;
use crate::{Setup, StudyError};

/// Arrows drawn to see what turning does to a typical one. Chosen: their
/// median is known to about a tenth.
const ARROWS: usize = 100;

/// The nock turned clockwise in the shaft, seen from behind.
///
/// The string holds the groove as before, so the nock stays as it was against
/// the bow and the rest of the arrow turns the other way under it. Of the
/// faults the nock's own cant and the groove's offset go with the nock; the
/// shaft's rear face stays with the shaft.
pub(crate) fn turned(mut setup: Setup, angle: f64) -> Setup {
    let add = |clock: &mut Angle, by: f64| *clock = Angle::from_si(clock.si() + by);
    add(&mut setup.faults.nock_cant.clock, angle);
    add(&mut setup.faults.nock_offset.clock, angle);
    add(&mut setup.faults.groove_offset.clock, angle);
    add(&mut setup.index, -angle);
    setup
}

/// The steps that leave the vanes in each other's places, rad.
pub(crate) fn steps(setup: &Setup) -> Vec<f64> {
    let count = setup.parts.vanes.map_or(1, |vanes| vanes.count);
    (0..count).map(|k| std::f64::consts::TAU * f64::from(k) / f64::from(count)).collect()
}

impl Bench<'_> {
    /// How far each step moves the impact at each distance.
    pub(crate) fn turns(&self, shot: &Shot, home: &Places) -> Result<Vec<Places>, StudyError> {
        let step = |angle: f64| {
            let turned = self.aimed(turned(shot.setup.clone(), angle), shot.pitch)?;
            Ok(less(&self.land(&turned)?, home))
        };
        steps(&shot.setup)
            .into_iter()
            .map(|angle| if angle > 0.0 { step(angle) } else { Ok(less(home, home)) })
            .collect()
    }

    /// Median over drawn arrows of the widest distance between the impacts of
    /// two steps, at each distance; none where nothing of the arrow is drawn.
    pub(crate) fn drawn_turns(
        &self,
        ground: &Ground,
        pitch: f64,
    ) -> Result<Option<Vec<f64>>, StudyError> {
        let rig = Rig::new(self.name, self.recipe, None, None, self.distances)?;
        if rig.draws(Take::Machine).next().is_none() {
            return Ok(None);
        }
        let drawn = rig.drawn(Take::Machine, ground);
        let wide = |arrow: usize| -> Result<Vec<Option<f64>>, StudyError> {
            let setup = rig.setup(&mut drawn.clone(), arrow)?;
            let places: Vec<Places> = steps(&setup)
                .into_iter()
                .map(|angle| self.land(&self.aimed(turned(setup.clone(), angle), pitch)?))
                .collect::<Result<_, _>>()?;
            Ok((0..self.distances.len()).map(|at| widest(&places, at)).collect())
        };
        let found: Vec<Result<Vec<Option<f64>>, StudyError>> =
            (0..ARROWS).into_par_iter().map(wide).collect();
        let found: Vec<Vec<Option<f64>>> = found.into_iter().collect::<Result<_, _>>()?;
        let median = |at: usize| {
            let mut sizes: Vec<f64> = found.iter().filter_map(|arrow| arrow[at]).collect();
            sizes.sort_unstable_by(f64::total_cmp);
            sizes.get(sizes.len() / 2).copied()
        };
        Ok((0..self.distances.len()).map(median).collect())
    }
}

/// Widest distance between two of the impacts at one distance.
fn widest(places: &[Places], at: usize) -> Option<f64> {
    let mut most = 0.0_f64;
    for one in places {
        for other in places {
            let ([l, u], [m, v]) = (one[at]?, other[at]?);
            most = most.max((l - m).hypot(u - v));
        }
    }
    Some(most)
}
