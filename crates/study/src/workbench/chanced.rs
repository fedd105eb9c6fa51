//! The bow and the shafts that are sold, at every outer point.

use units::Length;
use workbench::{Population, Throw};

use super::aimed::{AimedBow, FORM_FLIGHTS, FORM_FLIGHTS_AT_POINTS, form_sigma};
use crate::alone::{Alone, alone};
use crate::watch::Inner;
use crate::{QUICK_POINTS, RandomStream, Recipe, StudyError, Watch, normal_quantile};

/// How far the scales of the hooks may lie off their own values, as factors. Chosen:
/// .003 to .006 in about .0045.
const HOOKS: (f64, f64) = (2.0 / 3.0, 4.0 / 3.0);

/// What a bow makes of crooked shafts.
pub(super) struct Throwing {
    /// What faults throw, at each distance.
    pub(super) throws: Vec<Throw>,
    /// Standard deviation of the archer's own group at each distance, m.
    pub(super) form: Vec<f64>,
}

/// Standard normal numbers of one shaft, the same at every call.
pub(super) fn normals(seed: u64, key: &str) -> impl FnMut() -> f64 + use<> {
    let mut stream = RandomStream::new(seed, key);
    let mut next = 0;
    move || {
        next += 1;
        normal_quantile(stream.chance(next - 1))
    }
}

/// The population at each outer point.
pub(super) fn hooked(seed: u64, population: Population) -> impl FnMut(usize) -> Population {
    let mut chances = RandomStream::new(seed, "bench.population");
    move |at| {
        let (low, high) = HOOKS;
        let chance = chances.chance(at as u64);
        // The own value is the median, and ratios count: as of any poorly known scale.
        let by =
            if chance < 0.5 { low.powf(1.0 - 2.0 * chance) } else { high.powf(2.0 * chance - 1.0) };
        let scaled = |of: Length| Length::from_si(of.si() * by);
        Population {
            nock_hook: scaled(population.nock_hook),
            point_hook: scaled(population.point_hook),
            ..population
        }
    }
}

/// The bow as the scenario has it, and at every outer point.
pub(super) fn throwing(
    recipe: &dyn Recipe,
    (distances, wanted): (&[f64], Length),
    seed: u64,
    watch: &dyn Watch,
) -> Result<Alone<Throwing>, StudyError> {
    let of = |recipe: &dyn Recipe, flights, watch: &dyn Watch| {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let throws = AimedBow::new(recipe, distances)?.throws(wanted)?;
        let form = form_sigma(recipe, distances, (seed, flights), watch)?;
        Ok(Throwing { throws, form })
    };
    alone(
        recipe,
        (seed, QUICK_POINTS),
        watch,
        |recipe| of(recipe, FORM_FLIGHTS, watch),
        |_, point| of(&point.of(recipe), FORM_FLIGHTS_AT_POINTS, &Inner(watch)),
    )
}
