//! Where fletched and bare arrows land, a frame a distance.

use study::Tuned;
use units::{Role, Style};

use super::super::Plot;
use super::super::ink::{GRID, INK, Pen, SOFT, series};
use super::super::paper::{Cell, Paper, TEXT, WIDTH, fit, sheet};
use super::{EDGE, View, bar};
use crate::{ReportError, show};

const GAP: f64 = 14.0;
const TITLE: f64 = 26.0;
/// Room beneath a frame for its scale, px.
const SCALE: f64 = 24.0;
const LINE: f64 = 22.0;
/// Least half-width of a frame, m. Chosen: a frame of nothing is not a speck.
const LEAST: f64 = 5e-3;

/// One frame for each distance, each at its own scale.
pub(super) fn draw(tuned: &Tuned, style: Style) -> Result<Plot, ReportError> {
    let columns = tuned.distances.len().min(2);
    let wide = (WIDTH - 2.0 * EDGE - GAP * (columns - 1) as f64) / columns as f64;
    let tall = wide.min(210.0);
    let rows = tuned.distances.len().div_ceil(columns);
    let block = TITLE + tall + SCALE;
    let entries = 2 * tuned.builds.len() + 1;
    let foot = rows as f64 * block + 8.0;
    let several = tuned.builds.len() > 1;
    let from = if several {
        format!(", measured from the fletched \"{}\"", tuned.builds[0].name)
    } else {
        String::new()
    };
    let caption = format!(
        "Where the point meets the target with one and the same aim, seen from the archer{from}. \
         Each frame has its own scale. Crosses: the band over the poorly known values{}.",
        if several { " (of a bare shaft, against its own fletched arrow)" } else { "" }
    );
    let height = foot + LINE * entries as f64 + 6.0;
    let svg = sheet("tune-impacts.svg", &caption, height, |paper| {
        for at in 0..tuned.distances.len() {
            let left = EDGE + (at % columns) as f64 * (wide + GAP);
            let top = (at / columns) as f64 * block + TITLE;
            let cell = Cell { left, top, right: left + wide, bottom: top + tall };
            let view = view(tuned, at, cell);
            let range = show::plain(Role::Range, tuned.distances[at].si(), style);
            paper.left(&format!("at {range}"), (left, top - 13.0), TEXT, INK)?;
            frame(paper, tuned, at, &view)?;
            bar(paper, (left + 2.0, cell.bottom + 13.0), view.scale, 50.0, style)?;
        }
        for (at, build) in tuned.builds.iter().enumerate() {
            for (bare, what) in [(false, "fletched"), (true, "bare")] {
                let y = foot + LINE * (2 * at + usize::from(bare)) as f64 + 11.0;
                marker(paper, at, bare, (20.0, y))?;
                let name =
                    if several { format!("{}, {what}", build.name) } else { what.to_owned() };
                paper.left(&fit(&name, TEXT, WIDTH - 60.0), (40.0, y), TEXT, INK)?;
            }
        }
        let y = foot + LINE * (entries - 1) as f64 + 11.0;
        paper.line(&[(10.0, y), (30.0, y)], Pen::solid(SOFT, 1.1))?;
        paper.left("its band", (40.0, y), TEXT, INK)
    })?;
    Ok(Plot { name: "tune-impacts.svg".to_owned(), caption, svg })
}

/// Where a build's fletched arrow lands, from the first one's.
fn home(tuned: &Tuned, build: usize, at: usize) -> Option<[f64; 2]> {
    if build == 0 {
        return Some([0.0; 2]);
    }
    let offset = tuned.builds[build].against[at].as_ref()?;
    Some([offset.left.value, offset.up.value])
}

/// A frame that holds every mark with its band.
fn view(tuned: &Tuned, at: usize, cell: Cell) -> View {
    let mut low = [-LEAST; 2];
    let mut high = [LEAST; 2];
    let mut hold = |from: [f64; 2], offset: &study::Offset| {
        for (plane, part) in [offset.left, offset.up].into_iter().enumerate() {
            low[plane] = low[plane].min(from[plane] + part.low);
            high[plane] = high[plane].max(from[plane] + part.high);
        }
    };
    for (index, build) in tuned.builds.iter().enumerate() {
        if let Some(Some(offset)) = build.against.get(at) {
            hold([0.0; 2], offset);
        }
        if let (Some(home), Some(apart)) = (home(tuned, index, at), &build.bare[at].apart) {
            hold(home, apart);
        }
    }
    let span = |plane: usize| 1.2 * (high[plane] - low[plane]);
    let scale = ((cell.right - cell.left) / span(0)).min((cell.bottom - cell.top) / span(1));
    let middle = [0, 1].map(|plane| f64::midpoint(low[plane], high[plane]));
    View { cell, middle, scale }
}

fn frame(paper: &Paper, tuned: &Tuned, at: usize, view: &View) -> super::super::paper::Drawn {
    let c = &view.cell;
    let (x, y) = view.at([0.0; 2]);
    paper.line(&[(x, c.top), (x, c.bottom)], Pen::solid(GRID, 0.8))?;
    paper.line(&[(c.left, y), (c.right, y)], Pen::solid(GRID, 0.8))?;
    view.frame(paper, Pen::solid(GRID, 1.2))?;
    for (index, build) in tuned.builds.iter().enumerate() {
        let pen = Pen::solid(SOFT, 1.1);
        let Some(home) = home(tuned, index, at) else { continue };
        if let Some(Some(offset)) = build.against.get(at) {
            view.cross(paper, [0.0; 2], offset, pen)?;
        }
        marker(paper, index, false, view.at(home))?;
        if let Some(apart) = &build.bare[at].apart {
            view.cross(paper, home, apart, pen)?;
            let place = [home[0] + apart.left.value, home[1] + apart.up.value];
            marker(paper, index, true, view.at(place))?;
        } else {
            let room = (c.left + 6.0, c.bottom - 12.0 - 16.0 * index as f64);
            paper.left("bare: turned over", room, super::SMALL, series(index))?;
        }
    }
    Ok(())
}

/// A build's marker, ringed for its bare shaft.
fn marker(paper: &Paper, build: usize, bare: bool, at: (f64, f64)) -> super::super::paper::Drawn {
    if bare {
        let around = Cell { left: 0.0, top: 0.0, right: WIDTH, bottom: f64::MAX };
        paper.ring(at, 6.0, &around, Pen::solid(series(build), 2.0))?;
        paper.dot(at, 1.6, series(build), 1.0)
    } else {
        paper.marker(build, at, series(build))
    }
}
