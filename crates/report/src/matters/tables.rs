//! Tables of shares.

use study::{Axis, MarkShares, Share, SharesOf, Spread};
use units::{Role, Style};

use super::say;
use crate::show;
use crate::table::{Cell, Column, Table};
use crate::words;

fn share(estimate: &target::Estimate, style: Style) -> Cell {
    Cell::estimate(Role::Percent, estimate, style)
}

fn dash() -> Cell {
    Cell::text("-")
}

/// Owners by distance, what they make of the group alone.
pub(super) fn owners(build: &Spread, style: Style) -> Table {
    let mut columns = vec![Column::new("", "")];
    for mark in &build.marks {
        let range = show::plain(Role::Range, mark.distance.si(), style);
        columns.push(Column::new(range, "%"));
    }
    let order = match say::far(build) {
        Some((_, shares)) => say::ranked(&shares.owners),
        None => (0..build.owners.len()).collect(),
    };
    let row = |at: usize| {
        let mut cells = vec![Cell::text(words::owner(build.owners[at]))];
        cells.extend(build.marks.iter().map(|mark| match &mark.axes[0] {
            Some(of) => share(&of.owners[at].alone, style),
            None => dash(),
        }));
        cells
    };
    Table { columns, rows: order.into_iter().map(row).collect() }
}

/// Causes at one distance: of the group alone and in all, then along each
/// axis alone.
pub(super) fn causes(build: &Spread, mark: &MarkShares, style: Style) -> Table {
    let columns = vec![
        Column::new("cause", ""),
        Column::new("whose", ""),
        Column::new("group, alone", "%"),
        Column::new("group, in all", "%"),
        Column::new("left-right, alone", "%"),
        Column::new("up-down, alone", "%"),
        Column::new("radius, alone", "%"),
        Column::new("radius, in all", "%"),
    ];
    let of =
        |axis: usize, at: usize| -> Option<Share> { Some(mark.axes[axis].as_ref()?.causes[at]) };
    let order = match &mark.axes[0] {
        Some(shares) => say::ranked(&shares.causes),
        None => (0..build.causes.len()).collect(),
    };
    let row = |at: usize| {
        let cell = |found: Option<target::Estimate>| found.map_or_else(dash, |e| share(&e, style));
        vec![
            Cell::text(say::cause(&build.causes[at].name)),
            Cell::text(words::owner(build.causes[at].owner)),
            cell(of(0, at).map(|s| s.alone)),
            cell(of(0, at).map(|s| s.total)),
            cell(of(1, at).map(|s| s.alone)),
            cell(of(2, at).map(|s| s.alone)),
            cell(of(3, at).map(|s| s.alone)),
            cell(of(3, at).map(|s| s.total)),
        ]
    };
    Table { columns, rows: order.into_iter().map(row).collect() }
}

/// The sum, what works together and what is left, by distance along an axis.
pub(super) fn sums(build: &Spread, axis: Axis, style: Style) -> Table {
    let columns = vec![
        Column::of("distance", Role::Range, style),
        Column::of("spread (one standard deviation)", Role::Impact, style),
        Column::new("alone, summed", "%"),
        Column::new("together", "%"),
        Column::new("unexplained", "%"),
    ];
    let at = Axis::ALL.iter().position(|one| *one == axis).unwrap_or_default();
    let row = |mark: &MarkShares| {
        let range = Cell::text(show::plain_number(Role::Range, mark.distance.si(), style));
        let Some(SharesOf { sigma, sum, together, unexplained, .. }) = &mark.axes[at] else {
            return vec![range, Cell::number(Role::Impact, 0.0, style), dash(), dash(), dash()];
        };
        vec![
            range,
            Cell::number(Role::Impact, *sigma, style),
            share(sum, style),
            share(together, style),
            share(unexplained, style),
        ]
    };
    Table { columns, rows: build.marks.iter().map(row).collect() }
}
