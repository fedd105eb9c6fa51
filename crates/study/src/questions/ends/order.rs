//! Front end against nock end.

use arrow::{Blades, PointShape};
use target::Group;
use units::{Angle, Length};

use crate::group_cache::GroupCache;
use crate::sample::Sample;
use crate::sampler::BuildSampler;
use crate::variant::Variant;
use crate::{
    Banded, Correlated, DrawnParameter, Owner, Recipe, Refused, Setup, Slot, StudyError,
    UncertainParameter,
};

/// The ends held against each other.
const OWNERS: [Owner; 2] = [Owner::FrontEnd, Owner::NockEnd];
const INCH: f64 = 0.0254;

/// What each end does on its own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndsOrder {
    /// Whether three fixed blades stand in place of the scenario's own head.
    pub bladed: bool,
    /// R50 from a machine by the front end's faults at the farthest distance, m, with
    /// its band for what is not known.
    pub front: Banded,
    /// The same by the nock end's.
    pub nock: Banded,
    /// Share of what is not known in which the front end's is the larger; none where
    /// neither end has faults.
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
    heads * both(range, base, flights)
}

/// Flights of both ends' groups.
fn both(range: &GroupCache, base: usize, flights: usize) -> usize {
    let sampler = &range.rigs[base];
    OWNERS.iter().map(|owner| sampler.distinct(Sample::Only(*owner), flights)).sum()
}

fn order(
    range: &mut GroupCache,
    variant: Variant<'_>,
    bladed: bool,
    flights: usize,
) -> Result<EndsOrder, StudyError> {
    let settings = range.settings;
    let sampler = BuildSampler::new(variant, settings.distances)?;
    let mut sizes = [0.0; 2];
    for (size, owner) in sizes.iter_mut().zip(OWNERS) {
        let columns = sampler.fly(Sample::Only(owner), 0..flights, &settings)?;
        let Some(far) = columns.last() else { continue };
        *size = Group::of(far)?.r50.value;
    }
    range.flown += both(range, 0, flights);
    let [front, nock] = sizes;
    let larger = front.total_cmp(&nock).is_ne();
    Ok(EndsOrder {
        bladed,
        front: Banded::sure(front),
        nock: Banded::sure(nock),
        front_larger: larger.then(|| f64::from(u8::from(front > nock))),
    })
}
