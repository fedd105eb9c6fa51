//! Which faults matter: bars of the machine's R50 by owner.

use study::{Answer, Owner};
use target::Estimate;
use units::{Role, Style};

use super::Plot;
use super::axes::{ceiling, ticks};
use super::ink::{GRID, INK, Pen, SOFT, series};
use super::paper::{Entry, TEXT, WIDTH, legend_height, sheet};
use crate::{ReportError, show, words};

const LEFT: f64 = 86.0;
const BAR: f64 = 15.0;
const GAP: f64 = 12.0;

/// Draws the farthest distance, where the faults show most.
pub(crate) fn draw(answer: &Answer, style: Style) -> Result<Plot, ReportError> {
    let role = Role::Impact;
    let base = &answer.builds[0];
    let range = base.marks.last().map(|mark| show::plain(Role::Range, mark.distance.si(), style));
    let rows = rows(answer);
    let all = rows.iter().flat_map(|(_, bars)| bars.iter().map(|(_, r50)| r50.high));
    let end = ceiling(role.value(all.fold(0.0, f64::max), style));
    let x = |si: f64| LEFT + role.value(si, style) / end * (WIDTH - LEFT - 24.0);
    let entries: Vec<Entry> = answer
        .builds
        .iter()
        .enumerate()
        .map(|(at, build)| Entry {
            pen: Pen::solid(series(at), 5.0),
            marker: Some(at),
            text: show::label(answer, build),
        })
        .collect();
    let tall: f64 = rows.iter().map(|(_, bars)| bars.len() as f64 * BAR + GAP).sum();
    let bottom = 14.0 + tall;
    let foot = bottom + 52.0;
    let caption = format!(
        "Groups that a machine would shoot at {} if only one kind of fault were left. Whiskers: \
         95 % interval.",
        range.unwrap_or_default()
    );
    let svg = sheet("causes.svg", &caption, foot + legend_height(entries.len()), |paper| {
        for (tick, label) in ticks(0.0, end, 5) {
            let at = LEFT + tick / end * (WIDTH - LEFT - 24.0);
            paper.line(&[(at, 8.0), (at, bottom)], Pen::solid(GRID, 0.8))?;
            paper.centre(&label, (at, bottom + 13.0), TEXT, SOFT)?;
        }
        paper.line(&[(LEFT, 8.0), (LEFT, bottom)], Pen::solid(SOFT, 1.2))?;
        let title = format!("R50, {}", role.symbol(style));
        paper.centre(&title, (f64::midpoint(LEFT, WIDTH), bottom + 34.0), TEXT, INK)?;
        let mut top = 14.0;
        for (owner, bars) in &rows {
            let high = bars.len() as f64 * BAR;
            let name = words::owner(*owner);
            paper.right(name, (LEFT - 8.0, top + high / 2.0), TEXT, INK)?;
            for (at, (build, r50)) in bars.iter().enumerate() {
                let y = top + BAR * (at as f64 + 0.5);
                let half = 0.32 * BAR;
                let (from, to) = (x(0.0), x(r50.value));
                let edge = [(from, y - half), (to, y - half), (to, y + half), (from, y + half)];
                paper.area(&edge, series(*build), 0.5)?;
                let whisker = Pen::solid(INK, 1.2);
                paper.line(&[(x(r50.low), y), (x(r50.high), y)], whisker)?;
                for end in [r50.low, r50.high] {
                    paper.line(&[(x(end), y - 3.0), (x(end), y + 3.0)], whisker)?;
                }
                paper.marker(*build, (to, y), series(*build))?;
            }
            top += high + GAP;
        }
        paper.legend(&entries, foot)
    })?;
    Ok(Plot { name: "causes.svg".to_owned(), caption, svg })
}

/// Bars of one owner: build and R50 at the farthest distance.
type Bars = Vec<(usize, Estimate)>;

/// Owners with their bars, the largest first.
fn rows(answer: &Answer) -> Vec<(Owner, Bars)> {
    let mut rows: Vec<(Owner, Bars)> = Vec::new();
    for (at, build) in answer.builds.iter().enumerate() {
        for cause in &build.causes {
            let Some(r50) = cause.r50.last() else { continue };
            match rows.iter_mut().find(|(owner, _)| *owner == cause.owner) {
                Some((_, bars)) => bars.push((at, *r50)),
                None => rows.push((cause.owner, vec![(at, *r50)])),
            }
        }
    }
    let largest = |bars: &Bars| bars.iter().map(|(_, r50)| r50.value).fold(0.0, f64::max);
    rows.sort_by(|a, b| largest(&b.1).total_cmp(&largest(&a.1)));
    rows
}
