//! The controls of a page, from the rows of the keys they set.

use std::sync::LazyLock;

use units::{Dimension, Style};

use crate::edit::{Edit, Setting};
use crate::schema::{Dial, Form, Id, KEYS, Kind, Part, Slide, TABLES, Table};
use crate::text::{declared, measure};

/// A control: one value that a person may change.
#[derive(Debug)]
pub struct Control {
    pub(crate) what: What,
    pub(crate) dial: Option<&'static Dial>,
    part: Part,
    label: String,
}

/// What a control sets.
#[derive(Debug, Clone, Copy)]
pub(crate) enum What {
    Key(Id),
    /// Whether a thing is there that need not be.
    Table(&'static Table),
}

/// What a control's field takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field {
    /// A quantity with its unit.
    Amount(Dimension),
    /// One of these words.
    Words(&'static [&'static str]),
    /// A whole number in this range.
    Count(u64, u64),
    /// Any text.
    Text,
    /// A list or readings, as they stand in a file.
    Written,
}

/// The words for a thing that need not be there.
pub(crate) const THERE: &[&str] = &["there", "none"];
const YES_NO: &[&str] = &["true", "false"];

/// Every control, in the order of a page: those with a slider first.
///
/// ```
/// let point = scenario::control("point").unwrap();
/// assert_eq!((point.label(), point.key()), ("Point", "arrow.point.mass"));
/// let shape = scenario::control("arrow.point.shape").unwrap();
/// assert_eq!(shape.label(), "Point shape");
/// assert!(scenario::control("pint").is_none());
/// ```
pub fn controls() -> &'static [Control] {
    static ALL: LazyLock<Vec<Control>> = LazyLock::new(|| {
        let make = |what: What, path: &str, dial: Option<&'static Dial>| {
            let part = dial.map(|dial| dial.part).or(Part::of(path))?;
            let there = if matches!(what, What::Table(_)) { ", if any" } else { "" };
            let label = dial.map_or_else(|| plain(path) + there, |dial| dial.label.to_owned());
            Some(Control { what, dial, part, label })
        };
        let tables = TABLES.iter().filter(|table| table.optional);
        let tables = tables.filter_map(|table| make(What::Table(table), table.path, None));
        let keys =
            KEYS.iter().filter_map(|key| make(What::Key(key.id), key.path, key.control.as_ref()));
        let mut all: Vec<Control> = tables.chain(keys).collect();
        all.sort_by_key(|control| control.dial.map_or(u8::MAX, |dial| dial.rank));
        all
    });
    &ALL
}

/// A dotted path as words.
fn plain(path: &str) -> String {
    let parts: Vec<&str> = path.split('.').collect();
    let bare = matches!(parts[0], "arrow" | "faults" | "question") || parts.len() > 2;
    let words = parts[usize::from(bare && parts.len() > 1)..].join(" ").replace('_', " ");
    let mut letters = words.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().collect::<String>() + letters.as_str())
        .unwrap_or_default()
}

/// The control of this name, or of this key.
pub fn control(name: &str) -> Option<&'static Control> {
    controls().iter().find(|control| control.name() == name || control.key() == name)
}

impl Control {
    /// Its short name, or the dotted key.
    pub fn name(&self) -> &'static str {
        self.dial.map_or(self.key(), |dial| dial.name)
    }

    /// Its key in plain words.
    pub fn label(&self) -> &str {
        &self.label
    }

    /// What it means; empty where the label says it.
    pub fn hint(&self) -> &'static str {
        match (self.dial, self.what) {
            (Some(dial), _) => dial.hint,
            (None, What::Key(id)) => id.key().doc,
            (None, What::Table(table)) => table.doc,
        }
    }

    /// Where it stands on the page.
    pub fn part(&self) -> Part {
        self.part
    }

    /// What its text says of its key.
    pub fn form(&self) -> Form {
        self.dial.map_or(Form::Plain, |dial| dial.form)
    }

    /// The first key it sets, or the path of its table.
    pub fn key(&self) -> &'static str {
        match self.what {
            What::Key(id) => id.path(),
            What::Table(table) => table.path,
        }
    }

    /// Whether it sets a key.
    pub fn sets(&self, key: &str) -> bool {
        self.key() == key || self.ids().any(|id| id.path() == key)
    }

    /// Whether builds may differ in it.
    pub fn built(&self) -> bool {
        match self.what {
            What::Key(id) => id.built(),
            What::Table(table) => table.in_build,
        }
    }

    /// What it measures; none for a word, a text or a list.
    pub fn dimension(&self) -> Option<Dimension> {
        match (self.what, self.field()) {
            (What::Key(id), Field::Amount(_) | Field::Written) => measure(id).map(|of| of.0),
            _ => None,
        }
    }

    /// What its field takes.
    pub fn field(&self) -> Field {
        let What::Key(id) = self.what else { return Field::Words(THERE) };
        match &id.key().kind {
            Kind::Number(number) if number.whole => {
                let end = |text: &str| text.parse().unwrap_or_default();
                Field::Count(end(number.low), end(number.high))
            }
            Kind::Number(number) => Field::Amount(number.dimension),
            Kind::Quantity { dimension, .. } => Field::Amount(*dimension),
            // A slider shows one of them.
            Kind::Lengths { .. } if self.dial.is_some() => Field::Amount(Dimension::Length),
            Kind::Choice(words) => Field::Words(words),
            Kind::Flag => Field::Words(YES_NO),
            Kind::Whole { low, high } => Field::Count(*low, *high),
            Kind::Text | Kind::SweepKey | Kind::SweepValue => Field::Text,
            Kind::Lengths { .. }
            | Kind::SweepValues
            | Kind::SweepKeys
            | Kind::Texts
            | Kind::Rows(_) => Field::Written,
        }
    }

    /// The allowed range, as the key's row has it; empty where there is none.
    pub fn range(&self) -> String {
        match (self.what, self.field()) {
            (What::Key(id), Field::Amount(_) | Field::Count(..)) => declared(id),
            _ => String::new(),
        }
    }

    /// Its slider, if it has one.
    pub fn slide(&self, style: Style) -> Option<Slide> {
        self.dial.map(|dial| dial.slide(style))
    }

    /// Whether it stands first in its room: what has a slider, and what its row says.
    pub fn leads(&self) -> bool {
        let said = |what| matches!(what, What::Key(id) if id.key().first);
        self.dial.is_some() || said(self.what)
    }

    /// What a text in it sets, in one build or in all that say the same. An empty text
    /// is what holds where nothing is written.
    pub fn edits(&self, text: &str, build: Option<usize>) -> impl Iterator<Item = Edit> {
        let text = text.trim();
        let to = |id: Option<Id>| {
            let text = text.to_owned();
            match (id, self.form()) {
                (None, _) if text == THERE[1] => Setting::NoTable,
                (None, _) => Setting::Table,
                // The chosen one of a list is no value of its own.
                (_, Form::Among) if !text.is_empty() => Setting::Among(text),
                _ if text.is_empty() => Setting::Unset,
                // What is written as in a file is taken as in a file.
                _ if text.starts_with('{') => Setting::Value(text),
                (_, Form::Plain | Form::Among) => Setting::Value(text),
                (_, Form::Rayleigh) => Setting::Size(text),
                (_, Form::Spread) => Setting::Spread(text),
                (_, Form::Side) => Setting::Side(text),
            }
        };
        let keys: Vec<Edit> = match self.what {
            What::Table(_) if text.is_empty() => Vec::new(),
            What::Key(_) if text.is_empty() && self.form() == Form::Among => Vec::new(),
            What::Table(table) => vec![Edit { key: table.path, to: to(None), build }],
            What::Key(_) => {
                self.ids().map(|id| Edit { key: id.path(), to: to(Some(id)), build }).collect()
            }
        };
        keys.into_iter()
    }

    fn ids(&self) -> impl Iterator<Item = Id> {
        let own = match self.what {
            What::Key(id) => Some(id),
            What::Table(_) => None,
        };
        let moved = own.filter(|_| self.dial.is_some());
        let along = KEYS.iter().filter(move |key| moved.is_some() && key.along == moved);
        own.into_iter().chain(along.map(|key| key.id))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::schema::{Kind, limits};

    fn id(control: &Control) -> Id {
        let What::Key(id) = control.what else { panic!("{}", control.name()) };
        id
    }

    #[test]
    fn law_a_slider_stays_within_the_range_of_its_key() {
        for control in controls().iter().filter(|control| control.dial.is_some()) {
            let (low, high) = limits(id(control));
            for style in [Style::Archery, Style::Metric] {
                let Some(slide) = control.slide(style) else { continue };
                let of = control.dimension().expect("a quantity");
                let unit = of.unit(slide.unit).expect("a unit of its kind");
                let mut ends = [unit.to_si(slide.low), unit.to_si(slide.high)];
                // From the left a wind is told below zero.
                if control.form() == Form::Side {
                    ends = [0.0, ends[0].abs().max(ends[1])];
                }
                assert!(slide.low < slide.high && slide.step > 0.0, "{}", control.name());
                assert!(low <= ends[0] && ends[1] <= high, "{}", control.name());
            }
        }
    }

    #[test]
    fn law_every_control_has_a_name_and_a_rank_of_its_own() {
        let mut names: Vec<_> = controls().iter().map(Control::name).collect();
        let mut labels: Vec<_> = controls().iter().map(Control::label).collect();
        let dials = || controls().iter().filter_map(|control| control.dial);
        let mut ranks: Vec<_> = dials().map(|dial| dial.rank).collect();
        for list in [&mut names, &mut labels] {
            list.sort_unstable();
            let twice = list.windows(2).find(|pair| pair[0] == pair[1]);
            assert!(twice.is_none(), "{twice:?}");
        }
        ranks.dedup();
        let rows = KEYS.iter().filter(|key| key.control.is_some()).count();
        assert_eq!((ranks.len(), dials().count()), (rows, rows));
        // Every key of a build has one.
        for key in KEYS.iter().filter(|key| key.id.built()) {
            assert!(controls().iter().any(|control| control.sets(key.path)), "{}", key.path);
        }
    }

    #[test]
    fn law_a_form_fits_the_kind_of_its_key() {
        for control in controls().iter().filter(|control| control.dial.is_some()) {
            let fits = match (&id(control).key().kind, control.form()) {
                (Kind::Number(number), Form::Rayleigh) => number.size,
                (Kind::Lengths { .. }, form) => form == Form::Among,
                (Kind::Number(_), Form::Plain | Form::Spread | Form::Side)
                | (Kind::Quantity { .. }, Form::Plain) => true,
                _ => false,
            };
            assert!(fits, "{}", control.name());
        }
        let aim = control("aim").expect("it is there");
        assert!(aim.sets("archer.aim_up") && !aim.sets("archer.speed"));
    }
}
