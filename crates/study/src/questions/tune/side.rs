//! To which side the bare shaft goes, over all that is poorly known.

use rayon::prelude::*;

use super::bench::{Places, UndrawnShots};
use crate::StudyError;
use crate::band::{Changed, settled};
use crate::first::all_or_first;
use crate::together::{FEW, Together, share, together};
use crate::variant::Variant;

/// Shots that this takes.
pub(crate) const SHOTS: u64 = FEW as u64;

impl UndrawnShots<'_> {
    /// At each distance the share of the draws in which the bare shaft lands to
    /// the left of the fletched one, a value swept.
    pub(crate) fn left_in(&self, swept: Changed) -> Result<Vec<Option<f64>>, StudyError> {
        let apart = |draw: &Together<'_>| -> Result<Option<Places>, StudyError> {
            let variant = Variant { recipe: draw, ..self.variant };
            let bench = UndrawnShots { variant, ..*self };
            let shot = settled(bench.shot(None, swept))?;
            self.watch.done(1);
            shot.map(|shot| bench.apart(&shot, &bench.bare(&shot)?)).transpose()
        };
        let draws = together(&self.variant, FEW)?;
        let drawn = all_or_first(draws.par_iter().map(apart))?;
        let at = |mark: usize| {
            let places = drawn.iter().flatten().filter_map(|places| places[mark]);
            share(places.filter(|[left, _]| *left != 0.0).map(|[left, _]| left > 0.0))
        };
        Ok((0..self.distances.len()).map(at).collect())
    }
}
