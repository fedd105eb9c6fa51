//! What a scenario says of its controls.

use study::Distribution;

use crate::Scenario;
use crate::across::side;
use crate::control::{Control, THERE, What};
use crate::entry::{Entry, Layer, Origin, Value};
use crate::listed::listed;
use crate::schema::{Fallback, Form, Id};
use crate::settle::{Entries, in_use, unused_because};
use crate::text::{own_unit, quantity};

/// What a scenario says of a control.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Said {
    /// What is written; empty where nothing is.
    pub value: String,
    /// What holds where nothing is written.
    pub usual: String,
    /// Why it means nothing, where it does not.
    pub unused: Option<String>,
}

impl Scenario {
    /// What a control says of a build, or of the whole scenario; none where that is
    /// nothing a slider can show.
    pub fn shown(&self, control: &Control, build: usize) -> Option<String> {
        let What::Key(id) = control.what else { return None };
        let entries = self.entries(control, build)?;
        let entry = entries.get(&id)?;
        let text = |si: f64| Some(quantity(si, own_unit(id)));
        match (control.form(), &entry.value) {
            (Form::Plain | Form::Rayleigh, Value::Fixed(_)) | (Form::Spread, Value::Fixed(0.0)) => {
                Some(bare(entry))
            }
            (Form::Side, Value::Fixed(speed)) => {
                let from = match entries.get(&Id::WindFrom).map(|from| &from.value) {
                    Some(Value::Fixed(from)) => side(*from),
                    _ => None,
                };
                let left = from == Some(true) && *speed > 0.0;
                Some(format!("{}{}", if left { "-" } else { "" }, bare(entry)))
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
                let mut all = listed(entry);
                let middle = all.len() / 2;
                (!all.is_empty()).then(|| all.swap_remove(middle))
            }
            _ => None,
        }
    }

    /// What is written of a control, and what holds where nothing is.
    pub fn said(&self, control: &Control, build: usize) -> Said {
        let layer = if control.built() {
            self.builds.get(build).map(|build| &build.layer)
        } else {
            Some(&self.common)
        };
        let (Some(layer), Some(entries)) = (layer, self.entries(control, build)) else {
            return Said::default();
        };
        let id = match control.what {
            What::Table(table) => {
                let there = layer.tables.get(table.path).is_some_and(|mark| !mark.none);
                let value = THERE[usize::from(!there)].to_owned();
                return Said { value, ..Said::default() };
            }
            What::Key(id) => id,
        };
        let written = |entry: &&Entry| matches!(entry.origin, Origin::File(_));
        let own = layer.entries.get(&id).filter(written);
        let unused = id.built().then(|| unused_because(layer, id)).flatten();
        let usual = entries.get(&id).filter(|entry| !written(entry)).map(bare);
        let value = match (control.dial, own) {
            (Some(_), own) => self.shown(control, build).or_else(|| own.map(bare)),
            (None, own) => own.map(bare),
        };
        Said {
            value: value.unwrap_or_default(),
            usual: usual.or_else(|| self.followed(id, layer, build)).unwrap_or_default(),
            unused,
        }
    }

    fn entries(&self, control: &Control, build: usize) -> Option<&Entries> {
        if control.built() { Some(&self.builds.get(build)?.entries) } else { Some(&self.top) }
    }

    /// What a key is that follows another one.
    fn followed(&self, id: Id, layer: &Layer, build: usize) -> Option<String> {
        let Fallback::Times { base, .. } = id.key().fallback else { return None };
        let used = in_use(layer, id);
        let recipe = self.recipes.get(build).filter(|_| used)?;
        Some(quantity(recipe.now(id), own_unit(base)))
    }
}

/// A value as one would type it.
fn bare(entry: &Entry) -> String {
    match &entry.value {
        Value::Text(text) => text.clone(),
        Value::Names(names) if !entry.written.starts_with('[') => {
            names.first().map(|(name, _)| name.clone()).unwrap_or_default()
        }
        Value::Fixed(_) | Value::Scalars(_) if !entry.written.starts_with('[') => {
            entry.written.trim_matches('"').to_owned()
        }
        _ => entry.written.clone(),
    }
}
