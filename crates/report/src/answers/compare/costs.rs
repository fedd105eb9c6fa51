//! The table of the short answer: what each build costs and gives, or one build at each
//! distance.

use study::{Misjudged, SideMark};
use units::Role;

use super::case::Case;
use crate::document::{Rows, Table, table_of};

/// The hits of a build when the worst of what is stated goes wrong.
pub(super) fn worst(case: Case<'_>, build: usize) -> Option<&Misjudged> {
    let all = &case.sides.builds[build].marks[case.middle()].misjudged;
    all.iter().min_by(|a, b| a.hit.value.total_cmp(&b.hit.value))
}

/// What each build costs and gives, a row a build.
pub(super) fn costs(case: Case) -> Table {
    let at = case.middle();
    let mark = |build: &usize| &case.builds[*build].marks[at];
    let side = |build: &usize| &case.sides.builds[*build].marks[at];
    let all = 0..case.builds.len();
    let shot = case.shot();
    let rounds = shot && all.clone().all(|build| side(&build).round.is_some());
    let zone = shot && !rounds;
    let worst_of = |build: &usize| worst(case, *build);
    // The table is a window wide.
    let drifts = drifts(case.sides.builds.iter().map(|build| &build.marks[at]));
    let misjudged = shot && all.clone().all(|build| worst_of(&build).is_some());
    table_of("short", all)
        .words("build", |build| case.name(*build))
        .when(rounds, |rows| {
            rows.quantity("round", Role::Points, |b| side(b).round.map(|of| of.mean.value))
        })
        .when(zone, |rows| {
            rows.quantity(case.hits(), Role::Percent, |b| mark(b).hit.value).decimals(0)
        })
        .when(zone && misjudged, |rows| {
            rows.quantity("misjudged the worst way", Role::Percent, |b| {
                worst_of(b).map(|of| of.hit.value)
            })
            .decimals(0)
        })
        .when(!misjudged || rounds, |rows| {
            rows.quantity("half within", Role::Impact, |b| mark(b).full.stats.r50.value)
        })
        .quantity("drop", Role::Impact, |b| mark(b).nominal.drop)
        .decimals(0)
        .drift(case.sides.builds.iter().map(|build| &build.marks[at]), side)
        .when(!drifts, |rows| {
            rows.quantity("speed", Role::Speed, |b| mark(b).nominal.speed).decimals(0)
        })
        .done()
}

/// One build at each distance.
pub(super) fn by_distance(case: Case) -> Table {
    let shot = case.shot();
    let sides = &case.sides.builds[0].marks;
    let spread = case.builds[0].marks.iter().any(|mark| mark.full.stats.r50.value > 0.0);
    table_of("short", case.builds[0].marks.iter().zip(sides))
        .quantity("distance", Role::Range, |(mark, _)| mark.distance.si())
        .when(spread, |rows| {
            rows.quantity("half within", Role::Impact, |(mark, _)| mark.full.stats.r50.value)
        })
        .when(shot, |rows| {
            rows.quantity(case.hits(), Role::Percent, |(mark, _)| mark.hit.value).decimals(0)
        })
        .quantity("drop", Role::Impact, |(mark, _)| mark.nominal.drop)
        .decimals(0)
        .drift(sides, |(_, side)| side)
        .quantity("speed", Role::Speed, |(mark, _)| mark.nominal.speed)
        .decimals(0)
        .done()
}

/// Least drift that is shown, m. Chosen: the width of an arrow.
const SHOWN: f64 = 0.006;

/// How far the wind carries the one that it carries farthest, m to the left.
fn most<'a>(all: impl IntoIterator<Item = &'a SideMark>) -> f64 {
    let aside = all.into_iter().map(|side| side.carried);
    aside.fold(0.0, |most: f64, left| if left.abs() > most.abs() { left } else { most })
}

/// Whether the wind carries any aside.
fn drifts<'a>(all: impl IntoIterator<Item = &'a SideMark>) -> bool {
    most(all).abs() >= SHOWN
}

impl<T> Rows<T> {
    /// A column of how far the scenario's wind carries an arrow without faults, if it
    /// carries any of `all`.
    fn drift<'a>(
        self,
        all: impl IntoIterator<Item = &'a SideMark>,
        side: impl Fn(&T) -> &'a SideMark,
    ) -> Self {
        let most = most(all);
        let (head, sign) = if most < 0.0 { ("drift right", -1.0) } else { ("drift left", 1.0) };
        self.when(most.abs() >= SHOWN, |rows| {
            rows.quantity(head, Role::Impact, |row| sign * side(row).carried).decimals(1)
        })
    }
}
