//! From values to one shot's setup, fast: the study asks for millions.

use std::sync::{Arc, Mutex, PoisonError};

use study::{
    Correlated, DrawnParameter, Evidence, Recipe, Refused, Setup, Slot, UncertainParameter,
};

use crate::assemble::assemble;
use crate::draw::off;
use crate::entry::{Entry, Origin, Value};
use crate::numbers::Numbers;
use crate::schema::{COUNT, Fallback, Id, KEYS, limits};
use crate::settle::{Settled, in_use};
use crate::text::{own_unit, quantity, range};
use crate::words::Words;

/// A build as the study draws from it.
#[derive(Clone)]
pub(crate) struct BuildRecipe {
    values: [f64; COUNT],
    used: [bool; COUNT],
    /// Keys that follow another key, and their factor.
    follow: Vec<(Id, Id, f64)>,
    /// Or why the words make no setup.
    words: Result<Words, Refused>,
    draws: Vec<DrawnParameter>,
    uncertain: Vec<UncertainParameter>,
    choices: Vec<Slot>,
    correlated: Vec<Correlated>,
    evidence: Vec<Evidence>,
    own: Option<Arc<OwnArrow>>,
}

/// The arrow that went through the chronograph, where nobody says of which mass it was:
/// what is poorly known of it moves the mass behind the reading, not its speed.
struct OwnArrow {
    recipe: BuildRecipe,
    /// What both it and the build know as poorly. A build that says better what the arrow
    /// read leaves open is shot from the bow of the usual values.
    slots: Vec<Slot>,
    /// The values last asked of, and the mass there: flights of one outer point share it.
    known: Mutex<Vec<Held>>,
}

/// Poorly known values, and the mass of an arrow there.
type Held = (Vec<(Slot, f64)>, f64);

/// Masses kept. Chosen: those of the outer points of an answer.
const KEPT: usize = study::OUTER_POINTS;

impl OwnArrow {
    fn of(build: &Settled, uncertain: &[UncertainParameter]) -> Option<Self> {
        let derived = |entry: &Entry| matches!(entry.origin, Origin::Derived(_));
        build.entries.get(&Id::BowSpeedMass).filter(|entry| derived(entry))?;
        let layer = build.layer.own_arrow.as_deref()?;
        let recipe = BuildRecipe::new(&Settled::of(None, layer.clone()), None);
        let both =
            |of: &&UncertainParameter| of.key.starts_with("arrow.") && uncertain.contains(of);
        let slots: Vec<Slot> = recipe.uncertain.iter().filter(both).map(|of| of.slot).collect();
        (!slots.is_empty()).then(|| Self { recipe, slots, known: Mutex::default() })
    }

    /// Its mass, kg, where poorly known values are held; none where none of its are.
    fn mass(&self, changes: &[(Slot, f64)]) -> Option<f64> {
        let own = |(slot, _): &&(Slot, f64)| self.slots.contains(slot);
        let held: Vec<(Slot, f64)> = changes.iter().filter(own).copied().collect();
        if held.is_empty() {
            return None;
        }
        let known = || self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, mass)) = known().iter().find(|(of, _)| *of == held) {
            return Some(*mass);
        }
        let mass = self.recipe.mass(&held)?;
        let mut known = known();
        if known.len() >= KEPT {
            known.clear();
        }
        known.push((held, mass));
        Some(mass)
    }
}

/// A value that is one thing or the other where it stands at an end of its range: a
/// layer is laminar or turbulent.
const CHOICE: Id = Id::Turbulence;

/// Pairs of defaults whose doubts have a part in common, with the correlation of their
/// normal scores. Chosen: a half where one of two parts is shared.
const IN_COMMON: [(Id, Id, f64); 1] = [
    // What the shaft's slow layer takes off the vanes lowers their lift and what turns
    // and damps the roll alike; the rest of each range is the formula's own.
    (Id::VaneSlope, Id::RollLevel, 0.5),
];

impl BuildRecipe {
    /// `swept` is left out of the doubts, and so is what cannot matter.
    pub(crate) fn new(build: &Settled, swept: Option<Slot>) -> Self {
        let mut recipe = Self {
            values: [0.0; COUNT],
            used: [false; COUNT],
            follow: Vec::new(),
            words: Words::of(&build.entries),
            draws: Vec::new(),
            uncertain: Vec::new(),
            choices: Vec::new(),
            correlated: Vec::new(),
            evidence: Vec::new(),
            own: None,
        };
        for (id, entry) in &build.entries {
            let key = id.path().to_owned();
            let slot = id.slot();
            let value = match entry.value {
                Value::Fixed(value) => value,
                Value::Doubtful { value, low, high } => {
                    if let Some(dimension) = id.number().map(|number| number.dimension)
                        && swept != Some(slot)
                        && !idle(build, swept, *id)
                    {
                        recipe.uncertain.push(UncertainParameter {
                            slot,
                            key,
                            dimension,
                            value,
                            low,
                            high,
                        });
                    }
                    value
                }
                Value::Drawn { law, per } => {
                    let (owner, off) = (id.key().chance.owner, off(*id, &law));
                    recipe.draws.push(DrawnParameter { slot, key, owner, law, per, off });
                    off
                }
                _ => continue,
            };
            recipe.values[slot.0] = value;
            recipe.used[slot.0] = true;
        }
        let uncertain = &recipe.uncertain;
        let doubt = |id: Id| uncertain.iter().find(|of| of.slot == id.slot());
        recipe.choices =
            doubt(CHOICE).filter(|of| !of.is_inside()).map(|of| of.slot).into_iter().collect();
        let both = |&(one, other, by): &(Id, Id, f64)| {
            Some(Correlated { slots: [doubt(one)?.slot, doubt(other)?.slot], by })
        };
        recipe.correlated = IN_COMMON.iter().filter_map(both).collect();
        for key in KEYS {
            if let Fallback::Times { base, factor, .. } = key.fallback
                && !build.entries.contains_key(&key.id)
                && in_use(&build.layer, key.id)
            {
                recipe.follow.push((key.id, base, factor));
                recipe.used[key.id as usize] = true;
            }
        }
        recipe.own = OwnArrow::of(build, &recipe.uncertain).map(Arc::new);
        recipe
    }

    /// Mass of its arrow, kg; none where it makes none.
    pub(crate) fn mass(&self, changes: &[(Slot, f64)]) -> Option<f64> {
        let setup = self.setup(changes).ok()?;
        Some(arrow::build(&setup.parts, &setup.faults).ok()?.mass.mass().si())
    }

    /// The same with these values going together, each with each.
    pub(crate) fn correlating(mut self, together: &[Slot], by: f64) -> Self {
        let known = |slot: &Slot| self.uncertain.iter().any(|of| of.slot == *slot);
        let together: Vec<Slot> = together.iter().copied().filter(known).collect();
        for (at, one) in together.iter().enumerate() {
            let others = &together[at + 1..];
            let pairs = others.iter().map(|other| Correlated { slots: [*one, *other], by });
            self.correlated.extend(pairs);
        }
        self
    }

    /// The same with what was measured.
    pub(crate) fn measured(self, evidence: Vec<Evidence>) -> Self {
        Self { evidence, ..self }
    }

    /// A value with every chance switched off, SI; not of a follower.
    pub(crate) fn value(&self, id: Id) -> f64 {
        self.values[id as usize]
    }

    /// A value with every chance switched off, SI, follower or not.
    pub(crate) fn now(&self, id: Id) -> f64 {
        let follower = self.follow.iter().find(|(follower, ..)| *follower == id);
        follower.map_or(self.value(id), |(_, base, factor)| self.value(*base) * factor)
    }
}

impl Recipe for BuildRecipe {
    fn draws(&self) -> &[DrawnParameter] {
        &self.draws
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        &self.uncertain
    }

    fn choices(&self) -> &[Slot] {
        &self.choices
    }

    fn correlated(&self) -> &[Correlated] {
        &self.correlated
    }

    fn evidence(&self) -> &[Evidence] {
        &self.evidence
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        let (values, unchanged, used) = (self.values, &self.values, self.used);
        let mut numbers = Numbers { values, unchanged, used };
        for &(slot, value) in changes {
            let id = allowed(slot, value)?;
            numbers.values[id as usize] = value;
            numbers.used[id as usize] = true;
        }
        for &(id, base, factor) in &self.follow {
            if !changes.iter().any(|(slot, _)| *slot == id.slot()) {
                numbers.values[id as usize] = numbers.values[base as usize] * factor;
            }
        }
        let read = Id::BowSpeedMass;
        let said = changes.iter().any(|(slot, _)| *slot == read.slot());
        if let Some(mass) = self.own.as_ref().filter(|_| !said).and_then(|own| own.mass(changes)) {
            numbers.values[read as usize] = mass;
        }
        assemble(&numbers, self.words.as_ref().map_err(Clone::clone)?)
    }
}

/// Whether a doubt moves nothing: a fit limits how a part follows the face it
/// seats on, so it is idle where that face is square.
fn idle(build: &Settled, swept: Option<Slot>, id: Id) -> bool {
    let used = |id: Id| build.entries.contains_key(&id);
    let face = match id {
        Id::PointClearance if used(Id::InsertMass) || used(Id::OutsertMass) => Id::InsertFaceAngle,
        Id::InsertClearance | Id::OutsertClearance | Id::PointClearance => Id::PointEndAngle,
        Id::NockClearance => Id::NockEndAngle,
        _ => return false,
    };
    let square = build.entries.get(&face).is_none_or(|entry| entry.value == Value::Fixed(0.0));
    square && swept != Some(face.slot())
}

/// The key of a slot, if the value may stand there.
fn allowed(slot: Slot, value: f64) -> Result<Id, Refused> {
    let Some(key) = KEYS.get(slot.0).filter(|key| key.id.number().is_some()) else {
        return Err(Refused {
            key: format!("slot {}", slot.0),
            value: value.to_string(),
            allowed: "the slots of the scenario's numbers".to_owned(),
        });
    };
    let (low, high) = limits(key.id);
    let whole = key.id.number().is_some_and(|number| number.whole);
    // NaN fails the first test.
    if (low..=high).contains(&value) && (!whole || value.fract() == 0.0) {
        return Ok(key.id);
    }
    let unit = own_unit(key.id);
    Err(Refused {
        key: key.path.to_owned(),
        value: quantity(value, unit),
        allowed: range(key.id, unit),
    })
}
