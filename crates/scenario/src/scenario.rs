use std::path::Path;
use std::sync::Arc;

use study::{Build, MeasuredShift, Moved, Plan, Question, Recipe, Slot, StopRule, TargetChoice};
use units::{
    Acceleration, Angle, AngularRate, Force, Inertia, Length, Mass, Quantity, Ratio, Speed, Style,
    Time,
};

use crate::ScenarioError;
use crate::dry::{dry_run, unmeasurable};
use crate::entry::{Entry, Layer, Origin, Value};
use crate::evidence::{Clue, evidence};
use crate::evidence_fault::{EvidenceFault, Unmeasurable};
use crate::recipe::BuildRecipe;
use crate::schema::{Id, Kind, Named, find};
use crate::settle::{AS_GIVEN, Entries, Settled};
use crate::source::{Place, Sources};
use crate::stated::stated;
use crate::step::{Step, Stepped, settled};

/// Which equations fly one arrow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Model {
    /// Six degrees of freedom.
    SixDof,
    /// A point mass.
    PointMass,
    /// A rigid body, turning freely or falling.
    RigidBody,
}

/// A rigid body turning freely or falling, for checks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigidBody {
    /// Principal moments of inertia about roll, pitch, yaw.
    pub inertia: [Inertia; 3],
    /// Rates of roll, pitch, yaw at the start.
    pub rates: [AngularRate; 3],
    /// Its fall, if it falls.
    pub fall: Option<flight::Fall>,
    /// How long to run.
    pub duration: Time,
    /// Rows to report, evenly spaced.
    pub steps: u64,
}

/// A scenario: read, checked, every default filled in.
#[derive(Clone)]
pub struct Scenario {
    pub(crate) sources: Sources,
    /// What the file says above its builds.
    pub(crate) common: Layer,
    /// Its keys outside any build, every default filled in.
    pub(crate) top: Entries,
    pub(crate) builds: Vec<Settled>,
    pub(crate) recipes: Vec<BuildRecipe>,
    pub(crate) steps: Vec<Step>,
    pub(crate) clues: Vec<Clue>,
    question: Question,
}

/// The title that is none.
const UNTITLED: &str = "untitled";

/// Values that the file says go together, and how closely.
fn together(top: &Entries) -> (Vec<Slot>, f64) {
    let value = |id: Id| top.get(&id).map(|entry| &entry.value);
    let (Some(Value::Names(names)), Some(Value::Fixed(by))) =
        (value(Id::Correlated), value(Id::Correlation))
    else {
        return (Vec::new(), 0.0);
    };
    let slot = |(name, _): &(String, _)| match find(name) {
        Some(Named::Key(id)) => Some(id.slot()),
        _ => None,
    };
    (names.iter().filter_map(slot).collect(), *by)
}

impl Scenario {
    pub(crate) fn new(
        sources: Sources,
        (common, top): (Layer, Entries),
        builds: Vec<Settled>,
        (steps, clues): (Vec<Step>, Vec<Clue>),
        question: Question,
    ) -> Self {
        let slot = match &question {
            Question::Sweep(sweep) => Some(sweep.slot),
            _ => None,
        };
        let (together, by) = together(&top);
        let recipe = |build| BuildRecipe::new(build, slot).correlating(&together, by);
        let recipes = builds.iter().map(recipe).collect();
        Self { sources, common, top, builds, recipes, steps, clues, question }
    }

    /// Builds that, with every chance switched off, cannot be built, shot or
    /// flown; as they are, or after the step at the place given.
    pub(crate) fn impossible(&self) -> Vec<(&Settled, Option<Place>, ScenarioError)> {
        let both = self.builds.iter().zip(&self.recipes);
        both.filter_map(|(build, recipe)| {
            let (place, error) = self.fails(build, recipe)?;
            Some((build, place, error))
        })
        .collect()
    }

    /// Measured things whose arrow or bow cannot be built, shot, flown or held.
    pub(crate) fn unmeasurable(&self) -> Vec<(&Clue, EvidenceFault)> {
        unmeasurable(&self.clues, &self.builds)
    }

    /// What fails first: the build, or the build after one step or all.
    fn fails(
        &self,
        build: &Settled,
        recipe: &BuildRecipe,
    ) -> Option<(Option<Place>, ScenarioError)> {
        if let Err(why) = dry_run(recipe) {
            return Some((None, of_build(build, why)));
        }
        let alone = (0..self.steps.len()).map(|step| vec![step]);
        let mut sets = alone.chain([(0..self.steps.len()).collect()]);
        sets.find_map(|steps: Vec<usize>| {
            let place = self.steps.get(*steps.last()?)?.place;
            let after = settled(build, &self.steps, &steps);
            let why = dry_run(&BuildRecipe::new(&after, None)).err()?;
            Some((Some(place), of_build(&after, why)))
        })
    }

    /// Every file it was read from: its own and those of its parts.
    pub fn files(&self) -> Vec<&Path> {
        let set = |file: usize| self.sources.1.iter().any(|(known, _)| *known == file);
        let files = self.sources.0.iter().enumerate().filter(|(at, _)| !set(*at));
        files.map(|(_, source)| source.path.as_path()).collect()
    }

    /// The title; the file's own name where none was written.
    pub fn title(&self) -> &str {
        let written = self.text(Id::Title).filter(|title| *title != UNTITLED);
        let file = || self.sources.0.first()?.path.file_stem()?.to_str();
        written.or_else(file).unwrap_or_default()
    }

    /// The note, if there is one.
    pub fn note(&self) -> Option<&str> {
        self.text(Id::Note)
    }

    /// The name of every build; none where no builds are listed.
    pub fn build_names(&self) -> impl Iterator<Item = Option<&str>> {
        self.builds.iter().map(|build| build.name.as_deref())
    }

    /// The family of units asked for, if any.
    pub fn style(&self) -> Option<Style> {
        self.text(Id::Units).map(|word| match word {
            "metric" => Style::Metric,
            _ => Style::Archery,
        })
    }

    /// Which equations the flight command uses.
    pub fn model(&self) -> Model {
        match self.text(Id::Model) {
            Some("point-mass") => Model::PointMass,
            Some("rigid-body") => Model::RigidBody,
            _ => Model::SixDof,
        }
    }

    /// The rigid body, if the model is one.
    pub fn rigid_body(&self) -> Option<RigidBody> {
        Some(RigidBody {
            inertia: [
                self.quantity(Id::InertiaRoll)?,
                self.quantity(Id::InertiaPitch)?,
                self.quantity(Id::InertiaYaw)?,
            ],
            rates: [
                self.quantity(Id::RollRate)?,
                self.quantity(Id::PitchRate)?,
                self.quantity(Id::YawRate)?,
            ],
            fall: self.fall(),
            duration: self.quantity(Id::Duration)?,
            steps: self.whole(Id::BodySteps)?,
        })
    }

    fn fall(&self) -> Option<flight::Fall> {
        let ratio = |id| self.quantity::<Ratio>(id).map(Ratio::si);
        let length = |id| self.quantity::<Length>(id).map(Length::si);
        Some(flight::Fall {
            altitude: length(Id::BodyAltitude)?,
            gravity: self.quantity::<Acceleration>(Id::BodyGravity)?.si(),
            mass: self.quantity::<Mass>(Id::BodyMass)?.si(),
            size: [length(Id::BodySpan)?, length(Id::BodyChord)?],
            drag: ratio(Id::BodyDrag)?,
            damping: [
                ratio(Id::BodyRollDamping)?,
                ratio(Id::BodyPitchDamping)?,
                ratio(Id::BodyYawDamping)?,
            ],
            wind: self.quantity::<Speed>(Id::BodyWind)?.si(),
        })
    }

    /// The measured shift of impact, if there is one.
    pub fn measured(&self) -> Option<MeasuredShift> {
        let at = |id| self.quantity::<Length>(id).map(Length::si);
        let turn = self.quantity::<Angle>(Id::MeasuredNockTurn);
        let shift = [at(Id::MeasuredLeft)?, at(Id::MeasuredUp)?];
        let error = at(Id::MeasuredError);
        if let Some(push) = self.quantity::<Force>(Id::MeasuredPush) {
            return Some(MeasuredShift {
                distance: Length::ZERO,
                shift,
                how: Moved::Pushed(push.si()),
                error,
            });
        }
        Some(MeasuredShift {
            distance: self.quantity(Id::MeasuredDistance)?,
            shift,
            how: turn.map_or(Moved::Bare, |turn| Moved::NockTurn(turn.si())),
            error,
        })
    }

    /// The question, ready to run; none for a rigid body, which asks nothing.
    pub fn plan(&self) -> Option<Plan> {
        if self.builds.is_empty() {
            return None;
        }
        let builds = self.builds.iter().zip(&self.recipes).map(|(build, recipe)| Build {
            name: build.name.clone().unwrap_or_else(|| AS_GIVEN.to_owned()),
            recipe: if self.steps.is_empty() {
                Arc::new(recipe.clone()) as Arc<dyn Recipe>
            } else {
                Arc::new(Stepped::new(recipe, build, &self.steps))
            },
        });
        Some(Plan {
            title: self.title().to_owned(),
            builds: builds.collect(),
            question: self.question.clone(),
            distances: self.distances(),
            flights: self.count(Id::Flights)?,
            stop: self.quantity::<Ratio>(Id::R90Within).and_then(|share| {
                Some(StopRule { r90_within: share.si(), at_most: self.count(Id::AtMost)? })
            }),
            arrows: self.count(Id::Arrows),
            target: match self.quantity(Id::Face) {
                Some(diameter) => {
                    TargetChoice::Face { diameter, inner_ten: self.flag(Id::InnerTen) }
                }
                None => self.zone()?,
            },
            stated: stated(&self.top),
            points: study::OUTER_POINTS,
            alone: study::CausesAlone::Everywhere,
            evidence: evidence(&self.clues, &self.builds, &self.recipes),
            seed: self.whole(Id::Seed)?,
        })
    }

    fn zone(&self) -> Option<TargetChoice> {
        let width = self.quantity(Id::Zone)?;
        Some(match self.quantity(Id::ZoneHeight) {
            Some(height) => TargetChoice::Ellipse { width, height },
            None => TargetChoice::Zone { diameter: width },
        })
    }

    /// The shooting distances, rising.
    pub fn distances(&self) -> Vec<Length> {
        match self.top.get(&Id::Distances).map(|entry| &entry.value) {
            Some(Value::Lengths(values)) => values.iter().map(|v| Length::from_si(*v)).collect(),
            _ => Vec::new(),
        }
    }

    /// The recipe of a build, or of the first, with what was measured.
    ///
    /// # Errors
    /// [`ScenarioError::UnknownBuild`] when there is no such build.
    pub fn recipe(&self, build: Option<&str>) -> Result<Box<dyn Recipe>, ScenarioError> {
        let (_, recipe) = self.named(build)?;
        let evidence = evidence(&self.clues, &self.builds, &self.recipes);
        Ok(Box::new(recipe.clone().measured(evidence)))
    }

    /// A build by its name, or the first, with its recipe.
    pub(crate) fn named(
        &self,
        build: Option<&str>,
    ) -> Result<(&Settled, &BuildRecipe), ScenarioError> {
        let names: Vec<&str> =
            self.builds.iter().map(|b| b.name.as_deref().unwrap_or(AS_GIVEN)).collect();
        let index = build.map_or(Some(0), |name| names.iter().position(|n| *n == name));
        let found = index.and_then(|index| self.builds.get(index).zip(self.recipes.get(index)));
        found.ok_or_else(|| ScenarioError::UnknownBuild {
            name: build.unwrap_or_default().to_owned(),
            allowed: names.into_iter().map(str::to_owned).collect(),
        })
    }

    /// Puts the command line's seed and number of flights in place of the
    /// file's.
    ///
    /// # Errors
    /// [`ScenarioError::OutOfRange`] when a number is outside the range of its
    /// key; nothing is changed then.
    pub fn override_question(
        &mut self,
        seed: Option<u64>,
        flights: Option<u64>,
    ) -> Result<(), ScenarioError> {
        let given = [(Id::Seed, seed), (Id::Flights, flights)];
        let given = || given.iter().filter_map(|(id, value)| value.map(|value| (*id, value)));
        for (id, value) in given() {
            let Kind::Whole { low, mut high } = id.key().kind else { continue };
            if let (Id::Flights, Some(most)) = (id, self.whole(Id::AtMost)) {
                high = most;
            }
            if !(low..=high).contains(&value) {
                return Err(ScenarioError::OutOfRange {
                    key: id.path().to_owned(),
                    value: value.to_string(),
                    allowed: format!("{low} to {high}"),
                });
            }
        }
        for (id, value) in given() {
            let (written, origin) = (value.to_string(), Origin::CommandLine);
            self.top.insert(id, Entry { value: Value::Whole(value), written, origin });
        }
        Ok(())
    }

    fn text(&self, id: Id) -> Option<&str> {
        self.top.get(&id).and_then(Entry::text)
    }

    fn flag(&self, id: Id) -> bool {
        matches!(self.top.get(&id), Some(Entry { value: Value::Flag(true), .. }))
    }

    fn whole(&self, id: Id) -> Option<u64> {
        match self.top.get(&id)?.value {
            Value::Whole(value) => Some(value),
            _ => None,
        }
    }

    fn count(&self, id: Id) -> Option<usize> {
        usize::try_from(self.whole(id)?).ok()
    }

    pub(crate) fn quantity<Q: Quantity>(&self, id: Id) -> Option<Q> {
        match self.top.get(&id)?.value {
            Value::Fixed(value) => Some(Q::from_si(value)),
            _ => None,
        }
    }
}

/// Why a build cannot be shot.
fn of_build(settled: &Settled, why: Unmeasurable) -> ScenarioError {
    let build = settled.name.clone();
    match why {
        Unmeasurable::Arrow(cause) => ScenarioError::NotAnArrow { build, cause },
        Unmeasurable::Bow(cause) => ScenarioError::NoDeparture { build, cause },
        Unmeasurable::Flight(cause) => ScenarioError::NoFlight { build, cause },
    }
}
