//! What an evening at the bench is worth, in a few lines.

use study::{ARCHER_SHOTS, Done, Found, Joint, MOST_SHOTS, WorthBuild, WorthOfSteps};
use target::PowerTest;
use units::{Role, Style};

use super::super::common::of;
use super::super::unknown;
use super::words::{listed, minutes};
use crate::document::{Part, Table, say, table_of};
use crate::show::{count, plain, share};

/// Steps shown. Chosen: what fits an evening.
const ROWS: usize = 5;

/// The short answer, of the first build.
pub(super) fn short(found: &WorthOfSteps, joint: Option<&Joint<Found>>, style: Style) -> Vec<Part> {
    let Some(build) = found.builds.first() else { return Vec::new() };
    let range = plain(Role::Range, found.distances.last().map_or(0.0, |d| d.si()), style);
    let name = of(found.builds.len() > 1, &build.name);
    let bands = unknown::bands(joint.is_some());
    vec![
        say(verdict(found, build, &name, &range, style)),
        say(format!("Would you notice? {}", notice(build))),
        say(format!("What steps bring and cost a dozen arrows at {range}{bands}:")),
        Part::Table(table(found, build)),
        say(next(found, build)),
    ]
}

/// What the work brings: the few steps that bring most, or all of them.
fn verdict(
    found: &WorthOfSteps,
    build: &WorthBuild,
    name: &str,
    range: &str,
    style: Style,
) -> String {
    let (all, best) = (&build.tried[build.all], &build.tried[build.best]);
    let before = build.tried[0].far().r50.value;
    let inches = |si: f64| Role::Impact.text(si, style);
    let part = |done: &Done| {
        let gain = done.far().gain.value;
        if before > 0.0 { format!(" ({})", share(gain / before)) } else { String::new() }
    };
    if all.far().gain.low <= 0.0 {
        return format!(
            "All {} steps take {} min and show no gain{name} at {range}: half of your arrows \
             land within {} of the middle before and after.",
            found.steps.len(),
            minutes(all.time),
            inches(before)
        );
    }
    let all_told = format!(
        "all {} steps in {} min bring half of your arrows at {range} {}{} nearer to the middle, within {} instead \
         of {}",
        found.steps.len(),
        minutes(all.time),
        inches(all.far().gain.value),
        part(all),
        inches(all.far().r50.value),
        inches(before)
    );
    if best.steps.len() < found.steps.len() && best.far().gain.low > 0.0 {
        format!(
            "An evening of {} min, {}, tightens the group{name} at {range} by {}{}; {all_told}.",
            minutes(best.time),
            listed(found, &best.steps),
            inches(best.far().gain.value),
            part(best)
        )
    } else {
        format!("With{name} {all_told}.").replacen("With all", "All", 1)
    }
}

/// How many arrows it takes to see what steps bring; none where it is not seen.
fn shots(done: &Done) -> Option<u32> {
    let ratio = done.far().ratio.filter(|ratio| ratio.low > 1.0)?;
    PowerTest::default().shots(ratio.value, MOST_SHOTS)
}

/// How many arrows it takes to see all the work.
fn notice(build: &WorthBuild) -> String {
    let machine = match build.machine.last().and_then(shots) {
        Some(shots) => format!("a shooting machine sees it in {}", count(shots.into())),
        None => "even a shooting machine does not see it".to_owned(),
    };
    match shots(&build.tried[build.all]) {
        Some(needed) if needed <= ARCHER_SHOTS => format!(
            "Yes: all the work shows after {needed} arrows before and {needed} after; {machine}."
        ),
        Some(needed) => {
            let needed = count(needed.into());
            format!("No: all the work takes {needed} arrows before and after to show; {machine}.")
        }
        None => format!("No: all the work does not show in your groups; {machine}."),
    }
}

/// The steps that bring most for their time, and all of them, with their price.
fn table(found: &WorthOfSteps, build: &WorthBuild) -> Table {
    let mut rows: Vec<(String, &Done)> = build
        .by_rate()
        .into_iter()
        .map(|at| &build.tried[at])
        .map(|done| (found.steps[done.steps[0]].name.clone(), done))
        .collect();
    rows.insert(0, ("nothing".to_owned(), &build.tried[0]));
    rows.insert(1, ("all steps".to_owned(), &build.tried[build.all]));
    let hits = build.tried.iter().any(|done| done.far().hit > 0.0);
    table_of("short", rows)
        .about(|(name, _)| name.clone())
        .words("done", |(name, _)| name.clone())
        .quantity("time", Role::Work, |(_, done)| done.time)
        .figures(3)
        .quantity("half closer by", Role::Impact, |(_, done)| done.far().gain.value)
        .decimals(2)
        .when(hits, |rows| {
            rows.quantity("hits", Role::Percent, |(_, done)| done.far().hit).decimals(0)
        })
        .quantity("drop", Role::Impact, |(_, done)| done.far().drop)
        .decimals(0)
        .quantity("speed", Role::Speed, |(_, done)| done.far().speed)
        .decimals(0)
        .done()
        .at_most(ROWS + 2)
}

/// What to do first: at the bench only where the archer would see it, and nothing that
/// cannot be undone before what can.
fn next(found: &WorthOfSteps, build: &WorthBuild) -> String {
    let first = build.by_rate().into_iter().next().map(|at| &build.tried[at]);
    let Some(done) = first.filter(|done| done.far().gain.low > 0.0) else {
        return "Next: leave the bench and practise; no step alone shows a gain.".to_owned();
    };
    let (step, time) = (listed(found, &done.steps), minutes(done.time));
    let seen = shots(&build.tried[build.all]).is_some_and(|needed| needed <= ARCHER_SHOTS);
    if seen {
        format!(
            "Next: {step} first, {time} min; it brings most for its time. What can be undone comes \
             before any cut."
        )
    } else {
        format!(
            "Next: practise. Would you work all the same, {step} brings most for its time, {time} \
             min; what can be undone comes before any cut."
        )
    }
}
