//! One value against its row.

use toml::Spanned;
use toml::de::{DeArray, DeInteger, DeString, DeValue};
use units::{Bare, Dimension, Unit, UnitError, read};

use super::line::one_text;
use super::{Reader, near};
use crate::ScenarioError as E;
use crate::entry::{Entry, Origin, Scalar, Value};
use crate::said_wind::{self, SaidWind};
use crate::schema::{Column, Id, Kind, limits, plain_choice};
use crate::slip::{Slip, Slipped};
use crate::source::Place;
use crate::text::{between, measure, own_unit, unit_of};
use crate::written::{joined, quoted};

/// A number that was understood.
pub(super) struct Understood {
    pub(super) si: f64,
    /// As TOML.
    pub(super) written: String,
    /// As the user wrote it; a bare number as TOML.
    said: String,
    pub(super) unit: &'static Unit,
}

/// What a number measures, and how it is spoken of.
#[derive(Clone, Copy)]
pub(super) struct Scale {
    dimension: Dimension,
    /// The unit to suggest.
    unit: &'static Unit,
    whole: bool,
    /// A static spine, which the trade says without a unit.
    spine: bool,
}

impl Scale {
    pub(super) fn of(id: Id) -> Option<Self> {
        let (dimension, ..) = measure(id)?;
        let whole = id.number().is_some_and(|number| number.whole);
        Some(Self { dimension, unit: own_unit(id), whole, spine: id == Id::ShaftSpine })
    }

    pub(super) fn of_column(column: &Column) -> Self {
        let Column { dimension, high, .. } = *column;
        Self { dimension, unit: unit_of(dimension, high), whole: false, spine: false }
    }

    /// The same of things counted.
    pub(super) fn whole(self) -> Self {
        Self { whole: true, ..self }
    }
}

impl Reader<'_> {
    /// What a key holds: of a wind that is said in words also where it comes from.
    pub(super) fn entries(
        &mut self,
        id: Id,
        file: usize,
        value: &Spanned<DeValue<'_>>,
    ) -> Vec<(Id, Entry)> {
        let text = |text: String| Spanned::new(value.span(), DeValue::String(DeString::from(text)));
        let said = match (id, value.get_ref()) {
            (Id::WindSpeed, DeValue::String(said)) => said_wind::wind(said),
            (Id::WindFrom, DeValue::String(said)) => {
                let said = said_wind::side(said).map(text);
                return vec![(id, self.entry(id, file, said.as_ref().unwrap_or(value)))];
            }
            _ => SaidWind::Speed,
        };
        match (said, value.get_ref()) {
            (SaidWind::From { speed, from }, _) => {
                let speed = self.entry(id, file, &text(speed));
                vec![(id, speed), (Id::WindFrom, self.entry(Id::WindFrom, file, &text(from)))]
            }
            (SaidWind::Unclear { why, like }, DeValue::String(said)) => {
                let place = self.sources.place(file, value.span());
                let said = format!("{} = {}", id.path(), quoted(said));
                self.problem(Some(place), Slip { what: Slipped::Wind(why), said, like }.into());
                let origin = Origin::File(place);
                vec![(id, Entry { value: Value::Bad, written: String::new(), origin })]
            }
            _ => vec![(id, self.entry(id, file, value))],
        }
    }

    /// Reads what a key holds; what is wrong is reported and kept as `Bad`.
    pub(super) fn entry(&mut self, id: Id, file: usize, value: &Spanned<DeValue<'_>>) -> Entry {
        let place = self.sources.place(file, value.span());
        let (value, written) =
            self.understand(id, place, value.get_ref()).unwrap_or((Value::Bad, String::new()));
        Entry { value, written, origin: Origin::File(place) }
    }

    fn understand(&mut self, id: Id, place: Place, raw: &DeValue<'_>) -> Option<(Value, String)> {
        let path = id.path();
        match (&id.key().kind, raw) {
            (Kind::Number(number), DeValue::Table(table)) => self.law(id, number, place, table),
            (Kind::Number(number), DeValue::String(text)) if number.turn && text == "any" => {
                Some((crate::draw::any_clock(id), quoted("any")))
            }
            (Kind::Number(_) | Kind::Quantity { .. }, _) => {
                let read = self.in_range(id, path, place, raw)?;
                Some((Value::Fixed(read.si), read.written))
            }
            (Kind::Lengths { .. }, DeValue::Array(list)) => self.lengths(id, place, list),
            (Kind::Lengths { .. }, DeValue::String(text))
                if let Some(slip) = one_text(id, text) =>
            {
                self.problem(Some(place), slip.into());
                None
            }
            (
                Kind::Lengths { .. },
                DeValue::Boolean(_) | DeValue::Datetime(_) | DeValue::Table(_),
            ) => self.wrong(place, path, "a list of lengths", raw),
            (Kind::Lengths { .. }, _) => {
                let one = self.in_range(id, path, place, raw)?;
                Some((Value::Lengths(vec![one.si]), format!("[{}]", one.written)))
            }
            (Kind::Choice(words), DeValue::String(text)) => {
                if let Some(word) = plain_choice(id, text, words) {
                    return Some((Value::Text(word.to_owned()), quoted(word)));
                }
                let near = near::name(text, words.iter().copied());
                let (key, value) = (path.to_owned(), text.to_string());
                let error = E::UnknownChoice { key, value, near, allowed: words.to_vec() };
                self.problem(Some(place), error);
                None
            }
            (Kind::Text | Kind::SweepKey, DeValue::String(text)) => {
                Some((Value::Text(text.to_string()), quoted(text)))
            }
            (Kind::Choice(_) | Kind::Text | Kind::SweepKey, _) => {
                self.wrong(place, path, "a text in quotes", raw)
            }
            (Kind::Flag, DeValue::Boolean(flag)) => Some((Value::Flag(*flag), flag.to_string())),
            (Kind::Flag, _) => self.wrong(place, path, "true or false", raw),
            (Kind::Whole { low, high }, DeValue::Integer(number)) => {
                match whole(number).and_then(|n| u64::try_from(n).ok()) {
                    Some(n) if (*low..=*high).contains(&n) => {
                        Some((Value::Whole(n), n.to_string()))
                    }
                    _ => {
                        let (key, value) = (path.to_owned(), number.to_string());
                        let allowed = format!("{low} to {high}");
                        self.problem(Some(place), E::OutOfRange { key, value, allowed });
                        None
                    }
                }
            }
            (Kind::Whole { .. }, DeValue::Table(_)) => {
                self.problem(Some(place), E::NotDrawn { key: path.to_owned() });
                None
            }
            (Kind::Whole { .. }, _) => self.wrong(place, path, "a whole number", raw),
            (Kind::SweepValues, DeValue::Array(list)) => {
                if list.is_empty() {
                    self.problem(Some(place), E::EmptyList { key: path });
                    return None;
                }
                let scalars: Option<Vec<Scalar>> =
                    list.iter().map(|value| self.scalar(path, place.file, value)).collect();
                let written = format!("[{}]", joined(scalars.as_deref()?));
                Some((Value::Scalars(scalars?), written))
            }
            (Kind::SweepValues, _) => self.wrong(place, path, "a list of values", raw),
            (Kind::Texts, DeValue::String(text)) => {
                let one = vec![(text.to_string(), Some(place))];
                Some((Value::Names(one), quoted(text)))
            }
            (Kind::SweepKeys | Kind::Texts, DeValue::Array(list)) => self.names(path, place, list),
            (Kind::Texts, _) => self.wrong(place, path, "a text, or a list of texts", raw),
            (Kind::SweepKeys, _) => self.wrong(place, path, "a list of keys", raw),
            (Kind::Rows(rows), _) => self.rows(id, rows, place, raw),
            (Kind::SweepValue, _) => {
                let scalar = self.scalar_at(path, place, raw)?;
                let written = joined(std::slice::from_ref(&scalar));
                Some((Value::Scalars(vec![scalar]), written))
            }
        }
    }

    fn names(
        &mut self,
        key: &'static str,
        place: Place,
        list: &DeArray<'_>,
    ) -> Option<(Value, String)> {
        if list.is_empty() {
            self.problem(Some(place), E::EmptyList { key });
            return None;
        }
        let mut names = Vec::with_capacity(list.len());
        for value in list {
            let place = self.sources.place(place.file, value.span());
            match value.get_ref().as_str() {
                Some(text) => names.push((text.to_owned(), Some(place))),
                None => self.wrong_type(place, key, "a list of texts", value.get_ref()),
            }
        }
        let written: Vec<String> = names.iter().map(|(name, _)| quoted(name)).collect();
        let all = names.len() == list.len();
        all.then(|| (Value::Names(names), format!("[{}]", written.join(", "))))
    }

    fn lengths(&mut self, id: Id, place: Place, list: &DeArray<'_>) -> Option<(Value, String)> {
        let path = id.path();
        if list.is_empty() {
            self.problem(Some(place), E::EmptyList { key: path });
            return None;
        }
        let read: Vec<Option<Understood>> = list
            .iter()
            .map(|value| {
                let place = self.sources.place(place.file, value.span());
                self.in_range(id, path, place, value.get_ref())
            })
            .collect();
        let read: Vec<Understood> = read.into_iter().collect::<Option<_>>()?;
        for (index, pair) in read.windows(2).enumerate() {
            if pair[1].si <= pair[0].si {
                let span = list.get(index + 1).map_or(0..0, Spanned::span);
                let place = self.sources.place(place.file, span);
                let (before, value) = (pair[0].written.clone(), pair[1].written.clone());
                self.problem(Some(place), E::NotRising { key: path, before, value });
                return None;
            }
        }
        let written: Vec<&str> = read.iter().map(|read| read.written.as_str()).collect();
        let values = read.iter().map(|read| read.si).collect();
        Some((Value::Lengths(values), format!("[{}]", written.join(", "))))
    }

    fn scalar(&mut self, key: &str, file: usize, value: &Spanned<DeValue<'_>>) -> Option<Scalar> {
        let place = self.sources.place(file, value.span());
        self.scalar_at(key, place, value.get_ref())
    }

    pub(super) fn scalar_at(
        &mut self,
        key: &str,
        place: Place,
        raw: &DeValue<'_>,
    ) -> Option<Scalar> {
        let (text, bare) = match raw {
            DeValue::String(text) => (text.to_string(), false),
            DeValue::Integer(number) => (number.to_string(), true),
            DeValue::Float(number) => (number.to_string(), true),
            DeValue::Table(_) => {
                self.problem(Some(place), E::NotDrawn { key: key.to_owned() });
                return None;
            }
            _ => return self.wrong(place, key, "a quantity in quotes", raw),
        };
        Some(Scalar { text, bare, place })
    }

    /// A number within the range of a key; `key` is the name for messages.
    pub(super) fn in_range(
        &mut self,
        id: Id,
        key: &str,
        place: Place,
        raw: &DeValue<'_>,
    ) -> Option<Understood> {
        if let (Kind::Quantity { .. } | Kind::Lengths { .. }, DeValue::Table(_)) =
            (&id.key().kind, raw)
        {
            self.problem(Some(place), E::NotDrawn { key: key.to_owned() });
            return None;
        }
        let scalar = match (id.number().is_some_and(|number| number.whole), raw) {
            (true, DeValue::Integer(number)) => {
                Scalar { text: number.to_string(), bare: true, place }
            }
            (true, _) => return self.wrong(place, key, "a whole number", raw),
            (false, DeValue::Boolean(_) | DeValue::Datetime(_) | DeValue::Array(_)) => {
                return self.wrong(place, key, "a quantity in quotes", raw);
            }
            (false, _) => self.scalar_at(key, place, raw)?,
        };
        let read = self.scalar_value(id, key, &scalar)?;
        self.check(id, key, place, &read)?;
        Some(read)
    }

    /// Reports a value outside the range of its key.
    pub(super) fn check(
        &mut self,
        id: Id,
        key: &str,
        place: Place,
        read: &Understood,
    ) -> Option<()> {
        self.within(key, place, read, limits(id))
    }

    /// Reports a value outside a range.
    pub(super) fn within(
        &mut self,
        key: &str,
        place: Place,
        read: &Understood,
        (low, high): (f64, f64),
    ) -> Option<()> {
        if (low..=high).contains(&read.si) {
            return Some(());
        }
        let (key, value) = (key.to_owned(), read.said.clone());
        let allowed = between((low, high), read.unit);
        self.problem(Some(place), E::OutOfRange { key, value, allowed });
        None
    }

    /// A text or bare number as a value of a key, its range not checked.
    pub(super) fn scalar_value(
        &mut self,
        id: Id,
        key: &str,
        scalar: &Scalar,
    ) -> Option<Understood> {
        self.scaled(Scale::of(id)?, key, scalar)
    }

    /// A text or bare number as a value on a scale, its range not checked.
    pub(super) fn scaled(
        &mut self,
        scale: Scale,
        key: &str,
        scalar: &Scalar,
    ) -> Option<Understood> {
        let Scale { dimension, unit, .. } = scale;
        let key = key.to_owned();
        let text =
            if scalar.bare { plain_number(&scalar.text) } else { scalar.text.trim().to_owned() };
        if scalar.bare && !text.parse::<f64>().is_ok_and(f64::is_finite) {
            let cause = UnitError::NotFinite { text };
            self.problem(Some(scalar.place), E::Quantity { key, cause, meant: None });
            return None;
        }
        let bare = if scale.spine { Bare::Spine } else { Bare::Asked(unit) };
        match read(dimension, &text, bare) {
            Ok(read) if scale.whole && read.si().fract() != 0.0 => {
                let got = "a number with a fraction";
                let wanted = "a whole number".to_owned();
                self.problem(Some(scalar.place), E::WrongType { key, wanted, got });
                None
            }
            Ok(read) => {
                let kept = scalar.bare && dimension == Dimension::Ratio;
                let written =
                    if kept { scalar.text.clone() } else { quoted(&read.echo(&scalar.text)) };
                let said = if scalar.bare { written.clone() } else { quoted(&text) };
                Some(Understood { si: read.si(), written, said, unit: read.unit() })
            }
            Err(UnitError::NoUnit { text: number, like, .. }) => {
                self.problem(Some(scalar.place), E::BareNumber { key, number, dimension, like });
                None
            }
            Err(cause) => {
                let meant = match &cause {
                    UnitError::UnknownUnit { unit, .. } => near::unit(dimension, unit),
                    _ => None,
                };
                self.problem(Some(scalar.place), E::Quantity { key, cause, meant });
                None
            }
        }
    }

    pub(super) fn wrong<T>(
        &mut self,
        place: Place,
        key: &str,
        wanted: &str,
        raw: &DeValue<'_>,
    ) -> Option<T> {
        self.wrong_type(place, key, wanted, raw);
        None
    }
}

/// A TOML integer of any radix.
fn whole(number: &DeInteger<'_>) -> Option<i64> {
    i64::from_str_radix(number.as_str(), number.radix()).ok()
}

/// A bare number as decimal digits, whatever radix it was written in.
fn plain_number(text: &str) -> String {
    let radix = |prefix: &str, radix| {
        text.strip_prefix(prefix).and_then(|digits| i64::from_str_radix(digits, radix).ok())
    };
    let whole = radix("0x", 16).or_else(|| radix("0o", 8)).or_else(|| radix("0b", 2));
    whole.map_or_else(|| text.to_owned(), |number| number.to_string())
}
