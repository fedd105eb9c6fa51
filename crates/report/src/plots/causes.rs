//! Which faults matter: bars of the machine's R50 by owner.

use draw::{Bar, BarRow, Bars, Entry, Figure, Pen, Shape, series};
use study::{BuildAnswer, Owner};
use target::Estimate;
use units::{Role, Style};

use super::title;
use crate::{show, words};

/// The farthest distance, where the faults show most.
pub(crate) fn draw(builds: &[BuildAnswer], style: Style) -> Figure {
    let range = builds[0].marks.last();
    let range = range.map(|mark| show::plain(Role::Range, mark.distance.si(), style));
    let bar = |(at, r50): &(usize, Estimate)| {
        let reach = [r50.low, r50.value, r50.high].map(|si| Role::Impact.value(si, style));
        Bar::new(reach, series(*at)).marked(reach[1], Shape::Series(*at), series(*at))
    };
    let row = |(owner, bars): (Owner, Bars50)| BarRow {
        name: words::owner(owner).to_owned(),
        bars: bars.iter().map(bar).collect(),
    };
    let entry = |at| Entry {
        pen: Some(Pen::solid(series(at), 5.0)),
        shape: Some((Shape::Series(at), series(at))),
        text: show::label(builds, at),
    };
    let bars = Bars {
        title: title("half within", Role::Impact, style),
        rows: rows(builds).into_iter().map(row).collect(),
        key: (0..builds.len()).map(entry).collect(),
    };
    let caption = format!(
        "Groups that a machine would shoot at {} if only one kind of fault were left. Whiskers: \
         95 % interval.",
        range.unwrap_or_default()
    );
    Figure::new("causes", caption, bars)
}

/// Bars of one owner: build and R50 at the farthest distance.
type Bars50 = Vec<(usize, Estimate)>;

/// Owners with their bars, the largest first.
fn rows(builds: &[BuildAnswer]) -> Vec<(Owner, Bars50)> {
    let mut rows: Vec<(Owner, Bars50)> = Vec::new();
    for (at, build) in builds.iter().enumerate() {
        for cause in &build.causes {
            let Some(r50) = cause.r50.last() else { continue };
            match rows.iter_mut().find(|(owner, _)| *owner == cause.owner) {
                Some((_, bars)) => bars.push((at, *r50)),
                None => rows.push((cause.owner, vec![(at, *r50)])),
            }
        }
    }
    let largest = |bars: &Bars50| bars.iter().map(|(_, r50)| r50.value).fold(0.0, f64::max);
    rows.sort_by(|a, b| largest(&b.1).total_cmp(&largest(&a.1)));
    rows
}
