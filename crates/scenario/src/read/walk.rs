//! A parsed file against the table: which keys are there.

use std::path::Path;

use toml::Spanned;
use toml::de::{DeTable, DeValue};
use units::Style;

use super::{Draft, Reader, near};
use crate::ScenarioError as E;
use crate::entry::{Entry, Layer, Mark, Origin, Value};
use crate::schema::{
    Id, Named, Table, children, find, in_a_word, inside, parent, plain_word, said_so,
};
use crate::source::Place;
use crate::text::measure;
use crate::written::quoted;

/// How deep part files may name part files. Chosen: an arrow, its point, its
/// blades.
const DEEPEST: usize = 3;

/// Most builds side by side. Chosen: twice the rows that still can be compared by
/// eye.
const MOST_BUILDS: usize = 24;

/// The files on the way from the scenario to the one being read.
pub(super) type Trail<'t> = &'t [usize];

/// The table without which a shaft is bare.
const VANES: &str = "arrow.vanes";

/// Where a table is being read.
pub(super) struct Here<'t> {
    pub(super) prefix: &'t str,
    pub(super) trail: Trail<'t>,
    pub(super) in_build: bool,
    /// Names at the top of what is read that are read on their own.
    pub(super) own: &'static [&'static str],
}

impl Reader<'_> {
    /// The top of the scenario file: common keys and builds.
    pub(super) fn top(&mut self, file: usize, table: &DeTable<'_>) -> (Layer, Vec<Draft>) {
        let own = &["build", "step", "evidence"];
        let here = Here { prefix: "", trail: &[file], in_build: false, own };
        let mut common = self.table(&here, table);
        common.entries.extend(self.units.map(|style| {
            let word = match style {
                Style::Archery => "archery",
                Style::Metric => "metric",
            };
            let (value, written) = (Value::Text(word.to_owned()), quoted(word));
            (Id::Units, Entry { value, written, origin: Origin::CommandLine })
        }));
        let mut drafts = Vec::new();
        if let Some((_, value)) = table.iter().find(|(key, _)| key.get_ref() == "build") {
            self.builds(file, value, &common, &mut drafts);
        }
        if drafts.is_empty() {
            drafts.push(Draft { name: None, layer: common.clone() });
        }
        (common, drafts)
    }

    fn builds(
        &mut self,
        file: usize,
        value: &Spanned<DeValue<'_>>,
        common: &Layer,
        drafts: &mut Vec<Draft>,
    ) {
        let place = self.sources.place(file, value.span());
        let Some(array) = value.get_ref().as_array() else {
            return self.wrong_type(place, "build", "tables, written [[build]]", value.get_ref());
        };
        if array.len() > MOST_BUILDS {
            let (count, most) = (array.len(), MOST_BUILDS);
            self.problem(Some(place), E::TooMany { table: "build", count, most });
        }
        for value in array.iter().take(MOST_BUILDS) {
            let place = self.sources.place(file, value.span());
            let Some(table) = value.get_ref().as_table() else {
                self.wrong_type(place, "build", "tables, written [[build]]", value.get_ref());
                continue;
            };
            let named = table.iter().find(|(key, _)| key.get_ref() == "name");
            let name = named.and_then(|(_, value)| {
                let text = value.get_ref().as_str();
                if text.is_none_or(|text| text.trim().is_empty()) {
                    let place = self.sources.place(file, value.span());
                    self.wrong_type(place, "build.name", "a text", value.get_ref());
                }
                text.map(|text| (text.to_owned(), self.sources.place(file, value.span())))
            });
            if named.is_none() {
                let doc = "What the answer calls this build.";
                let example = "name = \"squared\"".to_owned();
                let error = E::Missing { key: "build.name", build: None, doc, example };
                self.problem(Some(place), error);
            }
            if let Some((name, place)) = &name
                && drafts.iter().any(|draft| draft.name.as_ref() == Some(name))
            {
                self.problem(Some(*place), E::SameName { name: name.clone() });
            }
            let here = Here { prefix: "", trail: &[file], in_build: true, own: &["name"] };
            let layer = common.clone().under(self.table(&here, table));
            drafts.push(Draft { name: Some(name.map_or_else(String::new, |n| n.0)), layer });
        }
    }

    /// One table, with the part file it names laid under it.
    pub(super) fn table(&mut self, here: &Here<'_>, table: &DeTable<'_>) -> Layer {
        let file = here.trail[here.trail.len() - 1];
        let mut own = Layer::default();
        let mut under = Layer::default();
        let mut plain: Vec<(Id, Entry)> = Vec::new();
        // In the order of the file, so that its first mistakes are the ones told.
        let mut keys: Vec<_> = table.iter().collect();
        keys.sort_by_key(|(key, _)| key.span().start);
        for (key, value) in keys {
            let name = key.get_ref().as_ref();
            let path = if here.prefix.is_empty() {
                name.to_owned()
            } else {
                format!("{}.{name}", here.prefix)
            };
            let at_key = self.sources.place(file, key.span());
            let at_value = self.sources.place(file, value.span());
            match find(&path) {
                Some(Named::Table(known)) => {
                    if here.in_build && !known.in_build {
                        self.problem(Some(at_key), E::NotInBuild(path));
                    } else {
                        own.absorb(self.subtable(here, known, at_key, value));
                    }
                }
                Some(Named::Key(id)) if here.in_build && !may_differ(id) => {
                    self.problem(Some(at_key), E::NotInBuild(path));
                }
                Some(Named::Key(id)) => {
                    for (id, entry) in self.entries(id, file, value) {
                        self.put(&mut own, id, entry);
                    }
                }
                None if name == "part" && find(here.prefix).is_some() => {
                    under = self.part(here, at_value, value.get_ref());
                }
                None if here.prefix.is_empty()
                    && here.trail.len() == 1
                    && here.own.contains(&name) => {}
                None => match plain_word(name).filter(|_| here.prefix.is_empty()) {
                    Some(id) if here.in_build && !may_differ(id) => {
                        self.problem(Some(at_key), E::NotInBuild(path));
                    }
                    Some(id) => plain.extend(self.entries(id, file, value)),
                    None => self.unknown(here, at_key, path, value.get_ref()),
                },
            }
        }
        self.plain(&mut own, plain, here.in_build);
        under.under(own)
    }

    /// A key of a layer, which nothing else in it says already.
    fn put(&mut self, own: &mut Layer, id: Id, entry: Entry) {
        if let Some(other) = own.entries.get(&id) {
            let also = other.place().map(|other| (other, "and here"));
            let (key, reason) = (id.path(), "the words for a wind say this already");
            self.problem_with(entry.place(), also, E::Conflict { key, other: key, reason });
            return;
        }
        own.entries.insert(id, entry);
    }

    /// What was said in ordinary words. Who speaks so of an arrow means a fletched one.
    fn plain(&mut self, own: &mut Layer, plain: Vec<(Id, Entry)>, in_build: bool) {
        for (id, entry) in plain {
            let place = entry.place();
            if let Some(other) = own.entries.get(&id) {
                let also = other.place().map(|other| (other, "and here"));
                let (key, reason) = (id.path(), "an ordinary word and its key say the same thing");
                self.problem_with(place, also, E::Conflict { key, other: key, reason });
                continue;
            }
            if let (Some(place), false) = (place, in_build)
                && inside(id.path(), "arrow")
                && !own.tables.contains_key(VANES)
            {
                own.tables.insert(VANES, Mark { place, none: false });
            }
            own.entries.insert(id, entry);
        }
    }

    fn subtable(
        &mut self,
        here: &Here<'_>,
        known: &'static Table,
        at_key: Place,
        value: &Spanned<DeValue<'_>>,
    ) -> Layer {
        let file = at_key.file;
        let at_value = self.sources.place(file, value.span());
        let mut layer = Layer::default();
        match value.get_ref() {
            DeValue::Table(table) => {
                let inner = Here { prefix: known.path, ..*here };
                layer = self.table(&inner, table);
                layer.tables.insert(known.path, Mark { place: at_key, none: false });
            }
            DeValue::String(text) if known.optional && text == "none" => {
                layer.tables.insert(known.path, Mark { place: at_value, none: true });
            }
            // bow = "recurve", wind = "10 mph from the left"
            DeValue::String(_) | DeValue::Integer(_) | DeValue::Float(_)
                if let Some(id) = in_a_word(known.path)
                    && (measure(id).is_some() || value.get_ref().is_str()) =>
            {
                layer.entries.extend(self.entries(id, file, value));
                layer.tables.insert(known.path, Mark { place: at_value, none: false });
            }
            other => {
                let wanted = match in_a_word(known.path) {
                    Some(id) => format!("a text in quotes, such as {}, or a table", said_so(id)),
                    None if known.optional => "a table, or \"none\"".to_owned(),
                    None => "a table".to_owned(),
                };
                self.wrong_type(at_value, known.path, &wanted, other);
            }
        }
        layer
    }

    fn part(&mut self, here: &Here<'_>, place: Place, value: &DeValue<'_>) -> Layer {
        let Some(name) = value.as_str() else {
            self.whole = false;
            let key = format!("{}.part", here.prefix);
            self.wrong_type(place, &key, "the path of a file", value);
            return Layer::default();
        };
        let folder = self.sources.0[place.file].path.parent().unwrap_or(Path::new(""));
        let path = folder.join(name);
        let shown = path.display().to_string();
        let Some((file, text)) = self.open(path, place) else {
            return Layer::default();
        };
        if here.trail.contains(&file) {
            self.whole = false;
            self.problem(Some(place), E::PartLoop(shown));
            return Layer::default();
        }
        if here.trail.len() > DEEPEST {
            self.whole = false;
            self.problem(Some(place), E::PartTooDeep { path: shown, limit: DEEPEST });
            return Layer::default();
        }
        let Some(table) = self.parse(file, &text) else {
            return Layer::default();
        };
        let trail = [here.trail, &[file]].concat();
        self.table(&Here { trail: &trail, ..*here }, &table)
    }

    fn unknown(&mut self, here: &Here<'_>, place: Place, key: String, value: &DeValue<'_>) {
        if self.problems.full() {
            return self.problems.count();
        }
        let mut allowed = children(here.prefix);
        match (here.prefix, here.in_build) {
            ("", false) => allowed.extend(here.own),
            ("", true) => {
                allowed.retain(|name| match find(name) {
                    Some(Named::Table(table)) => table.in_build,
                    _ => false,
                });
                allowed.splice(0..0, here.own.iter().copied());
            }
            _ => allowed.push("part"),
        }
        let (near, elsewhere) = near::meant(&key, here.prefix, &allowed, value);
        let allowed = allowed.into_iter().map(str::to_owned).collect();
        self.problem(Some(place), E::UnknownKey { key, near, elsewhere, allowed });
    }

    pub(super) fn wrong_type(&mut self, place: Place, key: &str, wanted: &str, got: &DeValue<'_>) {
        let got = match got {
            DeValue::String(_) => "a text",
            DeValue::Integer(_) => "a whole number",
            DeValue::Float(_) => "a decimal number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        let error = E::WrongType { key: key.to_owned(), wanted: wanted.to_owned(), got };
        self.problem(Some(place), error);
    }
}

/// Whether a key may stand in a build.
fn may_differ(id: Id) -> bool {
    let mut table = id.table();
    while !table.is_empty() {
        if let Some(Named::Table(known)) = find(table) {
            return known.in_build;
        }
        table = parent(table);
    }
    false
}
