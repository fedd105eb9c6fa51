//! One build: what is missing, doubled or idle; then its defaults.

use super::near::nearest_table;
use super::{Draft, Reader};
use crate::ScenarioError as E;
use crate::entry::{FIXED_BLADE, Layer, Origin};
use crate::schema::{
    EXCLUSIVE, Fallback, Id, KEYS, Kind, NEEDS, ONLY_WITH, inside, last, parent, plain_word,
};
use crate::settle::{Settled, choice, in_use};
use crate::source::Place;
use crate::text::own_unit;

impl Reader<'_> {
    pub(super) fn settle_build(&mut self, draft: Draft, start: Place) -> Settled {
        let Draft { name, layer } = draft;
        self.conflicts(&layer);
        self.idle(&layer, true);
        let shape = choice(&layer, Id::PointShape).to_owned();
        if let Some(mark) = layer.tables.get("arrow.point.blades")
            && shape != FIXED_BLADE
        {
            let also = layer.entries.get(&Id::PointShape).and_then(crate::entry::Entry::place);
            let also = also.map(|place| (place, "the shape"));
            self.problem_with(Some(mark.place), also, E::NoBlades { shape });
        }
        let ids = || built_keys().filter(|id| in_use(&layer, *id));
        let missing: Vec<Id> = ids()
            .filter(|id| matches!(id.key().fallback, Fallback::Required))
            .filter(|id| !layer.entries.contains_key(id))
            .collect();
        if self.whole {
            for id in missing {
                self.missing(&layer, id, name.as_ref(), start);
            }
        }
        let speeds =
            [Id::BowSpeed, Id::RatingSpeed, Id::BowReadings, Id::BowSpeedFrom, Id::DepartureSpeed];
        let said = speeds.iter().any(|id| layer.entries.contains_key(id));
        if self.whole && !said && !self.slipped(&speeds) {
            let place = nearest_table(&layer, "bow", start);
            self.problem_once(place, E::NoSpeed { build: name.clone() });
        }
        Settled::of(name, layer)
    }

    /// Reports pairs of keys that say the same thing.
    pub(super) fn conflicts(&mut self, layer: &Layer) {
        for (left, right, reason) in EXCLUSIVE {
            let given = |side: &[Id]| {
                side.iter().find_map(|id| {
                    let entry = layer.entries.get(id)?;
                    let said = !matches!(entry.origin, Origin::Derived(_));
                    said.then(|| (*id, entry.place()))
                })
            };
            if let (Some((key, place)), Some((other, also))) = (given(left), given(right)) {
                let also = also.map(|place| (place, "and here"));
                let (key, other) = (key.path(), other.path());
                self.problem_with(place, also, E::Conflict { key, other, reason });
            }
        }
    }

    /// Reports keys whose partner is not written.
    pub(super) fn idle(&mut self, layer: &Layer, in_build: bool) {
        for (key, need) in NEEDS.iter().filter(|(key, _)| key.built() == in_build) {
            if let Some(entry) = layer.entries.get(key)
                && !layer.entries.contains_key(need)
            {
                let error = E::Needs { key: key.path(), other: need.path() };
                self.problem(entry.place(), error);
            }
        }
        for (key, other, words) in ONLY_WITH.iter().filter(|(key, ..)| key.built() == in_build) {
            let word = choice(layer, *other);
            if let Some(entry) = layer.entries.get(key)
                && !words.contains(&word)
            {
                let also = layer.entries.get(other).and_then(crate::entry::Entry::place);
                let also = also.map(|place| (place, "here"));
                let (key, other, word) = (key.path(), other.path(), word.to_owned());
                self.problem_with(entry.place(), also, E::IdleWith { key, other, word });
            }
        }
    }

    fn missing(&mut self, layer: &Layer, id: Id, build: Option<&String>, start: Place) {
        if id == Id::BendMeasure {
            let place = layer.entries.get(&Id::BendReading).and_then(crate::entry::Entry::place);
            return self.problem(place, E::NoMeasure);
        }
        if self.slipped(&[id]) {
            return;
        }
        let place = nearest_table(layer, id.table(), start);
        let error = E::Missing {
            key: id.path(),
            build: build.cloned(),
            doc: id.key().doc,
            example: example(id),
        };
        self.problem_once(place, error);
    }

    /// Whether the name of one of these keys, an ordinary word for it or the name of a table
    /// around it was misspelt; such a slip is told once.
    fn slipped(&self, ids: &[Id]) -> bool {
        let meant = |key: &str, near: &str, id: Id| {
            let table = parent(key);
            let whole = if table.is_empty() { near.to_owned() } else { format!("{table}.{near}") };
            inside(id.path(), &whole) || (table.is_empty() && plain_word(near) == Some(id))
        };
        self.problems.iter().any(|problem| {
            matches!(&problem.error, E::UnknownKey { key, near: Some(near), .. }
                if ids.iter().any(|id| meant(key, near, *id)))
        })
    }

    /// Reports something missing at one place for the first build only.
    fn problem_once(&mut self, place: Place, error: E) {
        let same = |other: &E| match (other, &error) {
            (E::Missing { key: a, .. }, E::Missing { key: b, .. }) => a == b,
            (E::NoSpeed { .. }, E::NoSpeed { .. }) => true,
            _ => false,
        };
        if !self.problems.iter().any(|p| p.place == Some(place) && same(&p.error)) {
            self.problem(Some(place), error);
        }
    }
}

/// The keys a build is made of.
fn built_keys() -> impl Iterator<Item = Id> {
    KEYS.iter().map(|key| key.id).filter(|id| id.built())
}

/// How a missing key might be written.
pub(super) fn example(id: Id) -> String {
    let name = last(id.path());
    // Chosen: a middling bow and arrow of no particular make.
    let value = match id {
        Id::BowDrawWeight => "60 lbf",
        Id::BowDrawLength => "29 in",
        Id::BowSpeedMass => "420 gr",
        Id::ShaftOutside => "0.25 in",
        Id::ShaftDensity => "8.5 gr/in",
        Id::ShaftSpine => "0.4 in",
        Id::ShaftLength => "28.5 in",
        Id::PointMass => "100 gr",
        Id::MeasuredDistance => "20 yd",
        Id::MeasuredLeft => "2.5 in",
        Id::MeasuredUp => "-1 in",
        _ => match &id.key().kind {
            Kind::Quantity { .. } => return format!("{name} = \"0.002 {}\"", own_unit(id).symbol),
            _ => "...",
        },
    };
    format!("{name} = \"{value}\"")
}
