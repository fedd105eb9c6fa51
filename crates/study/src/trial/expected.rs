//! What two builds are expected to differ by, computed.

use target::{Group, Impact};
use units::Length;

use crate::group_cache::GroupCache;
use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::shoot::Shooter;
use crate::variant::Variant;
use crate::{Build, Owner, StudyError, Watch};

/// Flights of each build. Chosen: sigma is then known to 1.1 % (one standard error),
/// and the two builds share their chances.
const FLIGHTS: usize = 4_000;

/// What two builds are expected to differ by at a distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expected {
    /// Sigma of the second over that of the first.
    pub ratio: f64,
    /// The second's centre from the first's, left and up, with the same aim, m.
    pub shift: [f64; 2],
    /// The distance of the centres in sigmas of both together.
    pub sigmas: f64,
    /// Sigma of both together, m.
    pub sigma: f64,
}

/// What two builds are expected to differ by; none where nobody is said to shoot, since
/// a machine's groups say nothing of how many arrows an archer needs.
///
/// # Errors
/// What kept an arrow from being built, shot or flown so far; no spread at all;
/// [`StudyError::Cancelled`] when the watch ends it.
pub fn expected(
    builds: [&Build; 2],
    distance: Length,
    seed: u64,
    watch: &dyn Watch,
) -> Result<Option<Expected>, StudyError> {
    let shoots = |build: &&Build| build.recipe.draws().iter().any(|d| d.owner == Owner::Archer);
    if !builds.iter().all(shoots) {
        return Ok(None);
    }
    let distances = [distance.si()];
    let variants = builds.map(Variant::of);
    let mut groups = Vec::new();
    for variant in variants {
        let sampler = BuildSampler::new(variant, &distances)?;
        let settings = RunSettings { seed, arrows: None, distances: &distances, watch };
        let mut cache = GroupCache::new(settings, vec![sampler]);
        groups.push(Group::of(&cache.group(0, Sample::Full, FLIGHTS)?[0])?);
    }
    let [one, other] = [&groups[0], &groups[1]];
    // Impacts of a group are from its own fault-free arrow, whose sight is set for it;
    // the second is shot with the sight set for the first.
    let home = variants[0].zeroed()?;
    let away = Shooter::new(variants[1].tag(), variants[1].undrawn(Sample::Nominal)?)?;
    let [from, to] = [home.tips(&distances)?[0], away.aimed(home.pitch).tips(&distances)?[0]];
    let apart = |read: fn(&Impact) -> f64| {
        read(&to) + read(&other.centre) - read(&from) - read(&one.centre)
    };
    let shift = [apart(|at| at.left), apart(|at| at.up)];
    let sigma = (0.5 * (one.sigma.value.powi(2) + other.sigma.value.powi(2))).sqrt();
    let ratio = other.sigma.value / one.sigma.value;
    let sigmas = shift[0].hypot(shift[1]) / sigma;
    if !(ratio.is_finite() && sigmas.is_finite() && ratio > 0.0) {
        return Err(target::TargetError::NoSpread.into());
    }
    Ok(Some(Expected { ratio, shift, sigmas, sigma }))
}
