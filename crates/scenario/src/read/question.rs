//! The question: what is asked, and the values of a sweep.

use std::collections::BTreeMap;

use study::Sweep;

use super::build::{is_built, nearest_table};
use super::value::Understood;
use super::{Reader, near};
use crate::ScenarioError as E;
use crate::entry::{Entry, Layer, Value};
use crate::schema::{Fallback, Id, KEYS, NEEDS, Named, find};
use crate::settle::{Entries, Settled, choice, fill, unused_because};
use crate::source::Place;
use crate::text::quantity;

const SWEEP_KEYS: [Id; 5] =
    [Id::SweepKey, Id::SweepValues, Id::SweepFrom, Id::SweepTo, Id::SweepSteps];

impl Reader<'_> {
    /// The keys outside any build, defaults filled in.
    pub(super) fn settle_question(&mut self, common: &Layer, start: Place) -> Entries {
        self.conflicts(common);
        self.idle(common, false);
        let given = |id: Id| common.entries.get(&id);
        let sweeps = choice(common, Id::QuestionKind) == "sweep";
        let idle: &[Id] = if sweeps { &[Id::Ends] } else { &SWEEP_KEYS };
        let kind = if sweeps { "sweep" } else { "compare" };
        for entry in idle.iter().filter_map(|id| given(*id).map(|entry| (id, entry))) {
            let error = E::NotForKind { key: entry.0.path(), kind };
            self.problem(entry.1.place(), error);
        }
        let rigid = choice(common, Id::Model) == "rigid-body";
        if let Some(mark) = common.tables.get("rigid_body")
            && !rigid
        {
            let other = "flight.model = \"rigid-body\"";
            self.problem(Some(mark.place), E::Needs { key: "rigid_body", other });
        }
        let used = |id: &Id| {
            let needed = NEEDS.iter().find(|(key, _)| key == id).map(|(_, need)| *need);
            !is_built(*id)
                && !idle.contains(id)
                && (rigid || id.table() != "rigid_body")
                && needed.is_none_or(|need| common.entries.contains_key(&need))
                && (*id != Id::Zone || given(Id::Face).is_none())
        };
        let ids = || KEYS.iter().map(|key| key.id).filter(used);
        for id in ids().filter(|id| matches!(id.key().fallback, Fallback::Required)) {
            if self.whole && given(id).is_none() {
                let (key, doc) = (id.path(), id.key().doc);
                let example = super::build::example(id);
                let place = nearest_table(common, id.table(), start);
                self.problem(Some(place), E::Missing { key, build: None, doc, example });
            }
        }
        let entries = fill(common, ids());
        self.at_most(&entries);
        entries
    }

    /// The ceiling of a stop rule is not below its first batch.
    fn at_most(&mut self, entries: &Entries) {
        let whole = |id: Id| entries.get(&id).map(|entry| (entry, &entry.value));
        if let (Some((entry, Value::Whole(most))), Some((_, Value::Whole(flights)))) =
            (whole(Id::AtMost), whole(Id::Flights))
            && most < flights
        {
            let (key, value) = (Id::AtMost.path().to_owned(), most.to_string());
            let allowed = format!("at least the {flights} flights of the first batch");
            self.problem(entry.place(), E::OutOfRange { key, value, allowed });
        }
    }

    /// The sweep, if one is asked for.
    pub(super) fn sweep(
        &mut self,
        top: &Entries,
        builds: &[Settled],
        start: Place,
    ) -> Option<Sweep> {
        let kind = top.get(&Id::QuestionKind)?;
        if kind.text() != Some("sweep") {
            return None;
        }
        let place = kind.place().unwrap_or(start);
        let Some(entry) = top.get(&Id::SweepKey) else {
            self.problem(Some(place), E::SweepOpen { what: "key" });
            return None;
        };
        let (text, at_key) = (entry.text()?, entry.place().unwrap_or(start));
        let id = match find(text) {
            Some(Named::Key(id)) if id.number().is_some() => id,
            Some(Named::Key(id)) => {
                self.problem(Some(at_key), E::SweepNotNumber { key: id.path() });
                return None;
            }
            _ => {
                let error = E::SweepUnknown { key: text.to_owned(), near: near::sweepable(text) };
                self.problem(Some(at_key), error);
                return None;
            }
        };
        for build in builds {
            self.can_sweep(id, build, at_key);
        }
        let values = self.swept_values(id, top, place)?;
        let labels = values.iter().map(|(_, label)| label.clone()).collect();
        let values = values.into_iter().map(|(value, _)| value).collect();
        let (key, slot) = (id.path().to_owned(), id.slot());
        let dimension = id.number()?.dimension;
        Some(Sweep { key, dimension, slot, values, labels })
    }

    fn can_sweep(&mut self, id: Id, build: &Settled, place: Place) {
        let key = id.path();
        let name = build.name.clone();
        let entry = build.entries.get(&id);
        if let Some(Entry { value: Value::Drawn { .. }, .. }) = entry {
            let also = entry.and_then(Entry::place).map(|place| (place, "drawn here"));
            self.problem_with(Some(place), also, E::SweepDrawn { key, build: name });
            return;
        }
        let given = |id: &Id| build.layer.entries.contains_key(id);
        let carries = NEEDS.iter().any(|(_, need)| *need == id) && !given(&id);
        let because = unused_because(&build.layer, id)
            .or_else(|| carries.then(|| "it needs a first value in its own table".to_owned()));
        if let Some(because) = because {
            self.problem(Some(place), E::SweepUnused { key, because, build: name });
        }
    }

    fn swept_values(&mut self, id: Id, top: &Entries, place: Place) -> Option<Vec<(f64, String)>> {
        let mut read = BTreeMap::new();
        for from in [Id::SweepValues, Id::SweepFrom, Id::SweepTo] {
            if let Some(Entry { value: Value::Scalars(scalars), .. }) = top.get(&from) {
                let values: Vec<Option<Understood>> = scalars
                    .iter()
                    .map(|scalar| {
                        let value = self.scalar_value(id, from.path(), scalar)?;
                        self.check(id, from.path(), scalar.place, &value)?;
                        Some(value)
                    })
                    .collect();
                read.insert(from, values.into_iter().collect::<Option<Vec<_>>>()?);
            }
        }
        if let Some(values) = read.get(&Id::SweepValues) {
            let label = |value: &Understood| quantity(value.si, value.unit);
            return Some(values.iter().map(|value| (value.si, label(value))).collect());
        }
        let one = |id: Id| read.get(&id).and_then(|values| values.first());
        let (Some(from), Some(to), Some(Entry { value: Value::Whole(steps), .. })) =
            (one(Id::SweepFrom), one(Id::SweepTo), top.get(&Id::SweepSteps))
        else {
            if !SWEEP_KEYS.iter().any(|id| matches!(top.get(id), Some(e) if e.value == Value::Bad))
            {
                self.problem(Some(place), E::SweepOpen { what: "values" });
            }
            return None;
        };
        let whole = id.number().is_some_and(|number| number.whole);
        let last = *steps - 1;
        let values = (0..=last).map(|step| {
            let share = step as f64 / last as f64;
            let value = from.si * (1.0 - share) + to.si * share;
            // A count steps through whole numbers only.
            let value = if whole { value.round() } else { value };
            (value, quantity(value, from.unit))
        });
        Some(values.collect())
    }
}
