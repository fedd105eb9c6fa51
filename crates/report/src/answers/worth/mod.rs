//! What bench steps bring.

mod figures;
mod short;
mod words;

use study::{Done, DoneMark, Found, GreedyStep, Joint, WorthBuild, WorthOfSteps};
use target::Estimate;
use units::{Length, Role, Style};

use super::common::{care, fits, notes, of};
use crate::ReportError;
use crate::document::{Cell, Document, Kind, Part, Table, head, list, say, small, table_of};
use crate::show::{plain, point};
use words::{CHAIN, FRONT, GAIN, SURE, headline, number, numbered, verdict};

/// What the steps bring to every build.
///
/// # Errors
/// [`ReportError::NoBuild`] and [`ReportError::Ragged`] for lists that do not
/// fit together, [`ReportError::NotFinite`] for the first bad number.
pub(super) fn worth(
    title: &str,
    found: &WorthOfSteps,
    joint: Option<&Joint<Found>>,
    style: Style,
) -> Result<Document, ReportError> {
    check(found)?;
    let range = plain(Role::Range, found.distances.last().map_or(0.0, |d| d.si()), style);
    let last = found.distances.len() - 1;
    let mut parts = Vec::new();
    for (at, build) in found.builds.iter().enumerate() {
        let keyed = |table: Table| Part::Table(table.of("build", &build.name));
        let of = of(found.builds.len() > 1, &build.name);
        parts.extend([
            head(format!("What the time buys{of}")),
            Part::Figure(figures::choices(found, at, style)),
            small(format!("Each step alone, at {range}")),
            keyed(alone_table(found, build)),
            say(GAIN),
            small(format!("One after another, at {range}")),
            keyed(order_table(found, build, last)),
            say(CHAIN),
        ]);
        if !build.front.is_empty() {
            parts.extend([
                small(format!("Choices that no other beats, at {range}")),
                keyed(unbeaten_table(build)),
                say(FRONT),
            ]);
        }
        parts.push(Part::Page(vec![
            small("Before and after, by distance"),
            Part::Figure(figures::gains(found, at, style)),
            keyed(gains_table(found, build, style)),
        ]));
        let nearer = (0..last).map(|at| order_table(found, build, at).of("build", &build.name));
        parts.extend(nearer.map(Part::Data));
    }
    parts.extend(words::not_known(found, joint, style));
    parts.extend([steps_table(found), builds_table(found)].map(Part::Data));
    parts.extend(notes(found.builds.iter().map(|b| (b.name.as_str(), &b.built)), style));
    parts.push(Part::Page([vec![head("How sure is this"), list(SURE)], care().to_vec()].concat()));
    Document::new("worth", title, headline(found, joint, style), parts, style)?
        .shortly(short::short(found, joint, style))
}

/// Refuses lists that do not fit together.
fn check(found: &WorthOfSteps) -> Result<(), ReportError> {
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
fn alone_table(found: &WorthOfSteps, build: &WorthBuild) -> Table {
    let done = |at: &usize| &build.tried[*at];
    let gain = |at: &usize| done(at).far().gain;
    table_of("steps-alone", build.by_rate())
        .about(|at| &found.steps[done(at).steps[0]].name)
        .words("step", |at| numbered(found, build, done(at).steps[0]))
        .quantity("time a dozen", Role::Work, |at| done(at).time)
        .figures(3)
        .quantity("cost a dozen", Role::Number, |at| done(at).cost)
        .figures(4)
        .estimate("gain in R50", Role::Impact, gain)
        .quantity("gain for each minute", Role::Impact, |at| done(at).gain_per_minute())
        .figures(2)
        .words("shown", |at| verdict(&gain(at)))
        .cells("tighter from a machine", Kind::Estimates(Role::Percent), |at| {
            match tighter(build.machine[*at].far().ratio.as_ref()) {
                Some(part) => Cell::Estimate(Role::Percent, part),
                None => Cell::None("all land in one point"),
            }
        })
        .done()
}

/// The way on which each step brings most for its time, at one distance.
fn order_table(found: &WorthOfSteps, build: &WorthBuild, at: usize) -> Table {
    let done = |link: &GreedyStep| &build.tried[link.done];
    let far = at + 1 == found.distances.len();
    table_of("chain", build.chain.iter().enumerate())
        .about(|(_, link)| &found.steps[link.step].name)
        .counts("place", "", |(place, _)| *place as u64 + 1)
        .filed()
        .words("step", |(_, link)| numbered(found, build, link.step))
        .quantity("minutes so far", Role::Work, |(_, link)| done(link).time)
        .figures(3)
        .quantity("cost so far", Role::Number, |(_, link)| done(link).cost)
        .figures(4)
        .estimate("R50", Role::Impact, |(_, link)| done(link).marks[at].r50)
        .estimate("this step adds", Role::Impact, |(_, link)| link.gain[at])
        .quantity("alone it brings", Role::Impact, |(_, link)| {
            build.tried[link.step + 1].marks[at].gain.value
        })
        .when(far, |rows| {
            rows.quantity("of all there is", Role::Percent, |(_, link)| {
                build.share_of_all(done(link).far().gain.value)
            })
        })
        .done()
        .at("distance", Role::Range, found.distances[at].si())
}

/// The choices that no other beats.
fn unbeaten_table(build: &WorthBuild) -> Table {
    let done = |at: &&usize| &build.tried[**at];
    table_of("unbeaten", &build.front)
        .about(|at| format!("{:?}", done(at).steps))
        .words("choice", |at| {
            let mut numbers: Vec<usize> =
                done(at).steps.iter().map(|step| number(build, *step)).collect();
            numbers.sort_unstable();
            numbers.iter().map(ToString::to_string).collect::<Vec<_>>().join(" + ")
        })
        .quantity("time a dozen", Role::Work, |at| done(at).time)
        .figures(3)
        .quantity("cost a dozen", Role::Number, |at| done(at).cost)
        .figures(4)
        .quantity("R50", Role::Impact, |at| done(at).far().r50.value)
        .estimate("gain", Role::Impact, |at| done(at).far().gain)
        .quantity("of all there is", Role::Percent, |at| {
            build.share_of_all(done(at).far().gain.value)
        })
        .done()
}

/// R50 before, and what each step alone and all together bring, by distance.
fn gains_table(found: &WorthOfSteps, build: &WorthBuild, style: Style) -> Table {
    type Read = fn(&DoneMark) -> Estimate;
    let (r50, gain): (Read, Read) = (|m| m.r50, |m| m.gain);
    let all = &build.tried[build.all];
    let mut rows = vec![("R50 before".to_owned(), &build.tried[0], r50)];
    rows.extend(build.by_rate().into_iter().map(|at| {
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
fn steps_table(found: &WorthOfSteps) -> Table {
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
        .about(|r| format!("{} {:?} {} {}", r.0.name, r.1.steps, r.2, r.4.si()))
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
        .quantity("hits", Role::Percent, |r| r.5.hit)
        .quantity("drop", Role::Impact, |r| r.5.drop)
        .quantity("speed", Role::Speed, |r| r.5.speed)
        .done()
}

/// The arrows before any step.
fn builds_table(found: &WorthOfSteps) -> Table {
    table_of("builds", &found.builds)
        .words("build", |build| &build.name)
        .quantity("mass", Role::Mass, |build| build.built.mass.mass().si())
        .counts("flights a group", "", |build| build.flights as u64)
        .done()
}
