//! Builds side by side: groups, flight, differences, and who would see them.

mod case;
mod costs;
pub(super) mod data;
mod far;
mod figures;
mod headline;
mod notice;
mod pairs;
mod short;
mod sight;
pub(super) mod tables;
pub(super) mod words;

use case::asking;
pub(super) use case::{Case, check_builds, hurts};
pub use figures::LiveFigure;
pub(super) use figures::figures;
pub(super) use headline::headline as lead;
pub(super) use short::short;
pub(super) use sight::settings;
use study::{BuildAnswer, SidePair};

use super::common::{NOBODY, care, notes, of};
use super::unknown;
use crate::document::{Document, Part, Table, fold, head, list, note, say, small};
use crate::{ReportError, plots, prose};

/// The comparison.
///
/// # Errors
/// As [`Case::new`]; and [`ReportError::NotFinite`] for the first bad number.
pub(super) fn compare(title: &str, case: Case) -> Result<Document, ReportError> {
    let mut parts = body(case);
    parts.extend(end(case));
    Document::new("compare", title, lead(case), parts, case.style)?.shortly(short(case))
}

/// All but what ends every comparison.
pub(super) fn body(case: Case) -> Vec<Part> {
    let figure = |figure| Part::Figure(figure);
    let mut parts = Vec::new();
    if !case.shot() {
        parts.push(note(NOBODY));
    }
    parts.extend(settings(case).map(say));
    parts.push(figure(plots::faces(case.builds, case.target, case.style)));
    parts.push(head("By distance"));
    parts.push(Part::Table(tables::distances(case)));
    parts.push(say(format!("{} {}", words::READ, words::read_more(case))));
    parts.extend(side_by_side(case));
    let mut folded = vec![
        figure(plots::groups(case.builds, case.style)),
        figure(plots::drop(case.builds, case.style)),
    ];
    folded.extend(case.builds.iter().map(|build| {
        let keyed = |table: Table| Part::Table(table.of("build", &build.name));
        fold(
            format!("Groups and flight{}", of(case.several(), &build.name)),
            vec![
                small("Groups"),
                keyed(tables::groups(build)),
                small("Flight of the fault-free arrow"),
                keyed(tables::drop(&build.marks)),
            ],
        )
    }));
    parts.push(Part::Page(folded));
    parts.extend(would_see(case));
    if case.builds.iter().any(|build| !build.causes.is_empty()) {
        let mut causes =
            vec![head("Which faults matter"), figure(plots::causes(case.builds, case.style))];
        causes.extend(case.builds.iter().map(|build| {
            let heading = format!("Faults{} at every distance", of(case.several(), &build.name));
            fold(heading, vec![Part::Table(tables::causes(build).of("build", &build.name))])
        }));
        parts.push(Part::Page(causes));
    }
    parts
}

/// Every build at each distance, the middle one open.
fn side_by_side(case: Case) -> Vec<Part> {
    let first: Vec<&SidePair> = case.sides.pairs.iter().filter(|pair| pair.one == 0).collect();
    let reach = words::reach(case);
    let mut parts = vec![head("Side by side")];
    if !reach.is_empty() {
        let picture = plots::hits(case.builds, case.sides, case.hits(), case.style);
        parts.extend(picture.map(Part::Figure));
        parts.extend(reach.into_iter().map(say));
    }
    parts.extend(words::best(case).map(say));
    let duels = first.iter().filter(|_| case.shot());
    parts.extend(duels.filter_map(|pair| words::duel(case, pair)).map(say));
    let differences = |pair: &SidePair, at| Part::Table(tables::differences(case, pair, at));
    let others = |at| -> Vec<Part> {
        let others = case.sides.pairs.iter().filter(|pair| pair.one != 0);
        others.flat_map(|pair| [small(words::against(case, pair)), differences(pair, at)]).collect()
    };
    let tables = |at: usize| {
        let mut parts = vec![Part::Table(tables::side_by_side(case, at))];
        let mut more: Vec<Part> = first
            .iter()
            .flat_map(|pair| [small(words::against(case, pair)), differences(pair, at)])
            .collect();
        let others = others(at);
        if !others.is_empty() {
            more.push(fold("The other pairs", others));
        }
        parts.push(Part::Page(more));
        parts
    };
    let middle = case.middle();
    parts.push(small(format!("At {}", case.range(middle))));
    parts.extend(tables(middle));
    if case.several() {
        parts.push(Part::Page(vec![say(prose::DIFFERENCES)]));
        parts.extend(words::blades_in_wind(case).map(say));
    }
    let rest = (0..case.builds[0].marks.len()).filter(|&at| at != middle);
    parts.extend(rest.map(|at| fold(format!("At {}", case.range(at)), tables(at))));
    parts
}

/// How many shots a difference takes, and how often fewer mislead.
fn would_see(case: Case) -> Vec<Part> {
    if case.pairs.is_empty() || !case.shot() {
        return Vec::new();
    }
    let at = case.middle();
    let mut parts = vec![head("Who would see it")];
    let first = case.sides.pairs.iter().filter(|pair| pair.one == 0);
    parts.extend(first.map(|pair| say(words::told(case, pair))));
    let mut more: Vec<Part> =
        plots::power(case.builds, case.sides, case.style).into_iter().map(Part::Figure).collect();
    for pair in &case.sides.pairs {
        let against = words::against(case, pair);
        let mut inside = Vec::new();
        if pair.one != 0 {
            inside.push(say(words::told(case, pair)));
        }
        inside.push(Part::Table(tables::told(case, pair, at)));
        let heading = format!("At {}, {against}: how often a few shots mislead", case.range(at));
        more.push(fold(heading, inside));
    }
    more.push(say(prose::MISLED));
    more.push(say(words::seen(case)));
    for pair in case.pairs {
        let (base, other) = (case.name(pair.base), case.name(pair.other));
        more.push(small(format!("\"{other}\" against \"{base}\"")));
        more.push(Part::Table(tables::pair(pair).of("base", base).of("other", other)));
    }
    parts.push(Part::Page(more));
    parts
}

/// What is not known, and what to measure next.
fn not_known(case: Case) -> Vec<Part> {
    asking(case, &mut |asked| unknown::section(case.unknown, std::slice::from_ref(asked)))
}

/// What ends every comparison: the arrows, what the numbers rest on, what to
/// mind, and the tables that only files hold.
pub(super) fn end(case: Case) -> Vec<Part> {
    let alone = if case.several() { None } else { Some("as built") };
    let named: Vec<(&str, &BuildAnswer)> =
        case.builds.iter().map(|build| (alone.unwrap_or(&build.name), build)).collect();
    let mut parts = not_known(case);
    parts.push(Part::Page(vec![head("The arrows"), Part::Table(tables::card(&named))]));
    parts.extend(notes(case.named(), case.style));
    let mut sure = vec![head("How sure is this"), list(prose::SURE)];
    if case.builds.iter().any(|build| !build.uncertain.is_empty()) {
        let folded = vec![Part::Table(tables::uncertain(case.builds))];
        sure.push(fold("The poorly known values", folded));
    }
    sure.extend(care());
    parts.push(Part::Page(sure));
    parts.extend(data::data(case).into_iter().map(Part::Data));
    parts
}
