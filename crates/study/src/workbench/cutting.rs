//! Where to cut a shaft, by what the arrow then does. Model card:
//! docs/model/cut-plan.md.

use rayon::prelude::*;
use workbench::{Axis, Cut, CutPlan, Known, Seats, Throw, plan};

use super::chanced::{Throwing, throwing};
use super::cut_answer::{CutAsk, CutShaft, Cutting, LeftOut, ShaftToCut, Way, WayKind};
use super::saw_points::{Points, batch};
use crate::first::all_or_first;
use crate::sightin::checked;
use crate::{Banded, StudyError, Watch};

/// Two readings are told apart when they differ by more than this many standard errors
/// of both. Chosen: as for an interval of 95 %.
const APART: f64 = 2.0;

/// Plans the cuts of some shafts.
///
/// # Errors
/// [`StudyError`]; where no shaft can be cut, the first is named.
pub fn cut(ask: &CutAsk, watch: &dyn Watch) -> Result<Cutting, StudyError> {
    let distances = checked(ask.distances)?;
    let mut plans = Vec::new();
    let mut left_out = ask.unread.to_vec();
    for shaft in ask.shafts {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let known = Known::new(shaft.stock.si(), shaft.read.sightings(), ask.population);
        let planned = known.and_then(|known| {
            let axis = known.axis()?;
            let plan = plan(&axis, &ask.job)?;
            Ok((shaft, known, axis, plan))
        });
        match planned {
            Ok(planned) => plans.push(planned),
            Err(why) => {
                left_out.push(LeftOut { name: shaft.name.clone(), line: shaft.line, why });
            }
        }
    }
    if let ([], [first, ..]) = (plans.as_slice(), left_out.as_slice()) {
        let source = Box::new(first.why.clone().into());
        return Err(StudyError::Bench { arrow: first.name.clone(), source });
    }
    let (bow, joint) = throwing(ask.recipe, (&distances, ask.job.wanted), ask.seed, watch)?;
    let points = Points::new(&bow, joint.as_deref(), ask);
    watch.planned(plans.len() as u64);
    let one = |(at, (shaft, known, axis, plan)): (usize, (&ShaftToCut, Known, Axis, CutPlan))| {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let key = format!("bench.shaft.{at}");
        let table = Table { ask, bow: &bow, known: &known, axis: &axis, plan: &plan };
        let (ways, first_stop) = table.cut();
        let found = CutShaft { shaft: shaft.clone(), axis, plan, first_stop, ways };
        let others = points.of(&found, &key)?;
        watch.done(1);
        Ok((found, others))
    };
    let shafts = all_or_first(plans.into_par_iter().enumerate().map(one))?;
    let (shafts, others): (Vec<CutShaft>, Vec<Vec<CutShaft>>) = shafts.into_iter().unzip();
    let found = Cutting {
        distances: ask.distances.to_vec(),
        job: ask.job,
        stop: ask.stop,
        population: ask.population,
        batch: batch(&shafts),
        shafts,
        left_out,
        form: bow.form.clone(),
        point: None,
        unknown: None,
    };
    Ok(points.whole(found, others))
}

/// One shaft on the saw's table.
struct Table<'a> {
    ask: &'a CutAsk<'a>,
    bow: &'a Throwing,
    known: &'a Known,
    axis: &'a Axis,
    plan: &'a CutPlan,
}

impl Table<'_> {
    fn ring(&self, rear: f64, length: f64, throw: &Throw) -> f64 {
        let seats = Seats { nock: self.ask.job.nock, front: self.ask.job.front };
        self.known.ring(&self.known.thrown(rear, length, &seats, throw))
    }

    fn cut_at(&self, rear: f64) -> Cut {
        let mut cut = self.ask.job.cut(self.axis, rear);
        cut.straight.error = self.known.error(rear, self.ask.job.wanted.si());
        cut
    }

    fn cut(&self) -> (Vec<Way>, Option<f64>) {
        let (wanted, plan) = (self.ask.job.wanted.si(), self.plan);
        let last = self.bow.throws.len() - 1;
        let ring = |rear: f64| self.ring(rear, wanted, &self.bow.throws[last]);
        let straightest = self.cut_at(plan.best.rear);
        let stops = stops(self.known.stock(), wanted, self.ask.stop.si(), &plan.windows);
        let tried: Vec<(f64, f64)> = stops.into_iter().map(|rear| (rear, ring(rear))).collect();
        let least = |tried: &mut dyn Iterator<Item = (f64, f64)>| {
            tried.fold(None::<(f64, f64)>, |best, one| match best {
                Some(best) if one.1 >= best.1 * (1.0 - 1e-9) => Some(best),
                _ => Some(one),
            })
        };
        let alike = |rear: f64| {
            let straight = self.known.straight(self.axis, rear, wanted);
            let apart = APART * straight.error.hypot(straightest.straight.error);
            straight.total - straightest.straight.total <= apart.max(self.ask.step.si())
        };
        let closest = least(&mut tried.iter().copied());
        let listed = least(&mut tried.iter().copied().filter(|one| alike(one.0)));
        // A stop whose scale misses every straight cut leaves the straightest.
        let listed = listed.map_or(straightest, |one| self.cut_at(one.0));
        let whole = self.ask.job.cut(self.axis, 0.0);
        let stock = self.known.stock();
        let uncut = Cut {
            rear: 0.0,
            front: 0.0,
            straight: self.known.straight(self.axis, 0.0, stock),
            within: plan.uncut.total,
        };
        let all = [
            (WayKind::Listed, Some(listed)),
            (WayKind::FrontOnly, plan.front_only.map(|_| self.cut_at(whole.rear))),
            (WayKind::RearOnly, plan.rear_only.map(|cut| self.cut_at(cut.rear))),
            (WayKind::Halves, plan.halves.map(|cut| self.cut_at(cut.rear))),
            (WayKind::Straightest, Some(straightest)),
            (WayKind::Closest, closest.map(|one| self.cut_at(one.0))),
            (WayKind::Uncut, Some(uncut)),
        ];
        let length = |kind| if kind == WayKind::Uncut { stock } else { wanted };
        let way = |(kind, cut): (WayKind, Option<Cut>)| {
            let cut = cut?;
            let one = |throw| self.ring(cut.rear, length(kind), throw);
            let ring: Vec<f64> = self.bow.throws.iter().map(one).collect();
            Some(Way { kind, cut, band: Banded::sure(ring[last]), ring })
        };
        let first_stop = (listed.rear > 0.0).then_some(stock - listed.rear);
        (all.into_iter().filter_map(way).collect(), first_stop)
    }
}

/// Cuts at the nock end for which the first stop is a whole number of its scale, and
/// those that need no first stop.
fn stops(stock: f64, wanted: f64, scale: f64, windows: &[(f64, f64)]) -> Vec<f64> {
    let mut cuts = Vec::new();
    for &(low, high) in windows {
        if high - low < 1e-9 {
            cuts.push(low);
            continue;
        }
        let mut stop = ((stock - low) / scale + 1e-6).floor() * scale;
        while stop >= stock - high - 1e-9 && stop >= wanted {
            cuts.push(stock - stop);
            stop -= scale;
        }
    }
    cuts
}

#[cfg(test)]
mod tests {
    use super::stops;

    #[test]
    fn exact_stops_stand_on_their_scale() {
        let inch = 0.0254;
        let cuts = stops(32.03 * inch, 29.0 * inch, inch / 16.0, &[(0.0, 0.0), (0.001, 0.06)]);
        assert!(cuts[0] == 0.0 && cuts.len() > 30);
        for cut in &cuts[1..] {
            let stop = (32.03 - cut / inch) * 16.0;
            assert!((stop - stop.round()).abs() < 1e-6 && (0.001..=0.06).contains(cut), "{stop}");
        }
    }
}
