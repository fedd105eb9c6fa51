//! One value varied at a time, and which change brings the shot nearest
//! neutral.

use rayon::prelude::*;

use super::bench::{UndrawnShots, side, swing};
use crate::first::all_or_first;
use crate::{Neutral, StudyError, Sweep, Trend, TrendPoint, TrendShot, TuningChange};

/// A change counts as nearer when it takes away at least this share of the
/// separation. Chosen: a fifth; nobody tunes for less.
const WORTH: f64 = 0.2;

/// The key whose values tell to which side a bare shaft goes.
pub(crate) const SPINE: &str = "arrow.shaft.spine";

impl UndrawnShots<'_> {
    /// All values of a sweep. A value that cannot be built or shot keeps its
    /// reason; any other failure ends the run.
    pub(crate) fn trend(&self, sweep: &Sweep) -> Result<Trend, StudyError> {
        let own = sweep.values.get(sweep.values.len() / 2).copied();
        let points = sweep.values.par_iter().zip(&sweep.labels).map(|(&value, label)| {
            let shot = self.trend_shot(sweep, value);
            self.watch.done(1);
            let shot = match shot {
                Err(
                    error @ (StudyError::Arrow { .. }
                    | StudyError::Launch { .. }
                    | StudyError::Refused { .. }
                    | StudyError::Short { .. }
                    | StudyError::OutOfReach { .. }),
                ) => Err(error),
                Err(error) => return Err(error),
                Ok(shot) => Ok(shot),
            };
            let left_in = match &shot {
                Ok(shot) if sweep.key == SPINE => {
                    shot.apart.iter().map(|apart| side((*apart)?[0])).collect()
                }
                _ => Vec::new(),
            };
            Ok(TrendPoint { label: label.clone(), value, shot, left_in })
        });
        Ok(Trend {
            key: sweep.key.clone(),
            dimension: sweep.dimension,
            own: own.unwrap_or_default(),
            points: all_or_first(points)?,
        })
    }

    fn trend_shot(&self, sweep: &Sweep, value: f64) -> Result<TrendShot, StudyError> {
        let shot = self.shot(Some((sweep.slot, value)))?;
        Ok(TrendShot {
            mass: shot.built.mass.mass().si(),
            departure: shot.departure,
            swing: swing(&shot),
            apart: self.apart(&shot, &self.bare(&shot)?)?,
        })
    }
}

/// How far from neutral a shot is, bare less fletched being `now` at each distance, and
/// what brings it nearer: of each value its best, the nearest first.
pub(super) fn neutral(now: &[Option<f64>], trends: &[Trend]) -> Option<Neutral> {
    let (mark, now) = now.iter().enumerate().rev().find_map(|(mark, now)| Some((mark, (*now)?)))?;
    let best = |(index, trend): (usize, &Trend)| {
        let all = candidates(trend, mark).into_iter();
        let (value, left_over) = all.min_by(|a, b| a.1.total_cmp(&b.1))?;
        (left_over < (1.0 - WORTH) * now).then_some(TuningChange { trend: index, value, left_over })
    };
    let mut changes: Vec<TuningChange> = trends.iter().enumerate().filter_map(best).collect();
    changes.sort_by(|a, b| a.left_over.total_cmp(&b.left_over));
    Some(Neutral { mark, changes })
}

/// Values and the separations they leave: every value tried, and where the
/// straight way between two neighbours' separations comes nearest to zero.
fn candidates(trend: &Trend, mark: usize) -> Vec<(f64, f64)> {
    let of =
        |point: &TrendPoint| Some((point.value, *point.shot.as_ref().ok()?.apart[mark].as_ref()?));
    let mut out = trend.apart(mark);
    for pair in trend.points.windows(2) {
        if let (Some((v, [l, u])), Some((w, [m, n]))) = (of(&pair[0]), of(&pair[1])) {
            let (dl, du) = (m - l, n - u);
            let share = -(l * dl + u * du) / (dl * dl + du * du);
            if share > 0.0 && share < 1.0 {
                out.push((v + share * (w - v), (l + share * dl).hypot(u + share * du)));
            }
        }
    }
    out
}
