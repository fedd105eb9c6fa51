//! The string's two restraints from one measured thing.

use std::sync::atomic::AtomicUsize;

use rayon::prelude::*;
use solve::root;
use units::Ratio;

use super::bench::UndrawnShots;
use crate::band::{Band, Changed, SHARES, inside, settled};
use crate::nock::turned;
use crate::sample::Sample;
use crate::variant::Variant;
use crate::{
    Banded, Held, MeasuredShift, Moved, Pinned, Quiet, Recipe, StudyError, UncertainParameter,
};

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
/// Finds the restraints of the string that reproduce a measured shift of impact,
/// or the give of a nock that is pushed, and what range the other doubts leave.
///
/// Each direction is taken for itself: a plane of the push knows its own hold
/// alone (a shaft with a stiff side mixes them a little).
///
/// # Errors
/// [`StudyError::Unmeasured`] for a shift of no size, and any failure of the
/// shots themselves. That no restraint explains the shift is an answer.
pub fn pin(recipe: &dyn Recipe, measured: &MeasuredShift) -> Result<Pinned, StudyError> {
    let [left, up] = measured.shift;
    let size = left.hypot(up);
    if !(size.is_finite() && size >= LEAST) {
        return Err(StudyError::Unmeasured { size, least: LEAST });
    }
    let distances = match measured.how {
        Moved::Pushed(_) => vec![measured.distance.si()],
        Moved::Bare | Moved::NockTurn(_) => crate::sightin::checked(&[measured.distance])?,
    };
    let flown = AtomicUsize::new(0);
    let bench = UndrawnShots {
        variant: Variant::new("", recipe),
        distances: &distances,
        watch: &Quiet,
        flown: &flown,
    };
    let of = |plane: usize| -> Result<Held, StudyError> {
        let sought = Sought { bench, measured, plane };
        let scan = sought.scan(None)?;
        let shifts = scan.iter().filter_map(|(_, lack)| *lack);
        let (low, high) =
            shifts.fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)));
        if high - low < LEAST && low <= high {
            return Ok(Held::Unfelt);
        }
        let roots = sought.roots(&scan, None)?;
        // Of several, the one nearest the simple restraint.
        let first = roots.iter().copied().min_by(|a, b| a.abs().total_cmp(&b.abs()));
        match first {
            Some(first) => sought.found(first, roots),
            None => Ok(sought.nearest(&scan)),
        }
    };
    Ok(Pinned { left: of(0)?, up: of(1)? })
}

#[derive(Clone, Copy)]
struct Sought<'a> {
    bench: UndrawnShots<'a>,
    measured: &'a MeasuredShift,
    /// 0 left, 1 up.
    plane: usize,
}

impl Sought<'_> {
    /// The restraint of the plane.
    fn of<'b>(&self, setup: &'b mut crate::Setup) -> &'b mut Ratio {
        let restraint = &mut setup.bow.restraint;
        if self.plane == 0 { &mut restraint.left } else { &mut restraint.up }
    }

    /// The shift that a restraint makes in the plane; none when the arrow does
    /// not arrive, or the string is too soft or too stiff for a push at all.
    fn shift(&self, restraint: f64, doubt: Changed) -> Result<Option<f64>, StudyError> {
        let set = |setup: &mut crate::Setup| *self.of(setup) = Ratio::from_si(restraint);
        let made = || -> Result<Option<f64>, StudyError> {
            if let Moved::Pushed(force) = self.measured.how {
                let mut setup = self.bench.variant.at_uncertain(doubt).undrawn(Sample::Fixed)?;
                set(&mut setup);
                let hold = launch::hold_at_brace(&setup.bow)
                    .map_err(|source| StudyError::Launch { who: self.bench.tag().who(), source })?;
                return Ok(Some(force / hold[self.plane]));
            }
            let shot = self.bench.adjusted(doubt, None, &set)?;
            let other = match self.measured.how {
                Moved::NockTurn(angle) => {
                    self.bench.aimed(turned(shot.setup.clone(), angle), shot.pitch)?
                }
                Moved::Bare | Moved::Pushed(_) => self.bench.bare(&shot)?,
            };
            Ok(self.bench.apart(&shot, &other)?[0].map(|shift| shift[self.plane]))
        };
        Ok(settled(made())?.flatten())
    }

    /// A shift less the measured one.
    fn lack(&self, shift: f64) -> f64 {
        shift - self.measured.shift[self.plane]
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
    fn roots(&self, scan: &[(f64, Option<f64>)], doubt: Changed) -> Result<Vec<f64>, StudyError> {
        let mut roots = Vec::new();
        for pair in scan.windows(2) {
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

    fn found(&self, log: f64, roots: Vec<f64>) -> Result<Held, StudyError> {
        let mut band = Band::default();
        for doubt in self.bench.uncertain() {
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
        Ok(Held::Found {
            restraint: Banded { value: value.exp(), low: low.exp(), high: high.exp() },
            open: band.open,
            all: roots.into_iter().map(f64::exp).collect(),
        })
    }

    /// Whether a doubt is about one of the two restraints: its own is sought,
    /// and the other moves nothing in this plane.
    fn is_restraint(&self, doubt: &UncertainParameter) -> Result<bool, StudyError> {
        let at = |value: f64| {
            let setup = self.bench.variant.recipe.setup(&[(doubt.slot, value)]);
            setup
                .map(|setup| setup.bow.restraint)
                .map_err(|source| StudyError::Refused { who: self.bench.tag().who(), source })
        };
        Ok(at(doubt.low)? != at(doubt.high)?)
    }

    /// The restraint whose shift comes nearest to the measured one.
    fn nearest(&self, scan: &[(f64, Option<f64>)]) -> Held {
        let known = scan.iter().filter_map(|(log, lack)| Some((*log, (*lack)?)));
        let best = known.min_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
        best.map_or(Held::Lost, |(log, lack)| Held::Unexplained {
            restraint: log.exp(),
            shift: lack + self.measured.shift[self.plane],
            lack,
        })
    }
}
