//! Whose share of the group's spread is how large. Model card:
//! docs/model/shares.md.

use std::sync::Arc;

use target::{Group, Impact};
use units::Length;

use crate::group::{Ground, Rig};
use crate::matters::{Axis, Faulty, MarkShares, Matters, MattersBuild, Share, SharesOf, Spread};
use crate::shares::{Ratio, Sums};
use crate::sightin::checked;
use crate::sobol::{Design, MOST_POINTS, REPLICATES};
use crate::take::Take;
use crate::{Answer, Draw, Found, Owner, Plan, Shares, StudyError, Watch};

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
) -> Result<Answer, StudyError> {
    let distances = checked(&plan.distances)?;
    if plan.builds.is_empty() {
        return Err(StudyError::NoBuild);
    }
    if asked.within.is_nan() || asked.within <= 0.0 {
        return Err(StudyError::ShareWithin { share: asked.within });
    }
    let ground = Ground { seed: plan.seed, arrows: None, distances: &distances, watch };
    let mut builds = Vec::with_capacity(plan.builds.len());
    for build in &plan.builds {
        let rig = Rig::new(&build.name, build.recipe.as_ref(), None, None, &distances)?;
        builds.push(shared(&rig, asked, plan.flights, &ground)?);
    }
    let spreads = builds.iter().flat_map(MattersBuild::spreads);
    let flown = spreads.map(|spread| spread.flights).sum();
    Ok(Answer::new(plan, flown, Found::Matters(Matters { within: asked.within, builds })))
}

/// What is shared out: the causes, and the owners that have several.
struct Parts {
    causes: Vec<Faulty>,
    owners: Vec<Owner>,
    /// Inputs of each part: the causes, then owners with several causes.
    inputs: Vec<Vec<usize>>,
    /// Which part stands for each owner.
    of_owner: Vec<usize>,
}

impl Parts {
    fn of(draws: &[&Draw]) -> Self {
        let mut causes: Vec<Faulty> = Vec::new();
        let mut inputs: Vec<Vec<usize>> = Vec::new();
        for (input, draw) in draws.iter().enumerate() {
            let name = name(draw, draws);
            if let Some(at) = causes.iter().position(|cause| cause.name == name) {
                inputs[at].push(input);
            } else {
                causes.push(Faulty { name: name.to_owned(), owner: draw.owner });
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
fn name<'a>(draw: &'a Draw, draws: &[&Draw]) -> &'a str {
    let Some((table, _)) = draw.key.rsplit_once('.') else { return &draw.key };
    let points = |other: &&Draw| {
        let split = other.key.rsplit_once('.');
        split.is_some_and(|(of, last)| of == table && POINTERS.contains(&last))
    };
    if draws.iter().any(points) { table } else { &draw.key }
}

/// Outputs of every set of points flown so far, by distance.
type Sets = Vec<Vec<Vec<Impact>>>;

fn shared(
    rig: &Rig,
    asked: Shares,
    most: usize,
    ground: &Ground,
) -> Result<MattersBuild, StudyError> {
    let (all, machine) = (rig.draws(Take::Full).count(), rig.draws(Take::Machine).count());
    if all == 0 {
        return Err(StudyError::NoSpread { build: rig.name.to_owned() });
    }
    let mut built = rig.sighted.built.clone();
    built.notes.extend(arrow::light_note(built.mass.mass(), rig.sighted.setup.bow.draw_weight));
    let full = spread(rig, Take::Full, asked, most, ground)?;
    let machine = if (1..all).contains(&machine) {
        Some(spread(rig, Take::Machine, asked, most, ground)?)
    } else {
        None
    };
    Ok(MattersBuild { name: rig.name.to_owned(), built, full, machine })
}

fn spread(
    rig: &Rig,
    take: Take,
    asked: Shares,
    most: usize,
    ground: &Ground,
) -> Result<Spread, StudyError> {
    let draws: Vec<&Draw> = rig.draws(take).collect();
    let parts = Parts::of(&draws);
    let design = Arc::new(Design::new(ground.seed, draws.len(), &parts.inputs)?);
    let rows = design.rows();
    let (least, first) = (LEAST_POINTS * REPLICATES * rows, FIRST_POINTS * REPLICATES * rows);
    if most < least {
        let build = rig.name.to_owned();
        return Err(StudyError::FewForShares { build, flights: most, least });
    }
    let mut sets: Sets = vec![vec![Vec::new(); ground.distances.len()]; REPLICATES];
    let allowed = 1 << (most.min(first) / (REPLICATES * rows)).ilog2();
    let (mut from, mut upto) = (0, FIRST_POINTS.min(allowed));
    loop {
        ground.watch.planned(((upto - from) * rows * REPLICATES) as u64);
        for (set, columns) in sets.iter_mut().enumerate() {
            let design = Arc::clone(&design);
            let chances = Arc::new(move |row, input| design.chance(set, row, input));
            let more = rig.fly_by(take, chances, from * rows..upto * rows, ground)?;
            for (column, more) in columns.iter_mut().zip(more) {
                column.extend(more);
            }
        }
        let marks: Vec<MarkShares> = (0..ground.distances.len())
            .map(|place| mark(&sets, place, rows, &parts, ground))
            .collect::<Result<_, _>>()?;
        let widest = widest(&marks);
        let flights = upto * rows * REPLICATES;
        if widest <= asked.within || 2 * flights > most || upto == MOST_POINTS {
            let Parts { causes, owners, .. } = parts;
            return Ok(Spread { causes, owners, flights, widest, marks });
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
    sets: &Sets,
    place: usize,
    rows: usize,
    parts: &Parts,
    ground: &Ground,
) -> Result<MarkShares, StudyError> {
    let columns = || sets.iter().map(|set| &set[place]);
    let drawn: Vec<Impact> =
        columns().flat_map(|c| c.chunks_exact(rows).flat_map(|p| [p[0], p[1]])).collect();
    let group = Group::of(&drawn)?;
    let centre = group.centre;
    let sums = |output: &dyn Fn(&Impact) -> f64| -> Vec<Sums> {
        columns().map(|c| Sums::of(&c.iter().map(output).collect::<Vec<_>>(), rows)).collect()
    };
    let left = sums(&|i| i.left);
    let up = sums(&|i| i.up);
    let both: Vec<Sums> = left.iter().cloned().zip(&up).map(|(l, u)| l.and(u)).collect();
    let radius = sums(&|i| (i.left - centre.left).hypot(i.up - centre.up));
    let mut axes = [None, None, None, None];
    for (axis, out) in Axis::ALL.into_iter().zip(&mut axes) {
        let sets = match axis {
            Axis::Both => &both,
            Axis::Left => &left,
            Axis::Up => &up,
            Axis::Radius => &radius,
        };
        *out = shares(sets, parts)?;
    }
    Ok(MarkShares { distance: Length::from_si(ground.distances[place]), group, axes })
}

/// The shares of one spread; none where nothing spreads.
fn shares(sets: &[Sums], parts: &Parts) -> Result<Option<SharesOf>, StudyError> {
    let Some(ratio) = Ratio::new(sets) else { return Ok(None) };
    let causes = parts.causes.len();
    let share = |part: usize| -> Result<Share, StudyError> {
        Ok(Share { alone: ratio.of(|s| s.first[part])?, total: ratio.of(|s| s.total[part])? })
    };
    let alone = |s: &Sums| s.first[..causes].iter().sum::<f64>();
    let together = |s: &Sums| 0.5 * (s.total[..causes].iter().sum::<f64>() - alone(s));
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
