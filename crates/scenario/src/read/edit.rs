//! A scenario with some keys set anew.

use std::path::PathBuf;

use toml::Spanned;
use toml::de::{DeArray, DeString, DeTable, DeValue};

use super::{Draft, Reader};
use crate::edit::{Edit, Setting};
use crate::entry::{Layer, Mark};
use crate::schema::{Id, Named, find, parent};
use crate::source::{Place, Source};
use crate::text::{own_unit, quantity};
use crate::{Report, Scenario, ScenarioError as E};

impl Scenario {
    /// This scenario with some keys set, in their order, each read and checked
    /// as its key is in a file. A key set drops those that say the same thing
    /// in another way.
    ///
    /// A value that all builds share is set in all of them; one in which they
    /// differ, in the first.
    ///
    /// # Errors
    /// A [`Report`]; [`Report::edited`] tells which of the keys a problem
    /// belongs to.
    pub fn edited(&self, edits: &[Edit]) -> Result<Self, Report> {
        let nowhere = |_: &std::path::Path| Err(std::io::ErrorKind::NotFound.into());
        let mut reader = Reader::new(&nowhere);
        reader.sources = self.sources.clone();
        let mut common = self.common.clone();
        let mut drafts: Vec<Draft> = self
            .builds
            .iter()
            .map(|build| Draft { name: build.name.clone(), layer: build.layer.clone() })
            .collect();
        for edit in edits {
            let place = reader.source(edit);
            match find(edit.key) {
                Some(Named::Key(id)) => {
                    let change = reader.change(id, &edit.to, place, &common);
                    if id.built() {
                        set(id, &change, &mut drafts);
                    } else {
                        common = common.under(change);
                    }
                }
                Some(Named::Table(table)) => {
                    let layers = drafts.iter_mut().map(|draft| &mut draft.layer);
                    let built = layers.filter(|_| table.in_build);
                    for layer in built.chain([&mut common]) {
                        layer.tables.insert(table.path, Mark { place, none: false });
                    }
                }
                None => {
                    let key = edit.key.to_owned();
                    let (near, elsewhere, allowed) = (None, Vec::new(), Vec::new());
                    reader.problem(Some(place), E::UnknownKey { key, near, elsewhere, allowed });
                }
            }
        }
        let start = Place { file: 0, start: 0, end: 0 };
        let more = (self.steps.clone(), self.clues.clone());
        let scenario = reader.settle((common, drafts), more, start);
        reader.end(scenario)
    }
}

/// Sets a key of builds: in all that say the same, else in the first.
fn set(id: Id, change: &Layer, drafts: &mut [Draft]) {
    let said = |draft: &Draft| draft.layer.entries.get(&id).map(|entry| entry.written.clone());
    let shared = drafts.windows(2).all(|pair| said(&pair[0]) == said(&pair[1]));
    let count = if shared { drafts.len() } else { 1 };
    for draft in drafts.iter_mut().take(count) {
        draft.layer = std::mem::take(&mut draft.layer).under(change.clone());
    }
}

impl Reader<'_> {
    /// The text of an edit as a source of its own.
    fn source(&mut self, edit: &Edit) -> Place {
        let text = edit.to.text().to_owned();
        let end = text.len();
        let path = PathBuf::from(edit.key);
        let file = self.sources.add(Source { path, text, named_at: None });
        self.sources.1.push((file, edit.key));
        Place { file, start: 0, end }
    }

    /// A layer that says one key, and that the tables around it are there.
    fn change(&mut self, id: Id, to: &Setting, place: Place, common: &Layer) -> Layer {
        let span = place.start..place.end;
        let text = |text: &str| {
            Spanned::new(span.clone(), DeValue::String(DeString::from(text.to_owned())))
        };
        let table = |pairs: &[(&'static str, &str)]| {
            let pair = |(name, value): &(&'static str, &str)| {
                (Spanned::new(span.clone(), DeString::from(*name)), text(value))
            };
            DeValue::Table(pairs.iter().map(pair).collect::<DeTable<'_>>())
        };
        let value = match to {
            Setting::Table | Setting::Value(_) => text(to.text()),
            Setting::Size(size) => Spanned::new(span.clone(), table(&[("rayleigh", size)])),
            Setting::Spread(sd) => {
                let zero = quantity(0.0, own_unit(id));
                Spanned::new(span.clone(), table(&[("mean", &zero), ("sd", sd)]))
            }
            Setting::Among(length) => {
                let mut list = DeArray::new();
                for one in among(id, length, common) {
                    list.push(text(&one));
                }
                Spanned::new(span.clone(), DeValue::Array(list))
            }
        };
        let mut layer = Layer::default();
        layer.entries.insert(id, self.entry(id, place.file, &value));
        let mut around = id.table();
        while let Some(Named::Table(known)) = find(around) {
            layer.tables.insert(known.path, Mark { place, none: false });
            around = parent(around);
        }
        layer
    }
}

/// A list of lengths with one more, unless it is there.
fn among(id: Id, length: &str, common: &Layer) -> Vec<String> {
    let mut all = crate::control::listed(id, common.entries.get(&id));
    let si = |text: &str| units::parse_si(units::Dimension::Length, text);
    let Ok(chosen) = si(length) else {
        // The reader of the key says what is wrong with it.
        return vec![length.to_owned()];
    };
    let before = |text: &String| si(text).is_ok_and(|other| other < chosen);
    let at = all.iter().filter(|text| before(text)).count();
    if !all.iter().any(|text| si(text).is_ok_and(|other| same_mark(other, chosen))) {
        all.insert(at, length.to_owned());
    }
    all
}

/// Whether two distances are one mark. Chosen: a thousandth of a millimetre
/// tells a yard in metres from itself.
pub(crate) fn same_mark(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-6
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_a_length_is_put_in_where_it_belongs_and_once() {
        let empty = Layer::default();
        let list = among(Id::Distances, "33 yd", &empty);
        assert_eq!(list, ["20 yd", "30 yd", "33 yd", "40 yd", "50 yd", "60 yd"]);
        assert_eq!(among(Id::Distances, "18.288 m", &empty).len(), 5);
        assert_eq!(among(Id::Distances, "far", &empty), ["far"]);
    }
}
