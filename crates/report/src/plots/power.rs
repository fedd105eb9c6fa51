//! The chance of seeing a difference, by the shots spent on it.

use draw::{Axis, Dash, Ends, Figure, Lines, Mark, Panel, Pen, Series};
use study::{BuildAnswer, SideBySide, SidePair};
use target::PowerTest;
use units::{Role, Style};

use crate::show;

/// Fewest and most shots shown, and those with a label. Chosen: what people
/// fire, and beyond.
const FEWEST: u32 = 2;
const MOST: u32 = 1000;
const LABELS: [u32; 7] = [3, 6, 12, 36, 100, 300, 1000];
/// Places along a line, evenly spaced in the logarithm. Chosen: smooth.
const PLACES: u32 = 90;

/// A line for archer and machine of each build against the first, at the
/// middle distance.
pub(crate) fn draw(builds: &[BuildAnswer], sides: &SideBySide, style: Style) -> Option<Figure> {
    let pairs: Vec<&SidePair> = sides.pairs.iter().filter(|pair| pair.one == 0).collect();
    let at = show::spoken_of(&builds[0], sides.stated.headline);
    let power_test = &sides.stated.power_test;
    let range = show::plain(Role::Range, pairs.first()?.marks[at].distance.si(), style);
    let ends = (place(FEWEST), place(MOST));
    let mut marks = vec![Mark::Level { y: 100.0 * power_test.power(), pen: Pen::asked() }];
    for (who, dash) in [("archer", Dash::Solid), ("machine", Dash::Dashed)] {
        for pair in &pairs {
            let mark = &pair.marks[at];
            let told = if dash == Dash::Solid { &mark.archer } else { &mark.machine };
            let ratio = told.ratio.map_or(f64::INFINITY, |ratio| ratio.value);
            let name = &builds[pair.other].name;
            let name = if pairs.len() > 1 { format!("{name}, {who}") } else { who.to_owned() };
            let pen = Pen::series(pair.other).dash(dash);
            marks.push(Series::line(chances(power_test, ratio), pen).named(name).into());
        }
    }
    let labels = LABELS.map(|shots| (place(shots), shots.to_string())).to_vec();
    let x = Axis::new("shots with each build", Ends::At(ends.0, ends.1)).at(labels);
    let y = Axis::new("chance to see it, %", Ends::At(0.0, 100.0));
    Some(Figure::new(
        "power",
        format!(
            "How likely two groups at {range} show that the builds differ, by the shots with each \
             (confidence {}). Dotted across: the power asked for.",
            show::share(power_test.confidence()),
        ),
        Lines::one(Panel::new(x, y, marks)),
    ))
}

/// Where a number of shots stands on the axis.
fn place(shots: u32) -> f64 {
    f64::from(shots).ln()
}

fn chances(power_test: &PowerTest, ratio: f64) -> Vec<(f64, f64)> {
    let span = place(MOST) - place(FEWEST);
    let shots =
        |step: u32| whole((place(FEWEST) + f64::from(step) / f64::from(PLACES) * span).exp());
    let mut all: Vec<u32> = (0..=PLACES).map(shots).collect();
    all.dedup();
    let one = |shots: u32| (place(shots), 100.0 * power_test.chance_to_tell(ratio, shots));
    all.into_iter().map(one).collect()
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "2 to 1000")]
fn whole(shots: f64) -> u32 {
    shots.round() as u32
}
