//! The controls of a page, from the rows of the keys they set.

use std::sync::LazyLock;

use study::Distribution;
use toml::de::DeValue;
use units::{Dimension, Style};

use crate::Scenario;
use crate::edit::{Edit, Setting};
use crate::entry::{Entry, Value};
use crate::schema::{Dial, Fallback, Form, Id, KEYS, Part, Slide};
use crate::text::{measure, own_unit, quantity};

/// A control: one value that a person may change.
#[derive(Debug)]
pub struct Control {
    id: Id,
    dial: &'static Dial,
    /// What it measures.
    pub dimension: Dimension,
}

/// Every control, in the order of a page.
///
/// ```
/// let point = scenario::control("point").unwrap();
/// assert_eq!((point.label(), point.key()), ("Point", "arrow.point.mass"));
/// assert!(scenario::control("pint").is_none());
/// ```
pub fn controls() -> &'static [Control] {
    static ALL: LazyLock<Vec<Control>> = LazyLock::new(|| {
        let control = |id: Id| {
            let dial = id.key().control.as_ref()?;
            measure(id).map(|(dimension, ..)| Control { id, dial, dimension })
        };
        let mut all: Vec<Control> = KEYS.iter().filter_map(|key| control(key.id)).collect();
        all.sort_by_key(|control| control.dial.rank);
        all
    });
    &ALL
}

/// The control of this name.
pub fn control(name: &str) -> Option<&'static Control> {
    controls().iter().find(|control| control.name() == name)
}

impl Control {
    /// Its short name.
    pub fn name(&self) -> &'static str {
        self.dial.name
    }

    /// Its key in plain words.
    pub fn label(&self) -> &'static str {
        self.dial.label
    }

    /// What it means; empty where the label says it.
    pub fn hint(&self) -> &'static str {
        self.dial.hint
    }

    /// Where it stands on the page.
    pub fn part(&self) -> Part {
        self.dial.part
    }

    /// What its text says of its key.
    pub fn form(&self) -> Form {
        self.dial.form
    }

    /// The first key it sets.
    pub fn key(&self) -> &'static str {
        self.id.path()
    }

    /// Whether it sets a key.
    pub fn sets(&self, key: &str) -> bool {
        self.ids().any(|id| id.path() == key)
    }

    /// Its slider.
    pub fn slide(&self, style: Style) -> Slide {
        self.dial.slide(style)
    }

    /// What a text in it sets.
    pub fn edits(&self, text: &str) -> impl Iterator<Item = Edit> {
        let to = match self.form() {
            Form::Plain => Setting::Value,
            Form::Rayleigh => Setting::Size,
            Form::Spread => Setting::Spread,
            Form::Among => Setting::Among,
        };
        self.ids().map(move |id| Edit { key: id.path(), to: to(text.to_owned()) })
    }

    fn ids(&self) -> impl Iterator<Item = Id> {
        let along = KEYS.iter().filter(|key| key.along == Some(self.id)).map(|key| key.id);
        std::iter::once(self.id).chain(along)
    }
}

impl Scenario {
    /// What a control says of this scenario, or of its first build; none where
    /// that is nothing a slider can show.
    pub fn shown(&self, control: &Control) -> Option<String> {
        let id = control.id;
        let entry =
            if id.built() { self.builds.first()?.entries.get(&id) } else { self.top.get(&id) };
        let text = |si: f64| Some(quantity(si, own_unit(id)));
        let entry = entry?;
        match (control.form(), &entry.value) {
            (Form::Plain | Form::Rayleigh, Value::Fixed(_)) => {
                Some(entry.written.trim_matches('"').to_owned())
            }
            (Form::Plain, Value::Doubtful { value, .. }) => text(*value),
            (
                Form::Rayleigh,
                Value::Drawn {
                    law: Distribution::Rayleigh { scale } | Distribution::RayleighUpTo { scale, .. },
                    ..
                },
            ) => text(*scale),
            (
                Form::Spread,
                Value::Drawn {
                    law: Distribution::Normal { sd, .. } | Distribution::NormalWithin { sd, .. },
                    ..
                },
            ) => text(*sd),
            (Form::Among, Value::Lengths(_)) => {
                let mut all = listed(id, Some(entry));
                let middle = all.len() / 2;
                (!all.is_empty()).then(|| all.swap_remove(middle))
            }
            _ => None,
        }
    }
}

/// The lengths of a list as written, or those of its default.
pub(crate) fn listed(id: Id, entry: Option<&Entry>) -> Vec<String> {
    let Some(entry) = entry else {
        let Fallback::Is { usual, .. } = id.key().fallback else { return Vec::new() };
        return usual.text.split(", ").map(str::to_owned).collect();
    };
    // It is TOML that this program wrote.
    let Ok(list) = DeValue::parse(&entry.written) else { return Vec::new() };
    let list = list.get_ref().as_array().into_iter().flatten();
    list.filter_map(|one| Some(one.get_ref().as_str()?.to_owned())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::schema::{Kind, limits};

    #[test]
    fn law_a_slider_stays_within_the_range_of_its_key() {
        for control in controls() {
            let (low, high) = limits(control.id);
            for style in [Style::Archery, Style::Metric] {
                let slide = control.slide(style);
                let unit = control.dimension.unit(slide.unit).expect("a unit of its kind");
                // A size or a spread above zero has no zero end; the field says so.
                let ends = [unit.to_si(slide.low), unit.to_si(slide.high)];
                assert!(slide.low < slide.high && slide.step > 0.0, "{}", control.name());
                assert!(low <= ends[0] && ends[1] <= high, "{}", control.name());
            }
        }
    }

    #[test]
    fn law_every_control_has_a_name_and_a_rank_of_its_own() {
        let mut names: Vec<_> = controls().iter().map(Control::name).collect();
        let mut ranks: Vec<_> = controls().iter().map(|control| control.dial.rank).collect();
        names.sort_unstable();
        names.dedup();
        ranks.dedup();
        assert_eq!((names.len(), ranks.len()), (controls().len(), controls().len()));
        let rows = KEYS.iter().filter(|key| key.control.is_some());
        assert_eq!(rows.count(), controls().len());
    }

    #[test]
    fn law_a_form_fits_the_kind_of_its_key() {
        for control in controls() {
            let fits = match (&control.id.key().kind, control.form()) {
                (Kind::Number(number), Form::Rayleigh) => number.size,
                (Kind::Lengths { .. }, form) => form == Form::Among,
                (Kind::Number(_), Form::Plain | Form::Spread)
                | (Kind::Quantity { .. }, Form::Plain) => true,
                _ => false,
            };
            assert!(fits, "{}", control.name());
        }
        let aim = control("aim").expect("it is there");
        assert!(aim.sets("archer.aim_up") && !aim.sets("archer.speed"));
    }
}
