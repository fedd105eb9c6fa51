//! The marks: what cannot be asked, and which values may change.

use super::Reader;
use super::question::cannot_sweep;
use crate::ScenarioError as E;
use crate::entry::{Entry, Layer, Origin, Value};
use crate::marks::MOST;
use crate::schema::Id;
use crate::settle::{Entries, Settled};
use crate::source::Place;
use crate::text::{between, own_unit};
use crate::written::quoted;

impl Reader<'_> {
    /// Checks the marks; changes left out of the default list leave `top` too.
    pub(super) fn marks(
        &mut self,
        top: &mut Entries,
        common: &Layer,
        builds: &[Settled],
        start: Place,
    ) {
        let Some(table) = common.tables.get("marks") else { return };
        self.span(top, table.place);
        for build in builds {
            self.sighted(build);
        }
        self.changes(top, builds, start);
    }

    /// From, to and step.
    fn span(&mut self, top: &Entries, table: Place) {
        let fixed = |id: Id| match top.get(&id).map(|entry| &entry.value) {
            Some(Value::Fixed(value)) => Some(*value),
            _ => None,
        };
        let (Some(from), Some(to), Some(step)) =
            (fixed(Id::MarksFrom), fixed(Id::MarksTo), fixed(Id::MarksStep))
        else {
            return;
        };
        let place = |id: Id| top.get(&id).and_then(Entry::place);
        if to <= from {
            let text = |id: Id| {
                top.get(&id).map_or_else(String::new, |entry| entry.written.replace('"', ""))
            };
            let error = E::NoMarks { from: text(Id::MarksFrom), to: text(Id::MarksTo) };
            let at = place(Id::MarksTo).or(place(Id::MarksFrom)).unwrap_or(table);
            self.problem(Some(at), error);
            return;
        }
        let count = crate::marks::steps(from, to, step).len();
        if count > MOST {
            let at = place(Id::MarksStep).unwrap_or(table);
            self.problem(Some(at), E::ManyMarks { count, most: MOST });
        }
    }

    /// A sight set nearer than any mark.
    fn sighted(&mut self, build: &Settled) {
        let id = Id::SightZero;
        if let Some(entry) = build.entries.get(&id)
            && let Value::Fixed(zero) = entry.value
            && zero < study::NEAREST
        {
            let unit = own_unit(id);
            let range = between((study::NEAREST, study::FARTHEST), unit);
            let (key, value) = (id.path().to_owned(), entry.written.clone());
            let allowed = format!("{range} where marks are asked");
            self.problem(entry.place(), E::OutOfRange { key, value, allowed });
        }
    }

    fn changes(&mut self, top: &mut Entries, builds: &[Settled], start: Place) {
        let Some(Entry { value: Value::Names(names), origin, .. }) = top.get(&Id::MarksChanges)
        else {
            return;
        };
        let by_default = matches!(origin, Origin::Default(_));
        let mut kept = Vec::new();
        for (name, place) in names.clone() {
            let at = place.unwrap_or(start);
            let Some(id) = self.sweepable(&name, at) else { continue };
            // A changed altitude looks its pressure up, whatever pressure is given.
            let looks_up = id == Id::AirAltitude;
            let reasons: Vec<_> = builds
                .iter()
                .filter(|build| !looks_up || build.entries.contains_key(&id))
                .filter_map(|build| cannot_sweep(id, build))
                .collect();
            if reasons.is_empty() {
                kept.push((name, place));
            } else if !by_default {
                for (error, also) in reasons {
                    self.problem_with(Some(at), also, error);
                }
            }
        }
        if kept.is_empty() {
            top.remove(&Id::MarksChanges);
        } else if let Some(entry) = top.get_mut(&Id::MarksChanges) {
            let names: Vec<String> = kept.iter().map(|(name, _)| quoted(name)).collect();
            entry.written = format!("[{}]", names.join(", "));
            entry.value = Value::Names(kept);
        }
    }
}
