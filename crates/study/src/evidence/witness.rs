//! What a measured thing would read at given values.

use std::sync::Arc;
use std::sync::atomic::AtomicUsize;

use flight::FlightEnd;

use super::measured::{LEFT, Measured, Reading};
use crate::nock::turned;
use crate::questions::tune::bench::UndrawnShots;
use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::settled::settled;
use crate::shoot::{Motion, Shooter};
use crate::unknown::{AtPoint, Point};
use crate::variant::Variant;
use crate::{Evidence, MeasuredShift, Moved, Quiet, Recipe, StudyError};

/// Flights from which the scatter of a shot is taken, at the own values. Chosen: a
/// standard deviation is then known to about 5 %.
const SCATTER_FLIGHTS: usize = 200;

/// Arrows as they stand, by what they are made of and whether the sight is set for
/// them exactly.
pub(super) type Homes = Vec<(Arc<dyn Recipe>, bool, Shooter<'static>)>;

/// One measured thing, ready to be held against any values.
pub(crate) struct Witness<'a> {
    pub(crate) of: &'a Evidence,
    pub(crate) readings: Vec<Reading>,
    /// Standard error of each.
    pub(crate) errors: Vec<f64>,
}

impl<'a> Witness<'a> {
    /// # Errors
    /// [`StudyError::Unread`] where the own values give no reading; and any failure of
    /// the flights that tell the scatter.
    pub(crate) fn new(of: &'a Evidence, seed: u64) -> Result<Self, StudyError> {
        let readings = of.what.readings();
        let readings = if readings.len() == 2 { kept(readings, of.sides) } else { readings };
        let errors = match of.error {
            Some(error) => vec![error; readings.len()],
            None => errors(of, &readings, seed)?,
        };
        Ok(Self { of, readings, errors })
    }

    /// What it would read at a point; none where the bow makes no push there or the
    /// arrow does not get that far. `home` keeps the arrow as it stands for other
    /// things measured with it.
    pub(crate) fn read(
        &self,
        point: &Point,
        homes: &mut Homes,
    ) -> Result<Option<Vec<f64>>, StudyError> {
        let recipe = &self.of.recipe;
        let held = AtPoint::new(Arc::clone(recipe), point.values(recipe.as_ref()));
        let (flown, watch) = (AtomicUsize::new(0), Quiet);
        let places = self.of.what.places();
        let variant = Variant::new("", &held);
        let bench = UndrawnShots { variant, distances: &places, watch: &watch, flown: &flown };
        if let Measured::Value { key, .. } = &self.of.what {
            let doubt = recipe.uncertain().iter().find(|of| of.key == *key);
            let values = point.values(recipe.as_ref());
            let value = values.iter().find(|(slot, _)| Some(*slot) == doubt.map(|of| of.slot));
            return Ok(value.map(|(_, value)| vec![*value]));
        }
        if let Measured::Push { force, drawn, .. } = self.of.what {
            let setup = variant.undrawn(Sample::Fixed)?;
            let hold = launch::hold_at(&setup.bow, f64::from(u8::from(drawn)))
                .map_err(|source| StudyError::Launch { who: bench.tag().who(), source });
            let give = |hold: [f64; 2]| hold.map(|hold| force.si() / hold).to_vec();
            return Ok(settled(hold)?.map(|hold| self.measured(give(hold))));
        }
        let exact = matches!(self.of.what, Measured::Drop { .. });
        let known = homes.iter().find(|(of, sight, _)| Arc::ptr_eq(of, recipe) && *sight == exact);
        let home = if let Some((.., shot)) = known {
            shot.clone()
        } else {
            let shot = if exact { bench.shot(None) } else { nearly(&variant) };
            let Some(shot) = settled(shot)? else { return Ok(None) };
            let shot = shot.owned();
            homes.push((Arc::clone(recipe), exact, shot.clone()));
            shot
        };
        if let Some(against) = self.of.what.against() {
            let held = AtPoint::new(against, point.values(against));
            let setup = Variant::new("", &held).undrawn(Sample::Fixed);
            let other = setup.and_then(|setup| bench.aimed(setup, home.pitch));
            let Some(other) = settled(other)? else { return Ok(None) };
            let apart = settled(bench.apart(&other, &home))?;
            return Ok(apart.and_then(|apart| apart[0]).map(|it| self.measured(it.to_vec())));
        }
        Ok(settled(self.shot(&bench, &home))?.flatten().map(|all| self.measured(all)))
    }

    /// Of left and up only what was measured.
    fn measured(&self, all: Vec<f64>) -> Vec<f64> {
        if all.len() == self.readings.len() { all } else { kept(all, self.of.sides) }
    }

    /// The same of a thing that is shot.
    fn shot(
        &self,
        bench: &UndrawnShots<'_>,
        home: &Shooter,
    ) -> Result<Option<Vec<f64>>, StudyError> {
        let state = |distance: f64| -> Result<Option<body::State>, StudyError> {
            if distance <= 0.0 {
                return Ok(Some(home.ready()?.start));
            }
            let flight = home.fly(&[distance])?;
            Ok(match flight.end {
                FlightEnd::Arrived => flight.marks.first().copied(),
                FlightEnd::Short { .. } => None,
            })
        };
        Ok(match &self.of.what {
            Measured::Shift(MeasuredShift { how, .. }) => {
                let other = match how {
                    Moved::NockTurn(angle) => {
                        bench.aimed(turned(home.setup.clone(), *angle), home.pitch)?
                    }
                    Moved::Bare | Moved::Pushed(_) => bench.bare(home)?,
                };
                bench.apart(home, &other)?[0].map(|shift| shift.to_vec())
            }
            Measured::Speed { distance, .. } => {
                state(distance.si())?.map(|state| vec![state.velocity.norm()])
            }
            Measured::Spin { distance, .. } => state(distance.si())?.map(|state| vec![state.spin]),
            Measured::Drop { near, far, .. } => {
                let places = bench.impacts_at(home)?;
                let sight = &home.setup.sight;
                // Above the line of sight, the sight left as it is.
                let above = |at: usize, distance: f64| {
                    let line = sight.height.si() * (1.0 - distance / sight.zero.si());
                    places[at].map(|[_, up]| up - line)
                };
                above(0, near.si()).zip(above(1, far.si())).map(|(near, far)| vec![near - far])
            }
            Measured::Tear { distance, .. } => {
                let torn = bench.tears(home, &[distance.si()])?.pop().flatten();
                torn.map(|torn| torn.nock.to_vec())
            }
            Measured::Apart { .. } | Measured::Push { .. } | Measured::Value { .. } => None,
        })
    }
}

/// The arrow with its fixed faults, aimed as a point mass would be: near enough for all
/// that does not count the sight, since a shift changes by a thousandth with an aim that
/// is a thousandth off.
fn nearly<'a>(variant: &Variant<'a>) -> Result<Shooter<'a>, StudyError> {
    let shot = variant.shooter(Sample::Fixed)?.moving(Motion::Point).zeroed()?;
    Ok(shot.moving(Motion::Rigid))
}

/// Of left and up only what was measured.
fn kept<T>(all: Vec<T>, sides: [bool; 2]) -> Vec<T> {
    all.into_iter().zip(sides).filter(|(_, side)| *side).map(|(one, _)| one).collect()
}

/// The usual errors of a thing's numbers: its instrument's, and the scatter of the
/// groups' centres.
fn errors(of: &Evidence, readings: &[Reading], seed: u64) -> Result<Vec<f64>, StudyError> {
    let (instrument, groups) = of.what.instrument(of.shots);
    let mut errors = vec![instrument; readings.len()];
    if groups == 0 {
        return Ok(errors);
    }
    let places = of.what.places();
    let sampler = BuildSampler::new(Variant::new("", of.recipe.as_ref()), &places)?;
    let settings = RunSettings { seed, arrows: None, distances: &places, watch: &Quiet };
    let columns = sampler.fly(Sample::Full, 0..SCATTER_FLIGHTS, &settings)?;
    for (reading, error) in readings.iter().zip(&mut errors) {
        let mut square = error.powi(2);
        // Two groups at one place, or one at each of two.
        let each = f64::from(groups) / columns.len() as f64;
        for column in &columns {
            let left = reading.what == LEFT;
            let one = |impact: &target::Impact| if left { impact.left } else { impact.up };
            let mean = column.iter().map(one).sum::<f64>() / column.len() as f64;
            let spread = column.iter().map(|i| (one(i) - mean).powi(2)).sum::<f64>();
            square += each * spread / (column.len() as f64 - 1.0) / f64::from(of.shots);
        }
        *error = square.sqrt();
    }
    Ok(errors)
}
