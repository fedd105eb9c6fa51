//! What bench steps bring.

use study::{Bench, Done, DoneMark, Link, WorthBuild};
use target::Estimate;
use units::{Length, Role, Style};

use super::common::{care, fits, notes, of};
use crate::answers::figures;
use crate::document::{Cell, Document, Kind, Part, Table, head, list, note, say, small, table_of};
use crate::show::{figures as rounded, interval, plain, point, share};
use crate::{ReportError, prose};

/// What the steps bring to every build.
///
/// # Errors
/// [`ReportError::NoBuild`] and [`ReportError::Ragged`] for lists that do not
/// fit together, [`ReportError::NotFinite`] for the first bad number.
pub(super) fn worth(title: &str, found: &Bench, style: Style) -> Result<Document, ReportError> {
    check(found)?;
    let range = plain(Role::Range, found.distances.last().map_or(0.0, |d| d.si()), style);
    let mut parts = vec![note(prose::DUST)];
    for (at, build) in found.builds.iter().enumerate() {
        let keyed = |table: Table| Part::Table(table.of("build", &build.name));
        let of = of(found.builds.len() > 1, &build.name);
        parts.extend([
            head(format!("What the time buys{of}")),
            Part::Figure(figures::choices(found, build, at, style)),
            small(format!("Each step alone, at {range}")),
            keyed(alone_table(found, build)),
            say(GAIN),
            small(format!("One after another, at {range}")),
            keyed(order_table(found, build)),
            say(CHAIN),
        ]);
        if !build.front.is_empty() {
            parts.extend([
                small(format!("Choices that no other beats, at {range}")),
                keyed(unbeaten_table(found, build)),
                say(FRONT),
            ]);
        }
        parts.push(Part::Page(vec![
            small("Before and after, by distance"),
            Part::Figure(figures::gains(found, build, at, style)),
            keyed(gains_table(found, build, style)),
        ]));
    }
    parts.extend([Part::Data(steps_table(found)), Part::Data(chain_table(found))]);
    parts.push(Part::Data(builds_table(found)));
    parts.extend(notes(found.builds.iter().map(|b| (b.name.as_str(), &b.built)), style));
    parts.push(Part::Page([vec![head("How sure is this"), list(SURE)], care().to_vec()].concat()));
    Document::new("worth", title, headline(found, style), parts, style)
}

/// Refuses lists that do not fit together.
fn check(found: &Bench) -> Result<(), ReportError> {
    let expected = found.distances.len();
    if expected == 0 || found.builds.is_empty() {
        return Err(ReportError::NoBuild);
    }
    for (at, build) in found.builds.iter().enumerate() {
        let fits = |list: &str, found, expected| {
            fits(&format!("worth.builds[{at}].{list}"), found, expected)
        };
        for done in build.tried.iter().chain(&build.machine) {
            fits("marks", done.marks.len(), expected)?;
        }
        for link in &build.chain {
            fits("chain.gain", link.gain.len(), expected)?;
        }
        fits("machine", build.machine.len(), found.steps.len() + 2)?;
        fits("chain", build.chain.len(), found.steps.len())?;
        let named = build.front.iter().copied().chain([build.best, build.all]);
        let last = named.chain(build.chain.iter().map(|link| link.done)).max().unwrap_or_default();
        let tried = build.tried.len();
        fits("tried", tried, tried.max(last + 1).max(found.steps.len() + 1))?;
    }
    Ok(())
}

/// How much tighter: one less the inverse of a ratio of sigmas.
fn tighter(ratio: Option<&Estimate>) -> Option<Estimate> {
    let less = |value: f64| if value > 0.0 { 1.0 - 1.0 / value } else { 0.0 };
    ratio.map(|r| Estimate { value: less(r.value), low: less(r.low), high: less(r.high) })
}

/// Steps alone at the farthest distance, the best for its time first.
fn alone_table(found: &Bench, build: &WorthBuild) -> Table {
    let done = |at: &usize| &build.tried[*at];
    let gain = |at: &usize| far(done(at)).gain;
    table_of("steps-alone", ranked(found, build))
        .words("step", |at| numbered(found, build, done(at).steps[0]))
        .quantity("time a dozen", Role::Work, |at| done(at).time)
        .figures(3)
        .quantity("cost a dozen", Role::Number, |at| done(at).cost)
        .figures(4)
        .estimate("gain in R50", Role::Impact, gain)
        .quantity("gain for each minute", Role::Impact, |at| {
            (gain(at).low > 0.0).then(|| gain(at).value * 60.0 / done(at).time)
        })
        .figures(2)
        .words("shown", |at| verdict(&gain(at)))
        .cells("tighter from a machine", Kind::Estimates(Role::Percent), |at| {
            match tighter(far(&build.machine[*at]).ratio.as_ref()) {
                Some(part) => Cell::Estimate(Role::Percent, part),
                None => Cell::None("all land in one point"),
            }
        })
        .done()
}

/// The steps one after another.
fn order_table(found: &Bench, build: &WorthBuild) -> Table {
    let done = |link: &&Link| &build.tried[link.done];
    table_of("order", &build.chain)
        .words("then", |link| numbered(found, build, link.step))
        .quantity("minutes so far", Role::Work, |link| done(link).time)
        .figures(3)
        .quantity("cost so far", Role::Number, |link| done(link).cost)
        .figures(4)
        .estimate("R50", Role::Impact, |link| far(done(link)).r50)
        .estimate("this step adds", Role::Impact, |link| link.gain.last().copied())
        .quantity("alone it brings", Role::Impact, |l| far(&build.tried[l.step + 1]).gain.value)
        .quantity("of all there is", Role::Percent, |l| part(build, far(done(l)).gain.value))
        .done()
}

/// The choices that no other beats.
fn unbeaten_table(found: &Bench, build: &WorthBuild) -> Table {
    let done = |at: &&usize| &build.tried[**at];
    table_of("unbeaten", &build.front)
        .words("choice", |at| {
            let mut numbers: Vec<usize> =
                done(at).steps.iter().map(|step| number(found, build, *step)).collect();
            numbers.sort_unstable();
            numbers.iter().map(ToString::to_string).collect::<Vec<_>>().join(" + ")
        })
        .quantity("time a dozen", Role::Work, |at| done(at).time)
        .figures(3)
        .quantity("cost a dozen", Role::Number, |at| done(at).cost)
        .figures(4)
        .quantity("R50", Role::Impact, |at| far(done(at)).r50.value)
        .estimate("gain", Role::Impact, |at| far(done(at)).gain)
        .quantity("of all there is", Role::Percent, |at| part(build, far(done(at)).gain.value))
        .done()
}

/// R50 before, and what each step alone and all together bring, by distance.
fn gains_table(found: &Bench, build: &WorthBuild, style: Style) -> Table {
    type Read = fn(&DoneMark) -> Estimate;
    let (r50, gain): (Read, Read) = (|m| m.r50, |m| m.gain);
    let all = &build.tried[build.all];
    let mut rows = vec![("R50 before".to_owned(), &build.tried[0], r50)];
    rows.extend(ranked(found, build).into_iter().map(|at| {
        let done = &build.tried[at];
        (format!("gain: {}", found.steps[done.steps[0]].name), done, gain)
    }));
    rows.push(("gain: all steps".to_owned(), all, gain));
    rows.push(("R50 after all".to_owned(), all, r50));
    table_of("by-distance", rows)
        .words("what", |(name, _, _)| name.clone())
        .each(found.distances.iter().enumerate(), |rows, (at, distance)| {
            let head = plain(Role::Range, distance.si(), style);
            rows.estimate(head, Role::Impact, |(_, done, read)| read(&done.marks[at]))
        })
        .done()
}

/// Every set of steps that was tried.
fn steps_table(found: &Bench) -> Table {
    type Row<'a> = (&'a WorthBuild, &'a Done, &'a str, &'a str, Length, &'a DoneMark);
    let mut rows: Vec<Row> = Vec::new();
    for build in &found.builds {
        let tried = build.tried.iter().enumerate().map(|(at, done)| {
            ("archer", if build.front.contains(&at) { "yes" } else { "no" }, done)
        });
        for (who, unbeaten, done) in tried.chain(build.machine.iter().map(|d| ("machine", "", d))) {
            let marks = found.distances.iter().zip(&done.marks);
            rows.extend(marks.map(|(d, mark)| (build, done, who, unbeaten, *d, mark)));
        }
    }
    let names = |done: &Done| {
        let names: Vec<&str> = done.steps.iter().map(|at| found.steps[*at].name.as_str()).collect();
        names.join(" + ")
    };
    table_of("steps", rows)
        .words("build", |r| &r.0.name)
        .words("steps", |r| names(r.1))
        .words("who", |r| r.2)
        .quantity("time", Role::Work, |r| r.1.time)
        .quantity("cost", Role::Number, |r| r.1.cost)
        .words("unbeaten", |r| r.3)
        .quantity("distance", Role::Range, |r| r.4.si())
        .estimate("R50", Role::Impact, |r| r.5.r50)
        .estimate("gain in R50", Role::Impact, |r| r.5.gain)
        .estimate("group ratio", Role::Number, |r| r.5.ratio)
        .words("group that is a point", |r| point(r.5.ratio.as_ref()).unwrap_or("none"))
        .estimate("R50 as flown", Role::Impact, |r| r.5.flown)
        .estimate("gain as flown", Role::Impact, |r| r.5.flown_gain)
        .done()
}

/// The way on which each step brings most for its time.
fn chain_table(found: &Bench) -> Table {
    let mut rows = Vec::new();
    for build in &found.builds {
        for (place, link) in build.chain.iter().enumerate() {
            let done = &build.tried[link.done];
            let marks = found.distances.iter().zip(&done.marks).zip(&link.gain);
            rows.extend(marks.map(|((d, mark), gain)| (build, place, link, done, *d, mark, *gain)));
        }
    }
    table_of("chain", rows)
        .words("build", |r| &r.0.name)
        .counts("place", "", |r| r.1 as u64 + 1)
        .words("step", |r| &found.steps[r.2.step].name)
        .quantity("time so far", Role::Work, |r| r.3.time)
        .quantity("cost so far", Role::Number, |r| r.3.cost)
        .quantity("distance", Role::Range, |r| r.4.si())
        .estimate("R50", Role::Impact, |r| r.5.r50)
        .estimate("this step adds", Role::Impact, |r| r.6)
        .done()
}

/// The arrows before any step.
fn builds_table(found: &Bench) -> Table {
    table_of("builds", &found.builds)
        .words("build", |build| &build.name)
        .quantity("mass", Role::Mass, |build| build.built.mass.mass().si())
        .counts("flights a group", "", |build| build.flights as u64)
        .done()
}

/// How gains are read.
const GAIN: &str = "R50: half of all arrows land within this distance of their centre. \
    Gain: R50 before less after, with its 95 % interval, by the ratio of the spreads (sigma), as \
    if the group kept its shape; before and after are the same shots, with the same arrows before \
    and after the work. A gain whose interval holds zero is not shown to be one. R50 as flown, \
    which needs no shape but is known far less closely, stands in steps.csv.";

/// How the order is read.
const CHAIN: &str = "Each line adds the step that brings most for its time after those \
    above it. What a step adds here is less than what it brings alone where others have taken \
    its place: spreads add by their squares, so a step shows more the less else is left.";

/// How the front is read.
const FRONT: &str = "No other choice is both quicker and tighter, and each line adds at \
    least a hundredth of what all steps bring. The numbers are those of the steps above. Every choice of up to \
    three steps was tried, and longer ones along the order above.";

/// What the gains rest on.
const SURE: [&str; 4] = [
    "These are computed numbers, not measured ones. A step is worth what the scenario says it \
     takes away; measure a dozen before and after, and put those numbers in.",
    "Times and costs are yours. Where the scenario gives none, a chosen default stands: the \
     resolved scenario below marks it.",
    "Chance: a group of finitely many flights is itself a sample. The 95 % intervals say how far \
     it may be from the truth of the model.",
    "Knowledge: the poorly known values of bow and air stay at their middles here.",
];

/// The mark at the farthest distance.
fn far(done: &Done) -> &DoneMark {
    match done.marks.last() {
        Some(mark) => mark,
        None => unreachable!("every list of distances was checked to hold one"),
    }
}

/// A time in minutes.
fn minutes(seconds: f64) -> String {
    rounded(seconds / 60.0, 3)
}

/// Whether a gain is shown, one way or the other.
fn verdict(gain: &Estimate) -> &'static str {
    if gain.low > 0.0 {
        "tighter"
    } else if gain.high < 0.0 {
        "wider"
    } else {
        "not shown"
    }
}

/// Names of steps in a sentence.
fn listed(found: &Bench, steps: &[usize]) -> String {
    let names: Vec<String> =
        steps.iter().map(|at| format!("\"{}\"", found.steps[*at].name)).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        Some((last, _)) => last.clone(),
        None => "nothing".to_owned(),
    }
}

/// A gain over what all steps bring; none where all bring nothing.
fn part(build: &WorthBuild, gain: f64) -> Option<f64> {
    let all = far(&build.tried[build.all]).gain;
    (all.low > 0.0).then(|| gain / all.value)
}

/// Steps alone, indices into `tried`, the best for its time first.
fn ranked(found: &Bench, build: &WorthBuild) -> Vec<usize> {
    let mut order: Vec<usize> = (1..=found.steps.len()).collect();
    let rate = |at: &usize| far(&build.tried[*at]).gain.value / build.tried[*at].time;
    order.sort_by(|a, b| rate(b).total_cmp(&rate(a)));
    order
}

/// The number of a step: its place among the steps alone.
fn number(found: &Bench, build: &WorthBuild, step: usize) -> usize {
    let place = ranked(found, build).iter().position(|at| build.tried[*at].steps == [step]);
    place.unwrap_or_default() + 1
}

/// A step's number and name.
fn numbered(found: &Bench, build: &WorthBuild, step: usize) -> String {
    format!("{} {}", number(found, build, step), found.steps[step].name)
}

/// The answer in a few plain sentences, at the farthest distance.
fn headline(found: &Bench, style: Style) -> String {
    let several = found.builds.len() > 1;
    let told = found.builds.iter().map(|build| {
        let of = if several { format!(" with \"{}\"", build.name) } else { String::new() };
        one(found, build, &of, style)
    });
    told.collect::<Vec<_>>().join(" ")
}

fn one(found: &Bench, build: &WorthBuild, with: &str, style: Style) -> String {
    let text = |si| Role::Impact.text(si, style);
    let range = found.distances.last().map_or(0.0, |distance| distance.si());
    let range = plain(Role::Range, range, style);
    let (now, all) = (far(&build.tried[0]), &build.tried[build.all]);
    let every = far(all);
    let count = found.steps.len();
    let Some(all_of_it) = part(build, every.gain.value) else {
        return format!(
            "At {range} no gain shows{with}, not even with all {count} steps done: half of all \
             arrows land within {} of their centre (R50), and the 95 % interval of the gain is {}.",
            text(now.r50.value),
            interval(Role::Impact, &every.gain, style)
        );
    };
    debug_assert!(all_of_it > 0.0, "a gain that shows is above zero");
    let best = &build.tried[build.best];
    let taken = far(best).gain;
    let first = ranked(found, build)[0];
    let one = far(&build.tried[first]).gain;
    let start = format!(
        "At {range} all {count} steps{with} take R50, the radius that holds half of all arrows, \
         from {} to {} in {} min a dozen.",
        text(now.r50.value),
        text(every.r50.value),
        minutes(all.time)
    );
    let three = if best.steps.len() < count && taken.low > 0.0 {
        format!(
            " {} alone take {} of that gain in {} min.",
            listed(found, &best.steps),
            share(part(build, taken.value).unwrap_or_default()),
            minutes(best.time)
        )
    } else {
        String::new()
    };
    let quick = if one.low > 0.0 {
        format!(
            " For its time {} brings most: {} in {} min.",
            listed(found, &build.tried[first].steps),
            text(one.value),
            minutes(build.tried[first].time)
        )
    } else {
        " No step alone shows a gain.".to_owned()
    };
    format!("{start}{three}{quick}")
}
