//! The string's two restraints from what was measured, both at once.

use std::sync::atomic::AtomicUsize;

use rayon::prelude::*;
use solve::{Closeness, LeastSquares, least_squares};
use units::Ratio;

use super::bench::UndrawnShots;
use super::scan::{Logs, PLACES, RANGE, Scan, looked_at, off};
use crate::first::all_or_first;
use crate::nock::turned;
use crate::sample::Sample;
use crate::settled::settled;
use crate::unknown::{OuterSample, Point, joint};
use crate::variant::Variant;
use crate::{
    Band, Banded, Held, MeasuredShift, Moved, Pinned, QUICK_POINTS, Recipe, Setup, StudyError,
    Watch,
};

/// How far beyond the range a search may look, in logarithms, to see how shifts
/// change at its end.
const BEYOND: f64 = 0.1;
/// How the search closes in, first and then, in logarithms of the restraints. Chosen:
/// over a shorter step a hold that is hardly felt moves an impact by less than flights
/// are computed to, over a longer one a shift that bends is taken for straight.
const CLOSE: [Closeness; 2] =
    [Closeness { step: 0.03, tolerance: 1e-8 }, Closeness { step: 0.003, tolerance: 1e-10 }];
/// Two answers nearer than this are one, in logarithms.
const SAME: f64 = 1e-3;
/// Least shift that says anything, and the error of a shift of impact where none is
/// stated, m. Chosen: a tenth of a millimetre, better than any group's centre.
const LEAST: f64 = 1e-4;
/// How far off a shift may be and still be explained, in its errors. Chosen: two
/// numbers in a thousand are farther.
const DEVIATIONS: f64 = 3.0;
/// The same over its size, where that is more. Chosen: far better than anyone
/// measures; it leaves room for rounding.
const NEAR: f64 = 1e-3;
/// Standard errors on either side of what the errors leave: 95 %.
const WIDTH: f64 = 1.96;

/// Finds the restraints of the string that reproduce what was measured, shifts of
/// impact or the give of a nock that is pushed, and what range the stated errors
/// and everything else that is poorly known leave, drawn together.
///
/// The two holds are sought together, by least squares over both directions of
/// everything measured: an arrow that spins on its way mixes the directions, so
/// neither follows from one of them.
///
/// # Errors
/// [`StudyError::Unmeasured`] for shifts of no size, and any failure of the
/// shots themselves; [`StudyError::Cancelled`] when the watch ends it. That no restraint explains the shift is an answer.
pub fn pin(
    recipe: &dyn Recipe,
    measured: &[MeasuredShift],
    watch: &dyn Watch,
) -> Result<Pinned, StudyError> {
    let size = measured.iter().map(MeasuredShift::size).fold(0.0, f64::max);
    if !(size.is_finite() && size >= LEAST) {
        return Err(StudyError::Unmeasured { size, least: LEAST });
    }
    let mut distances = Vec::with_capacity(measured.len());
    for one in measured {
        distances.push(match one.how {
            Moved::Pushed(_) => one.distance.si(),
            Moved::Bare | Moved::NockTurn(_) => crate::sightin::checked(&[one.distance])?[0],
        });
    }
    let flown = AtomicUsize::new(0);
    let counted = (&flown, watch);
    let sought = Sought::new(recipe, (measured, &distances), counted);
    let own = sought.own()?;
    let scan = sought.scan()?;
    let Some(best) = scan.nearest() else {
        return Ok(Pinned { left: Held::Lost, up: Held::Lost });
    };
    let felt = [0, 1].map(|hold| scan.feels(hold, best, sought.least()));
    let search = Search { sought: &sought, felt, own };
    // The restraints that reproduce what was measured at every outer point; the first
    // answer is where the search begins.
    let others = |at: Logs| -> Result<Others, StudyError> {
        let sample = OuterSample::new(&[recipe], SEED)?;
        let one = |point: &Point| {
            let held = point.of(recipe);
            let sought = Sought::new(&held, (measured, &distances), counted);
            let search = Search { sought: &sought, felt, own };
            let found = search.from(at)?.filter(Search::explains);
            Ok(found.map(|found| search.logs(&found.at)))
        };
        let joint = joint(&sample, &sample.even(QUICK_POINTS), watch, &one)?;
        let all = joint.map_or_else(Others::default, |joint| Others {
            open: joint.without > 0 || joint.points.iter().any(|point| point.answer.is_none()),
            found: joint.points.into_iter().filter_map(|point| point.answer).collect(),
        });
        Ok(all)
    };
    search.found(&scan, &others)
}

/// Seed of the outer points, which a measured thing has none of. Chosen: any will do.
const SEED: u64 = 1;

/// Finds the restraints at the outer points, beginning at some.
type OthersFrom<'a> = dyn Fn(Logs) -> Result<Others, StudyError> + 'a;

/// Logarithms of the restraints at the outer points.
#[derive(Default)]
struct Others {
    found: Vec<Logs>,
    /// Whether some point explains nothing.
    open: bool,
}

impl Others {
    /// How far below and above `at` the ends lie, with an error of its own beside them.
    fn ends(&self, hold: usize, at: f64, error: f64) -> [f64; 2] {
        let all: Vec<(f64, f64)> = self.found.iter().map(|logs| (logs[hold], 1.0)).collect();
        let Band { low, high } = Band::of(&all).unwrap_or(Band { low: at, high: at });
        let half = WIDTH * error;
        [-(at - low).max(0.0).hypot(half), (high - at).max(0.0).hypot(half)]
    }
}

/// One measured thing and the shots that give it.
struct Seen<'a> {
    measured: &'a MeasuredShift,
    bench: UndrawnShots<'a>,
}

/// Everything measured.
struct Sought<'a> {
    seen: Vec<Seen<'a>>,
}

impl Seen<'_> {
    /// Standard error of each direction, m: as stated, or what no shift of impact
    /// is known better than.
    fn error(&self) -> f64 {
        self.measured.error.unwrap_or(match self.measured.how {
            Moved::Pushed(_) => 0.0,
            Moved::Bare | Moved::NockTurn(_) => LEAST,
        })
    }

    /// The shift that restraints make; none when the arrow does not arrive, or
    /// the string is too soft or too stiff for a push at all.
    fn shift(&self, at: Logs) -> Result<Option<[f64; 2]>, StudyError> {
        let set = |setup: &mut Setup| {
            let restraint = &mut setup.bow.restraint;
            (restraint.left, restraint.up) =
                (Ratio::from_si(at[0].exp()), Ratio::from_si(at[1].exp()));
        };
        let made = || -> Result<Option<[f64; 2]>, StudyError> {
            if let Moved::Pushed(force) = self.measured.how {
                let mut setup = self.bench.variant.undrawn(Sample::Fixed)?;
                set(&mut setup);
                let hold = launch::hold_at(&setup.bow, 0.0)
                    .map_err(|source| StudyError::Launch { who: self.bench.tag().who(), source })?;
                return Ok(Some(hold.map(|hold| force / hold)));
            }
            let shot = self.bench.adjusted(None, &set)?;
            let other = match self.measured.how {
                Moved::NockTurn(angle) => {
                    self.bench.aimed(turned(shot.setup.clone(), angle), shot.pitch)?
                }
                Moved::Bare | Moved::Pushed(_) => self.bench.bare(&shot)?,
            };
            Ok(self.bench.apart(&shot, &other)?[0])
        };
        Ok(settled(made())?.flatten())
    }
}

impl<'a> Sought<'a> {
    fn new(
        recipe: &'a dyn Recipe,
        (measured, distances): (&'a [MeasuredShift], &'a [f64]),
        (flown, watch): (&'a AtomicUsize, &'a dyn Watch),
    ) -> Self {
        let variant = Variant::new("", recipe);
        let seen = measured.iter().zip(distances.chunks(1)).map(|(measured, distances)| Seen {
            measured,
            bench: UndrawnShots { variant, distances, watch, flown },
        });
        Self { seen: seen.collect() }
    }

    /// Every shift less the measured one, left and up in turn; none where there
    /// is no shift.
    fn lacks(&self, at: Logs) -> Result<Option<Vec<f64>>, StudyError> {
        let mut lacks = Vec::with_capacity(2 * self.seen.len());
        for seen in &self.seen {
            let Some(shift) = seen.shift(at)? else { return Ok(None) };
            lacks.extend((0..2).map(|plane| shift[plane] - seen.measured.shift[plane]));
        }
        Ok(Some(lacks))
    }

    /// What each lack counts in: how near is near enough.
    fn scales(&self) -> Vec<f64> {
        let scale = |seen: &Seen| (DEVIATIONS * seen.error()).max(NEAR * seen.measured.size());
        self.seen.iter().flat_map(|seen| [scale(seen); 2]).collect()
    }

    /// The least change of a shift that says anything, m.
    fn least(&self) -> f64 {
        let errors = self.seen.iter().map(Seen::error);
        errors.fold(f64::MAX, f64::min).max(LEAST)
    }

    /// The scenario's own restraints.
    fn own(&self) -> Result<Logs, StudyError> {
        let setup = self.seen[0].bench.variant.undrawn(Sample::Fixed)?;
        let restraint = setup.bow.restraint;
        Ok([restraint.left, restraint.up].map(|own| own.si().max(RANGE.0).ln()))
    }

    /// The lacks at every place of the range.
    fn scan(&self) -> Result<Scan, StudyError> {
        let look = |index: usize| self.lacks(looked_at(index));
        let lacks = all_or_first((0..PLACES * PLACES).into_par_iter().map(look))?;
        let scales = self.scales();
        let far =
            |lacks: &Option<Vec<f64>>| lacks.as_ref().map_or(f64::INFINITY, |l| off(l, &scales));
        let far = lacks.iter().map(far).collect();
        Ok(Scan { lacks, far })
    }
}

/// The search for the holds that are felt; one that is not stays as it is.
struct Search<'a> {
    sought: &'a Sought<'a>,
    felt: [bool; 2],
    own: Logs,
}

impl Search<'_> {
    fn logs(&self, values: &[f64]) -> Logs {
        let mut values = values.iter();
        std::array::from_fn(|hold| {
            if self.felt[hold] {
                values.next().copied().unwrap_or(self.own[hold])
            } else {
                self.own[hold]
            }
        })
    }

    /// The nearest restraints from a start; none where the search loses its way.
    fn from(&self, start: Logs) -> Result<Option<LeastSquares>, StudyError> {
        let scales = self.sought.scales();
        let mut failed = None;
        let mut lacks = |values: &[f64]| {
            let at = self.logs(values);
            let inside = |log: &f64| (RANGE.0.ln() - BEYOND..=RANGE.1.ln() + BEYOND).contains(log);
            if failed.is_some() || !at.iter().all(inside) {
                return None;
            }
            match self.sought.lacks(at) {
                Ok(lacks) => {
                    lacks.map(|lacks| lacks.iter().zip(&scales).map(|(l, s)| l / s).collect())
                }
                Err(error) => {
                    failed = Some(error);
                    None
                }
            }
        };
        let mut at: Vec<f64> =
            (0..2).filter(|hold| self.felt[*hold]).map(|hold| start[hold]).collect();
        let mut best = None;
        for closeness in CLOSE {
            let sizes = vec![1.0; at.len()];
            // A search that loses its way has no answer from here.
            let Ok(found) = least_squares(&mut lacks, &at, &sizes, closeness) else { break };
            at.clone_from(&found.at);
            best = Some(found);
        }
        failed.map_or(Ok(best), Err)
    }

    /// Whether every shift is explained.
    fn explains(found: &LeastSquares) -> bool {
        found.residuals.iter().all(|residual| residual.abs() <= 1.0)
    }

    fn found(&self, scan: &Scan, others: &OthersFrom) -> Result<Pinned, StudyError> {
        if !self.felt.contains(&true) {
            return Ok(Pinned { left: Held::Unfelt, up: Held::Unfelt });
        }
        let starts = scan.starts(self.felt);
        let tried = all_or_first(starts.par_iter().map(|start| self.from(*start)))?;
        let mut found: Vec<LeastSquares> = Vec::new();
        for one in tried.into_iter().flatten() {
            let known = |other: &LeastSquares| {
                one.at.iter().zip(&other.at).all(|(a, b)| (a - b).abs() < SAME)
            };
            if !found.iter().any(known) {
                found.push(one);
            }
        }
        let far = |one: &LeastSquares| one.at.iter().map(|log| log * log).sum::<f64>();
        let mut explaining: Vec<&LeastSquares> =
            found.iter().filter(|one| Self::explains(one)).collect();
        explaining.sort_by(|a, b| far(a).total_cmp(&far(b)));
        match explaining.first() {
            Some(first) => self.told(first, &explaining, others),
            None => Ok(self.unexplained(&found, scan)),
        }
    }

    /// The restraints with their ranges.
    fn told(
        &self,
        first: &LeastSquares,
        all: &[&LeastSquares],
        others: &OthersFrom,
    ) -> Result<Pinned, StudyError> {
        let (at, noise) = (self.logs(&first.at), self.noise(first));
        let points = others(at)?;
        let held = |hold: usize| {
            if !self.felt[hold] {
                return Held::Unfelt;
            }
            let value = at[hold];
            let [below, above] = points.ends(hold, value, noise[hold]);
            let mut others: Vec<f64> = all.iter().map(|one| self.logs(&one.at)[hold]).collect();
            others.sort_by(f64::total_cmp);
            others.dedup_by(|a, b| (*a - *b).abs() < SAME && b.total_cmp(&value).is_ne());
            // Beyond what is searched nothing is known, so a range ends there.
            let within = |log: f64| log.exp().clamp(RANGE.0, RANGE.1);
            let (low, high) = (within(value + below), within(value + above));
            Held::Found {
                restraint: Banded { value: value.exp(), low, high },
                open: points.open,
                all: others.into_iter().map(f64::exp).collect(),
            }
        };
        Ok(Pinned { left: held(0), up: held(1) })
    }

    /// Standard errors of the logarithms: the answer follows the residuals by
    /// -(J' J)^-1 J', J their slopes, and each residual is off by its error.
    fn noise(&self, first: &LeastSquares) -> Logs {
        let slopes = &first.slopes;
        let Some(inverse) = (slopes.transpose() * slopes).try_inverse() else {
            return self.felt.map(|felt| if felt { f64::INFINITY } else { 0.0 });
        };
        let follows = inverse * slopes.transpose();
        let off = self.sought.seen.iter().flat_map(|seen| [seen.error(); 2]);
        let off: Vec<f64> =
            off.zip(self.sought.scales()).map(|(error, scale)| error / scale).collect();
        let spread = |row: usize| {
            off.iter().enumerate().map(|(i, off)| (follows[(row, i)] * off).powi(2)).sum::<f64>()
        };
        let mut own = (0..first.at.len()).map(|row| spread(row).sqrt());
        self.felt.map(|felt| if felt { own.next().unwrap_or(0.0) } else { 0.0 })
    }

    /// The restraints that come nearest, by a search or by a look.
    fn unexplained(&self, found: &[LeastSquares], scan: &Scan) -> Pinned {
        let scales = self.sought.scales();
        let searched = found.iter().map(|one| {
            let lacks: Vec<f64> = one.residuals.iter().zip(&scales).map(|(r, s)| r * s).collect();
            (one.sum(), self.logs(&one.at), lacks)
        });
        let looked = scan.nearest().and_then(|i| {
            let lacks = scan.lacks[i].clone()?;
            Some((scan.far[i], looked_at(i), lacks))
        });
        let best = searched.chain(looked).min_by(|a, b| a.0.total_cmp(&b.0));
        let held = |hold: usize| match &best {
            Some((_, at, lacks)) if self.felt[hold] => Held::Unexplained {
                restraint: at[hold].exp(),
                shift: lacks[hold] + self.sought.seen[0].measured.shift[hold],
                lack: lacks[hold],
            },
            Some(_) => Held::Unfelt,
            None => Held::Lost,
        };
        Pinned { left: held(0), up: held(1) }
    }
}
