//! What a control does here: the build flown with its value a step lower and a step
//! higher, with the same chances.

use maud::{Markup, html};
use scenario::{Control, Field, Form, Part, Slide};
use study::{Build, BuildAnswer, CausesAlone, Compared, PairMark, Plan, Question};
use units::{Role, Unit};

use crate::PageError;
use crate::jobs::Flag;
use crate::scene::{QUICK, Scene};

/// Steps that a slider is long. Chosen: one that a hand would make at once.
const STEPS: f64 = 5.0;
/// A step of a value without a slider, as a share of it. Chosen: a tenth.
const SHARE: f64 = 0.1;
/// A fault stops mattering where all that is left of its slider adds no more than this
/// share of what the whole of it adds. Chosen: a tenth.
const LITTLE: f64 = 0.1;
/// Most words of a choice that are tried. Chosen: six builds are flown at once.
const MOST_WORDS: usize = 5;

/// Least shift that is told, m. Chosen: a twentieth of an inch, less than a shaft's
/// thickness shows on a face.
const SHOWS: f64 = 1.27e-3;

/// Least change of a machine's group that is told, m. Chosen: a thousandth of an inch, which
/// still reads as more than nothing.
const TOLD: f64 = 2.54e-5;

/// The build with a control set to something else.
struct Tried {
    /// What was done: "50 gr more".
    what: String,
    build: Build,
}

/// What a control does at the chosen distance, in a sentence or two; nothing for one that
/// moves no arrow.
pub(crate) fn effect(scene: &Scene, control: &Control, flag: &Flag) -> Result<Markup, PageError> {
    if control.part() == Part::Asked || control.form() == Form::Among || !control.built() {
        return Ok(html! {});
    }
    let tried = tried(scene, control);
    if tried.is_empty() {
        return Ok(html! {});
    }
    let whats: Vec<String> = tried.iter().map(|tried| tried.what.clone()).collect();
    let found = flown(scene, tried.into_iter().map(|tried| tried.build).collect(), flag)?;
    let changes = changes(scene, control.part(), &found);
    let said: Vec<(String, String)> = whats.into_iter().zip(changes).collect();
    let mut told = vec![sentence(&said)];
    let speed = |build: &BuildAnswer| Role::Speed.text(build.departure.speed, scene.style);
    let own = speed(&found.builds[0]);
    if control.part() == Part::Bow && found.builds.iter().all(|build| speed(build) == own) {
        told.push(format!("The speed at departure stays {own}."));
    }
    if let Some(limit) = limit(scene, control, flag)? {
        told.push(format!("Beyond about {limit} it adds little."));
    }
    let place = Role::Range.text(found.builds[0].marks[0].distance.si(), scene.style);
    Ok(html! { "At " (place) ": " (told.join(" ")) })
}

/// The values that are tried beside the present one.
fn tried(scene: &Scene, control: &Control) -> Vec<Tried> {
    let said = scene.scenario.said(control, scene.shown);
    let now = if said.value.is_empty() { &said.usual } else { &said.value };
    let asked: Vec<(String, String)> = match control.field() {
        Field::Words(words) => {
            let others = words.iter().filter(|word| *word != now).take(MOST_WORDS);
            others.map(|word| (format!("\"{word}\""), (*word).to_owned())).collect()
        }
        Field::Count(..) => {
            let Ok(count) = now.parse::<u64>() else { return Vec::new() };
            let less = count.checked_sub(1).map(|less| ("one less".to_owned(), less.to_string()));
            less.into_iter().chain([("one more".to_owned(), (count + 1).to_string())]).collect()
        }
        Field::Amount(_) => amounts(scene, control, now),
        Field::Text | Field::Written => Vec::new(),
    };
    let built =
        |(what, text): (String, String)| Some(Tried { what, build: with(scene, control, &text)? });
    asked.into_iter().filter_map(built).collect()
}

/// A step up and down from a quantity.
fn amounts(scene: &Scene, control: &Control, now: &str) -> Vec<(String, String)> {
    let slide = control.slide(scene.style);
    let Some((value, unit)) = place(control, now, slide) else { return Vec::new() };
    let step = match slide {
        Some(slide) => nice((slide.high - slide.low) / STEPS),
        None if value != 0.0 => nice(SHARE * value.abs()),
        None => return Vec::new(),
    };
    let said = |by: f64| {
        let to = text(value + by, unit);
        let by = text(by.abs(), unit);
        (by, to)
    };
    let side = control.form() == Form::Side;
    let [more, less] = if side { ["from the right", "from the left"] } else { ["more", "less"] };
    // What cannot be below nothing stops there.
    let low = slide.map_or(f64::NEG_INFINITY, |slide| slide.low.min(value));
    let down = step.min(value - low);
    let both = [(step, more), (-down, less)].into_iter().filter(|(by, _)| by.abs() > 1e-9);
    let asked = both.map(|(by, word)| {
        let (by, to) = said(by);
        (format!("{by} {word}"), to)
    });
    asked.collect()
}

/// A quantity in the unit of its slider, or in its own.
fn place(control: &Control, now: &str, slide: Option<Slide>) -> Option<(f64, &'static Unit)> {
    let dimension = control.dimension()?;
    let si = units::parse_si(dimension, now).ok()?;
    let own = now.split_once(' ').map_or("", |(_, unit)| unit.trim());
    let unit = dimension.unit(slide.map_or(own, |slide| slide.unit))?;
    Some((unit.of_si(si), unit))
}

/// A number in a unit, to six digits.
fn text(value: f64, unit: &Unit) -> String {
    let value: f64 = format!("{value:.5e}").parse().unwrap_or(value);
    format!("{value} {}", unit.symbol).trim_end().to_owned()
}

/// The largest of 1, 2 and 5 times a power of ten that is no larger.
fn nice(value: f64) -> f64 {
    let decade = 10.0_f64.powf(value.log10().floor());
    let times = [5.0, 2.0].into_iter().find(|times| times * decade <= value * (1.0 + 1e-9));
    times.unwrap_or(1.0) * decade
}

/// The build that the controls show, with a control set; none where it may not be.
fn with(scene: &Scene, control: &Control, text: &str) -> Option<Build> {
    let edits: Vec<_> = control.edits(text, Some(scene.shown)).collect();
    let scenario = scene.scenario.edited(&edits).ok()?;
    scenario.plan()?.builds.get(scene.shown).cloned()
}

/// The shown build and these, with few flights at the chosen distance.
fn flown(scene: &Scene, others: Vec<Build>, flag: &Flag) -> Result<Compared, PageError> {
    let whole = scene.plan()?;
    let reason = "this scenario holds no arrow";
    let both = whole.builds.get(scene.shown).zip(whole.distances.get(scene.at));
    let (build, distance) = both.ok_or(PageError::NotHere { reason })?;
    let plan = Plan {
        builds: std::iter::once(build.clone()).chain(others).collect(),
        question: Question::Compare { ends: false },
        distances: vec![*distance],
        flights: QUICK[0],
        stop: None,
        stated: study::Stated::default(),
        points: 0,
        alone: CausesAlone::AtUsualValues,
        evidence: Vec::new(),
        ..whole
    };
    let answer = study::run(&plan, flag)?;
    Ok(answer.compared().cloned().ok_or(report::ReportError::NoComparison)?)
}

/// What changes from the first build to each of the others.
fn changes(scene: &Scene, part: Part, found: &Compared) -> Vec<String> {
    let base = &found.builds[0].marks[0];
    let change = |pair: &study::Pair| {
        let mark = &found.builds[pair.other].marks[0];
        let (here, there) = (&base.nominal, &mark.nominal);
        let far = |change: f64, words: [&str; 2]| {
            let text = Role::Impact.text(change.abs(), scene.style);
            (change.abs() >= SHOWS).then(|| format!("{text} {}", words[usize::from(change < 0.0)]))
        };
        // What moves the sight leaves the arrow's own fall as it is.
        let fall = match part {
            Part::Sight => here.above_sight - there.above_sight,
            _ => there.drop - here.drop,
        };
        let drop = far(fall, ["lower", "higher"]);
        let aside = far(there.left - here.left, ["to the left", "to the right"]);
        let group = group(&pair.marks[0], scene);
        let mut told: Vec<String> = if drop.is_none() && aside.is_none() && group.is_none() {
            Vec::new()
        } else {
            let group = group.or(Some("group as before".to_owned()));
            [drop.or(Some("as high".to_owned())), aside, group].into_iter().flatten().collect()
        };
        // A machine sees more of a fault than an archer.
        let machine = mark.machine.stats.r50.value - base.machine.stats.r50.value;
        let shows = pair.marks[0].machine_ratio.is_none_or(|of| of.low > 1.0 || of.high < 1.0);
        if part == Part::Faults && machine.abs() >= TOLD && shows {
            let word = if machine > 0.0 { "larger" } else { "smaller" };
            let text = Role::Impact.text(machine.abs(), scene.style);
            told.push(format!("a machine's group {text} {word}"));
        }
        told.join(", ")
    };
    found.pairs.iter().filter(|pair| pair.base == 0).map(change).collect()
}

/// Whether no difference of the groups shows.
fn pair_same(mark: &PairMark) -> bool {
    mark.gain.low <= 0.0 && mark.gain.high >= 0.0
}

/// How the group changes, where that shows with these flights.
fn group(mark: &PairMark, scene: &Scene) -> Option<String> {
    let word = if mark.gain.value < 0.0 { "larger" } else { "smaller" };
    let text = Role::Impact.text(mark.gain.value.abs(), scene.style);
    (!pair_same(mark)).then(|| format!("group {text} {word}"))
}

/// What was done and what it changes, as a sentence.
fn sentence(said: &[(String, String)]) -> String {
    if said.iter().all(|(_, change)| change.is_empty()) {
        return "it changes nothing that shows.".to_owned();
    }
    let one = |(what, change): &(String, String)| {
        format!("{what}: {}", if change.is_empty() { "no change" } else { change })
    };
    said.iter().map(one).collect::<Vec<_>>().join("; ") + "."
}

/// From where on more of a fault adds little to the group of a machine; none where all of
/// the slider matters, or nothing of it does.
fn limit(scene: &Scene, control: &Control, flag: &Flag) -> Result<Option<String>, PageError> {
    let slide = control.slide(scene.style).filter(|_| control.form() == Form::Rayleigh);
    let unit = slide.zip(control.dimension()).and_then(|(slide, of)| of.unit(slide.unit));
    let (Some(slide), Some(unit)) = (slide, unit) else { return Ok(None) };
    let values: Vec<f64> = (0..5).map(|at| slide.high * f64::from(at) / 4.0).collect();
    let tried: Option<Vec<Build>> =
        values.iter().map(|value| with(scene, control, &text(*value, unit))).collect();
    let Some(tried) = tried else { return Ok(None) };
    let found = flown(scene, tried, flag)?;
    let r50: Vec<f64> =
        found.builds[1..].iter().map(|build| build.marks[0].machine.stats.r50.value).collect();
    let (first, last) = (r50[0], r50[4]);
    // Chosen: a hundredth of an inch is nothing to speak of.
    if last - first < 2.54e-4 {
        return Ok(None);
    }
    let stops = (1..4).find(|at| last - r50[*at] < LITTLE * (last - first));
    Ok(stops.map(|at| text(values[at], unit)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_steps_are_round() {
        let cases = [(50.0, 50.0), (2.4, 2.0), (0.16, 0.1), (12.0, 10.0), (0.2, 0.2), (9.99, 5.0)];
        for (value, step) in cases {
            assert!((nice(value) / step - 1.0).abs() < 1e-12, "{value}: {}", nice(value));
        }
    }

    #[test]
    fn exact_a_sentence_tells_each_change() {
        let said = |a: &str, b: &str| {
            sentence(&[("5 gr more".into(), a.into()), ("5 gr less".into(), b.into())])
        };
        assert_eq!(said("", ""), "it changes nothing that shows.");
        assert_eq!(said("1 in lower", ""), "5 gr more: 1 in lower; 5 gr less: no change.");
    }
}
