//! The tables of a comparison that only files hold.

use study::{
    BuildAnswer, BuildSide, Farthest, MarkAnswer, Misjudged, Misjudgement, SideMark, SidePair,
};
use target::Impact;
use units::{Length, Role};

use super::case::Case;
use super::tables::{self, told};
use super::words::drift;
use crate::document::{Cell, Table, facts, table_of};
use crate::safety::NO_LICENCE;

/// Every table that only files hold.
pub(super) fn data(case: Case) -> Vec<Table> {
    let at = case.middle();
    let others = |pair: &'_ SidePair| {
        (0..pair.marks.len())
            .filter(|&other| other != at)
            .map(|at| told(case, pair, at))
            .collect::<Vec<_>>()
    };
    let mut tables: Vec<Table> = case.builds.iter().map(impacts).collect();
    tables.extend([sides(case), misjudged(case), duels(case), hits(case), farthest(case)]);
    tables.extend(case.sides.pairs.iter().flat_map(others));
    tables.push(stated(case));
    tables.retain(|table| !table.rows().is_empty());
    tables
}

/// Every impact of a build.
pub(in super::super) fn impacts(build: &BuildAnswer) -> Table {
    let all = tables::kinds(build)
        .flat_map(|(mark, kind, of)| of.sample.iter().map(move |i| (mark, kind, i)));
    table_of::<(&MarkAnswer, &str, &Impact)>("impacts", all)
        .quantity("distance", Role::Range, |r| r.0.distance.si())
        .words("group", |r| r.1)
        .quantity("left of fault-free impact", Role::Impact, |r| r.2.left)
        .quantity("above fault-free impact", Role::Impact, |r| r.2.up)
        .done()
        .of("build", &build.name)
}

/// A build at a distance, beside what its flight and group are.
type Row<'a> = (&'a BuildAnswer, &'a BuildSide, &'a SideMark, &'a MarkAnswer);

/// Every build at every distance.
fn each(case: Case<'_>) -> impl Iterator<Item = Row<'_>> {
    case.builds.iter().zip(&case.sides.builds).flat_map(|(build, side)| {
        side.marks.iter().zip(&build.marks).map(move |(mark, of)| (build, side, mark, of))
    })
}

fn sides(case: Case) -> Table {
    let shot = case.shot();
    let round = |r: &Row| r.2.round.filter(|_| shot);
    table_of("sides", each(case))
        .words("build", |r| &r.0.name)
        .quantity("distance", Role::Range, |r| r.2.distance.si())
        .quantity(drift(case.style), Role::Impact, |r| r.2.drift)
        .quantity("carried left by this wind", Role::Impact, |r| r.2.carried)
        .estimate(case.hits(), Role::Percent, |r| shot.then_some(r.3.hit))
        .estimate("score of an arrow", Role::Number, |r| r.3.score.filter(|_| shot))
        .quantity("arrows in a round", Role::Number, |r| round(r).map(|r| f64::from(r.arrows)))
        .estimate("round", Role::Points, |r| round(r).map(|r| r.mean))
        .quantity("round deviation", Role::Points, |r| round(r).map(|r| r.deviation))
        .quantity("19 rounds in 20 from", Role::Points, |r| round(r).map(|r| f64::from(r.low)))
        .quantity("19 rounds in 20 to", Role::Points, |r| round(r).map(|r| f64::from(r.high)))
        .done()
}

fn misjudged(case: Case) -> Table {
    let rows = each(case)
        .flat_map(|(build, _, mark, _)| mark.misjudged.iter().map(move |one| (build, mark, one)));
    let shot = case.shot();
    table_of::<(&BuildAnswer, &SideMark, &Misjudged)>("misjudged", rows)
        .words("build", |r| &r.0.name)
        .quantity("distance", Role::Range, |r| r.1.distance.si())
        .words("misjudged", |r| match r.2.what {
            Misjudgement::TooFar => "distance_too_far",
            Misjudgement::TooNear => "distance_too_near",
            Misjudgement::WindFromRight => "wind_from_right",
            Misjudgement::WindFromLeft => "wind_from_left",
        })
        .quantity("shift left", Role::Impact, |r| r.2.shift.left)
        .quantity("shift up", Role::Impact, |r| r.2.shift.up)
        .estimate(case.hits(), Role::Percent, |r| shot.then_some(r.2.hit))
        .estimate("score of an arrow", Role::Number, |r| r.2.score.filter(|_| shot))
        .done()
}

/// Who would win a round.
fn duels(case: Case) -> Table {
    let rows =
        case.sides.pairs.iter().filter(|_| case.shot()).flat_map(|pair| {
            pair.marks.iter().filter_map(move |mark| Some((pair, mark, mark.duel?)))
        });
    table_of("duels", rows)
        .words("one", |r| case.name(r.0.one))
        .words("other", |r| case.name(r.0.other))
        .quantity("distance", Role::Range, |r| r.1.distance.si())
        .quantity("one scores more", Role::Percent, |r| r.2.first)
        .quantity("the same", Role::Percent, |r| r.2.tie)
        .quantity("other scores more", Role::Percent, |r| r.2.second)
        .done()
}

fn hits(case: Case) -> Table {
    let curve = |side: &'_ BuildSide| {
        side.reach.iter().flat_map(|reach| reach.curve.clone()).collect::<Vec<_>>()
    };
    let rows = case
        .builds
        .iter()
        .zip(&case.sides.builds)
        .filter(|_| case.shot())
        .flat_map(|(build, side)| curve(side).into_iter().map(move |mark| (build, mark)));
    table_of("hits", rows)
        .words("build", |(build, _)| &build.name)
        .quantity("distance", Role::Range, |(_, mark)| mark.distance.si())
        .estimate(case.hits(), Role::Percent, |(_, mark)| mark.hit)
        .estimate(format!("{} misjudged the worst way", case.hits()), Role::Percent, |(_, mark)| {
            mark.misjudged
        })
        .done()
}

/// How far the stated share of hits holds; the caution stands in each row.
fn farthest(case: Case) -> Table {
    let mut rows: Vec<(&str, &str, Farthest)> = Vec::new();
    for (build, side) in case.builds.iter().zip(&case.sides.builds) {
        let Some(reach) = side.reach.as_ref().filter(|_| case.shot()) else { continue };
        rows.push((&build.name, "as judged", reach.farthest));
        rows.extend(
            reach.misjudged.map(|far| (build.name.as_str(), "misjudged the worst way", far)),
        );
    }
    let ends = |of: &Farthest| match of {
        Farthest::To { distance, low, high } => [Some(*distance), *low, *high],
        Farthest::Nowhere | Farthest::Throughout { .. } => [None; 3],
    };
    let end = |at: usize| move |r: &(&str, &str, Farthest)| ends(&r.2)[at].map(Length::si);
    table_of("farthest", rows)
        .about(|r| format!("{}|{}", r.0, r.1))
        .words("build", |r| r.0)
        .words("aim", |r| r.1)
        .words("holds", |r| match r.2 {
            Farthest::Nowhere => "nowhere",
            Farthest::To { .. } => "up to",
            Farthest::Throughout { sure: true } => "throughout",
            Farthest::Throughout { sure: false } => "throughout, not surely",
        })
        .quantity("distance", Role::Range, end(0))
        .quantity("distance low95", Role::Range, end(1))
        .quantity("distance high95", Role::Range, end(2))
        .words("caution", |_| NO_LICENCE)
        .done()
}

/// What the asker stated.
fn stated(case: Case) -> Table {
    let stated = &case.sides.stated;
    let mut rows = vec![
        ("confidence", Cell::Quantity(Role::Percent, stated.power_test.confidence())),
        ("power", Cell::Quantity(Role::Percent, stated.power_test.power())),
    ];
    rows.extend(
        stated.range_error.map(|e| ("distance misjudged by", Cell::Quantity(Role::Range, e.si()))),
    );
    rows.extend(stated.wind_error.map(|e| ("wind unnoticed", Cell::Quantity(Role::Wind, e.si()))));
    rows.extend(stated.hit_share.map(|s| ("share of hits", Cell::Quantity(Role::Percent, s.si()))));
    rows.extend(stated.round.map(|arrows| ("arrows in a round", Cell::Count(arrows.into()))));
    facts("stated", ["stated", "is"], rows)
}
