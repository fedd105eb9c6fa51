//! Bench steps: what they change, and builds with some of them done.

use std::sync::Arc;

use study::{
    BenchStep, Correlated, DrawnParameter, Recipe, Refused, Setup, Slot, UncertainParameter,
};
use units::Time;

use crate::entry::{Entry, Layer, Value};
use crate::recipe::BuildRecipe;
use crate::settle::Settled;
use crate::source::Place;

/// One bench step as the file has it.
#[derive(Debug, Clone)]
pub(crate) struct Step {
    pub(crate) name: String,
    pub(crate) time: Entry,
    pub(crate) cost: Entry,
    /// What it changes.
    pub(crate) layer: Layer,
    pub(crate) place: Place,
}

impl Step {
    /// The step as the study knows it.
    pub(crate) fn bench(&self) -> BenchStep {
        let number = |entry: &Entry| match entry.value {
            Value::Fixed(value) => value,
            _ => 0.0,
        };
        let time = Time::from_si(number(&self.time));
        BenchStep { name: self.name.clone(), time, cost: number(&self.cost) }
    }
}

/// A build with some steps done, in the order of the file: where two change
/// one value, the later one holds.
pub(crate) fn settled(build: &Settled, steps: &[Step], done: &[usize]) -> Settled {
    let layers = done.iter().filter_map(|at| steps.get(*at)).map(|step| step.layer.clone());
    let layer = layers.fold(build.layer.clone(), Layer::under);
    Settled::of(build.name.clone(), layer)
}

/// A build's recipe that knows the bench steps.
pub(crate) struct Stepped {
    own: BuildRecipe,
    build: Arc<(Settled, Vec<Step>)>,
}

impl Stepped {
    pub(crate) fn new(own: &BuildRecipe, build: &Settled, steps: &[Step]) -> Self {
        Self { own: own.clone(), build: Arc::new((build.clone(), steps.to_vec())) }
    }
}

impl Recipe for Stepped {
    fn draws(&self) -> &[DrawnParameter] {
        self.own.draws()
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        self.own.uncertain()
    }

    fn choices(&self) -> &[Slot] {
        self.own.choices()
    }

    fn correlated(&self) -> &[Correlated] {
        self.own.correlated()
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        self.own.setup(changes)
    }

    fn after(&self, steps: &[usize]) -> Option<Box<dyn Recipe>> {
        let (build, all) = &*self.build;
        let after = settled(build, all, steps);
        Some(Box::new(BuildRecipe::new(&after, None)))
    }
}
