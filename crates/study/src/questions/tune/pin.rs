//! The string's restraint from one measured thing.

use std::sync::atomic::AtomicUsize;

use rayon::prelude::*;
use solve::root;
use units::Ratio;

use super::bench::Bench;
use crate::band::{Band, Changed, SHARES, inside, settled};
use crate::nock::turned;
use crate::variant::Variant;
use crate::{Banded, Doubt, Measured, Moved, Pinned, Quiet, Recipe, StudyError};

/// Restraints tried, over the simple value. Chosen: ten times either way is
/// wider than any string.
const RANGE: (f64, f64) = (0.1, 10.0);
/// Places looked at on the way, by ratio. Chosen: a fifteenth apart, so that
/// two answers closer than that may be missed.
const PLACES: u32 = 69;
/// How closely the restraint is found, as a share of itself.
const CLOSE: f64 = 1e-7;
/// Least shift that says anything, m. Chosen: a tenth of a millimetre.
const LEAST: f64 = 1e-4;
/// Shifts that lie to the side this nearly alike are alike, m. Chosen: no one
/// measures a millimetre on a target.
const ALIKE: f64 = 1e-3;

/// Finds the restraint of the string that reproduces a measured shift of
/// impact, and what range of it the other doubts leave.
///
/// The shift is taken along its measured direction; how far the computed one
/// lies to the side of that is told, not fitted.
///
/// # Errors
/// [`StudyError::Unmeasured`] for a shift of no size, and any failure of the
/// shots themselves. That no restraint explains the shift is an answer.
pub fn pin(recipe: &dyn Recipe, measured: &Measured) -> Result<Pinned, StudyError> {
    let [left, up] = measured.shift;
    let size = left.hypot(up);
    if !(size.is_finite() && size >= LEAST) {
        return Err(StudyError::Unmeasured { size, least: LEAST });
    }
    let distances = crate::sightin::checked(&[measured.distance])?;
    let flown = AtomicUsize::new(0);
    let bench = Bench {
        variant: Variant::new("", recipe),
        distances: &distances,
        watch: &Quiet,
        flown: &flown,
    };
    let bench = Sought { bench, measured, along: [left / size, up / size], size };
    let roots = bench.roots(None)?;
    let Some(first) = bench.best(&roots)? else { return bench.nearest() };
    bench.found(first, roots)
}

struct Sought<'a> {
    bench: Bench<'a>,
    measured: &'a Measured,
    along: [f64; 2],
    size: f64,
}

impl Sought<'_> {
    /// The shift that a restraint makes; none when the arrow does not arrive,
    /// or the string is too soft or too stiff for a push at all.
    fn shift(&self, restraint: f64, doubt: Changed) -> Result<Option<[f64; 2]>, StudyError> {
        let set = |setup: &mut crate::Setup| setup.bow.restraint = Ratio::from_si(restraint);
        let made = || -> Result<Option<[f64; 2]>, StudyError> {
            let shot = self.bench.adjusted(doubt, None, &set)?;
            let other = match self.measured.how {
                Moved::Bare => self.bench.bare(&shot)?,
                Moved::NockTurn(angle) => {
                    self.bench.aimed(turned(shot.setup.clone(), angle), shot.pitch)?
                }
            };
            Ok(self.bench.apart(&shot, &other)?[0])
        };
        Ok(settled(made())?.flatten())
    }

    /// The part of a shift along the measured one, less its size.
    fn lack(&self, shift: [f64; 2]) -> f64 {
        shift[0] * self.along[0] + shift[1] * self.along[1] - self.size
    }

    /// The part of a shift across the measured one, to its left seen from the
    /// archer.
    fn across(&self, shift: [f64; 2]) -> f64 {
        shift[0] * self.along[1] - shift[1] * self.along[0]
    }

    /// The lack at every place of the range.
    fn scan(&self, doubt: Changed) -> Result<Vec<(f64, Option<f64>)>, StudyError> {
        let (low, high) = (RANGE.0.ln(), RANGE.1.ln());
        let found: Vec<Result<(f64, Option<f64>), StudyError>> = (0..=PLACES)
            .into_par_iter()
            .map(|place| {
                let log = low + (high - low) * f64::from(place) / f64::from(PLACES);
                Ok((log, self.shift(log.exp(), doubt)?.map(|shift| self.lack(shift))))
            })
            .collect();
        found.into_iter().collect()
    }

    /// Logarithms of every restraint found.
    fn roots(&self, doubt: Changed) -> Result<Vec<f64>, StudyError> {
        let mut roots = Vec::new();
        for pair in self.scan(doubt)?.windows(2) {
            let [(low, Some(a)), (high, Some(b))] = *pair else { continue };
            if (a > 0.0) != (b > 0.0) {
                roots.extend(self.between(low, high, doubt)?);
            }
        }
        Ok(roots)
    }

    /// The restraint between two places that lack with unlike signs; none
    /// when the arrow gets lost between them.
    fn between(&self, low: f64, high: f64, doubt: Changed) -> Result<Option<f64>, StudyError> {
        let mut failed = None;
        let at = |log: f64| match self.shift(log.exp(), doubt) {
            Ok(Some(shift)) => self.lack(shift),
            Ok(None) => f64::NAN,
            Err(error) => {
                failed.get_or_insert(error);
                f64::NAN
            }
        };
        let found = root(at, low, high, CLOSE);
        failed.map_or_else(|| Ok(found.ok()), Err)
    }

    /// The restraint nearest to a known one, with a doubt at another value:
    /// the first change of sign on the way out to both sides.
    fn near(&self, from: f64, doubt: Changed) -> Result<Option<f64>, StudyError> {
        let (low, high) = (RANGE.0.ln(), RANGE.1.ln());
        let step = (high - low) / f64::from(PLACES);
        let lack = |log: f64| -> Result<Option<f64>, StudyError> {
            Ok(self.shift(log.exp(), doubt)?.map(|shift| self.lack(shift)))
        };
        let middle = lack(from)?;
        let mut last = [(from, middle); 2];
        for _ in 0..=PLACES {
            for (way, side) in [step, -step].into_iter().zip(&mut last) {
                let here = side.0 + way;
                if !(low..=high).contains(&here) {
                    continue;
                }
                let found = lack(here)?;
                let before = std::mem::replace(side, (here, found));
                if let ((was, Some(a)), Some(b)) = (before, found)
                    && (a > 0.0) != (b > 0.0)
                    && let Some(log) = self.between(was.min(here), was.max(here), doubt)?
                {
                    return Ok(Some(log));
                }
            }
        }
        Ok(None)
    }

    /// Of several, the one whose shift lies least to the side; of those alike
    /// in that, the one nearest the simple restraint.
    fn best(&self, roots: &[f64]) -> Result<Option<f64>, StudyError> {
        let mut sides = Vec::with_capacity(roots.len());
        for &log in roots {
            if let Some(shift) = self.shift(log.exp(), None)? {
                sides.push((log, self.across(shift).abs()));
            }
        }
        let least = sides.iter().map(|(_, side)| *side).fold(f64::INFINITY, f64::min);
        let alike = sides.into_iter().filter(|(_, side)| *side <= least + ALIKE);
        Ok(alike.map(|(log, _)| log).min_by(|a, b| a.abs().total_cmp(&b.abs())))
    }

    fn found(&self, log: f64, roots: Vec<f64>) -> Result<Pinned, StudyError> {
        let shift = self.shift(log.exp(), None)?.unwrap_or([0.0; 2]);
        let mut band = Band::default();
        for doubt in self.bench.doubts() {
            if self.is_restraint(&doubt)? {
                continue;
            }
            let found: Vec<Result<Option<f64>, StudyError>> = SHARES
                .into_par_iter()
                .map(|share| self.near(log, Some((doubt.slot, inside(&doubt, share)))))
                .collect();
            let found: Vec<Option<f64>> = found.into_iter().collect::<Result<_, _>>()?;
            band.add(found.into_iter().map(|root| Some(root? - log)));
        }
        let Banded { value, low, high } = band.about(log);
        Ok(Pinned::Found {
            restraint: Banded { value: value.exp(), low: low.exp(), high: high.exp() },
            open: band.open,
            side: self.across(shift),
            all: roots.into_iter().map(f64::exp).collect(),
        })
    }

    /// Whether a doubt is about the restraint itself.
    fn is_restraint(&self, doubt: &Doubt) -> Result<bool, StudyError> {
        let at = |value: f64| {
            let setup = self.bench.variant.recipe.setup(&[(doubt.slot, value)]);
            setup
                .map(|setup| setup.bow.restraint.si())
                .map_err(|source| StudyError::Refused { who: self.bench.tag().who(), source })
        };
        Ok(at(doubt.low)? < at(doubt.high)?)
    }

    /// The restraint whose shift comes nearest to the measured one.
    fn nearest(&self) -> Result<Pinned, StudyError> {
        let mut best: Option<(f64, [f64; 2], f64)> = None;
        for (log, lack) in self.scan(None)? {
            if let (Some(lack), Some(shift)) = (lack, self.shift(log.exp(), None)?)
                && best.is_none_or(|(_, _, least)| lack.abs() < least.abs())
            {
                best = Some((log.exp(), shift, lack));
            }
        }
        Ok(best.map_or(Pinned::Lost, |(restraint, shift, lack)| Pinned::Unexplained {
            restraint,
            shift,
            lack,
        }))
    }
}
