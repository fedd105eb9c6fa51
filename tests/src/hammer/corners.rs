//! Scenarios at the ends of the ranges, through the whole chain.

use std::path::Path;

use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};
use units::Style;

use super::mutate::below;

/// A sound scenario, key by key, to be bent out of shape.
const SOUND: [(&str, &str); 10] = [
    ("question.distances", "[\"20 yd\"]"),
    ("bow.draw_weight", "\"60 lbf\""),
    ("bow.draw_length", "\"29 in\""),
    ("bow.speed", "\"276 ft/s\""),
    ("bow.speed_mass", "\"425 gr\""),
    ("arrow.shaft.outside", "\"0.246 in\""),
    ("arrow.shaft.density", "\"9.5 gr/in\""),
    ("arrow.shaft.spine", "\"0.340 in\""),
    ("arrow.shaft.length", "\"28.5 in\""),
    ("arrow.point.mass", "\"100 gr\""),
];

/// The keys that hold a quantity, with the ends of their ranges as they are
/// written.
pub struct Corners(Vec<(String, [String; 2])>);

impl Corners {
    /// As the program's own list of keys has them.
    pub fn new() -> Self {
        let mut table = String::new();
        let mut keys = Vec::new();
        for line in scenario::key_reference().lines() {
            if let Some(name) = line.strip_prefix("## [") {
                name.trim_end_matches(']').clone_into(&mut table);
            }
            let mut cells = line.strip_prefix("| `").unwrap_or_default().split(" | ");
            let (Some(name), Some(holds)) = (cells.next(), cells.next()) else { continue };
            let name = name.trim_end_matches('`');
            let Some((kind, range)) = holds.split_once(", ") else { continue };
            let Some((low, high)) = range.split_once(" to ") else { continue };
            let whole = kind.contains("list") || kind.contains("whole") || kind.contains("reading");
            if !whole && !table.is_empty() && !table.contains("build") && !table.contains("step") {
                keys.push((format!("{table}.{name}"), [low.to_owned(), high.to_owned()]));
            }
        }
        Self(keys)
    }

    /// How many keys there are.
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// The scenario of this number: sound, but for some values at the ends of their
    /// ranges or between them.
    pub fn text(&self, number: u64) -> String {
        let mut random = ChaCha8Rng::seed_from_u64(number);
        let mut lines: Vec<(String, String)> =
            SOUND.iter().map(|(key, value)| ((*key).to_owned(), (*value).to_owned())).collect();
        for _ in 0..=below(&mut random, 6) {
            let (key, ends) = &self.0[below(&mut random, self.0.len())];
            let value = match below(&mut random, 3) {
                2 => between(ends, &mut random),
                end => ends[end].clone(),
            };
            lines.retain(|(known, _)| known != key);
            lines.push((key.clone(), format!("\"{value}\"")));
        }
        if below(&mut random, 2) == 0 {
            lines.push((
                "faults.point_cant.angle".to_owned(),
                "{ rayleigh = \"0.2 deg\" }".to_owned(),
            ));
        }
        lines.sort();
        lines.dedup_by(|a, b| a.0 == b.0);
        let lines: Vec<String> =
            lines.iter().map(|(key, value)| format!("{key} = {value}")).collect();
        lines.join("\n") + "\n"
    }
}

impl Default for Corners {
    fn default() -> Self {
        Self::new()
    }
}

/// A value between two ends that are written in one unit; otherwise an end.
fn between(ends: &[String; 2], random: &mut ChaCha8Rng) -> String {
    let part = |text: &String| -> Option<(f64, String)> {
        let (number, unit) = text.split_once(' ').unwrap_or((text, ""));
        Some((number.parse().ok()?, unit.to_owned()))
    };
    match (part(&ends[0]), part(&ends[1])) {
        (Some((low, _)), Some((high, unit))) => {
            let share = f64::from(random.next_u32()) / f64::from(u32::MAX);
            format!("{} {unit}", low + (high - low) * share * share).trim_end().to_owned()
        }
        _ => ends[0].clone(),
    }
}

/// How far a scenario got.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Got {
    /// Refused when read.
    Refused,
    /// Refused by the flight, in words.
    NotFlown,
    /// One arrow flown and told.
    Flown,
    /// The whole question answered.
    Answered,
}

/// Takes a scenario through the whole chain: read, one arrow flown and told; with
/// `whole`, its question answered with few flights and every file of the answer
/// made.
///
/// # Panics
/// Where a value that is no number comes out, or anything panics.
pub fn corner(text: &str, whole: bool) -> Got {
    super::scenario(text.as_bytes());
    let read = scenario::read(Path::new("a.toml"), &|_| Ok(text.to_owned()));
    let Ok(mut scenario) = read else { return Got::Refused };
    if scenario.rigid_body().is_some() {
        return Got::Refused;
    }
    let Ok(recipe) = scenario.recipe(None) else { return Got::Refused };
    let marks: Vec<f64> = scenario.distances().iter().map(|d| d.si()).collect();
    let Ok(flown) = study::fly_one(recipe.as_ref(), &marks, false) else { return Got::NotFlown };
    for style in [Style::Archery, Style::Metric] {
        let arrow = report::arrow(&flown, style).unwrap_or_else(|error| told(text, &error));
        let flight = report::flight(&flown.states, flown.built.mass.mass(), style);
        for document in [arrow, flight.unwrap_or_else(|error| told(text, &error))] {
            let shown = document.terminal(80);
            let json = document.json().unwrap_or_else(|error| told(text, &error));
            for word in ["NaN", "inf "] {
                assert!(!shown.contains(word) && !json.contains(word), "{shown}");
            }
        }
    }
    if !whole || scenario.override_question(None, Some(100)).is_err() {
        return Got::Flown;
    }
    let Some(plan) = scenario.plan() else { return Got::Flown };
    let Ok(answer) = study::run(&plan, &study::Quiet) else { return Got::Flown };
    let document = report::answer(&answer, &crate::provenance(), Style::Archery);
    let files =
        document.and_then(|document| document.files()).unwrap_or_else(|error| told(text, &error));
    for file in files {
        let text = String::from_utf8_lossy(&file.bytes);
        assert!(!text.contains("NaN"), "{}: {text}", file.name);
    }
    Got::Answered
}

/// A report refuses a number that is none.
fn told<T>(scenario: &str, error: &report::ReportError) -> T {
    panic!("{scenario}\n{error}")
}
