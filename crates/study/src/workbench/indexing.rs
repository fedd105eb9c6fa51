//! Which way to turn a nock, and how to find it by shooting. Model card:
//! docs/model/nock-index.md.

use std::f64::consts::TAU;

use rayon::prelude::*;
use target::t_factor;
use units::{Angle, Length};
use workbench::{Measured, Place, TurnFit, Turned, best_turns, fit_turns, set_of};

use super::aimed::{AimedBow, FORM_FLIGHTS, FORM_FLIGHTS_AT_POINTS, form_sigma};
use super::blank::filled;
use super::predict::predict;
use crate::alone::alone;
use crate::first::all_or_first;
use crate::sightin::checked;
use crate::watch::Inner;
use crate::{Banded, Joint, QUICK_POINTS, Recipe, StudyError, Watch, normal_quantile};

/// A gain below this share of the archer's own spread is not worth a nock
/// turned. Chosen: a quarter makes a group 1.6 % smaller at best.
pub const HIT_WORTH: f64 = 0.25;
/// Most shots to a position that a plan asks for. Chosen: beyond, form drifts
/// more than is looked for.
const MOST_SHOTS: u32 = 24;

/// One shot with a nock turned.
#[derive(Debug, Clone, PartialEq)]
pub struct TurnShot {
    /// Name of the arrow.
    pub arrow: String,
    /// Turn of the nock in the shaft, clockwise seen from behind.
    pub turn: Angle,
    /// Where it hit, left and up of the point of aim, m.
    pub hit: [f64; 2],
}

/// Nocks to turn.
pub struct IndexAsk<'a> {
    /// Bow, arrow and archer.
    pub recipe: &'a dyn Recipe,
    /// Distances; the last decides.
    pub distances: &'a [Length],
    /// What was measured.
    pub arrows: &'a [Measured],
    /// How many evenly spread positions a nock may take; none for as many as
    /// there are vanes.
    pub positions: Option<u32>,
    /// Shots with nocks turned, if any were made.
    pub shots: &'a [TurnShot],
    /// Seed of the archer's own group.
    pub seed: u64,
}

/// How to find an arrow's position on the range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shooting {
    /// Nothing worth a turn is to be found.
    Leave,
    /// This many shots at the present position and at the best foreseen one
    /// show the difference four times out of five.
    Each(u32),
    /// It would take more shots than form holds steady for.
    TooMany(u32),
}

/// One arrow.
#[derive(Debug, Clone, PartialEq)]
pub struct Indexed {
    /// Its name.
    pub name: String,
    /// Where it hits at each position, last distance.
    pub places: Vec<Place>,
    /// Whether the clock position of any of its faults was noted: without one nobody knows
    /// which way to turn it.
    pub clocked: bool,
    /// Which position to use.
    pub choice: usize,
    /// Its distance from the set's centre now and then, m.
    pub away: (f64, f64),
    /// How to find out by shooting.
    pub shooting: Shooting,
}

/// What shots say of one arrow.
#[derive(Debug, Clone, PartialEq)]
pub struct IndexFit {
    /// Name of the arrow.
    pub name: String,
    /// Shots fitted.
    pub shots: usize,
    /// Radius of the ring on which it hits as its nock turns, root mean
    /// square, with its 95 % interval, m.
    pub ring: Banded,
    /// Scatter of one shot in one direction, m.
    pub noise: f64,
    /// Where it hits at each position, left and up, m.
    pub places: Vec<[f64; 2]>,
    /// The position that hits nearest to where all arrows shot can meet, or to
    /// the point of aim where one alone was shot.
    pub choice: usize,
    /// How much nearer than unturned, with its 95 % interval, m.
    pub gain: Banded,
    /// What to do.
    pub verdict: IndexVerdict,
}

/// When to stop shooting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IndexVerdict {
    /// The gain is beyond doubt: turn the nock and stop.
    Turn,
    /// Any gain is too small to matter, or the arrow is best unturned: stop.
    Stop,
    /// Not known yet: so many more shots at each position.
    More(u32),
}

/// Nocks turned.
#[derive(Debug, Clone, PartialEq)]
pub struct Indexing {
    /// Distances.
    pub distances: Vec<Length>,
    /// The positions, rad.
    pub turns: Vec<Angle>,
    /// The arrows, in the order given.
    pub arrows: Vec<Indexed>,
    /// Spread about the set's centre now and then, root mean square, m, over the
    /// stated ranges of the doubts.
    pub spread: [Banded; 2],
    /// The set's centre then, left and up, m.
    pub centre: [f64; 2],
    /// Standard deviation of the archer's own group in one direction at each
    /// distance, m.
    pub form: Vec<f64>,
    /// Arrows that were shot, in order of name.
    pub fits: Vec<IndexFit>,
    /// The same turns at every outer point; none where nothing is poorly known.
    pub unknown: Option<Box<Joint<Indexing>>>,
}

/// Finds how to turn nocks.
///
/// # Errors
/// [`StudyError`]; an arrow that cannot be built, shot, flown or fitted is
/// named.
pub fn index(ask: &IndexAsk, watch: &dyn Watch) -> Result<Indexing, StudyError> {
    let (mut found, joint) = alone(
        ask.recipe,
        (ask.seed, QUICK_POINTS),
        watch,
        |recipe| indexed(ask, recipe, None, watch),
        |main, point| indexed(ask, &point.of(ask.recipe), Some(main), &Inner(watch)),
    )?;
    if let Some(joint) = &joint {
        for (at, spread) in found.spread.iter_mut().enumerate() {
            *spread = joint.banded(spread.value, |of| Some(of.spread[at].value));
        }
    }
    found.unknown = joint;
    Ok(found)
}

/// Nocks turned with the poorly known values as a recipe has them; as they were turned
/// before, if they were.
fn indexed(
    ask: &IndexAsk,
    recipe: &dyn Recipe,
    before: Option<&Indexing>,
    watch: &dyn Watch,
) -> Result<Indexing, StudyError> {
    let distances = checked(ask.distances)?;
    let at = distances.len() - 1;
    let lane = AimedBow::new(recipe, &distances)?;
    let vanes = lane.base.parts.vanes.map_or(1, |vanes| u32::from(vanes.count));
    let count = ask.positions.unwrap_or(vanes);
    if !(1..=360).contains(&count) {
        return Err(StudyError::Positions { positions: count });
    }
    let turns: Vec<Angle> =
        (0..count).map(|k| Angle::from_si(TAU * f64::from(k) / f64::from(count))).collect();
    watch.planned((ask.arrows.len() * turns.len()) as u64);
    let flights = if before.is_some() { FORM_FLIGHTS_AT_POINTS } else { FORM_FLIGHTS };
    let form = form_sigma(recipe, &distances, (ask.seed, flights), watch)?;
    let one = |arrow: &Measured| -> Result<Vec<Place>, StudyError> {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let places = turns
            .iter()
            .map(|turn| Ok(predict(&lane, &filled(arrow, ask.arrows), *turn)?[at]))
            .collect();
        watch.done(turns.len() as u64);
        places
    };
    let places = all_or_first(ask.arrows.par_iter().map(one))?;
    let all: Vec<usize> = (0..places.len()).collect();
    let now = set_of(&places.iter().map(|places| places[0]).collect::<Vec<_>>(), &all);
    let Turned { choice, centre, spread } = match before {
        // Shots alone need no measured arrows.
        _ if places.is_empty() => Turned { choice: Vec::new(), centre: [0.0; 2], spread: 0.0 },
        None => best_turns(&movable(ask.arrows, &places))?,
        Some(before) => {
            let choice: Vec<usize> = before.arrows.iter().map(|arrow| arrow.choice).collect();
            let turned: Vec<Place> =
                places.iter().zip(&choice).map(|(places, choice)| places[*choice]).collect();
            let then = set_of(&turned, &all);
            Turned { choice, centre: then.centre, spread: then.spread }
        }
    };
    let sigma = form[at];
    let arrows = ask.arrows.iter().zip(places).zip(&choice).map(|((arrow, places), &choice)| {
        let away = |place: &Place| (place.left - centre[0]).hypot(place.up - centre[1]);
        let (here, there) = (&places[0], &places[choice]);
        Indexed {
            name: arrow.name.clone(),
            away: (away(here), away(there)),
            shooting: shooting(here, there, choice, sigma),
            clocked: clocked(arrow),
            choice,
            places: places.clone(),
        }
    });
    Ok(Indexing {
        distances: ask.distances.to_vec(),
        arrows: arrows.collect(),
        spread: [now.spread, spread].map(Banded::sure),
        centre,
        form: form.clone(),
        fits: fits(ask.shots, &turns, sigma)?,
        turns,
        unknown: None,
    })
}

/// Whether the clock position of any fault was noted.
fn clocked(arrow: &Measured) -> bool {
    let spun = [arrow.run_out, arrow.tip, arrow.groove];
    arrow.stiff.is_some() || spun.into_iter().flatten().any(|of| of.high.is_some())
}

/// The places that each arrow may take: of one without a clock position the present one
/// alone, since the others differ by what nobody noted.
fn movable(arrows: &[Measured], places: &[Vec<Place>]) -> Vec<Vec<Place>> {
    let one = |(arrow, places): (&Measured, &Vec<Place>)| {
        if clocked(arrow) { places.clone() } else { vec![places[0]] }
    };
    arrows.iter().zip(places).map(one).collect()
}

/// Shots to each of two positions until their means tell apart: two-sided 5 %,
/// power 80 %, along the line between them.
fn shots_to_tell(apart: f64, sigma: f64) -> f64 {
    let z = normal_quantile(0.975) + normal_quantile(0.8);
    (2.0 * (z * sigma / apart).powi(2)).ceil().max(1.0)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a whole, capped number"
)]
fn whole(count: f64) -> u32 {
    count.clamp(0.0, 1e6) as u32
}

fn shooting(here: &Place, there: &Place, choice: usize, sigma: f64) -> Shooting {
    let apart = (here.left - there.left).hypot(here.up - there.up);
    if choice == 0 || apart < HIT_WORTH * sigma {
        return Shooting::Leave;
    }
    match whole(shots_to_tell(apart, sigma)) {
        shots if shots <= MOST_SHOTS => Shooting::Each(shots),
        shots => Shooting::TooMany(shots),
    }
}

/// Fits every arrow that was shot.
fn fits(shots: &[TurnShot], turns: &[Angle], sigma: f64) -> Result<Vec<IndexFit>, StudyError> {
    let mut names: Vec<&str> = shots.iter().map(|shot| shot.arrow.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    let mut fits = Vec::new();
    for name in names {
        let own: Vec<(Angle, [f64; 2])> = shots
            .iter()
            .filter(|shot| shot.arrow == name)
            .map(|shot| (shot.turn, shot.hit))
            .collect();
        let named = |source| StudyError::Bench { arrow: name.to_owned(), source: Box::new(source) };
        let fit = fit_turns(&own).map_err(|source| named(source.into()))?;
        fits.push((name, own.len(), fit));
    }
    let spots = |fit: &TurnFit| -> Vec<Place> {
        let one = |turn: &Angle| {
            let [left, up] = fit.at(*turn);
            Place { left, up, blur: 0.0 }
        };
        turns.iter().map(one).collect()
    };
    // One arrow alone is turned toward the point of aim.
    let rings: Vec<Vec<Place>> = fits.iter().map(|(_, _, fit)| spots(fit)).collect();
    let centre = if rings.len() > 1 { best_turns(&rings)?.centre } else { [0.0; 2] };
    let mut out = Vec::new();
    for (name, shots, fit) in fits {
        let t = t_factor(fit.freedom)?;
        let places: Vec<[f64; 2]> = turns.iter().map(|turn| fit.at(*turn)).collect();
        let away = |[left, up]: [f64; 2]| (left - centre[0]).hypot(up - centre[1]);
        let choice = (0..places.len())
            .min_by(|&a, &b| away(places[a]).total_cmp(&away(places[b])).then(a.cmp(&b)))
            .unwrap_or(0);
        let gain = away(places[0]) - away(places[choice]);
        let half = t * fit.error_between(turns[0], turns[choice]);
        let ring = fit.ring();
        let ring_half = t * fit.noise * fit.left.spread[0].max(fit.left.spread[1]).sqrt();
        let gain = Banded { value: gain, low: gain - half, high: gain + half };
        // The most that any turn could still gain.
        let most = turns.iter().zip(&places).fold(0.0_f64, |most, (turn, place)| {
            let doubt = t * fit.error_between(turns[0], *turn);
            most.max(away(places[0]) - away(*place) + doubt)
        });
        let worth = HIT_WORTH * sigma.max(fit.noise);
        let verdict = if choice != 0 && gain.low > 0.0 && gain.value >= worth {
            IndexVerdict::Turn
        } else if most < worth || gain.high < 0.0 {
            IndexVerdict::Stop
        } else {
            let shots = shots_to_tell(gain.value.max(worth), fit.noise);
            IndexVerdict::More(whole(shots).clamp(1, MOST_SHOTS))
        };
        out.push(IndexFit {
            name: name.to_owned(),
            shots,
            ring: Banded { value: ring, low: (ring - ring_half).max(0.0), high: ring + ring_half },
            noise: fit.noise,
            verdict,
            gain,
            places,
            choice,
        });
    }
    Ok(out)
}
