//! Share of hits against distance.

use draw::{Axis, Dash, Ends, Figure, Lines, Mark, Panel, Pen, Series};
use study::{BuildAnswer, ReachMark, SideBySide};
use target::Estimate;
use units::{Role, Style};

use super::title;
use crate::show;

/// Takes a share at one distance.
type Read = fn(&ReachMark) -> Option<Estimate>;

/// The share of hits of every build, `name` saying of what, and the same when
/// aim is misjudged; none where no share was stated or one distance asked.
pub(crate) fn draw(
    builds: &[BuildAnswer],
    sides: &SideBySide,
    name: &str,
    style: Style,
) -> Option<Figure> {
    let share = sides.stated.hit_share?;
    let curves: Vec<&[ReachMark]> = sides
        .builds
        .iter()
        .filter_map(|side| Some(side.reach.as_ref()?.curve.as_slice()))
        .collect();
    let Some([first, .., last]) = curves.first() else { return None };
    let place = |mark: &ReachMark| Role::Range.value(mark.distance.si(), style);
    let ends = [place(first), place(last)];
    let misjudged = first.misjudged.is_some();
    let mut marks = vec![Mark::Level { y: 100.0 * share.si(), pen: Pen::asked() }];
    let kinds: [(&str, Dash, Read); 2] = [
        ("well judged", Dash::Solid, |mark| Some(mark.hit)),
        ("misjudged", Dash::Dashed, |mark| mark.misjudged),
    ];
    for (what, dash, read) in kinds {
        for (at, curve) in curves.iter().enumerate() {
            let shares = || curve.iter().filter_map(|mark| Some((place(mark), read(mark)?)));
            let line = shares().map(|(x, hit)| (x, 100.0 * hit.value)).collect();
            let mut series = Series::line(line, Pen::series(at).dash(dash));
            if dash == Dash::Solid {
                series = series.band(
                    shares().map(|(x, hit)| (x, 100.0 * hit.low, 100.0 * hit.high)).collect(),
                );
            }
            if dash == Dash::Solid || misjudged {
                marks.push(series.named(show::titled(builds, at, what)).into());
            }
        }
    }
    let dashed = if misjudged { " Dashed: distance and wind misjudged the worst way." } else { "" };
    let x = Axis::new(title("distance", Role::Range, style), Ends::At(ends[0], ends[1]));
    let y = Axis::new(format!("{name}, %"), Ends::At(0.0, 100.0));
    Some(Figure::new(
        "hits",
        format!(
            "Share of {name} against distance, between the nearest and the farthest asked; \
             shaded: the 95 % interval.{dashed} Dotted across: the share asked for. No licence to \
             shoot: a target that keeps still is assumed."
        ),
        Lines::one(Panel::new(x, y, marks)),
    ))
}
