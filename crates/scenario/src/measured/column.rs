//! Columns: what they are called, what their cells hold.

use units::{Bare, Dimension, Unit, UnitError, read};
use workbench::Gauged;

use super::TableMistake;
use super::ends::{meant, round_ends};
use super::formula::plainly;
use crate::ScenarioError as E;
use crate::read::near;
use crate::source::Place;

/// What a column holds.
#[derive(Debug, Clone, Copy)]
pub(super) enum Holds {
    /// A quantity between two ends (SI), and the units of a new table:
    /// archery, metric.
    Amount(Dimension, f64, f64, [&'static str; 2]),
    /// A whole number up to this.
    Whole(u32),
    /// Any text.
    Text,
    /// One of some words.
    Word(&'static [&'static str]),
}

/// A column: its name and others it goes by, names under which it counts the
/// other way, what it holds, and whether it must be there with no cell blank.
#[derive(Debug, Clone, Copy)]
pub(super) struct Column {
    pub(super) name: &'static str,
    pub(super) also: &'static [&'static str],
    pub(super) against: &'static [&'static str],
    pub(super) holds: Holds,
    pub(super) needed: bool,
    /// A static spine, which the trade says without a unit.
    pub(super) spine: bool,
    /// Ends (SI) beyond which it is asked whether it is so.
    pub(super) likely: Option<(f64, f64)>,
    /// What a gauge was held to, beyond whose limit no sound part reads.
    pub(super) gauged: Option<Gauged>,
}

/// What stands in a cell, as its column means it.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    Blank,
    /// A quantity in SI.
    Number(f64),
    Whole(u32),
    Text(String),
    Word(&'static str),
    /// A cell with a mistake, which is told already.
    Wrong,
}

/// Whether a row must hold something in a column: a correction names only what it puts
/// right or takes back.
pub(super) fn wanted(columns: &[Column], at: usize, cells: &[(Value, Place)]) -> bool {
    let corrects = columns.iter().position(|column| column.name == CORRECTION);
    let corrects = corrects.is_some_and(|at| cells[at].0 != Value::Blank);
    columns[at].needed && !(corrects && matches!(columns[at].holds, Holds::Amount(..)))
}

/// What the column of corrections is called.
pub(super) const CORRECTION: &str = "correction";

/// The columns of one kind of table: an enum of their names beside their rows,
/// so that a column that is not there cannot be asked for. Every kind has one
/// more for notes, which nothing asks for; and one for corrections, where it has them.
pub(super) trait Columns: Copy + 'static {
    /// In the order of the enum.
    const ALL: &'static [Column];
    /// Place in that order.
    fn at(self) -> usize;
    fn column(self) -> &'static Column {
        &Self::ALL[self.at()]
    }
}

macro_rules! columns {
    ($kind:ident { $($id:ident $column:expr;)* } $(and $more:expr)?) => {
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub(super) enum $kind { $($id),* }

        impl $crate::measured::column::Columns for $kind {
            const ALL: &'static [$crate::measured::column::Column] =
                &[$($column,)* $($more,)? $crate::measured::column::NOTE];
            fn at(self) -> usize { self as usize }
        }
    };
}
pub(super) use columns;

type Names = &'static [&'static str];

pub(super) const fn may(name: &'static str, also: Names, holds: Holds) -> Column {
    Column {
        name,
        also,
        against: &[],
        holds,
        needed: false,
        spine: false,
        likely: None,
        gauged: None,
    }
}

pub(super) const fn need(name: &'static str, also: Names, holds: Holds) -> Column {
    Column {
        name,
        also,
        against: &[],
        holds,
        needed: true,
        spine: false,
        likely: None,
        gauged: None,
    }
}

pub(super) const PART: [&str; 2] = ["in", "mm"];
/// Chosen: any arrow there is.
pub(super) const LONG: Holds = Holds::Amount(Dimension::Length, 0.0, 2.0, PART);
/// Chosen: no gauge on a bench reads more.
pub(super) const GAUGE: Holds = Holds::Amount(Dimension::Length, 0.0, 0.01, PART);
/// What hours of the clock have in the place of a unit.
const HOURS: &str = "o'clock";
/// Chosen: two turns either way, whatever the zero.
pub(super) const CLOCK: Holds = Holds::Amount(Dimension::Angle, -13.0, 13.0, [HOURS, HOURS]);
/// A turn, which nobody tells in hours; ends as of [`CLOCK`].
pub(super) const TURN: Holds = Holds::Amount(Dimension::Angle, -13.0, 13.0, ["deg", "deg"]);
pub(super) const ARROW: Column =
    need("arrow", &["name", "shaft", "number", "no", "no.", "#", "id", "label"], Holds::Text);
pub(super) const SHAFT: Column =
    need("shaft", &["arrow", "name", "number", "no", "no.", "#", "id", "label"], Holds::Text);
pub(super) const NOTE: Column = may("note", &["notes", "remark", "remarks"], Holds::Text);

/// The words of a list of words and their meanings.
pub(super) const fn words<T, const N: usize>(
    meanings: &[(&'static str, T); N],
) -> [&'static str; N] {
    let mut words = [""; N];
    let mut at = 0;
    while at < N {
        words[at] = meanings[at].0;
        at += 1;
    }
    words
}

impl Column {
    /// The same under names that count the other way.
    pub(super) const fn against(mut self, names: Names) -> Self {
        self.against = names;
        self
    }

    /// The same, asked about beyond two ends.
    pub(super) const fn likely(mut self, ends: (f64, f64)) -> Self {
        self.likely = Some(ends);
        self
    }

    /// The same for a reading of a gauge.
    pub(super) const fn gauged(mut self, of: Gauged, ends: (f64, f64)) -> Self {
        self.gauged = Some(of);
        self.likely(ends)
    }

    /// The same for a static spine.
    pub(super) const fn spine(mut self) -> Self {
        self.spine = true;
        self
    }

    /// Its head in a new table.
    pub(super) fn head(&self, metric: bool) -> String {
        match self.holds {
            Holds::Amount(.., units) => format!("{} [{}]", self.name, units[usize::from(metric)]),
            _ => self.name.to_owned(),
        }
    }

    /// The unit that a head names, if it names one and needs one.
    pub(super) fn unit(&self, key: &str, symbol: Option<&str>) -> Result<Option<&'static Unit>, E> {
        match (symbol, self.holds) {
            (Some(symbol), Holds::Amount(dimension, ..)) => match dimension.spelled(symbol) {
                Some(unit) => Ok(Some(unit)),
                None => Err(wrong_unit(key, dimension, symbol)),
            },
            _ => Ok(None),
        }
    }

    /// A cell as this column means it; `key` names it in a mistake.
    pub(super) fn read(
        &self,
        key: &str,
        unit: Option<&'static Unit>,
        text: &str,
    ) -> Result<Value, E> {
        let (key_of, value) = (|| key.to_owned(), || text.to_owned());
        match self.holds {
            _ if text.is_empty() => Ok(Value::Blank),
            Holds::Text => Ok(Value::Text(plainly(text).to_owned())),
            Holds::Word(words) => match words.iter().find(|word| word.eq_ignore_ascii_case(text)) {
                Some(word) => Ok(Value::Word(word)),
                None => Err(E::UnknownChoice {
                    key: key_of(),
                    value: value(),
                    near: near::name(text, words.iter().copied()),
                    allowed: words.to_vec(),
                }),
            },
            Holds::Whole(high) => match text.parse::<u32>() {
                Ok(value) if value <= high => Ok(Value::Whole(value)),
                Ok(_) => {
                    let allowed = format!("0 to {high}");
                    Err(E::OutOfRange { key: key_of(), value: value(), allowed })
                }
                Err(_) => Err(of(key, TableMistake::NotANumber(value(), "12".into()))),
            },
            Holds::Amount(dimension, low, high, [usual, _]) => {
                let (si, shown) = self.number(key, dimension, unit.ok_or(usual), text)?;
                // Rounding of a unit must not refuse the end of a range.
                let slack = 1e-12 * low.abs().max(high.abs());
                if si >= low - slack && si <= high + slack {
                    return Ok(Value::Number(si));
                }
                let bare = text.ends_with(|c: char| c.is_ascii_digit() || c == '.');
                let unit = if bare { format!(" {}", shown.symbol) } else { String::new() };
                let (value, allowed) = (text.to_owned() + &unit, round_ends((low, high), shown));
                let meant = self.likely.and_then(|ends| meant(ends, self.spine, text, shown));
                match meant {
                    Some(meant) => Err(of(key, TableMistake::Meant(value, meant, allowed))),
                    None => Err(E::OutOfRange { key: key_of(), value, allowed }),
                }
            }
        }
    }

    /// A quantity in SI and the unit it was written in; a bare one is in the unit
    /// of the head, or lacks the usual one.
    fn number(
        &self,
        key: &str,
        dimension: Dimension,
        unit: Result<&'static Unit, &'static str>,
        text: &str,
    ) -> Result<(f64, &'static Unit), E> {
        let none = || {
            let symbol = unit.map_or_else(|usual| usual, |unit| unit.symbol);
            let example = format!("{} {symbol}", if symbol == HOURS { "3" } else { "2.5" });
            Err(of(key, TableMistake::NotANumber(text.to_owned(), example)))
        };
        // A decimal comma; marks between thousands are none.
        if text.matches([',', '.']).count() > 1 && !text.ends_with('.') {
            return none();
        }
        let pointed = text.replace(',', ".");
        let own = |usual: &str| dimension.unit(usual).unwrap_or(&dimension.units()[0]);
        // A spine of 340 or 341.5 is thousandths, whatever the head says of inches.
        let trade = |unit: &Unit| {
            self.spine
                && unit.symbol == "in"
                && pointed.split('.').next().is_some_and(|whole| whole.len() > 2)
                && pointed.bytes().all(|c| c.is_ascii_digit() || c == b'.')
        };
        let bare = match unit {
            Ok(unit) if trade(unit) => Bare::Spine,
            Ok(unit) => Bare::In(unit),
            Err(_) if self.spine => Bare::Spine,
            Err(usual) => Bare::Asked(own(usual)),
        };
        let like_unit = |unit: &str| !unit.starts_with(|c: char| "/:;*+-.".contains(c));
        match read(dimension, &pointed, bare) {
            Ok(read) => Ok((read.si(), read.unit())),
            Err(UnitError::NoUnit { .. }) => {
                if unit == Err(HOURS) {
                    return Err(of(key, TableMistake::NoHour(text.to_owned(), self.name)));
                }
                let usual = own(unit.map_or_else(|usual| usual, |unit| unit.symbol));
                Err(of(key, TableMistake::NoUnit(text.to_owned(), self.name, usual)))
            }
            Err(UnitError::UnknownUnit { unit, .. }) if like_unit(&unit) => {
                Err(wrong_unit(key, dimension, &unit))
            }
            Err(cause @ UnitError::Unclear { .. }) => {
                Err(E::Quantity { key: key.to_owned(), cause, meant: None })
            }
            Err(_) => none(),
        }
    }
}

/// A mistake in a column.
pub(super) fn of(key: &str, mistake: TableMistake) -> E {
    E::Table { at: Some(key.to_owned()), mistake }
}

fn wrong_unit(key: &str, dimension: Dimension, unit: &str) -> E {
    let symbols: Vec<&str> = dimension.units().iter().map(|unit| unit.symbol).collect();
    let (unit, allowed) = (unit.to_owned(), symbols.join(", "));
    let meant = near::unit(dimension, &unit);
    E::Quantity {
        key: key.to_owned(),
        cause: UnitError::UnknownUnit { unit, dimension, allowed },
        meant,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SPINE: Column = need("spine", &["deflection"], LONG);

    #[test]
    fn exact_a_cell_is_read_in_its_own_unit_else_in_that_of_its_head() {
        let mm = Dimension::Length.unit("mm");
        for text in ["8.5", "8,5", "+8.5", "8.5 mm", "8,5mm", "0.85 cm", "8 1/2", "85e-1"] {
            let Ok(Value::Number(si)) = SPINE.read("", mm, text) else { panic!("{text}") };
            assert!((si - 0.0085).abs() < 1e-17, "{text} {si}");
        }
        assert_eq!(SPINE.read("", mm, ""), Ok(Value::Blank));
        // The far end of a range in a unit whose factor rounds.
        assert!(SPINE.read("", Dimension::Length.unit("yd"), "2.187226596675416").is_ok());
    }

    #[test]
    fn exact_a_cell_is_never_read_as_less_than_it_says() {
        use TableMistake::{NoUnit, NotANumber};
        let mm = Dimension::Length.unit("mm");
        for text in ["1.234,5", "3/2", "nan", "1e999", "six", "-", "1.2.3"] {
            let wrong = SPINE.read("", mm, text);
            let none = matches!(wrong, Err(E::Table { mistake: NotANumber(..), .. }));
            assert!(none, "{text} {wrong:?}");
        }
        for (text, meant) in [("8 inchs", Some("in")), ("8 slug", None)] {
            let wrong = SPINE.read("", mm, text);
            assert!(matches!(wrong, Err(E::Quantity { meant: m, .. }) if m == meant), "{wrong:?}");
        }
        assert!(matches!(SPINE.read("", mm, "8 lb"), Err(E::Quantity { meant: None, .. })));
        for text in ["2001", "-0.001", "\u{2212}0.001"] {
            assert!(matches!(SPINE.read("", mm, text), Err(E::OutOfRange { .. })), "{text}");
        }
        let bare = SPINE.read("", None, "8,5");
        assert!(matches!(bare, Err(E::Table { mistake: NoUnit(..), .. })));
    }
}
