//! A number given as a distribution, or as known only roughly.

use study::{Distribution, Per};
use toml::de::{DeTable, DeValue};

use super::value::Understood;
use super::{Reader, near};
use crate::ScenarioError as E;
use crate::entry::Value;
use crate::schema::{Id, Number};
use crate::source::Place;
use crate::written::per_word;

const KEYS: [&str; 8] = ["mean", "sd", "low", "high", "rayleigh", "value", "within", "at_most"];

/// The numbers found in the table, each with its place.
type Found = [Option<(Understood, Place)>; 8];

impl Reader<'_> {
    pub(super) fn law(
        &mut self,
        id: Id,
        number: &Number,
        place: Place,
        table: &DeTable<'_>,
    ) -> Option<(Value, String)> {
        let key = id.path();
        if number.whole {
            self.problem(Some(place), E::NotDrawn { key: key.to_owned() });
            return None;
        }
        let mut found: Found = Default::default();
        let mut names = Vec::new();
        let mut per = None;
        let mut good = true;
        for (name, value) in table {
            let at_value = self.sources.place(place.file, value.span());
            let name_text = name.get_ref().as_ref();
            let dotted = format!("{key}.{name_text}");
            names.push(name_text.to_owned());
            if name_text == "per" {
                per = self.per(&dotted, at_value, value.get_ref());
                good &= per.is_some();
            } else if let Some(index) = KEYS.iter().position(|known| *known == name_text) {
                let spread = matches!(name_text, "sd" | "rayleigh" | "within" | "at_most");
                let read = if spread {
                    self.spread(id, &dotted, at_value, value.get_ref())
                } else {
                    self.in_range(id, &dotted, at_value, value.get_ref())
                };
                good &= read.is_some();
                found[index] = read.map(|read| (read, at_value));
            } else {
                let at_key = self.sources.place(place.file, name.span());
                let allowed: Vec<String> =
                    KEYS.iter().chain(&["per"]).map(|&s| s.to_owned()).collect();
                let near = near::name(name_text, KEYS).map(str::to_owned);
                let error = E::UnknownKey { key: dotted, near, elsewhere: vec![], allowed };
                self.problem(Some(at_key), error);
                good = false;
            }
        }
        if !good {
            return None;
        }
        self.shape(id, number, place, found, names, per)
    }

    fn shape(
        &mut self,
        id: Id,
        number: &Number,
        place: Place,
        found: Found,
        names: Vec<String>,
        per: Option<Per>,
    ) -> Option<(Value, String)> {
        let key = id.path().to_owned();
        let chosen = per.unwrap_or(id.key().chance.per);
        let tail = format!("per = \"{}\" }}", per_word(chosen));
        match found {
            [Some((mean, _)), Some((sd, _)), None, None, None, None, within, None] => {
                let (m, s) = (mean.si, sd.si);
                let law = within
                    .as_ref()
                    .map_or(Distribution::Normal { mean: m, sd: s }, |(within, _)| {
                        Distribution::NormalWithin { mean: m, sd: s, within: within.si }
                    });
                let bound = bound("within", within);
                let written =
                    format!("{{ mean = {}, sd = {}, {bound}{tail}", mean.written, sd.written);
                Some((Value::Drawn { law, per: chosen }, written))
            }
            [None, None, Some((low, at)), Some((high, _)), None, value, None, None] => {
                if low.si >= high.si {
                    let (low, high) = (low.written, high.written);
                    self.problem(Some(at), E::LowNotBelow { key, low, high });
                    return None;
                }
                let ends = format!("low = {}, high = {}", low.written, high.written);
                let Some((value, at)) = value else {
                    let law = Distribution::Uniform { low: low.si, high: high.si };
                    let written = format!("{{ {ends}, {tail}");
                    return Some((Value::Drawn { law, per: chosen }, written));
                };
                if per.is_some() {
                    self.problem(Some(place), E::NotALaw { key, found: names });
                    return None;
                }
                if !(low.si..=high.si).contains(&value.si) {
                    let (value, low, high) = (value.written, low.written, high.written);
                    self.problem(Some(at), E::OutsideDoubt { key, value, low, high });
                    return None;
                }
                let written = format!("{{ value = {}, {ends} }}", value.written);
                let (low, high) = (low.si, high.si);
                Some((Value::Doubtful { value: value.si, low, high }, written))
            }
            [None, None, None, None, Some((scale, at)), None, None, most] => {
                if !number.size {
                    self.problem(Some(at), E::NotASize { key });
                    return None;
                }
                let si = scale.si;
                let law =
                    most.as_ref().map_or(Distribution::Rayleigh { scale: si }, |(most, _)| {
                        Distribution::RayleighUpTo { scale: si, most: most.si }
                    });
                let bound = bound("at_most", most);
                let written = format!("{{ rayleigh = {}, {bound}{tail}", scale.written);
                Some((Value::Drawn { law, per: chosen }, written))
            }
            _ => {
                self.problem(Some(place), E::NotALaw { key, found: names });
                None
            }
        }
    }

    fn per(&mut self, key: &str, place: Place, raw: &DeValue<'_>) -> Option<Per> {
        let Some(text) = raw.as_str() else {
            return self.wrong(place, key, "\"arrow\" or \"shot\"", raw);
        };
        match text {
            "arrow" => Some(Per::Arrow),
            "shot" => Some(Per::Shot),
            _ => {
                let allowed = vec!["arrow", "shot"];
                let near = near::name(text, allowed.iter().copied());
                let (key, value) = (key.to_owned(), text.to_owned());
                self.problem(Some(place), E::UnknownChoice { key, value, near, allowed });
                None
            }
        }
    }

    /// A spread: a difference of two values, above zero.
    fn spread(&mut self, id: Id, key: &str, place: Place, raw: &DeValue<'_>) -> Option<Understood> {
        if let DeValue::Boolean(_) | DeValue::Datetime(_) | DeValue::Array(_) = raw {
            return self.wrong(place, key, "a quantity in quotes", raw);
        }
        let scalar = self.scalar_at(key, place, raw)?;
        let mut read = self.scalar_value(id, key, &scalar)?;
        // A spread of 2 degC is 2 K: the zero of the scale drops out.
        read.si -= read.unit.to_si(0.0);
        if read.si > 0.0 {
            return Some(read);
        }
        let error = E::NoSpread { key: key.to_owned(), value: read.written };
        self.problem(Some(place), error);
        None
    }
}

/// A bound of a law as TOML, with a comma after it.
fn bound(name: &str, bound: Option<(Understood, Place)>) -> String {
    bound.map_or_else(String::new, |(bound, _)| format!("{name} = {}, ", bound.written))
}
