//! Printed bands against truths drawn inside the stated ranges.

use std::sync::Arc;

use clothyard_tests::known::{NO_ANSWER, plans};
use clothyard_tests::program::hard;
use serde_json::Value as Json;
use study::{
    Build, Correlated, DrawnParameter, Plan, QUICK_POINTS, Quiet, RandomStream, Recipe, Refused,
    Setup, Slot, UncertainParameter, normal_quantile, run,
};
use units::Style;

/// A recipe whose poorly known values are known to be these.
struct Known {
    recipe: Arc<dyn Recipe>,
    values: Vec<(Slot, f64)>,
}

impl Recipe for Known {
    fn draws(&self) -> &[DrawnParameter] {
        self.recipe.draws()
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        &[]
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        self.recipe.setup(&[&self.values, changes].concat())
    }

    fn after(&self, steps: &[usize]) -> Option<Box<dyn Recipe>> {
        let recipe: Arc<dyn Recipe> = self.recipe.after(steps)?.into();
        Some(Box::new(Self { recipe, values: self.values.clone() }))
    }
}

/// One truth for a build: every poorly known value by its stated law. Builds that
/// share a value share its truth, since its key names its stream.
fn truth(recipe: &dyn Recipe, number: u64) -> Vec<(Slot, f64)> {
    let score =
        |of: &UncertainParameter| normal_quantile(RandomStream::new(404, &of.key).chance(number));
    let doubts = recipe.uncertain();
    let mixed = |of: &UncertainParameter| {
        // Shipped pairs have no value in common: the second goes with the first.
        let pair = |pair: &&Correlated| pair.slots[1] == of.slot;
        let with = recipe.correlated().iter().find(pair).and_then(|pair| {
            let other = doubts.iter().find(|other| other.slot == pair.slots[0])?;
            Some(pair.by * score(other) + (1.0 - pair.by * pair.by).sqrt() * score(of))
        });
        let chance = target::normal_below(with.unwrap_or_else(|| score(of)));
        let chosen = recipe.choices().contains(&of.slot);
        (of.slot, if chosen { of.chosen(chance) } else { of.at(chance) })
    };
    doubts.iter().map(mixed).collect()
}

/// The tables of an answer as its file has them.
fn told(plan: &Plan) -> Option<Json> {
    let answer = run(plan, &Quiet).ok()?;
    let document = report::answer(&answer, &report::Provenance::default(), Style::Metric).ok()?;
    serde_json::from_str(&document.json().ok()?).ok()
}

/// Shots beyond what was looked for are endless.
fn number(cell: &Json) -> Option<f64> {
    let endless = cell.get("more_than").map(|_| f64::INFINITY);
    cell["value"].as_f64().or_else(|| cell["each"].as_f64()).or(endless)
}

/// Whether two rows are about the same thing: the words that stand in every draw are
/// the same.
fn same(row: &Json, other: &Json) -> bool {
    let mut cells = row.as_object().into_iter().flatten();
    cells.all(|(key, cell)| !cell.is_string() || *cell == other[key])
}

/// How many numbers with a band there are, and how many of the same numbers in the
/// `other` answer lie in it.
fn inside(main: &Json, other: &Json) -> (usize, usize) {
    let (mut all, mut held) = (0, 0);
    for (name, rows) in main["tables"].as_object().into_iter().flatten() {
        if NO_ANSWER.contains(&name.as_str()) {
            continue;
        }
        let others = other["tables"][name].as_array().map_or(&[][..], Vec::as_slice);
        for (row, other) in rows.as_array().into_iter().flatten().zip(others) {
            if !same(row, other) {
                continue;
            }
            for (key, cell) in row.as_object().into_iter().flatten() {
                let (Some(band), Some(value)) = (cell.get("band"), number(&other[key])) else {
                    continue;
                };
                let [low, high] = [0, 1].map(|at| band[at].as_f64().unwrap_or(f64::INFINITY));
                all += 1;
                // A number that moves in its last digit alone moves by rounding.
                let near = 1e-9 * value.abs().min(f64::MAX);
                held += usize::from(low - near <= value && value <= high + near);
            }
        }
    }
    (all, held)
}

/// Shipped scenarios in an order drawn by chance.
fn shuffled(flights: usize) -> Vec<(String, Plan)> {
    let mut plans = plans(flights);
    plans.sort_by_key(|(name, _)| RandomStream::new(16, name).chance(0).to_bits());
    plans
}

/// Answers with the poorly known values at random places of their ranges lie in the
/// printed bands nine times in ten: each truth is one draw of all values, and the
/// share of its numbers that lie inside is averaged over truths and scenarios.
///
/// In haste two scenarios and two truths of each, which only a band that is wrong
/// altogether would fail. Hard: ten scenarios, twelve truths of each, and 85 to 95 %.
#[test]
#[allow(clippy::print_stdout, reason = "measured, for the model card")]
fn stat_printed_bands_cover_the_answers_of_nine_truths_in_ten() {
    let (scenarios, truths, flights, [least, most]) =
        if hard() { (10, 12, 1_000, [0.85, 0.95]) } else { (2, 2, 100, [0.7, 1.0]) };
    let mut shares = Vec::new();
    let doubtful = shuffled(flights)
        .into_iter()
        .filter(|(_, plan)| plan.builds.iter().any(|build| !build.recipe.uncertain().is_empty()));
    for (at, (name, plan)) in doubtful.take(scenarios).enumerate() {
        let points = if hard() { plan.points } else { plan.points.min(QUICK_POINTS) };
        // A truth drawn from all that is possible need not go with what was measured.
        let plan = Plan { points, evidence: Vec::new(), ..plan };
        let main = told(&plan).unwrap();
        let mut own = Vec::new();
        // Scenarios share poorly known values, so each has truths of its own.
        for number in (0..truths).map(|number| at as u64 * truths + number) {
            let known = |build: &Build| {
                let values = truth(build.recipe.as_ref(), number);
                let recipe = Known { recipe: Arc::clone(&build.recipe), values };
                Build { name: build.name.clone(), recipe: Arc::new(recipe) }
            };
            let builds = plan.builds.iter().map(known).collect();
            // A truth at which nothing can be shot is left out, as it is of a band.
            let Some(other) = told(&Plan { builds, points: 0, ..plan.clone() }) else { continue };
            let (all, held) = inside(&main, &other);
            assert!(all > 20, "{name}: {all}");
            own.push(held as f64 / all as f64);
        }
        let mean = own.iter().sum::<f64>() / own.len() as f64;
        println!("{name}: {mean:.3} of {own:.2?}");
        shares.extend(own);
    }
    let mean = shares.iter().sum::<f64>() / shares.len() as f64;
    let spread = shares.iter().map(|of| (of - mean).powi(2)).sum::<f64>() / shares.len() as f64;
    println!("all: {mean:.4}, from truth to truth {:.3}", spread.sqrt());
    assert!((least..=most).contains(&mean), "{mean}");
}
