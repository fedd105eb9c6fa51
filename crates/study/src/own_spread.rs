//! What arrows alone would spread, to be taken off a group that was shot.

use target::Group;
use units::Length;

use crate::group_cache::GroupCache;
use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::variant::Variant;
use crate::{Owner, Quiet, Recipe, StudyError};

/// Flights for it. Chosen: sigma is then known to 2.2 % (one standard error), and
/// what it takes off a group is a fraction of that.
const FLIGHTS: usize = 1_000;

/// Sigma per axis, m, of everything that a recipe draws but the archer, at a
/// distance. Nothing is flown where nothing else is drawn.
///
/// # Errors
/// What kept an arrow from being built, shot or flown so far.
pub fn own_spread(recipe: &dyn Recipe, distance: Length, seed: u64) -> Result<f64, StudyError> {
    if recipe.draws().iter().all(|draw| draw.owner == Owner::Archer) {
        return Ok(0.0);
    }
    let distances = [distance.si()];
    let sampler = BuildSampler::new(Variant::new("own spread", recipe), &distances)?;
    let settings = RunSettings { seed, arrows: None, distances: &distances, watch: &Quiet };
    let mut cache = GroupCache::new(settings, vec![sampler]);
    let columns = cache.group(0, Sample::Machine, FLIGHTS)?;
    Ok(Group::of(&columns[0])?.sigma.value)
}
