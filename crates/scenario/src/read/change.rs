//! What a setting changes in a layer.

use toml::Spanned;
use toml::de::{DeArray, DeString, DeTable, DeValue};
use units::Dimension;

use super::Reader;
use crate::ScenarioError as E;
use crate::across::side;
use crate::edit::Setting;
use crate::entry::{Entry, Layer, Mark, Value};
use crate::said_wind::{self, SaidWind};
use crate::schema::{Id, Kind, Named, find, parent};
use crate::source::Place;
use crate::text::{measure, own_unit, quantity, unit_of};

impl Reader<'_> {
    /// A layer with a key set, and the tables around it there.
    pub(super) fn over(&mut self, id: Id, to: &Setting, place: Place, layer: Layer) -> Layer {
        if *to == Setting::Unset {
            return layer.without(id);
        }
        let span = place.start..place.end;
        let text = |text: &str| {
            Spanned::new(span.clone(), DeValue::String(DeString::from(text.to_owned())))
        };
        let table = |pairs: &[(&'static str, &str)]| {
            let pair = |(name, value): &(&'static str, &str)| {
                (Spanned::new(span.clone(), DeString::from(*name)), text(value))
            };
            let table = pairs.iter().map(pair).collect::<DeTable<'_>>();
            Spanned::new(span.clone(), DeValue::Table(table))
        };
        let value = match to {
            Setting::Size(size) if !is_zero(id, size) => table(&[("rayleigh", size)]),
            Setting::Spread(sd) if !is_zero(id, sd) => {
                let zero = quantity(0.0, own_unit(id));
                table(&[("mean", &zero), ("sd", sd)])
            }
            // No spread about nothing is nothing.
            Setting::Size(zero) | Setting::Spread(zero) => text(zero),
            Setting::Among(length) => {
                let mut list = DeArray::new();
                for one in among(id, length, &layer) {
                    list.push(text(&one));
                }
                Spanned::new(span, DeValue::Array(list))
            }
            Setting::Side(said) if said_wind::wind(said) != SaidWind::Speed => {
                return layer.under(self.said(id, place, &text(said)));
            }
            Setting::Side(across) => {
                let speed = across.trim_start_matches(['-', '+']).trim_start();
                let mut change = self.said(id, place, &text(speed));
                if let Some(from) = turned(across, &layer) {
                    let from = self.entry(Id::WindFrom, place.file, &text(&from));
                    change.entries.insert(Id::WindFrom, from);
                }
                return layer.under(change);
            }
            Setting::Value(_) | Setting::Unset | Setting::Table | Setting::NoTable => {
                match literal(id, to.text()) {
                    Some(Ok(value)) => value,
                    Some(Err(detail)) => {
                        self.problem(Some(place), E::Syntax(detail));
                        return layer;
                    }
                    None => text(to.text()),
                }
            }
        };
        let change = self.said(id, place, &value);
        // A speed that is set is that of the arrow at hand, until another's mass is set.
        let layer = if id == Id::BowSpeed { layer.without(Id::BowSpeedMass) } else { layer };
        layer.under(change)
    }

    /// A layer that says one key, and that the tables around it are there.
    fn said(&mut self, id: Id, place: Place, value: &Spanned<DeValue<'_>>) -> Layer {
        let mut layer = Layer::default();
        layer.entries.extend(self.entries(id, place.file, value));
        let mut around = id.table();
        while let Some(Named::Table(known)) = find(around) {
            layer.tables.insert(known.path, Mark { place, none: false });
            around = parent(around);
        }
        layer
    }
}

/// A text that is TOML by itself, or what is wrong with it: a list, a table, a count, a yes
/// or no. None for one that would stand in quotes.
fn literal(id: Id, text: &str) -> Option<Result<Spanned<DeValue<'_>>, String>> {
    let parsed = || DeValue::parse(text);
    let counts = id.number().is_some_and(|number| number.whole);
    match &id.key().kind {
        Kind::Whole { .. } | Kind::Flag | Kind::SweepValue => parsed().ok().map(Ok),
        Kind::Number(_) if counts => parsed().ok().map(Ok),
        Kind::Text | Kind::Choice(_) | Kind::SweepKey => None,
        _ if text.starts_with(['[', '{']) => {
            Some(parsed().map_err(|error| error.message().trim().replace('\n', ", ")))
        }
        _ => None,
    }
}

/// Whether a text is exactly nothing of what a key measures.
fn is_zero(id: Id, text: &str) -> bool {
    let dimension = measure(id).map(|(dimension, ..)| dimension);
    dimension.is_some_and(|of| units::parse_si(of, text).is_ok_and(|si| si == 0.0))
}

/// Where a wind now comes from, if its side changes: mirrored, and square across where it
/// had no side.
fn turned(across: &str, layer: &Layer) -> Option<String> {
    let speed = across.trim_start_matches(['-', '+']);
    if is_zero(Id::WindSpeed, speed.trim_start()) {
        return None;
    }
    let left = across.starts_with('-');
    let from = match layer.entries.get(&Id::WindFrom) {
        Some(Entry { value: Value::Fixed(from), .. }) => *from,
        // Drawn, it has no side of its own.
        Some(_) => return left.then(|| "270 deg".to_owned()),
        None => std::f64::consts::FRAC_PI_2,
    };
    let side = side(from);
    match (left, side) {
        (true, Some(false)) | (false, Some(true)) => {
            Some(quantity(-from, unit_of(Dimension::Angle, "1 deg")))
        }
        (true, None) => Some("270 deg".to_owned()),
        _ => None,
    }
}

/// A list of lengths with one more, unless it is there.
fn among(id: Id, length: &str, common: &Layer) -> Vec<String> {
    let usual = || crate::settle::default(common, id);
    let entry = common.entries.get(&id).cloned().or_else(usual);
    let mut all = entry.as_ref().map_or_else(Vec::new, crate::listed::listed);
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
fn same_mark(one: f64, other: f64) -> bool {
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
