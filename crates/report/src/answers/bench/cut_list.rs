//! What is set at the saw, one shaft to a line.

use study::workbench::{CutShaft, Cutting, LeftOut, Way, WayKind};
use units::{Role, Style};
use workbench::WorkbenchError;

use super::saw::stop;
use crate::document::{Rows, Table, table_of};

/// One line of the list.
#[derive(Clone, Copy)]
enum Line<'a> {
    Cut(&'a CutShaft),
    LeftOut(&'a LeftOut),
}

impl<'a> Line<'a> {
    fn cut(self) -> Option<(&'a CutShaft, &'a Way)> {
        match self {
            Self::Cut(shaft) => Some((shaft, shaft.ways.first()?)),
            Self::LeftOut(_) => None,
        }
    }
}

/// The lines of the list: shafts that are cut, then those that are not.
fn lines(found: &Cutting) -> impl Iterator<Item = Line<'_>> {
    let cut = found.shafts.iter().map(Line::Cut);
    cut.chain(found.left_out.iter().map(Line::LeftOut))
}

/// What is set at the saw, and ticked off.
fn stops<'a>(found: &'a Cutting, rows: Rows<Line<'a>>) -> Rows<Line<'a>> {
    let scale = found.stop.si();
    rows.words("shaft", |line| match line {
        Line::Cut(shaft) => shaft.shaft.name.clone(),
        Line::LeftOut(of) => of.name.clone(),
    })
    .words("first stop", move |line| match line {
        Line::Cut(shaft) => {
            shaft.first_stop.map_or_else(|| "no cut".to_owned(), |remains| stop(remains, scale))
        }
        Line::LeftOut(of) => short(&of.why),
    })
    .words("cut", |line| tick(line.cut().is_some_and(|(shaft, _)| shaft.first_stop.is_some())))
    .words("then stop", move |line| match line.cut() {
        Some((_, way)) if way.cut.front > 0.0 => stop(found.job.wanted.si(), scale),
        Some(_) => "no cut".to_owned(),
        None => String::new(),
    })
    .words("cut too", |line| tick(line.cut().is_some_and(|(_, way)| way.cut.front > 0.0)))
    .words("or half each", move |line| {
        line.cut().map_or_else(String::new, |(shaft, _)| half_each(shaft, scale))
    })
}

/// The first stop for half off each end, on the scale of the stop.
fn half_each(shaft: &CutShaft, scale: f64) -> String {
    let Some(halves) = shaft.ways.iter().find(|way| way.kind == WayKind::Halves) else {
        return "no cut".to_owned();
    };
    if halves.cut.rear <= 0.0 {
        return "no cut".to_owned();
    }
    let remains = shaft.shaft.stock.si() - halves.cut.rear;
    stop((remains / scale).round() * scale, scale)
}

fn of<'a>(line: &Line<'a>, read: impl Fn(&'a CutShaft, &'a Way) -> f64) -> Option<f64> {
    line.cut().map(|(shaft, way)| read(shaft, way))
}

pub(super) fn list(found: &Cutting) -> Table {
    stops(found, table_of("cut-list", lines(found)))
        .quantity("off nock end", Role::Part, |line| of(line, |_, way| way.cut.rear))
        .quantity("off point end", Role::Part, |line| of(line, |_, way| way.cut.front))
        .quantity("reads", Role::Gauge, |line| of(line, |_, way| reads(way)))
        .quantity("give or take", Role::Gauge, |line| {
            of(line, |_, way| 2.0 * way.cut.straight.error)
        })
        .over_all()
        .quantity("within", Role::Gauge, |line| of(line, |_, way| way.cut.within))
        .filed()
        .quantity("uncut", Role::Gauge, |line| of(line, |shaft, _| shaft.plan.uncut.total))
        .done()
}

fn tick(due: bool) -> &'static str {
    if due { "[ ]" } else { "" }
}

/// Why a shaft gives no piece, in two or three words.
fn short(why: &WorkbenchError) -> String {
    match why {
        WorkbenchError::TooShort { .. } => "too short".to_owned(),
        WorkbenchError::NoCut { .. } => "no room to cut".to_owned(),
        WorkbenchError::NoHighSide => "no high side".to_owned(),
        WorkbenchError::NoLength => "no length".to_owned(),
        WorkbenchError::Unsound { reading, .. } => {
            format!("reads {}, set aside", Role::Gauge.text(*reading, Style::Archery))
        }
        other => other.to_string(),
    }
}

/// The stops alone.
pub(super) fn at_the_saw(found: &Cutting) -> Table {
    stops(found, table_of("cut-list", lines(found))).done()
}

/// Which end goes against them, and what is not cut.
pub(super) fn briefly(found: &Cutting) -> String {
    format!("{ENDS}{}", left_out(found, &short))
}

/// Which end of the shaft goes against the stop.
const ENDS: &str = "First stop: point end against it, cut the nock end. Then turn the shaft about: \
    nock end against the stop, cut the point end.";

/// Shafts that are not cut, each with its line and why.
fn left_out(found: &Cutting, why: &dyn Fn(&WorkbenchError) -> String) -> String {
    let one = |of: &LeftOut| {
        let line = of.line.map_or_else(String::new, |line| format!(" (line {line})"));
        format!("{}{line}: {}", of.name, why(&of.why))
    };
    let all: Vec<String> = found.left_out.iter().map(one).collect();
    if all.is_empty() { String::new() } else { format!(" Not cut: shaft {}.", all.join("; ")) }
}

pub(super) fn saw(found: &Cutting, style: Style) -> String {
    format!(
        "{ENDS} Stops are lengths that remain, in steps of the stop's scale; for half off each end \
         instead set the first as the column \"or half each\" says and the second to {}. Each cut takes {} of \
         carbon as dust. Reads: after both cuts, give or take twice its standard error.{}",
        stop(found.job.wanted.si(), found.stop.si()),
        Role::Part.text(found.job.kerf.si(), style),
        left_out(found, &WorkbenchError::to_string)
    )
}

/// Total reading of a way, root mean square over all that the shaft may be.
pub(super) fn reads(way: &Way) -> f64 {
    let straight = &way.cut.straight;
    // Two components, each with half of the squared error of a total.
    straight.total.hypot(straight.error * std::f64::consts::SQRT_2)
}
