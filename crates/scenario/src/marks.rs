//! The sight marks a scenario asks for.

use study::{MarksPlan, Obstacle, Sweep};
use units::{Angle, Dimension, Length, Speed, Style, Unit};

use crate::entry::{Entry, Value};
use crate::recipe::BuildRecipe;
use crate::schema::{Id, Named, find, limits};
use crate::settle::Settled;
use crate::text::quantity;
use crate::{Scenario, ScenarioError};

/// Most marks. Chosen: one a yard to the farthest distance, and some.
pub(crate) const MOST: usize = 300;
/// Shares by which a value without steps of its own is changed. Chosen: what a
/// builder may get wrong, and twice that.
const SHARES: [f64; 4] = [-0.1, -0.05, 0.05, 0.1];

impl Scenario {
    /// The sight marks asked for, of a build or the first; none without a
    /// `[marks]` table. Crosswind and changes are round in the units shown.
    ///
    /// # Errors
    /// [`ScenarioError::UnknownBuild`].
    pub fn marks(
        &self,
        build: Option<&str>,
        style: Style,
    ) -> Result<Option<MarksPlan>, ScenarioError> {
        let (settled, recipe) = self.named(build)?;
        let (Some(from), Some(to), Some(step)) =
            (self.length(Id::MarksFrom), self.length(Id::MarksTo), self.length(Id::MarksStep))
        else {
            return Ok(None);
        };
        let angle = |id| self.quantity::<Angle>(id).map_or(0.0, Angle::si);
        let (steepest, slope) = (angle(Id::MarksSteepest), angle(Id::MarksSlopeStep));
        let lengths = |entry: Option<&Entry>| match entry.map(|entry| &entry.value) {
            Some(Value::Lengths(values)) => values.iter().map(|v| Length::from_si(*v)).collect(),
            _ => Vec::new(),
        };
        let twig = |row: &[f64; 2]| Obstacle {
            distance: Length::from_si(row[0]),
            height: Length::from_si(row[1]),
        };
        let own = |id: Id| settled.entries.get(&id);
        Ok(Some(MarksPlan {
            build: settled.name.clone().unwrap_or_default(),
            distances: steps(from, to, step).into_iter().map(Length::from_si).collect(),
            places: lengths(self.top.get(&Id::MarksPlaces)),
            pins: lengths(own(Id::SightPins)),
            click: own(Id::SightClick).and_then(|entry| match entry.value {
                Value::Fixed(value) => Some(Length::from_si(value)),
                _ => None,
            }),
            crosswind: crosswind(style),
            slopes: steps(slope, steepest, slope).into_iter().map(Angle::from_si).collect(),
            changes: self.changes(settled, recipe, style),
            twigs: self
                .top
                .get(&Id::MarksTwigs)
                .and_then(Entry::rows)
                .map_or_else(Vec::new, |rows| rows.iter().map(twig).collect()),
            bare: own(Id::BowKind).and_then(Entry::text) != Some("compound"),
        }))
    }

    fn length(&self, id: Id) -> Option<f64> {
        self.quantity::<Length>(id).map(Length::si)
    }

    fn changes(&self, settled: &Settled, recipe: &BuildRecipe, style: Style) -> Vec<Sweep> {
        let Some(Value::Names(names)) = self.top.get(&Id::MarksChanges).map(|e| &e.value) else {
            return Vec::new();
        };
        let id = |name: &str| match find(name) {
            Some(Named::Key(id)) => Some(id),
            _ => None,
        };
        let ids = names.iter().filter_map(|(name, _)| id(name));
        ids.filter_map(|id| change(id, settled, recipe, style)).collect()
    }
}

/// Evenly from one value to another, which is met or kept below.
pub(crate) fn steps(from: f64, to: f64, step: f64) -> Vec<f64> {
    /// What rounding may take from the last step.
    const SLACK: f64 = 1e-9;
    let mut values = Vec::new();
    let mut count = 0.0;
    while from + count * step <= to + SLACK * step {
        values.push(from + count * step);
        count += 1.0;
    }
    values
}

/// The crosswind that people speak of.
fn crosswind(style: Style) -> Speed {
    let (value, symbol) = match style {
        Style::Archery => (5.0, "mph"),
        Style::Metric => (2.0, "m/s"),
    };
    let unit = unit(Dimension::Speed, symbol);
    Speed::from_si(value * unit.factor)
}

fn unit(dimension: Dimension, symbol: &str) -> &'static Unit {
    dimension.unit(symbol).unwrap_or(&dimension.units()[0])
}

/// By how much a value is changed, in a round unit. Chosen: what
/// a day, a trip, another point or a turn of the limb bolts may bring.
fn own_steps(id: Id, style: Style) -> Option<(&'static str, [f64; 4])> {
    let archery = style == Style::Archery;
    Some(match id {
        Id::AirTemperature if archery => ("degF", [-40.0, -20.0, 20.0, 40.0]),
        Id::AirTemperature => ("degC", [-20.0, -10.0, 10.0, 20.0]),
        Id::AirAltitude if archery => ("ft", [2000.0, 4000.0, 6000.0, 8000.0]),
        Id::AirAltitude => ("m", [500.0, 1000.0, 1500.0, 2000.0]),
        Id::PointMass if archery => ("gr", [-25.0, -10.0, 10.0, 25.0]),
        Id::PointMass => ("g", [-1.0, -0.5, 0.5, 1.0]),
        Id::BowDrawWeight if archery => ("lbf", [-5.0, -2.0, 2.0, 5.0]),
        Id::BowDrawWeight => ("N", [-20.0, -10.0, 10.0, 20.0]),
        _ => return None,
    })
}

/// A value changed in steps, those left out that its key does not allow.
fn change(id: Id, settled: &Settled, recipe: &BuildRecipe, style: Style) -> Option<Sweep> {
    let number = id.number()?;
    let own = recipe.now(id);
    let (unit, steps) = if let Some((symbol, steps)) = own_steps(id, style) {
        let unit = unit(number.dimension, symbol);
        (unit, steps.map(|step| step * unit.factor))
    } else {
        (crate::resolved::unit(id, &settled.entries), SHARES.map(|share| share * own))
    };
    let (low, high) = limits(id);
    let whole = |value: f64| !number.whole || value.fract() == 0.0;
    let kept = steps
        .into_iter()
        .map(|step| (own + step, step))
        .filter(|(value, step)| (low..=high).contains(value) && *step != 0.0 && whole(*value));
    let (values, labels): (Vec<f64>, Vec<String>) = kept
        .map(|(value, step)| {
            let sign = if step > 0.0 { "+" } else { "" };
            let by = crate::text::neat(step / unit.factor);
            let whole = quantity(value, unit);
            // Changed from nothing, it is what it was changed by.
            (value, if own == 0.0 { whole } else { format!("{whole} ({sign}{by})") })
        })
        .unzip();
    let (key, slot) = (id.path().to_owned(), id.slot());
    let found = Sweep { key, dimension: number.dimension, slot, values, labels };
    (!found.values.is_empty()).then_some(found)
}
