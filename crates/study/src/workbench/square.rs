//! What an end face out of square costs, and how flat is flat enough. Model
//! card: docs/model/gauges.md.

use arrow::{Blades, Lean, PointShape, lean_limits};
use rayon::prelude::*;
use units::{Angle, Length};
use workbench::{FaceVerdict, Gauge, KEEP, REJECT, Span, WorkbenchError};

use super::aimed::{AimedBow, FORM_FLIGHTS, FORM_FLIGHTS_AT_POINTS, form_sigma, growth};
use crate::alone::alone;
use crate::first::all_or_first;
use crate::sightin::checked;
use crate::unknown::Point;
use crate::watch::Inner;
use crate::{Banded, Joint, QUICK_POINTS, RandomStream, Recipe, Setup, StudyError, Watch};

/// Clock positions at which a face is tried: its own is mostly not known, and
/// arrows differ. Chosen: eight follow any wave of a few cycles.
const CLOCKS: u32 = 8;
/// Angle at which the effect of a face is taken, rad. Chosen: a hundredth of a
/// degree, inside every fit's limit and far above rounding.
const PROBE: f64 = 1.745e-4;
/// Faces of a fixed-blade head for arrows that have none: chosen, three blades
/// of common size on a head 45 mm long, as heavy as the point it replaces.
const HEAD: (f64, Blades) = (
    0.045,
    Blades {
        count: 3,
        span: Length::from_si(0.0105),
        root: Length::from_si(0.028),
        tip: Length::ZERO,
        sweep: Length::from_si(0.028),
        thickness: Length::from_si(0.0007),
        setback: Length::from_si(0.008),
        clock: Angle::ZERO,
    },
);

/// Where a gauge was held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Where {
    /// The shaft's front end face.
    Front,
    /// The insert's or outsert's front face.
    Insert,
    /// The shaft's rear end face.
    Rear,
    /// The point itself, out of line.
    Point,
    /// The nock itself, out of line.
    Nock,
}

/// One reading of a face.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceReading {
    /// Name of the arrow.
    pub name: String,
    /// Where.
    pub at: Where,
    /// Before or after squaring, or any other word.
    pub stage: String,
    /// The gauge.
    pub gauge: Gauge,
}

/// Faces to judge.
pub struct SquareAsk<'a> {
    /// Bow, arrow and archer.
    pub recipe: &'a dyn Recipe,
    /// Distances; the last decides how flat is flat enough.
    pub distances: &'a [Length],
    /// The readings.
    pub readings: &'a [FaceReading],
    /// By what share the archer's group may grow.
    pub share: f64,
    /// Seed of the archer's own group.
    pub seed: u64,
}

/// What one face costs.
#[derive(Debug, Clone, PartialEq)]
pub struct FaceCost {
    /// The reading.
    pub reading: FaceReading,
    /// Its angle, rad.
    pub angle: Span,
    /// What to do with it; none for a part out of line, which is no face.
    pub verdict: Option<FaceVerdict>,
    /// The most the part on that face can lean, rad; none where nothing limits
    /// it.
    pub limit: Option<f64>,
    /// How far such a face moves the impact, root mean square over its clock
    /// positions, at each distance, m; the range is that of the gauge.
    pub shift: Vec<Span>,
    /// The archer's group at the last distance when every arrow has such a
    /// face, over that with square faces.
    pub growth: f64,
}

/// How square one face must be.
#[derive(Debug, Clone, PartialEq)]
pub struct Flat {
    /// The point's shape.
    pub shape: PointShape,
    /// Whether it is the scenario's own point.
    pub own: bool,
    /// Which face.
    pub at: Where,
    /// The angle at which the group grows by the share, rad, over the stated
    /// ranges of the doubts; none where the archer has no spread.
    pub angle: Option<Banded>,
    /// The most the part on that face can lean, rad.
    pub limit: Option<f64>,
    /// Growth of the group when the part leans as far as it can.
    pub at_limit: Option<f64>,
}

/// Faces judged.
#[derive(Debug, Clone, PartialEq)]
pub struct Squareness {
    /// Distances.
    pub distances: Vec<Length>,
    /// Each reading, in the order given.
    pub costs: Vec<FaceCost>,
    /// How far across the shaft is.
    pub across: Length,
    /// How flat is flat enough, by point and face.
    pub flat: Vec<Flat>,
    /// By what share the group may grow.
    pub share: f64,
    /// Standard deviation of the archer's own group in one direction at each
    /// distance, m.
    pub form: Vec<f64>,
    /// The same at every outer point; none where nothing is poorly known.
    pub unknown: Option<Box<Joint<Squareness>>>,
}

/// Judges faces by what they cost at each distance.
///
/// # Errors
/// [`StudyError`].
pub fn square(ask: &SquareAsk, watch: &dyn Watch) -> Result<Squareness, StudyError> {
    if !(ask.share.is_finite() && ask.share > 0.0 && ask.share <= 10.0) {
        return Err(StudyError::Share { share: ask.share });
    }
    let (mut found, joint) = alone(
        ask.recipe,
        (ask.seed, QUICK_POINTS),
        watch,
        |recipe| squared(ask, recipe, None, watch),
        |main, point| squared(ask, &point.of(ask.recipe), Some((main, point)), &Inner(watch)),
    )?;
    if let Some(joint) = &joint {
        for (at, flat) in found.flat.iter_mut().enumerate() {
            if let Some(angle) = &mut flat.angle {
                *angle = joint.banded(angle.value, |of| Some(of.flat.get(at)?.angle?.value));
            }
        }
    }
    found.unknown = joint;
    Ok(found)
}

/// Faces judged with the poorly known values as a recipe has them; at an outer point
/// each angle lies somewhere in what the gauge leaves.
fn squared(
    ask: &SquareAsk,
    recipe: &dyn Recipe,
    at_point: Option<(&Squareness, &Point)>,
    watch: &dyn Watch,
) -> Result<Squareness, StudyError> {
    let distances = checked(ask.distances)?;
    let lane = AimedBow::new(recipe, &distances)?;
    let flights = if at_point.is_some() { FORM_FLIGHTS_AT_POINTS } else { FORM_FLIGHTS };
    let form = form_sigma(recipe, &distances, (ask.seed, flights), watch)?;
    let one = |(at, reading): (usize, &FaceReading)| {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let drawn = at_point.map(|(main, point)| {
            let Span { value, low, high } = main.costs[at].angle;
            drawn(ask.seed, at, point).map_or(value, |chance| between([low, value, high], chance))
        });
        cost(&lane, reading, &form, drawn)
    };
    let costs = all_or_first(ask.readings.par_iter().enumerate().map(one))?;
    let sigma = form[form.len() - 1];
    let mut flat = Vec::new();
    for (shape, own) in shapes(&lane.base) {
        for at in [Where::Front, Where::Insert, Where::Rear] {
            if at == Where::Insert
                && lane.base.parts.insert.is_none()
                && lane.base.parts.outsert.is_none()
            {
                continue;
            }
            let per_angle = per_angle(&lane, &with_shape(&lane.base, shape), at)?;
            let angle = needed(ask.share, sigma) / per_angle;
            // Blades or not, a face that does nothing has no angle that is enough.
            let known = match at_point {
                None => sigma > 0.0 && angle.is_finite() && angle < 1.0,
                Some((main, _)) => main.flat.get(flat.len()).is_some_and(|of| of.angle.is_some()),
            };
            let limit = limit(&lane.base, at);
            flat.push(Flat {
                shape,
                own,
                at,
                angle: known.then(|| Banded::sure(angle)),
                limit,
                at_limit: limit
                    .filter(|_| known)
                    .map(|limit| growth(needed(ask.share, sigma) / angle * limit, sigma)),
            });
        }
    }
    let across = lane.base.parts.shaft.outside;
    let (distances, share) = (ask.distances.to_vec(), ask.share);
    Ok(Squareness { distances, costs, across, flat, share, form, unknown: None })
}

/// The chance of what a gauge leaves of a reading at an outer point; none at the centre.
fn drawn(seed: u64, reading: usize, point: &Point) -> Option<f64> {
    let stream = RandomStream::new(seed, &format!("bench.gauge.{reading}"));
    point.number.map(|(number, _)| stream.clone().chance(number as u64))
}

/// A value whose median is its own, even on either side of that.
fn between([low, own, high]: [f64; 3], chance: f64) -> f64 {
    if chance < 0.5 {
        low + 2.0 * chance * (own - low)
    } else {
        own + (2.0 * chance - 1.0) * (high - own)
    }
}

/// What a face costs; at an outer point at the angle drawn there.
fn cost(
    lane: &AimedBow,
    reading: &FaceReading,
    form: &[f64],
    drawn: Option<f64>,
) -> Result<FaceCost, StudyError> {
    let named = |source: WorkbenchError| StudyError::Bench {
        arrow: reading.name.clone(),
        source: Box::new(source.into()),
    };
    let angle = match drawn {
        Some(angle) => Span { value: angle, low: angle, high: angle },
        None => reading.gauge.angle().map_err(named)?,
    };
    let ring = |angle: f64| -> Result<Vec<f64>, StudyError> {
        lane.ring(CLOCKS, |clock| faced(&lane.base, reading.at, angle, clock))
    };
    let value = ring(angle.value)?;
    let (low, high) = match drawn {
        Some(_) => (value.clone(), value.clone()),
        None => (ring(angle.low)?, ring(angle.high)?),
    };
    let last = form.len() - 1;
    Ok(FaceCost {
        growth: growth(value[last], form[last]),
        limit: limit(&lane.base, reading.at),
        shift: (0..value.len())
            .map(|k| Span { value: value[k], low: low[k], high: high[k] })
            .collect(),
        verdict: matches!(reading.at, Where::Front | Where::Insert | Where::Rear)
            .then(|| FaceVerdict::of(Angle::from_si(angle.value), KEEP, REJECT)),
        angle,
        reading: reading.clone(),
    })
}

/// The arrow with one face, or part, out of true.
fn faced(base: &Setup, at: Where, angle: f64, clock: Angle) -> Setup {
    let mut setup = base.clone();
    let lean = Lean { angle: Angle::from_si(angle), clock };
    let faults = &mut setup.faults;
    *match at {
        Where::Front => &mut faults.point_end,
        Where::Insert => &mut faults.insert_face,
        Where::Rear => &mut faults.nock_end,
        Where::Point => &mut faults.point_cant,
        Where::Nock => &mut faults.nock_cant,
    } = lean;
    setup
}

/// How far a small angle moves the impact at the last distance, m per rad.
fn per_angle(lane: &AimedBow, base: &Setup, at: Where) -> Result<f64, StudyError> {
    let ring = lane.ring(CLOCKS, |clock| faced(base, at, PROBE, clock))?;
    Ok(ring[ring.len() - 1] / PROBE)
}

/// How far impacts must move, root mean square, for a group to grow by a share.
fn needed(share: f64, sigma: f64) -> f64 {
    sigma * (2.0 * ((1.0 + share).powi(2) - 1.0)).sqrt()
}

/// The most that a face can make its part lean, rad.
fn limit(base: &Setup, at: Where) -> Option<f64> {
    let limits = lean_limits(&base.parts);
    match at {
        Where::Front => limits.front.map(Angle::si),
        Where::Rear => limits.nock.map(Angle::si),
        Where::Insert => {
            let (shank, clearance) = (base.parts.point.shank.si(), base.parts.point.clearance.si());
            (shank > 0.0).then(|| clearance / shank)
        }
        Where::Point | Where::Nock => None,
    }
}

/// The shapes asked about: the scenario's own first.
fn shapes(base: &Setup) -> Vec<(PointShape, bool)> {
    let own = base.parts.point.shape;
    let others = [PointShape::Streamlined, PointShape::Field, PointShape::FixedBlade];
    let others = others.into_iter().filter(|shape| *shape != own).map(|shape| (shape, false));
    std::iter::once((own, true)).chain(others).collect()
}

fn with_shape(base: &Setup, shape: PointShape) -> Setup {
    let mut setup = base.clone();
    let point = &mut setup.parts.point;
    if point.shape == shape {
        return setup;
    }
    point.shape = shape;
    point.blades = None;
    if shape == PointShape::FixedBlade {
        let grown = HEAD.0 / point.length.si();
        if grown > 1.0 {
            point.length = Length::from_si(HEAD.0);
            point.balance = Length::from_si((point.balance.si() * grown).min(HEAD.0));
        }
        point.blades = Some(HEAD.1);
        // What was given for the whole arrow no longer holds.
        setup.aero.given.normal_slope = None;
        setup.aero.given.centre_of_pressure = None;
    }
    setup
}
