//! The tuning question: which values to vary, and how far. Values with which
//! no arrow can be built or shot are left in: the answer says so.

use study::{Sweep, Tune};
use units::Length;

use super::Reader;
use super::question::cannot_sweep;
use crate::ScenarioError as E;
use crate::entry::{Entry, Origin, Value};
use crate::recipe::BuildRecipe;
use crate::resolved::unit;
use crate::schema::Id;
use crate::settle::{Entries, Settled};
use crate::source::Place;
use crate::text::quantity;
use crate::written::quoted;

/// Farthest a value is varied, as a share of itself. Chosen: about the step
/// from one spine or point on sale to the next.
const FARTHEST: f64 = 0.15;

/// The same of a spine. Chosen: about three grades each way, so that the side to which a
/// bare shaft goes shows its turn.
const FARTHEST_SPINE: f64 = 0.35;

/// Steps to each side. Chosen: enough for a smooth curve.
const STEPS: i32 = 4;

impl Reader<'_> {
    /// The tuning question; trends left out of the default list leave `top`
    /// too.
    pub(super) fn tune(
        &mut self,
        top: &mut Entries,
        builds: &[Settled],
        start: Place,
    ) -> Option<Tune> {
        let paper = match &top.get(&Id::Paper)?.value {
            Value::Lengths(values) => values.iter().map(|v| Length::from_si(*v)).collect(),
            _ => return None,
        };
        let entry = top.get(&Id::Trends)?;
        let Value::Names(names) = &entry.value else { return None };
        let by_default = matches!(entry.origin, Origin::Default(_));
        let mut chosen = Vec::new();
        for (name, place) in names {
            let place = place.unwrap_or(start);
            let Some(id) = self.sweepable(name, place) else { continue };
            let reasons: Vec<_> = builds.iter().filter_map(|b| cannot_sweep(id, b)).collect();
            if reasons.is_empty() {
                chosen.push((id, place));
            } else if !by_default {
                for (error, also) in reasons {
                    self.problem_with(Some(place), also, error);
                }
            }
        }
        if !self.problems.is_empty() {
            return None;
        }
        let mut trends = Vec::new();
        for (id, place) in chosen {
            match trend(id, builds) {
                Ok(sweep) => trends.push(sweep),
                Err(_) if by_default => {}
                Err(because) => {
                    self.problem(Some(place), E::NoTrend { key: id.path(), because });
                }
            }
        }
        if by_default {
            keep(top, &trends);
        }
        Some(Tune { trends, paper })
    }
}

/// Values about the first build's own, which stands in the middle.
fn trend(id: Id, builds: &[Settled]) -> Result<Sweep, &'static str> {
    let number = id.number().filter(|number| !number.whole).ok_or("it counts whole things")?;
    let build = builds.first().ok_or("there is no arrow")?;
    let own = BuildRecipe::new(build, None).now(id);
    if own == 0.0 {
        return Err("it is zero, and a share of zero is nothing");
    }
    let farthest = if id == Id::ShaftSpine { FARTHEST_SPINE } else { FARTHEST };
    let share = |step: i32| farthest * f64::from(step) / f64::from(STEPS);
    let values: Vec<f64> = (-STEPS..=STEPS).map(|step| own * (1.0 + share(step))).collect();
    let unit = unit(id, &build.entries);
    Ok(Sweep {
        key: id.path().to_owned(),
        dimension: number.dimension,
        slot: id.slot(),
        labels: values.iter().map(|value| quantity(*value, unit)).collect(),
        values,
    })
}

/// Puts the trends in use in place of the default list.
fn keep(top: &mut Entries, trends: &[Sweep]) {
    if trends.is_empty() {
        top.remove(&Id::Trends);
    } else if let Some(Entry { value, written, .. }) = top.get_mut(&Id::Trends) {
        let names: Vec<String> = trends.iter().map(|sweep| quoted(&sweep.key)).collect();
        *written = format!("[{}]", names.join(", "));
        *value = Value::Names(trends.iter().map(|sweep| (sweep.key.clone(), None)).collect());
    }
}
