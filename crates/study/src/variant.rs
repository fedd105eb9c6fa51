//! A build with some values held: the setups it makes before anything is drawn.

use crate::sample::Sample;
use crate::shoot::{ArrowName, Shooter};
use crate::{Build, DrawnParameter, Recipe, Setup, Slot, StudyError, UncertainParameter};

/// A value set apart from the scenario's own.
pub(crate) type Changed = Option<(Slot, f64)>;

/// A build, and what is held apart from its own values.
#[derive(Clone, Copy)]
pub(crate) struct Variant<'a> {
    pub(crate) name: &'a str,
    pub(crate) recipe: &'a dyn Recipe,
    /// A swept value; it wins over a draw.
    pub(crate) swept: Changed,
}

impl<'a> Variant<'a> {
    /// A recipe as it is.
    pub(crate) fn new(name: &'a str, recipe: &'a dyn Recipe) -> Self {
        Self { name, recipe, swept: None }
    }

    /// A build as it is.
    pub(crate) fn of(build: &'a Build) -> Self {
        Self::new(&build.name, build.recipe.as_ref())
    }

    /// The same with a value swept.
    pub(crate) fn sweeping(self, swept: Changed) -> Self {
        Self { swept, ..self }
    }

    /// Names the build.
    pub(crate) fn tag(&self) -> ArrowName<'a> {
        ArrowName::of(self.name)
    }

    /// The doubts that still matter: not of a value that is swept or drawn.
    pub(crate) fn uncertain(&self) -> impl Iterator<Item = &'a UncertainParameter> {
        let (recipe, swept) = (self.recipe, self.swept.map(|(slot, _)| slot));
        let replaced = move |slot: Slot| {
            Some(slot) == swept || recipe.draws().iter().any(|draw| draw.slot == slot)
        };
        recipe.uncertain().iter().filter(move |doubt| !replaced(doubt.slot))
    }

    /// The values drawn in a group: a swept value is not.
    pub(crate) fn draws(&self, take: Sample) -> impl Iterator<Item = &'a DrawnParameter> {
        let swept = self.swept.map(|(slot, _)| slot);
        let at_work = move |draw: &&DrawnParameter| take.draws(draw) && Some(draw.slot) != swept;
        self.recipe.draws().iter().filter(at_work)
    }

    /// The changes that hold before anything is drawn: every drawn value at its `off`, a
    /// swept value.
    pub(crate) fn changes(&self) -> Vec<(Slot, f64)> {
        let off = self.recipe.draws().iter().map(|draw| (draw.slot, draw.off));
        off.chain(self.swept).collect()
    }

    /// The setup with every drawn value at its `off`, as a group sees it.
    pub(crate) fn undrawn(&self, take: Sample) -> Result<Setup, StudyError> {
        self.made(take, &self.changes(), &self.tag())
    }

    /// The setup with some values changed, as a group sees it.
    pub(crate) fn made(
        &self,
        take: Sample,
        changes: &[(Slot, f64)],
        tag: &ArrowName,
    ) -> Result<Setup, StudyError> {
        let mut setup = self
            .recipe
            .setup(changes)
            .map_err(|source| StudyError::Refused { who: tag.who(), source })?;
        take.clear(&mut setup);
        Ok(setup)
    }

    /// The arrow of [`Self::undrawn`], pushed in full.
    pub(crate) fn shooter(&self, take: Sample) -> Result<Shooter<'a>, StudyError> {
        Shooter::new(self.tag(), self.undrawn(take)?)
    }

    /// The faultless arrow, the sight set for it.
    pub(crate) fn zeroed(&self) -> Result<Shooter<'a>, StudyError> {
        self.shooter(Sample::Nominal)?.zeroed()
    }
}
