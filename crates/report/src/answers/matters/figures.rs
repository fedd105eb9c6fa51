//! Shares of the spread: ranked bars by cause, and owners by distance.

use draw::{
    Axis, Bar, BarRow, Bars, Ends, Entry, Figure, INK, Lines, Mark, Panel, Pen, Series, Shape,
    dash, series,
};
use study::{CauseShare, CauseSpread, MarkShares, Owner, SharesOf};
use units::{Role, Style};

use super::words;
use crate::plots::distances;
use crate::{show, words as names};

/// Owners drawn: as many as there are colours.
const COLOURS: usize = 6;

/// Causes and owners of one group of a build, from a machine if `kind` is one;
/// none where nothing spreads.
pub(super) fn of(
    spread: &CauseSpread,
    build: usize,
    kind: usize,
    style: Style,
) -> Option<[Figure; 2]> {
    let machine = if kind == 1 { "machine-" } else { "" };
    let named = |what| (format!("{what}-{machine}{}", build + 1), words::group(kind == 1));
    let (mark, shares) = words::far(spread)?;
    let range = show::plain(Role::Range, mark.distance.si(), style);
    let causes = bars(spread, shares, &range, named("shares"));
    Some([causes, owners(spread, shares, named("owners"), style)])
}

/// Which of three kinds an owner is: archer, arrow, or bow and weather.
fn kind(owner: Owner) -> usize {
    match owner {
        Owner::Archer => 0,
        Owner::Bow | Owner::Weather => 5,
        _ => 2,
    }
}

/// The kinds as a key names them.
const KINDS: [(usize, &str); 3] = [(0, "archer"), (2, "arrow"), (5, "bow and weather")];

fn bars(
    spread: &CauseSpread,
    shares: &SharesOf,
    range: &str,
    (name, group): (String, &str),
) -> Figure {
    let percent = |share: f64| 100.0 * share.max(0.0);
    let row = |at: usize| {
        let (cause, share) = (&spread.causes[at], &shares.causes[at]);
        let reach = [share.alone.low, share.alone.value, share.alone.high].map(percent);
        let bar = Bar::new(reach, series(kind(cause.owner)));
        let bar = bar.marked(percent(share.total.value), Shape::Series(3), INK);
        BarRow { name: names::cause(&cause.name), bars: vec![bar] }
    };
    let there = |of: usize| spread.owners.iter().any(|owner| kind(*owner) == of);
    let kinds = KINDS.into_iter().filter(|(of, _)| there(*of));
    let bars = Bars {
        title: "share of the group's variance, %".to_owned(),
        rows: CauseShare::ranked(&shares.causes).into_iter().map(row).collect(),
        key: kinds.map(|(of, text)| Entry::line(Pen::solid(series(of), 7.0), text)).collect(),
    };
    let caption = format!(
        "What makes the group at {range}, {group}: each cause's share of the variance. Bars and \
         whiskers: alone, with the 95 % interval. Diamonds: in all, with what it does together \
         with others."
    );
    Figure::new(name, caption, bars)
}

fn owners(
    spread: &CauseSpread,
    far: &SharesOf,
    (name, group): (String, &str),
    style: Style,
) -> Figure {
    let place = |mark: &MarkShares| Role::Range.value(mark.distance.si(), style);
    let shown: Vec<usize> = CauseShare::ranked(&far.owners).into_iter().take(COLOURS).collect();
    let line = |(hue, at): (usize, &usize)| {
        let one = |mark: &MarkShares| {
            let share = mark.axes[0].as_ref()?.owners[*at].alone;
            let [low, value, high] =
                [share.low, share.value, share.high].map(|part| 100.0 * part.clamp(0.0, 1.0));
            Some(((place(mark), value), (place(mark), low, high)))
        };
        let (line, band) = spread.marks.iter().filter_map(one).unzip();
        let series = Series::line(line, Pen::series(hue).dash(dash(hue))).marked(hue).band(band);
        Mark::from(series.named(names::owner(spread.owners[*at])))
    };
    let marks = shown.iter().enumerate().map(line).collect();
    let left = spread.owners.len() - shown.len();
    let least = if left > 0 { " The smallest are left out." } else { "" };
    let caption = format!(
        "Each owner's share of the group's variance, {group}, alone, against distance. Shaded: \
         the 95 % interval.{least}"
    );
    let x = distances(spread.marks.iter().map(|mark| mark.distance.si()), Ends::Around, style);
    let y = Axis::new("share of the group's variance, %", Ends::FromZero);
    Figure::new(name, caption, Lines::one(Panel::new(x, y, marks)))
}
