//! How the bow lets the arrow go, and what would tune it.

mod advice;
mod figures;
mod headline;
mod short;
mod tables;
mod trends;
mod words;

use study::{Found, Joint, Tuned, TunedBuild};
use units::{Role, Style};

use super::common::{care, fits, notes, of, uncertain};
use crate::ReportError;
use crate::document::{Document, Part, Table, fold, head, list, say, small};
use crate::show::plain;
use words::{BANDS, NEUTRAL, NOCK, SIDES, STILL, SURE, TEAR};

/// The tuning of every build.
///
/// # Errors
/// [`ReportError::NoBuild`] and [`ReportError::Ragged`] for lists that do not
/// fit together, [`ReportError::NotFinite`] for the first bad number.
pub(super) fn tune(
    title: &str,
    tuned: &Tuned,
    joint: Option<&Joint<Found>>,
    style: Style,
) -> Result<Document, ReportError> {
    check(tuned)?;
    let builds = &tuned.builds;
    let mut parts = vec![Part::Figure(figures::impacts(tuned, style))];
    parts.extend([head("Bare against fletched"), say(NEUTRAL)]);
    let several = builds.len() > 1;
    let keyed = |table: Table, build: &TunedBuild| Part::Table(table.of("build", &build.name));
    let named = |build: &TunedBuild, parts: Vec<Part>| {
        let name = several.then(|| small(format!("\"{}\"", build.name)));
        name.into_iter().chain(parts).collect::<Vec<Part>>()
    };
    let each = |of: &dyn Fn(&TunedBuild) -> Vec<Part>| {
        builds.iter().flat_map(|build| named(build, of(build))).collect::<Vec<Part>>()
    };
    parts.extend(each(&|build| vec![keyed(tables::bare(build), build)]));
    parts.push(say(BANDS));
    parts.extend(each(&|build| vec![keyed(tables::side_there(build), build)]));
    parts.push(say(SIDES));
    if builds.iter().any(|build| !build.trends.is_empty()) {
        parts.push(head("One change at a time"));
        for (at, build) in builds.iter().enumerate() {
            parts.extend(named(build, changes(tuned, build, at, style)));
        }
    }
    if builds.iter().any(|build| !build.paper.is_empty()) {
        parts.push(head("On paper"));
        for (at, build) in builds.iter().enumerate() {
            let picture = (!build.paper.is_empty()).then(|| figures::paper(tuned, at, style));
            let table = keyed(tables::paper(build, style), build);
            parts.extend(named(
                build,
                picture.map(Part::Figure).into_iter().chain([table]).collect(),
            ));
        }
        parts.push(say(TEAR));
    }
    if let Some((first, others)) = builds.split_first().filter(|(_, others)| !others.is_empty()) {
        parts.push(head("One build against the other"));
        for build in others {
            parts.push(small(format!("\"{}\" less \"{}\", same aim", build.name, first.name)));
            parts.push(keyed(tables::against(tuned, build), build));
        }
    }
    parts.push(head("Room for the vanes"));
    parts.extend(each(&|build| {
        words::clearance(&build.clearance, style).into_iter().map(say).collect()
    }));
    parts.extend([head("Turning the nock"), say(NOCK)]);
    for (at, build) in builds.iter().enumerate() {
        parts.extend(named(build, turns(tuned, build, at, style)));
    }
    parts.extend(words::not_known(tuned, joint, style));
    parts.push(Part::Page(vec![head("The arrows"), Part::Table(tables::card(builds))]));
    parts.extend(notes(builds.iter().map(|b| (b.name.as_str(), &b.built)), style));
    let mut sure = vec![head("How sure is this"), list(SURE)];
    if builds.iter().any(|build| !build.uncertain.is_empty()) {
        sure.push(fold(
            "The poorly known values",
            each(&|build| vec![keyed(uncertain(&build.uncertain), build)]),
        ));
    }
    sure.extend(care());
    parts.push(Part::Page(sure));
    parts.extend(tables::data(tuned).map(Part::Data));
    let lead = headline::headline(tuned, joint, style);
    Document::new("tune", title, lead, parts, style)?.shortly(short::short(tuned, joint, style))
}

/// Refuses lists that do not fit together.
fn check(tuned: &Tuned) -> Result<(), ReportError> {
    let expected = tuned.distances.len();
    if expected == 0 || tuned.builds.is_empty() {
        return Err(ReportError::NoBuild);
    }
    for (at, build) in tuned.builds.iter().enumerate() {
        let fits = |list: &str, found| fits(&format!("tuned.builds[{at}].{list}"), found, expected);
        fits("bare", build.bare.len())?;
        if at > 0 {
            fits("against", build.against.len())?;
        }
        for turn in &build.turns.steps {
            fits("turns.moved", turn.moved.len())?;
        }
        if let Some(drawn) = &build.turns.drawn {
            fits("turns.drawn", drawn.len())?;
        }
        for shot in build.trends.iter().flat_map(|t| &t.points).filter_map(|p| p.shot.as_ref().ok())
        {
            fits("trends.apart", shot.apart.len())?;
        }
    }
    Ok(())
}

/// The changes tried on one build.
fn changes(tuned: &Tuned, build: &TunedBuild, at: usize, style: Style) -> Vec<Part> {
    let keyed = |table: Table| Part::Table(table.of("build", &build.name));
    let flown = build.trends.iter().any(|trend| trend.points.iter().any(|p| p.shot.is_ok()));
    let picture = flown.then(|| Part::Figure(trends::draw(tuned, at, style)));
    let mut parts: Vec<Part> = picture.into_iter().collect();
    if let Some((found, _)) = words::separation(build).filter(|_| !build.trends.is_empty()) {
        let range = plain(Role::Range, build.bare[found.mark].distance.si(), style);
        parts.extend(advice::crossed(build).map(say));
        parts.push(keyed(advice::effects(build, found.mark)));
        parts.push(say(words::EFFECTS));
        parts.push(say(format!("Bare and fletched apart at {range}:")));
        parts.push(keyed(tables::changes(build, found.mark)));
        if let Some(table) = tables::sides(build, found.mark) {
            parts.push(say(format!("To which side the bare shaft goes at {range}, by spine:")));
            parts.push(keyed(table));
        }
    }
    for trend in &build.trends {
        let of = of(tuned.builds.len() > 1, &build.name);
        let mut inside = vec![keyed(tables::trend(tuned, trend, style))];
        let reason = trend
            .points
            .iter()
            .find_map(|point| Some((words::value(trend, point.value), point.shot.as_ref().err()?)));
        inside.extend(reason.map(|(value, error)| say(format!("At {value}: {error}."))));
        parts.push(fold(format!("Every {} tried{of}", words::name(&trend.key)), inside));
    }
    parts
}

/// What turning the nock of one build does.
fn turns(tuned: &Tuned, build: &TunedBuild, at: usize, style: Style) -> Vec<Part> {
    let last = tuned.distances.len() - 1;
    let table = |marks| Part::Table(tables::nock(tuned, build, marks));
    let mut parts = if words::turns_show(build, style) {
        let far = figures::farthest(build);
        let picture = far.map(|far| Part::Figure(figures::nock(tuned, at, far, style)));
        let nearer = (last > 0).then(|| fold("Nearer", vec![table(0..last)]));
        picture.into_iter().chain([table(last..last + 1)]).chain(nearer).collect()
    } else {
        vec![say(STILL), Part::Data(tables::nock(tuned, build, 0..last + 1))]
    };
    let widest = build.turns.drawn.as_ref().and_then(|drawn| drawn.last());
    parts.extend(widest.map(|widest| say(words::drawn(*widest, tuned.distances[last], style))));
    parts
}
