//! Front end against nock end, over all that is poorly known.

use arrow::{Blades, PointShape};
use rayon::prelude::*;
use target::Group;
use units::{Angle, Length};

use crate::band::settled;
use crate::first::all_or_first;
use crate::group_cache::GroupCache;
use crate::sample::Sample;
use crate::sampler::BuildSampler;
use crate::together::{DRAWS, Together, share, spread, together};
use crate::variant::Variant;
use crate::{
    Banded, Correlated, DrawnParameter, Owner, Recipe, Refused, Setup, Slot, StudyError,
    UncertainParameter,
};

/// Flights of one end's faults at one draw. Chosen: the same chances at every draw
/// and for both ends, so that few settle which is the larger.
const FLIGHTS: usize = 100;
/// The ends held against each other.
const OWNERS: [Owner; 2] = [Owner::FrontEnd, Owner::NockEnd];
const INCH: f64 = 0.0254;

/// What each end does on its own, over all that is poorly known: bow, string and
/// rest before all, and fits and air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndsOrder {
    /// Whether three fixed blades stand in place of the scenario's own head.
    pub bladed: bool,
    /// R50 from a machine by the front end's faults at the farthest distance, m;
    /// 5 to 95 % of the draws.
    pub front: Banded,
    /// The same by the nock end's.
    pub nock: Banded,
    /// Share of the draws in which the front end's is the larger; none where
    /// neither end has faults, or no draw makes a bow.
    pub front_larger: Option<f64>,
}

/// A build with three fixed blades on a head of the same mass: 0.42 by 1.1 in, as
/// a scenario's head has without more being said (common practice, no source).
struct Bladed<'a>(&'a dyn Recipe);

impl Recipe for Bladed<'_> {
    fn draws(&self) -> &[DrawnParameter] {
        self.0.draws()
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        self.0.uncertain()
    }

    fn choices(&self) -> &[Slot] {
        self.0.choices()
    }

    fn correlated(&self) -> &[Correlated] {
        self.0.correlated()
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        let mut setup = self.0.setup(changes)?;
        let point = &mut setup.parts.point;
        let inches = |value: f64| Length::from_si(value * INCH);
        point.shape = PointShape::FixedBlade;
        point.length = inches(1.6);
        point.balance = inches(0.32);
        point.blades = Some(Blades {
            count: 3,
            span: inches(0.42),
            root: inches(1.1),
            tip: Length::ZERO,
            sweep: inches(1.1),
            thickness: inches(0.03),
            setback: inches(0.3),
            clock: Angle::ZERO,
        });
        Ok(setup)
    }
}

/// The base build as it is and, where it has no blades, with some; ends at the
/// scenario's own values in so many flights.
pub(super) fn orders(
    range: &mut GroupCache,
    base: usize,
    flights: usize,
) -> Result<Vec<EndsOrder>, StudyError> {
    let variant = range.rigs[base].variant;
    let mut orders = vec![order(range, variant, false, flights)?];
    if headed(range, base) {
        let bladed = Bladed(variant.recipe);
        orders.push(order(range, Variant { recipe: &bladed, ..variant }, true, flights)?);
    }
    Ok(orders)
}

/// Whether a build has no blades, and gets some.
fn headed(range: &GroupCache, base: usize) -> bool {
    range.rigs[base].sighted.setup.parts.point.blades.is_none()
}

/// Flights that this takes.
pub(super) fn flights(range: &GroupCache, base: usize, flights: usize) -> usize {
    let heads = 1 + usize::from(headed(range, base));
    let group = |flights| -> usize {
        let of = |owner: &Owner| range.rigs[base].distinct(Sample::Only(*owner), flights);
        OWNERS.iter().map(of).sum()
    };
    let sure = range.rigs[base].variant.recipe.uncertain().is_empty();
    let draws = if sure { 1 } else { DRAWS };
    heads * (group(flights) + draws * group(FLIGHTS))
}

fn order(
    range: &mut GroupCache,
    variant: Variant<'_>,
    bladed: bool,
    flights: usize,
) -> Result<EndsOrder, StudyError> {
    let settings = range.settings;
    // R50 of each end in these flights, and in the first of them alone.
    let at = |variant: Variant<'_>, flights: usize| -> Result<[(f64, f64); 2], StudyError> {
        let sampler = BuildSampler::new(variant, settings.distances)?;
        let mut sizes = [(0.0, 0.0); 2];
        for (size, owner) in sizes.iter_mut().zip(OWNERS) {
            let columns = sampler.fly(Sample::Only(owner), 0..flights, &settings)?;
            let Some(far) = columns.last() else { continue };
            let few = &far[..far.len().min(FLIGHTS)];
            *size = (Group::of(far)?.r50.value, Group::of(few)?.r50.value);
        }
        Ok(sizes)
    };
    let own = at(variant, flights)?;
    let draws = together(&variant, DRAWS)?;
    let one = |draw: &Together<'_>| settled(at(Variant { recipe: draw, ..variant }, FLIGHTS));
    let drawn = all_or_first(draws.par_iter().map(one))?;
    let drawn: Vec<[(f64, f64); 2]> = drawn.into_iter().flatten().collect();
    let group = |flights| -> usize {
        let sampler = &range.rigs[0];
        OWNERS.iter().map(|owner| sampler.distinct(Sample::Only(*owner), flights)).sum()
    };
    let flown = group(flights) + drawn.len() * group(FLIGHTS);
    range.flown += flown;
    // What few flights say too much or too little they say at every draw.
    let of = |end: usize| {
        let (value, few) = own[end];
        let level = if few > 0.0 { value / few } else { 1.0 };
        let drawn: Vec<f64> = drawn.iter().map(|sizes| level * sizes[end].1).collect();
        spread(value, &drawn)
    };
    let told = drawn.iter().filter(|[front, nock]| front.1.total_cmp(&nock.1).is_ne());
    Ok(EndsOrder {
        bladed,
        front: of(0),
        nock: of(1),
        front_larger: share(told.map(|[front, nock]| front.1 > nock.1)),
    })
}
