//! The question: what is asked, and the values of a sweep.

use std::collections::BTreeMap;

use study::{Question, Shares, Sweep, Worth};

use super::near::nearest_table;
use super::value::Understood;
use super::{Reader, near};
use crate::ScenarioError as E;
use crate::SweepFault;
use crate::entry::{Entry, Layer, Value};
use crate::schema::{Fallback, Id, KEYS, NEEDS, Named, find};
use crate::settle::{Entries, Settled, choice, fill, unused_because};
use crate::source::Place;
use crate::step::Step;
use crate::text::quantity;

const SWEEP_KEYS: [Id; 5] =
    [Id::SweepKey, Id::SweepValues, Id::SweepFrom, Id::SweepTo, Id::SweepSteps];

const COMPARE_KEYS: [Id; 7] =
    [Id::Ends, Id::Round, Id::HitShare, Id::RangeError, Id::WindError, Id::Confidence, Id::Power];

/// The keys that belong to one kind of question alone.
const OWN_KEYS: [(&str, &[Id]); 5] = [
    ("compare", &COMPARE_KEYS),
    ("sweep", &SWEEP_KEYS),
    ("tune", &[Id::Paper, Id::Trends]),
    ("matters", &[Id::Within]),
    ("worth", &[]),
];

/// Keys that one kind of question has no use for, though others do: shares are
/// those of new arrows without end, and no rule but their own stops the run.
const NOT_FOR: [(&str, &[Id]); 2] = [
    ("matters", &[Id::Arrows, Id::R90Within, Id::AtMost]),
    ("worth", &[Id::R90Within, Id::AtMost]),
];

/// Distances closer than this are the same, m. Chosen: a yard in metres, rounded to a
/// millimetre, is the same yard.
const SAME: f64 = 1e-3;

/// A second place that matters, and what is there.
type Also = (Place, &'static str);

impl Reader<'_> {
    /// The keys outside any build, defaults filled in.
    pub(super) fn settle_question(&mut self, common: &Layer, start: Place) -> Entries {
        self.conflicts(common);
        self.idle(common, false);
        let given = |id: Id| common.entries.get(&id);
        let word = choice(common, Id::QuestionKind);
        // A word that is none of them has been reported.
        let kind = OWN_KEYS.iter().map(|(kind, _)| *kind).find(|kind| *kind == word);
        let others = OWN_KEYS.iter().filter(|(other, _)| kind.is_some_and(|kind| kind != *other));
        let useless = NOT_FOR.iter().filter(|(own, _)| kind == Some(*own));
        let idle: Vec<Id> =
            others.chain(useless).flat_map(|(_, keys)| keys.iter().copied()).collect();
        for (id, entry) in idle.iter().filter_map(|id| given(*id).map(|entry| (id, entry))) {
            let kind = kind.unwrap_or_default();
            self.problem(entry.place(), E::NotForKind { key: id.path(), kind });
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
            !id.built()
                && !idle.contains(id)
                && (rigid || id.table() != "rigid_body")
                && ["measured", "marks"]
                    .iter()
                    .all(|table| id.table() != *table || common.tables.contains_key(*table))
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
        self.headline(&entries);
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

    /// The distance of the first sentence is one of those asked.
    fn headline(&mut self, entries: &Entries) {
        let (Some(entry), Some(Value::Lengths(all))) =
            (entries.get(&Id::Headline), entries.get(&Id::Distances).map(|entry| &entry.value))
        else {
            return;
        };
        let Value::Fixed(wanted) = entry.value else { return };
        if !all.iter().any(|distance| (distance - wanted).abs() < SAME) {
            let (key, value) = (Id::Headline.path().to_owned(), entry.written.clone());
            let allowed = "one of question.distances".to_owned();
            self.problem(entry.place(), E::OutOfRange { key, value, allowed });
        }
    }

    /// What is asked; none when something is wrong with it.
    pub(super) fn question(
        &mut self,
        top: &mut Entries,
        builds: &[Settled],
        steps: &[Step],
        start: Place,
    ) -> Option<Question> {
        match top.get(&Id::QuestionKind)?.text()? {
            "sweep" => self.sweep(top, builds, start).map(Question::Sweep),
            "tune" => self.tune(top, builds, start).map(Question::Tune),
            "matters" => match top.get(&Id::Within)?.value {
                Value::Fixed(within) => Some(Question::Matters(Shares { within })),
                _ => None,
            },
            "worth" => {
                Some(Question::Worth(Worth { steps: steps.iter().map(Step::bench).collect() }))
            }
            _ => {
                self.compared(top, builds, start);
                let ends = top.get(&Id::Ends).map(|entry| &entry.value);
                Some(Question::Compare { ends: ends == Some(&Value::Flag(true)) })
            }
        }
    }

    /// Checks that a measured shift says what was changed.
    pub(super) fn measured(&mut self, common: &Layer, builds: &[Settled]) {
        let Some(mark) = common.tables.get("measured") else { return };
        let entry = |id: Id| common.entries.get(&id);
        let changed = |id: Id| {
            entry(id).is_some_and(|e| !matches!(e.value, Value::Fixed(0.0) | Value::Flag(false)))
        };
        let what = [Id::MeasuredNockTurn, Id::MeasuredBare, Id::MeasuredPush];
        match what.into_iter().find(|id| changed(*id)) {
            None => self.problem(Some(mark.place), E::NoChange),
            Some(id) if id != Id::MeasuredPush && entry(Id::MeasuredDistance).is_none() => {
                let (key, other) = (id.path(), Id::MeasuredDistance.path());
                self.problem(entry(id).and_then(Entry::place), E::Needs { key, other });
            }
            Some(_) => {}
        }
        let vanes = |build: &Settled| build.entries.contains_key(&Id::VanesCount);
        if let Some(entry) = entry(Id::MeasuredBare).filter(|_| changed(Id::MeasuredBare))
            && builds.first().is_some_and(|build| !vanes(build))
        {
            let (key, other) = (Id::MeasuredBare.path(), "arrow.vanes");
            self.problem(entry.place(), E::Needs { key, other });
        }
    }

    /// The sweep.
    fn sweep(&mut self, top: &mut Entries, builds: &[Settled], start: Place) -> Option<Sweep> {
        let place = top.get(&Id::QuestionKind)?.place().unwrap_or(start);
        let Some(entry) = top.get(&Id::SweepKey) else {
            self.problem(Some(place), SweepFault::Open { what: "key" }.into());
            return None;
        };
        let (text, at_key) = (entry.text()?.to_owned(), entry.place().unwrap_or(start));
        let id = self.sweepable(&text, at_key)?;
        for build in builds {
            if let Some((error, also)) = cannot_sweep(id, build) {
                self.problem_with(Some(at_key), also, error);
            }
        }
        let values = self.swept_values(id, top, place)?;
        let labels = values.iter().map(|(_, label)| label.clone()).collect();
        let values = values.into_iter().map(|(value, _)| value).collect();
        let (key, slot) = (id.path().to_owned(), id.slot());
        let dimension = id.number()?.dimension;
        Some(Sweep { key, dimension, slot, values, labels })
    }

    /// Checks the names of values that go together.
    pub(super) fn correlated(&mut self, top: &Entries, start: Place) {
        let Some(Value::Names(names)) = top.get(&Id::Correlated).map(|entry| &entry.value) else {
            return;
        };
        for (name, place) in names {
            self.sweepable(name, place.unwrap_or(start));
        }
    }

    /// The number of the setup of this name.
    pub(super) fn sweepable(&mut self, text: &str, place: Place) -> Option<Id> {
        let error = match find(text) {
            Some(Named::Key(id)) if id.number().is_some() => return Some(id),
            Some(Named::Key(id)) => SweepFault::NotNumber { key: id.path() }.into(),
            _ => SweepFault::Unknown { key: text.to_owned(), near: near::sweepable(text) }.into(),
        };
        self.problem(Some(place), error);
        None
    }

    fn swept_values(
        &mut self,
        id: Id,
        top: &mut Entries,
        place: Place,
    ) -> Option<Vec<(f64, String)>> {
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
        for (from, values) in &read {
            let written: Vec<&str> = values.iter().map(|value| value.written.as_str()).collect();
            let list = *from == Id::SweepValues;
            let written = written.join(", ");
            if let Some(entry) = top.get_mut(from) {
                entry.written = if list { format!("[{written}]") } else { written };
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
                self.problem(Some(place), SweepFault::Open { what: "values" }.into());
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

/// Why a value of a build cannot be swept, and a place that matters.
pub(super) fn cannot_sweep(id: Id, build: &Settled) -> Option<(E, Option<Also>)> {
    let key = id.path();
    let name = build.name.clone();
    let entry = build.entries.get(&id);
    if let Some(Entry { value: Value::Drawn { .. }, .. }) = entry {
        let also = entry.and_then(Entry::place).map(|place| (place, "drawn here"));
        return Some((SweepFault::Drawn { key, build: name }.into(), also));
    }
    let given = |id: &Id| build.layer.entries.contains_key(id);
    let carries = NEEDS.iter().any(|(_, need)| *need == id) && !given(&id);
    let because = unused_because(&build.layer, id)
        .or_else(|| carries.then(|| "it needs a first value in its own table".to_owned()));
    because.map(|because| (SweepFault::Unused { key, because, build: name }.into(), None))
}
