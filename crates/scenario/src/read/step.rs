//! Bench steps, written `[[step]]`.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::value::Scale;
use super::walk::Here;
use super::{Draft, Reader};
use crate::ScenarioError as E;
use crate::entry::{Entry, Layer, Origin, Value};
use crate::schema::{Id, STEP_COST, STEP_NAME, STEP_TIME, StepKey, si};
use crate::settle::{Settled, choice};
use crate::source::Place;
use crate::step::{Step, settled};
use crate::written::quoted;

/// The kind of question that weighs steps.
const WORTH: &str = "worth";
/// Most steps. Chosen: more than a bench knows.
const MOST_STEPS: usize = 24;
/// What a step must be.
const TABLES: &str = "tables, written [[step]]";

impl Reader<'_> {
    /// The steps at the top of the file.
    pub(super) fn steps(&mut self, file: usize, table: &DeTable<'_>) -> Vec<Step> {
        let mut steps: Vec<Step> = Vec::new();
        let Some((_, value)) = table.iter().find(|(key, _)| key.get_ref() == "step") else {
            return steps;
        };
        let Some(array) = value.get_ref().as_array() else {
            let place = self.sources.place(file, value.span());
            self.wrong_type(place, "step", TABLES, value.get_ref());
            return steps;
        };
        if array.len() > MOST_STEPS {
            let (place, count) = (self.sources.place(file, value.span()), array.len());
            self.problem(Some(place), E::TooMany { table: "step", count, most: MOST_STEPS });
        }
        for value in array.iter().take(MOST_STEPS) {
            let place = self.sources.place(file, value.span());
            let Some(table) = value.get_ref().as_table() else {
                self.wrong_type(place, "step", TABLES, value.get_ref());
                continue;
            };
            let step = self.step(file, place, table);
            if !step.name.is_empty() && steps.iter().any(|other| other.name == step.name) {
                self.problem(Some(place), E::SameStep(step.name.clone()));
            }
            if self.whole && step.layer.entries.is_empty() && step.layer.tables.is_empty() {
                self.problem(Some(place), E::IdleStep { name: step.name.clone() });
            }
            steps.push(step);
        }
        steps
    }

    fn step(&mut self, file: usize, place: Place, table: &DeTable<'_>) -> Step {
        let find = |name: &str| {
            table.iter().find(|(key, _)| key.get_ref() == name).map(|(_, value)| value)
        };
        let name = if let Some(value) = find(STEP_NAME) {
            self.step_name(file, value)
        } else {
            let doc = "What the answer calls this step.";
            let example = "name = \"square the ends\"".to_owned();
            let error = E::Missing { key: "step.name", build: None, doc, example };
            self.problem(Some(place), error);
            String::new()
        };
        let time = self.step_entry(&STEP_TIME, file, find(STEP_TIME.column.name));
        let cost = self.step_entry(&STEP_COST, file, find(STEP_COST.column.name));
        let own = &["name", "time", "cost"];
        let here = Here { prefix: "", trail: &[file], in_build: true, own };
        Step { name, time, cost, layer: self.table(&here, table), place }
    }

    fn step_name(&mut self, file: usize, value: &Spanned<DeValue<'_>>) -> String {
        let text = value.get_ref().as_str().unwrap_or_default();
        if text.trim().is_empty() {
            let place = self.sources.place(file, value.span());
            self.wrong_type(place, "step.name", "a text", value.get_ref());
        }
        text.to_owned()
    }

    fn step_entry(
        &mut self,
        key: &StepKey,
        file: usize,
        value: Option<&Spanned<DeValue<'_>>>,
    ) -> Entry {
        let Some(value) = value else {
            let bare = key.usual.parse::<f64>().is_ok();
            let written = if bare { key.usual.to_owned() } else { quoted(key.usual) };
            let value = Value::Fixed(si(key.column.dimension, key.usual));
            return Entry { value, written, origin: Origin::Default(key.source) };
        };
        let place = self.sources.place(file, value.span());
        let name = format!("step.{}", key.column.name);
        let read = match value.get_ref() {
            DeValue::Boolean(_) | DeValue::Datetime(_) | DeValue::Array(_) => {
                self.wrong(place, &name, "a quantity in quotes", value.get_ref())
            }
            raw => self.scalar_at(&name, place, raw),
        };
        let read = read
            .and_then(|scalar| self.scaled(Scale::of_column(&key.column), &name, &scalar))
            .filter(|read| self.within(&name, place, read, key.column.limits()).is_some());
        let (value, written) =
            read.map_or((Value::Bad, String::new()), |read| (Value::Fixed(read.si), read.written));
        Entry { value, written, origin: Origin::File(place) }
    }

    /// Checks that steps are asked for where they are written, and that every
    /// build can stand each alone and all together.
    pub(super) fn check_steps(
        &mut self,
        common: &Layer,
        steps: &[Step],
        builds: &[Settled],
        start: Place,
    ) {
        let kind = common.entries.get(&Id::QuestionKind);
        let asked = choice(common, Id::QuestionKind) == WORTH;
        match (asked, steps.first()) {
            (true, None) if self.problems.is_empty() => {
                let place = kind.and_then(Entry::place).unwrap_or(start);
                let doc = "A bench step: what it changes and how long it takes.";
                let example = "[[step]] with a name, a time and [step.faults.point_end]".to_owned();
                self.problem(Some(place), E::Missing { key: "step", build: None, doc, example });
            }
            (false, Some(step)) => {
                let kinds = ["compare", "sweep", "tune", "matters"];
                let word = choice(common, Id::QuestionKind);
                if let Some(kind) = kinds.into_iter().find(|kind| *kind == word) {
                    self.problem(Some(step.place), E::NotForKind { key: "step", kind });
                }
            }
            _ => {}
        }
        if let Some(step) = steps.get(study::MOST_STEPS) {
            let (count, most) = (steps.len(), study::MOST_STEPS);
            self.problem(Some(step.place), E::ManySteps { count, most });
        }
        if !self.problems.is_empty() {
            return;
        }
        let mut sets: Vec<Vec<usize>> = (0..steps.len()).map(|step| vec![step]).collect();
        sets.push((0..steps.len()).collect());
        for build in builds {
            for set in &sets {
                let layer = settled(build, steps, set).layer;
                let place = set.first().and_then(|at| steps.get(*at)).map_or(start, |s| s.place);
                self.settle_build(Draft { name: build.name.clone(), layer }, place);
            }
        }
    }
}
