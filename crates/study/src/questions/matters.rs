//! Whose share of the group's spread is how large. Model card:
//! docs/model/shares.md.

use std::sync::Arc;

use arrow::Built;
use target::{Estimate, Group, Impact};
use units::Length;

use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::shares::{ShareEstimator, VarianceSums};
use crate::sightin::checked;
use crate::sobol::{Design, MOST_POINTS, REPLICATES};
use crate::variant::Variant;
use crate::{Build, DrawnParameter, Owner, Plan, Shares, StudyError, Watch};

/// Along which axis a spread is shared out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Plane {
    /// Left and up together: the sum of both variances.
    Both,
    /// Sideways.
    Left,
    /// Up and down.
    Up,
    /// The distance from the group's centre.
    Radius,
}

impl Plane {
    /// Every axis, in the order of [`MarkShares::axes`].
    pub const ALL: [Self; 4] = [Self::Both, Self::Left, Self::Up, Self::Radius];
}

/// One cause of spread: drawn values that are one thing, such as the size of a
/// fault and its clock position.
#[derive(Debug, Clone, PartialEq)]
pub struct CauseName {
    /// Dotted key, or the table that its keys share.
    pub name: String,
    /// Whose doing it is.
    pub owner: Owner,
}

/// What one cause, or one owner's causes together, have of a variance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CauseShare {
    /// On its own: the first-order index.
    pub alone: Estimate,
    /// With everything it has a part in: the total index.
    pub total: Estimate,
}

impl CauseShare {
    /// Indices of shares, the largest on its own first.
    pub fn ranked(shares: &[Self]) -> Vec<usize> {
        let mut order: Vec<usize> = (0..shares.len()).collect();
        order.sort_by(|a, b| shares[*b].alone.value.total_cmp(&shares[*a].alone.value));
        order
    }
}

/// The shares of a spread along one axis.
#[derive(Debug, Clone, PartialEq)]
pub struct SharesOf {
    /// Standard deviation along the axis, m; of both, the root of the summed
    /// variances.
    pub sigma: f64,
    /// By cause.
    pub causes: Vec<CauseShare>,
    /// By owner.
    pub owners: Vec<CauseShare>,
    /// Sum of the causes' first-order shares.
    pub sum: Estimate,
    /// Share of causes that work together: half of what their total shares
    /// are above their first-order shares; exact where they work in pairs.
    pub together: Estimate,
    /// What is left: sampling, and causes that work by threes and more.
    pub unexplained: Estimate,
}

/// The shares at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkShares {
    /// Distance.
    pub distance: Length,
    /// The group.
    pub group: Group,
    /// By axis, as in [`Plane::ALL`]; none where nothing spreads.
    pub axes: [Option<SharesOf>; 4],
}

/// One group and who owns its spread.
#[derive(Debug, Clone, PartialEq)]
pub struct CauseSpread {
    /// The causes.
    pub causes: Vec<CauseName>,
    /// The owners that have a cause.
    pub owners: Vec<Owner>,
    /// Flights flown.
    pub flights: usize,
    /// Widest half-width of any share's interval.
    pub widest: f64,
    /// By distance.
    pub marks: Vec<MarkShares>,
}

/// The shares of one build.
#[derive(Debug, Clone, PartialEq)]
pub struct MattersBuild {
    /// Name.
    pub name: String,
    /// The nominal arrow.
    pub built: Built,
    /// Archer and arrows together.
    pub full: CauseSpread,
    /// The same from a machine without form error; none where the archer
    /// makes no part of the spread, or all of it.
    pub machine: Option<CauseSpread>,
}

impl MattersBuild {
    /// The group of the archer and that of the machine, as far as it is there.
    pub fn spreads(&self) -> impl Iterator<Item = &CauseSpread> {
        std::iter::once(&self.full).chain(&self.machine)
    }
}

/// Whose share of the spread is how large.
#[derive(Debug, Clone, PartialEq)]
pub struct Matters {
    /// Half-width asked for.
    pub within: f64,
    /// The builds.
    pub builds: Vec<MattersBuild>,
}

/// Points of a set in the first round; each further round doubles them.
/// Chosen: fewer leave the scatter between sets itself too uncertain to stop
/// by.
const FIRST_POINTS: usize = 64;
/// Points of a set at least. Chosen: below, a set's own variance means nothing.
const LEAST_POINTS: usize = 4;
/// The last names of keys that say where something points, not how large it
/// is.
const POINTERS: [&str; 2] = ["clock", "from"];

/// Answers a question for shares.
pub(crate) fn run(
    plan: &Plan,
    asked: Shares,
    watch: &dyn Watch,
) -> Result<(Matters, usize), StudyError> {
    let distances = checked(&plan.distances)?;
    if plan.builds.is_empty() {
        return Err(StudyError::NoBuild);
    }
    if asked.within.is_nan() || asked.within <= 0.0 {
        return Err(StudyError::ShareWithin { share: asked.within });
    }
    let settings = RunSettings { seed: plan.seed, arrows: None, distances: &distances, watch };
    let mut builds = Vec::with_capacity(plan.builds.len());
    for build in &plan.builds {
        let sampler = BuildSampler::new(Variant::of(build), &distances)?;
        builds.push(shared(&sampler, asked, plan.flights, &settings)?);
    }
    let spreads = builds.iter().flat_map(MattersBuild::spreads);
    let flown = spreads.map(|spread| spread.flights).sum();
    Ok((Matters { within: asked.within, builds }, flown))
}

/// The fewest flights that give every build its shares.
pub(crate) fn least(plan: &Plan) -> usize {
    let rows = |build: &Build| {
        let draws: Vec<&DrawnParameter> = Variant::of(build).draws(Sample::Full).collect();
        2 + VarianceParts::of(&draws).inputs.len()
    };
    LEAST_POINTS * REPLICATES * plan.builds.iter().map(rows).max().unwrap_or_default()
}

/// What is shared out: the causes, and the owners that have several.
struct VarianceParts {
    causes: Vec<CauseName>,
    owners: Vec<Owner>,
    /// Inputs of each part: the causes, then owners with several causes.
    inputs: Vec<Vec<usize>>,
    /// Which part stands for each owner.
    of_owner: Vec<usize>,
}

impl VarianceParts {
    fn of(draws: &[&DrawnParameter]) -> Self {
        let mut causes: Vec<CauseName> = Vec::new();
        let mut inputs: Vec<Vec<usize>> = Vec::new();
        for (input, draw) in draws.iter().enumerate() {
            let name = name(draw, draws);
            if let Some(at) = causes.iter().position(|cause| cause.name == name) {
                inputs[at].push(input);
            } else {
                causes.push(CauseName { name: name.to_owned(), owner: draw.owner });
                inputs.push(vec![input]);
            }
        }
        let mut owners: Vec<Owner> = causes.iter().map(|cause| cause.owner).collect();
        owners.sort_unstable();
        owners.dedup();
        let mut of_owner = Vec::with_capacity(owners.len());
        for owner in &owners {
            let own = |at: &usize| causes[*at].owner == *owner;
            let of: Vec<usize> = (0..causes.len()).filter(own).collect();
            of_owner.push(if let [only] = of[..] {
                only
            } else {
                inputs.push(of.iter().flat_map(|at| inputs[*at].clone()).collect());
                inputs.len() - 1
            });
        }
        Self { causes, owners, inputs, of_owner }
    }
}

/// The name of a draw's cause: its table's where a value of the table says
/// where another one points, else its own key.
fn name<'a>(draw: &'a DrawnParameter, draws: &[&DrawnParameter]) -> &'a str {
    let Some((table, _)) = draw.key.rsplit_once('.') else { return &draw.key };
    let points = |other: &&DrawnParameter| {
        let split = other.key.rsplit_once('.');
        split.is_some_and(|(of, last)| of == table && POINTERS.contains(&last))
    };
    if draws.iter().any(points) { table } else { &draw.key }
}

/// Outputs of every set of points flown so far, by distance.
type SobolSets = Vec<Vec<Vec<Impact>>>;

fn shared(
    sampler: &BuildSampler,
    asked: Shares,
    most: usize,
    settings: &RunSettings,
) -> Result<MattersBuild, StudyError> {
    let (all, machine) = (
        sampler.variant.draws(Sample::Full).count(),
        sampler.variant.draws(Sample::Machine).count(),
    );
    if all == 0 {
        return Err(StudyError::NoSpread { build: sampler.variant.name.to_owned() });
    }
    let full = spread(sampler, Sample::Full, asked, most, settings)?;
    let machine = if (1..all).contains(&machine) {
        Some(spread(sampler, Sample::Machine, asked, most, settings)?)
    } else {
        None
    };
    Ok(MattersBuild {
        name: sampler.variant.name.to_owned(),
        built: sampler.sighted.built.clone(),
        full,
        machine,
    })
}

fn spread(
    sampler: &BuildSampler,
    take: Sample,
    asked: Shares,
    most: usize,
    settings: &RunSettings,
) -> Result<CauseSpread, StudyError> {
    let draws: Vec<&DrawnParameter> = sampler.variant.draws(take).collect();
    let parts = VarianceParts::of(&draws);
    let design = Arc::new(Design::new(settings.seed, draws.len(), &parts.inputs)?);
    let rows = design.rows();
    let (least, first) = (LEAST_POINTS * REPLICATES * rows, FIRST_POINTS * REPLICATES * rows);
    if most < least {
        let build = sampler.variant.name.to_owned();
        return Err(StudyError::FewForShares { build, flights: most, least });
    }
    let mut sets: SobolSets = vec![vec![Vec::new(); settings.distances.len()]; REPLICATES];
    let allowed = 1 << (most.min(first) / (REPLICATES * rows)).ilog2();
    let (mut from, mut upto) = (0, FIRST_POINTS.min(allowed));
    loop {
        settings.watch.planned(((upto - from) * rows * REPLICATES) as u64);
        for (set, columns) in sets.iter_mut().enumerate() {
            let design = Arc::clone(&design);
            let chances = Arc::new(move |row, input| design.chance(set, row, input));
            let more = sampler.fly_by(take, chances, from * rows..upto * rows, settings)?;
            for (column, more) in columns.iter_mut().zip(more) {
                column.extend(more);
            }
        }
        let marks: Vec<MarkShares> = (0..settings.distances.len())
            .map(|place| mark(&sets, place, rows, &parts, settings))
            .collect::<Result<_, _>>()?;
        let widest = widest(&marks);
        let flights = upto * rows * REPLICATES;
        if widest <= asked.within || 2 * flights > most || upto == MOST_POINTS {
            let VarianceParts { causes, owners, .. } = parts;
            return Ok(CauseSpread { causes, owners, flights, widest, marks });
        }
        (from, upto) = (upto, 2 * upto);
    }
}

/// The widest half-width of any share's interval.
fn widest(marks: &[MarkShares]) -> f64 {
    let axes = marks.iter().flat_map(|mark| mark.axes.iter().flatten());
    let shares = axes.flat_map(|of| of.causes.iter().chain(&of.owners));
    let both = shares.flat_map(|share| [share.alone, share.total]);
    both.map(|share| 0.5 * (share.high - share.low)).fold(0.0, f64::max)
}

fn mark(
    sets: &SobolSets,
    place: usize,
    rows: usize,
    parts: &VarianceParts,
    settings: &RunSettings,
) -> Result<MarkShares, StudyError> {
    let columns = || sets.iter().map(|set| &set[place]);
    let drawn: Vec<Impact> =
        columns().flat_map(|c| c.chunks_exact(rows).flat_map(|p| [p[0], p[1]])).collect();
    let group = Group::of(&drawn)?;
    let centre = group.centre;
    let sums = |output: &dyn Fn(&Impact) -> f64| -> Vec<VarianceSums> {
        columns()
            .map(|c| VarianceSums::of(&c.iter().map(output).collect::<Vec<_>>(), rows))
            .collect()
    };
    let left = sums(&|i| i.left);
    let up = sums(&|i| i.up);
    let both: Vec<VarianceSums> = left.iter().cloned().zip(&up).map(|(l, u)| l.and(u)).collect();
    let radius = sums(&|i| (i.left - centre.left).hypot(i.up - centre.up));
    let mut axes = [None, None, None, None];
    for (axis, out) in Plane::ALL.into_iter().zip(&mut axes) {
        let sets = match axis {
            Plane::Both => &both,
            Plane::Left => &left,
            Plane::Up => &up,
            Plane::Radius => &radius,
        };
        *out = shares(sets, parts)?;
    }
    Ok(MarkShares { distance: Length::from_si(settings.distances[place]), group, axes })
}

/// The shares of one spread; none where nothing spreads.
fn shares(sets: &[VarianceSums], parts: &VarianceParts) -> Result<Option<SharesOf>, StudyError> {
    let Some(ratio) = ShareEstimator::new(sets) else { return Ok(None) };
    let causes = parts.causes.len();
    let share = |part: usize| -> Result<CauseShare, StudyError> {
        Ok(CauseShare { alone: ratio.of(|s| s.first[part])?, total: ratio.of(|s| s.total[part])? })
    };
    let alone = |s: &VarianceSums| s.first[..causes].iter().sum::<f64>();
    let together = |s: &VarianceSums| 0.5 * (s.total[..causes].iter().sum::<f64>() - alone(s));
    let variance = sets.iter().map(|s| s.variance).sum::<f64>() / sets.len() as f64;
    Ok(Some(SharesOf {
        sigma: variance.sqrt(),
        causes: (0..causes).map(share).collect::<Result<_, _>>()?,
        owners: parts.of_owner.iter().map(|part| share(*part)).collect::<Result<_, _>>()?,
        sum: ratio.of(alone)?,
        together: ratio.of(together)?,
        unexplained: ratio.of(|s| s.variance - alone(s) - together(s))?,
    }))
}
