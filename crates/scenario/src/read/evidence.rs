//! What was measured, written `[[evidence]]` or in a file of its own.

use std::collections::BTreeMap;
use std::path::Path;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::value::Scale;
use super::walk::Here;
use super::{Draft, Reader, near};
use crate::EvidenceFault;
use crate::ScenarioError as E;
use crate::entry::{Entry, Mark, Origin, Value};
use crate::evidence::{BUILDS_APART, Clue, named};
use crate::schema::{
    Column, EVIDENCE_AGAINST, EVIDENCE_AT, EVIDENCE_BUILD, EVIDENCE_ERROR, EVIDENCE_HELD,
    EVIDENCE_KEY, EVIDENCE_KEYS, EVIDENCE_KIND, EVIDENCE_KINDS, EVIDENCE_OWN, EVIDENCE_TEXTS,
    EVIDENCE_VALUE, EvidenceKey, Id, Named, find, limits,
};
use crate::settle::{AS_GIVEN, Settled};
use crate::source::Place;

/// Most things measured. Chosen: more than anyone measures.
const MOST: usize = 64;
/// What the list must be.
const TABLES: &str = "tables, written [[evidence]], or the path of a file that holds them";
/// Least error of a reading over the largest reading of its kind. Chosen: finer than
/// anything is read.
const SMALLEST_ERROR: f64 = 1e-6;

impl Reader<'_> {
    /// What was measured, at the top of the file.
    pub(super) fn evidence(&mut self, file: usize, table: &DeTable<'_>) -> Vec<Clue> {
        let found = table.iter().find(|(key, _)| key.get_ref() == "evidence");
        let Some((_, value)) = found else { return Vec::new() };
        let Some(name) = value.get_ref().as_str() else { return self.clues(file, value) };
        let place = self.sources.place(file, value.span());
        let folder = self.sources.0[file].path.parent().unwrap_or(Path::new(""));
        let Some((own, text)) = self.open(folder.join(name), place) else { return Vec::new() };
        let Some(table) = self.parse(own, &text) else { return Vec::new() };
        let mut clues = Vec::new();
        for (key, value) in &table {
            if key.get_ref() == "evidence" && value.get_ref().as_str().is_none() {
                clues = self.clues(own, value);
            } else {
                let at = self.sources.place(own, key.span());
                let key = key.get_ref().to_string();
                let (near, elsewhere) = (None, Vec::new());
                let allowed = vec!["evidence".to_owned()];
                self.problem(Some(at), E::UnknownKey { key, near, elsewhere, allowed });
            }
        }
        clues
    }

    fn clues(&mut self, file: usize, value: &Spanned<DeValue<'_>>) -> Vec<Clue> {
        let place = self.sources.place(file, value.span());
        let Some(array) = value.get_ref().as_array() else {
            self.wrong_type(place, "evidence", TABLES, value.get_ref());
            return Vec::new();
        };
        if array.len() > MOST {
            let (table, count, most) = ("evidence", array.len(), MOST);
            self.problem(Some(place), E::TooMany { table, count, most });
        }
        let mut clues = Vec::new();
        for value in array.iter().take(MOST) {
            let place = self.sources.place(file, value.span());
            match value.get_ref() {
                DeValue::Table(table) => clues.extend(self.clue(file, place, table)),
                other => self.wrong_type(place, "evidence", TABLES, other),
            }
        }
        clues
    }

    fn clue(&mut self, file: usize, place: Place, table: &DeTable<'_>) -> Option<Clue> {
        let find_key = |name: &str| {
            table.iter().find(|(key, _)| key.get_ref() == name).map(|(_, value)| value)
        };
        let mut texts = BTreeMap::new();
        let kinds: Vec<&'static str> = EVIDENCE_KINDS.iter().map(|(kind, _)| *kind).collect();
        for (name, _) in EVIDENCE_TEXTS {
            if [EVIDENCE_VALUE, EVIDENCE_ERROR].contains(name) {
                continue;
            }
            let words = match *name {
                EVIDENCE_KIND => kinds.as_slice(),
                EVIDENCE_AT => EVIDENCE_HELD,
                _ => &[],
            };
            if let Some(value) = find_key(name)
                && let Some(text) = self.clue_text(file, name, words, value)
            {
                texts.insert(*name, text);
            }
        }
        let own = Here { prefix: "", trail: &[file], in_build: true, own: EVIDENCE_OWN };
        let mut layer = self.table(&own, table);
        let Some(kind) = texts.get(EVIDENCE_KIND).cloned() else {
            if find_key(EVIDENCE_KIND).is_none() {
                self.lacks(place, "evidence.kind", "What was measured.", "kind = \"nock-turned\"");
            }
            return None;
        };
        let mut numbers = BTreeMap::new();
        for key in EVIDENCE_KEYS {
            let name = key.column.name;
            match find_key(name) {
                Some(value) if key.knows(&kind) => {
                    let whole = name == "shots";
                    if let Some(read) = self.clue_number(file, &key.column, whole, value) {
                        numbers.insert(name, read);
                    }
                }
                Some(value) => self.idle_clue(file, name, &kind, value),
                None if key.needs.contains(&kind.as_str()) => {
                    self.lacks(place, key.path(), key.doc, key.example);
                }
                None => {}
            }
        }
        let apart = kind == BUILDS_APART;
        if apart && find_key(EVIDENCE_AGAINST).is_none() {
            let doc = "The build it was shot against.";
            self.lacks(place, "evidence.against", doc, "against = \"field points\"");
        }
        let one_kind =
            [(EVIDENCE_AGAINST, BUILDS_APART), (EVIDENCE_AT, "push"), (EVIDENCE_KEY, "value")];
        for (name, kinds) in one_kind {
            if let Some(value) = find_key(name).filter(|_| kind != kinds) {
                self.idle_clue(file, name, &kind, value);
            }
        }
        let two_sided = EVIDENCE_KEYS.iter().any(|key| key.column.name == "up" && key.knows(&kind));
        if two_sided && find_key("left").is_none() && find_key("up").is_none() {
            let doc = "How far to the left or up.";
            self.lacks(place, "evidence.left", doc, "left = \"1.5 in\"");
        }
        let scale = self.clue_scale(file, place, &kind, find_key(EVIDENCE_KEY));
        match (find_key(EVIDENCE_VALUE), &scale, kind == "value") {
            (Some(value), _, false) => self.idle_clue(file, EVIDENCE_VALUE, &kind, value),
            (Some(value), Some((scale, limits)), true) => {
                let read = self.scaled_clue(file, EVIDENCE_VALUE, *scale, *limits, value);
                numbers.extend(read.map(|read| (EVIDENCE_VALUE, read)));
            }
            (None, _, true) => {
                self.lacks(place, "evidence.value", "The reading.", "value = \"0.002 in\"");
            }
            _ => {}
        }
        match (find_key(EVIDENCE_ERROR), &scale) {
            (Some(value), Some((scale, (low, high)))) => {
                let most = low.abs().max(high.abs());
                let limits = (SMALLEST_ERROR * most, most);
                let read = self.scaled_clue(file, EVIDENCE_ERROR, *scale, limits, value);
                numbers.extend(read.map(|read| (EVIDENCE_ERROR, read)));
            }
            (None, _) if kind == "value" => {
                let doc = "How well the value is known now.";
                self.lacks(place, "evidence.error", doc, "error = \"0.001 in\"");
            }
            _ => {}
        }
        if let Some((si, written)) = numbers.get("mass").cloned() {
            let origin = Origin::File(place);
            let entry = Entry { value: Value::Fixed(si), written, origin };
            layer.entries.insert(Id::GivenMass, entry);
            layer.tables.insert("arrow.given", Mark { place, none: false });
        }
        Some(Clue { place, texts, numbers, layer })
    }

    /// A key that a measured thing cannot do without.
    fn lacks(&mut self, place: Place, key: &'static str, doc: &'static str, example: &str) {
        let example = example.to_owned();
        self.problem(Some(place), E::Missing { key, build: None, doc, example });
    }

    fn idle_clue(
        &mut self,
        file: usize,
        name: &'static str,
        kind: &str,
        value: &Spanned<DeValue<'_>>,
    ) {
        let place = self.sources.place(file, value.span());
        let error = EvidenceFault::Idle { key: name, kind: kind.to_owned() }.into();
        self.problem(Some(place), error);
    }

    fn clue_text(
        &mut self,
        file: usize,
        name: &'static str,
        words: &[&'static str],
        value: &Spanned<DeValue<'_>>,
    ) -> Option<String> {
        let place = self.sources.place(file, value.span());
        let key = format!("evidence.{name}");
        let Some(text) = value.get_ref().as_str().filter(|text| !text.trim().is_empty()) else {
            return self.wrong(place, &key, "a text in quotes", value.get_ref());
        };
        if !words.is_empty() && !words.contains(&text) {
            let near = near::name(text, words.iter().copied());
            let (value, allowed) = (text.to_owned(), words.to_vec());
            self.problem(Some(place), E::UnknownChoice { key, value, near, allowed });
            return None;
        }
        Some(text.to_owned())
    }

    /// On which scale a kind's error is read, and within what range its readings are;
    /// of a value, that of its key.
    fn clue_scale(
        &mut self,
        file: usize,
        place: Place,
        kind: &str,
        key: Option<&Spanned<DeValue<'_>>>,
    ) -> Option<(Scale, (f64, f64))> {
        let name = match kind {
            "chronograph" => "speed",
            "spin" => "rate",
            "value" => {
                let Some(value) = key else {
                    let doc = "The dotted key of the value.";
                    self.lacks(place, "evidence.key", doc, "key = \"arrow.nock.clearance\"");
                    return None;
                };
                let place = self.sources.place(file, value.span());
                let id = self.sweepable(value.get_ref().as_str()?, place)?;
                return Some((Scale::of(id)?, limits(id)));
            }
            _ => "left",
        };
        let key = EVIDENCE_KEYS.iter().find(|key| key.column.name == name)?;
        Some((Scale::of_column(&key.column), key.column.limits()))
    }

    fn clue_number(
        &mut self,
        file: usize,
        column: &Column,
        whole: bool,
        value: &Spanned<DeValue<'_>>,
    ) -> Option<(f64, String)> {
        let scale = Scale::of_column(column);
        let scale = if whole { scale.whole() } else { scale };
        self.scaled_clue(file, column.name, scale, column.limits(), value)
    }

    fn scaled_clue(
        &mut self,
        file: usize,
        name: &str,
        scale: Scale,
        limits: (f64, f64),
        value: &Spanned<DeValue<'_>>,
    ) -> Option<(f64, String)> {
        let place = self.sources.place(file, value.span());
        let key = format!("evidence.{name}");
        let scalar = match value.get_ref() {
            DeValue::Boolean(_) | DeValue::Datetime(_) | DeValue::Array(_) => {
                self.wrong(place, &key, "a quantity in quotes", value.get_ref())
            }
            raw => self.scalar_at(&key, place, raw),
        };
        let read = self.scaled(scale, &key, &scalar?)?;
        self.within(&key, place, &read, limits)?;
        Some((read.si, read.written))
    }

    /// Checks that every measured thing can be held against its build.
    pub(super) fn check_evidence(&mut self, clues: &[Clue], builds: &[Settled]) {
        if !self.problems.is_empty() {
            return;
        }
        for clue in clues {
            let against = clue.texts.get(EVIDENCE_AGAINST);
            let unknown = against.filter(|name| named(name, builds).is_none());
            let Some(build) = clue.build(builds).filter(|_| unknown.is_none()) else {
                let own = || clue.texts.get(EVIDENCE_BUILD);
                let name = unknown.or_else(own).cloned().unwrap_or_default();
                let allowed = builds
                    .iter()
                    .map(|build| build.name.clone().unwrap_or_else(as_given))
                    .collect();
                self.problem(Some(clue.place), E::UnknownBuild { name, allowed });
                continue;
            };
            let layer = build.layer.clone().under(clue.layer.clone());
            let settled = self.settle_build(Draft { name: build.name.clone(), layer }, clue.place);
            if let Some(Named::Key(id)) = clue.texts.get(EVIDENCE_KEY).and_then(|key| find(key))
                && !matches!(
                    settled.entries.get(&id).map(|e| &e.value),
                    Some(Value::Doubtful { .. })
                )
            {
                self.problem(Some(clue.place), EvidenceFault::NotInDoubt { key: id.path() }.into());
            }
            let bare = clue.texts.get(EVIDENCE_KIND).is_some_and(|kind| kind == "bare-shaft");
            if bare && !settled.entries.contains_key(&Id::VanesCount) {
                let (key, other) = ("evidence.kind", "arrow.vanes");
                self.problem(Some(clue.place), E::Needs { key, other });
            }
            let at = |key: &str| clue.numbers.get(key).cloned();
            if let (Some(near), Some(far)) = (at("distance"), at("far"))
                && far.0 <= near.0
            {
                let (before, value) = (near.1, far.1);
                self.problem(Some(clue.place), E::NotRising { key: "evidence.far", before, value });
            }
        }
    }
}

fn as_given() -> String {
    AS_GIVEN.to_owned()
}

impl EvidenceKey {
    fn knows(&self, kind: &str) -> bool {
        self.needs.contains(&kind) || self.may.contains(&kind)
    }

    /// Its dotted key.
    fn path(&self) -> &'static str {
        match self.column.name {
            "distance" => "evidence.distance",
            "far" => "evidence.far",
            "nock_turn" => "evidence.nock_turn",
            "speed" => "evidence.speed",
            "drop" => "evidence.drop",
            "force" => "evidence.force",
            "rate" => "evidence.rate",
            other => other,
        }
    }
}
