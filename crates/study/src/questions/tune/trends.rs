//! One value varied at a time, and which change brings the shot nearest
//! neutral.

use rayon::prelude::*;

use super::bench::{UndrawnShots, swing};
use crate::first::all_or_first;
use crate::{Neutral, Offset, StudyError, Sweep, Trend, TrendPoint, TrendShot, TuningChange};

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
                    shot.apart.iter().map(|apart| super::side((*apart)?[0])).collect()
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
        let shot = self.shot(None, Some((sweep.slot, value)))?;
        Ok(TrendShot {
            mass: shot.built.mass.mass().si(),
            departure: shot.departure,
            swing: swing(&shot),
            apart: self.apart(&shot, &self.bare(&shot)?)?,
        })
    }

    /// How far from neutral the shot is, bare less fletched being `now` at
    /// each distance, and what brings it nearest.
    pub(crate) fn neutral(
        &self,
        now: &[Option<f64>],
        sweeps: &[Sweep],
        trends: &[Trend],
    ) -> Result<Option<Neutral>, StudyError> {
        let Some((mark, now)) =
            now.iter().enumerate().rev().find_map(|(mark, now)| Some((mark, (*now)?)))
        else {
            return Ok(None);
        };
        let mut best: Option<(usize, f64, f64)> = None;
        for (index, trend) in trends.iter().enumerate() {
            for (value, size) in candidates(trend, mark) {
                if best.is_none_or(|(_, _, least)| size < least) {
                    best = Some((index, value, size));
                }
            }
        }
        let Some((trend, value, _)) = best.filter(|best| best.2 < (1.0 - WORTH) * now) else {
            return Ok(Some(Neutral { mark, change: None }));
        };
        let swept = Some((sweeps[trend].slot, value));
        let shot = self.shot(None, swept)?;
        let left_over = self.apart(&shot, &self.bare(&shot)?)?[mark];
        let change = left_over.map(|left_over| TuningChange {
            trend,
            value,
            left_over: Offset::new(left_over),
        });
        Ok(Some(Neutral { mark, change }))
    }
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
