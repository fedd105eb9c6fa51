//! Defaults: what holds where nothing is written.

use std::collections::BTreeMap;

use study::{Distribution, Per};
use units::Dimension;

use crate::draw::ANY;
use crate::entry::{Entry, FIXED_BLADE, Layer, Origin, Value};
use crate::fit;
use crate::schema::{
    EXCLUSIVE, Fallback, Id, KEYS, Kind, NEEDS, ONLY_WITH, TABLES, Usual, inside, last, si,
};
use crate::text::{own_unit, quantity};
use crate::written::{any_clock, quoted};

/// Every key in use with its value.
pub(crate) type Entries = BTreeMap<Id, Entry>;

/// The name of the only build when none are listed.
pub(crate) const AS_GIVEN: &str = "as given";

/// A build, every default filled in.
#[derive(Debug, Clone)]
pub(crate) struct Settled {
    /// The name, if builds are listed.
    pub(crate) name: Option<String>,
    /// What was written.
    pub(crate) layer: Layer,
    /// What holds.
    pub(crate) entries: Entries,
}

impl Settled {
    /// A build with every default filled in; what is wrong with it is for the
    /// reader to say.
    pub(crate) fn of(name: Option<String>, layer: Layer) -> Self {
        let used = KEYS.iter().map(|key| key.id).filter(|id| id.built() && in_use(&layer, *id));
        let mut entries = fill(&layer, used);
        derive(&mut entries);
        Self { name, layer, entries }
    }

    /// The same where nobody has said how the archer shoots.
    pub(crate) fn arrows_alone(&self) -> Self {
        let mut layer = self.layer.clone();
        layer.entries.retain(|id, _| id.table() != "archer");
        Self::of(self.name.clone(), layer)
    }
}

/// Whether a key of a build means anything, given what was written.
pub(crate) fn in_use(layer: &Layer, id: Id) -> bool {
    unused_because(layer, id).is_none()
}

/// Why a key of a build means nothing.
pub(crate) fn unused_because(layer: &Layer, id: Id) -> Option<String> {
    let path = id.path();
    let absent = TABLES
        .iter()
        .filter(|table| table.optional && inside(path, table.path))
        .find(|table| layer.tables.get(table.path).is_none_or(|mark| mark.none));
    if let Some(table) = absent {
        return Some(format!("there is no [{}]", table.path));
    }
    if inside(path, "arrow.point.blades") && choice(layer, Id::PointShape) != FIXED_BLADE {
        return Some("the point has no blades".to_owned());
    }
    let misfit = ONLY_WITH
        .iter()
        .find(|(key, other, words)| *key == id && !words.contains(&choice(layer, *other)));
    if let Some((_, other, _)) = misfit {
        return Some(format!("{} is \"{}\"", other.path(), choice(layer, *other)));
    }
    let rival = EXCLUSIVE.iter().find_map(|(left, right, _)| {
        let rivals = if left.contains(&id) {
            right
        } else if right.contains(&id) {
            left
        } else {
            return None;
        };
        rivals.iter().find(|rival| layer.entries.contains_key(rival))
    });
    if let Some(rival) = rival.filter(|_| !layer.entries.contains_key(&id)) {
        return Some(format!("{} is given instead", rival.path()));
    }
    let need = NEEDS.iter().find(|(key, _)| *key == id).map(|(_, need)| *need);
    need.filter(|need| !layer.entries.contains_key(need))
        .map(|need| format!("{} is not given", need.path()))
}

/// The word of a choice, or its default.
pub(crate) fn choice(layer: &Layer, id: Id) -> &str {
    let given = layer.entries.get(&id).and_then(Entry::text);
    given.unwrap_or_else(|| usual(layer, id).map_or("", |(usual, _)| usual.text))
}

/// The default of a key and its source, before any turning of its sign.
fn usual(layer: &Layer, id: Id) -> Option<(Usual, &'static str)> {
    match &id.key().fallback {
        Fallback::Is { usual, source } => Some((*usual, *source)),
        Fallback::By { choice: of, cases, source }
        | Fallback::Handed { choice: of, cases, source } => {
            let word = choice(layer, *of);
            let (_, usual) = cases.iter().find(|(w, _)| *w == word || w.is_empty())?;
            Some((*usual, *source))
        }
        Fallback::Required | Fallback::Absent | Fallback::Times { .. } => None,
    }
}

/// Fills a build's defaults in. Keys that follow others stay out.
pub(crate) fn fill(layer: &Layer, ids: impl Iterator<Item = Id>) -> Entries {
    let mut entries: Entries = ids
        .filter_map(|id| {
            let given = layer.entries.get(&id).cloned();
            given.or_else(|| default(layer, id)).map(|entry| (id, entry))
        })
        .collect();
    scatter_clocks(&mut entries);
    entries
}

/// The default of a key, if it has one of its own.
pub(crate) fn default(layer: &Layer, id: Id) -> Option<Entry> {
    let (Usual { text, doubt }, source) = usual(layer, id)?;
    let (value, written) = match &id.key().kind {
        Kind::Number(number) => {
            let turned = matches!(id.key().fallback, Fallback::Handed { .. })
                && choice(layer, Id::RestSide) == "right";
            let number = |text: &str| {
                let (value, written) = (si(number.dimension, text), toml(text));
                if turned && value != 0.0 {
                    (-value, quoted(&format!("-{text}")))
                } else {
                    (value, written)
                }
            };
            let (value, written) = number(text);
            match doubt.filter(|_| !moot(layer, id)) {
                Some((low, high)) => {
                    let (mut low, mut high) = (number(low), number(high));
                    if turned {
                        std::mem::swap(&mut low, &mut high);
                    }
                    let written =
                        format!("{{ value = {written}, low = {}, high = {} }}", low.1, high.1);
                    (Value::Doubtful { value, low: low.0, high: high.0 }, written)
                }
                None => (Value::Fixed(value), written),
            }
        }
        Kind::Quantity { dimension, .. } => (Value::Fixed(si(*dimension, text)), toml(text)),
        Kind::Lengths { .. } => {
            let texts: Vec<&str> = text.split(", ").collect();
            let written: Vec<String> = texts.iter().map(|text| toml(text)).collect();
            let values = texts.iter().map(|text| si(Dimension::Length, text)).collect();
            (Value::Lengths(values), format!("[{}]", written.join(", ")))
        }
        Kind::SweepKeys => {
            let names: Vec<&str> = text.split(", ").collect();
            let written: Vec<String> = names.iter().map(|name| quoted(name)).collect();
            let names = names.iter().map(|name| ((*name).to_owned(), None)).collect();
            (Value::Names(names), format!("[{}]", written.join(", ")))
        }
        Kind::Rows(_) | Kind::Texts => return None,
        Kind::Whole { .. } => (Value::Whole(text.parse().ok()?), text.to_owned()),
        Kind::Flag => (Value::Flag(text == "true"), text.to_owned()),
        Kind::Choice(_) | Kind::Text | Kind::SweepKey | Kind::SweepValue | Kind::SweepValues => {
            (Value::Text(text.to_owned()), quoted(text))
        }
    };
    Some(Entry { value, written, origin: Origin::Default(source) })
}

/// Whether a doubt does not matter: what it is about is given, not built up, or
/// not there; the speed is measured, not taken from the stored energy.
fn moot(layer: &Layer, id: Id) -> bool {
    let given = |id: Id| layer.entries.contains_key(&id);
    let blades = || choice(layer, Id::PointShape) == FIXED_BLADE;
    let vanes = || in_use(layer, Id::VanesSpan);
    let lift = || given(Id::GivenNormalSlope) || given(Id::GivenCentre);
    match id {
        Id::Turbulence | Id::NockDrag | Id::TripsUntil => {
            given(Id::GivenDrag) || given(Id::GivenDeceleration)
        }
        Id::VaneSlope => !vanes() || lift(),
        Id::VaneCrossFlow => !vanes(),
        Id::RollLevel => !vanes() || given(Id::GivenRollForcing) || given(Id::GivenRollDamping),
        Id::SpinRatio => !vanes() || given(Id::GivenRollForcing),
        Id::HeadSlope => !blades() || lift(),
        Id::Wake => !blades() || !vanes() || lift(),
        Id::BendLift => !given(Id::BendReading),
        Id::BowHysteresis | Id::BowLimbMass => !given(Id::BowSpeedFrom),
        _ => false,
    }
}

/// Adds what follows from readings: the virtual mass from a chronograph's, the
/// draw weight from a force-draw curve.
pub(crate) fn derive(entries: &mut Entries) {
    if let Some(rows) = entries.get(&Id::BowReadings).and_then(Entry::rows)
        && let Some(entry) = fit::virtual_mass(rows)
    {
        entries.insert(Id::BowVirtualMass, entry);
    }
    if let Some(Entry { value: Value::Fixed(sd) | Value::Doubtful { value: sd, .. }, .. }) =
        entries.get(&Id::ArcherForm)
    {
        let law = Distribution::Normal { mean: 0.0, sd: *sd };
        let sd = quoted(&quantity(*sd, own_unit(Id::AimLeft)));
        let written = format!("{{ mean = \"0 deg\", sd = {sd}, per = \"shot\" }}");
        for id in [Id::AimLeft, Id::AimUp] {
            let origin = Origin::Derived("as archer.form");
            let value = Value::Drawn { law, per: Per::Shot };
            entries.insert(id, Entry { value, written: written.clone(), origin });
        }
    }
    if let Some(rows) = entries.get(&Id::BowCurve).and_then(Entry::rows) {
        let peak = rows.iter().map(|row| row[1]).fold(0.0, f64::max);
        let written = quoted(&quantity(peak, own_unit(Id::BowDrawWeight)));
        let origin = Origin::Derived("the greatest force of bow.curve");
        entries.insert(Id::BowDrawWeight, Entry { value: Value::Fixed(peak), written, origin });
    }
}

/// A Rayleigh size has no preferred side, so its clock is anywhere unless
/// written.
fn scatter_clocks(entries: &mut Entries) {
    let clocks: Vec<_> = entries
        .iter()
        .filter_map(|(id, entry)| match entry.value {
            Value::Drawn {
                law: Distribution::Rayleigh { .. } | Distribution::RayleighUpTo { .. },
                per,
            } => {
                let clock = KEYS
                    .iter()
                    .find(|key| key.id.table() == id.table() && last(key.path) == "clock")?;
                Some((clock.id, per))
            }
            _ => None,
        })
        .collect();
    for (clock, per) in clocks {
        if let Some(entry) = entries.get_mut(&clock)
            && matches!(entry.origin, Origin::Default(_))
        {
            entry.value = Value::Drawn { law: ANY, per };
            entry.written = any_clock(per);
            entry.origin = Origin::Default("defined: a Rayleigh size has no preferred side");
        }
    }
}

/// A default as TOML: bare numbers bare, the rest quoted.
fn toml(text: &str) -> String {
    if text.parse::<f64>().is_ok() { text.to_owned() } else { quoted(text) }
}
