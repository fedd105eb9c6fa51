//! The words.

use study::{Band, Banded, MarkRow, SightMarks, SlopeShot};
use units::{Role, Style};

use super::super::unknown::bracket;
use crate::show::plain;

/// A distance to a tenth.
fn near(si: f64, style: Style) -> String {
    format!("{} {}", Role::Range.rounded(si, 1, style), Role::Range.symbol(style))
}

/// The mark that is told: the farthest, or where the sight is set for that, the nearest to
/// it.
pub(super) fn told(marks: &SightMarks) -> Option<&MarkRow> {
    let zero = marks.zero.si();
    marks.rows.iter().rev().find(|row| (row.distance - zero).abs() > SAME)
}

/// Distances closer than this are one, m. Chosen: a yard in metres, rounded to a
/// millimetre, is the same yard.
const SAME: f64 = 1e-3;

/// The marks in two or three sentences.
pub(super) fn sentence(marks: &SightMarks, style: Style) -> String {
    let zero = plain(Role::Range, marks.zero.si(), style);
    let Some(far) = told(marks) else { return String::new() };
    let way = if far.travel.value >= 0.0 { "below" } else { "above" };
    let size = |value: f64| Role::Sight.number(value.abs(), style);
    let Banded { value, low, high } = far.travel;
    let (low, high) = if value < 0.0 { (-high, -low) } else { (low, high) };
    let band = (!marks.uncertain.is_empty()).then_some(Band { low, high });
    format!(
        "With the sight set at {zero}, the {} mark stands {} mm{} {way} the {zero} mark.",
        plain(Role::Range, far.distance, style),
        size(value),
        bracket(Role::Sight, value.abs(), band, style),
    )
}

/// Where marks turn back.
pub(super) fn turn(marks: &SightMarks, style: Style) -> String {
    let (low, _) = marks.sighting.launches().range();
    let top = marks.sighting.top();
    if top <= low + 0.1 {
        return String::new();
    }
    let all = std::iter::once(marks.zero.si()).chain(marks.rows.iter().map(|row| row.distance));
    let twin = all.filter(|distance| *distance > top).find_map(|distance| {
        let twin = marks.sighting.twin(distance).ok()??;
        Some((distance, twin))
    });
    let twin = twin.map_or_else(String::new, |(far, near_by)| {
        format!(
            " A target at {} takes the same mark as one at {}.",
            near(near_by, style),
            plain(Role::Range, far, style)
        )
    });
    format!(
        "The highest mark is that of {}: nearer than that the eye, which is above the arrow, \
         counts for more than the drop, and the pin goes down again.{twin}",
        near(top, style)
    )
}

/// How the sight is built.
pub(super) fn sight(marks: &SightMarks, style: Style) -> String {
    let geometry = marks.sighting.geometry();
    let click = marks.plan.click.map_or_else(String::new, |click| {
        format!(" One click moves the pin {} mm.", crate::show::significant(1e3 * click.si()))
    });
    format!(
        "Eye {} above the arrow, pin {} ahead of the eye along the arrow; every mark grows with \
         the second, so measure both at full draw.{click}",
        plain(Role::Part, geometry.height(), style),
        plain(Role::Part, geometry.radius(), style),
    )
}

/// How far the cosine rule is off.
pub(super) fn cosine(marks: &SightMarks, style: Style) -> String {
    let shots = || {
        marks.hills.iter().flat_map(|hill| hill.shots.iter().map(move |shot| (hill.slope, shot)))
    };
    let Some((slope, worst)) =
        shots().max_by(|a, b| a.1.cosine_miss.abs().total_cmp(&b.1.cosine_miss.abs()))
    else {
        return String::new();
    };
    let off = format!(
        "Dial: the level mark to use; high (+) or low (-) where the cosine rule is dialled, and \
         where the slope is left out. The common rule, to dial the distance times the cosine of the slope, is most off at {} \
         {}: the arrow meets the target {} {}. The rule leaves out how high the eye is, so that \
         near shots go high, and that the arrow slows on its way up and less so on its way down.",
        plain(Role::Range, worst.distance, style),
        up_or_down(slope),
        Role::Impact.text(worst.cosine_miss.abs(), style),
        if worst.cosine_miss > 0.0 { "high" } else { "low" },
    );
    let none = |shot: &&SlopeShot| shot.dial.is_none();
    let worst = shots().map(|(_, shot)| shot).filter(none).map(|shot| shot.least_miss);
    let most = worst.fold(0.0, f64::max);
    if most > 0.0 {
        format!(
            "{off} None: no mark is high enough; with the highest, that of {}, the arrow goes \
             up to {} high.",
            near(marks.sighting.top(), style),
            Role::Impact.text(most, style)
        )
    } else {
        off
    }
}

/// "30 deg up".
fn up_or_down(slope: f64) -> String {
    let size = crate::show::significant((slope.abs().to_degrees() * 1e6).round() * 1e-6);
    let way = if slope > 0.0 { "up" } else { "down" };
    format!("{size} deg {way}")
}

/// Aiming with the point.
pub(super) fn point_on(marks: &SightMarks, style: Style) -> String {
    match &marks.point_on {
        None => String::new(),
        Some(point) => match point.distance {
            Some(distance) => format!(
                "Without a sight: point-on, with the arrow's point held on the target, is at {}. \
                 The table says how far over (+) or under (-) the target to hold the point.",
                near(distance, style)
            ),
            None => format!(
                "Without a sight: the point held on the target is too low out to {} or as far as \
                 the bow shoots.",
                plain(Role::Range, study::FARTHEST, style)
            ),
        },
    }
}

/// The crosswind of the drift column.
fn wind(marks: &SightMarks, style: Style) -> String {
    plain(Role::Wind, marks.plan.crosswind.si(), style)
}

/// How to read the table of marks.
pub(super) fn read(marks: &SightMarks, style: Style) -> String {
    format!(
        "Mark: the pin below its place at the zero; its band is what the poorly known values \
         leave once the sight is set at the zero by shooting. Above sight: height over the line \
         of sight as zeroed. Drop: below the line of departure. Highest: the arc of the shot over \
         its own line of sight. Drift: downwind in {} straight across. Arrives: path against the \
         line to the target.",
        wind(marks, style)
    )
}

/// How to read a table of changes.
pub(super) const CHANGED: &str = "How far high (+) or low (-) the arrow meets the target with the \
    marks above, one thing changed; how far the mark moves down (+) if the sight stays, and once \
    it is set anew at its zero.";

/// How to read the holds.
pub(super) const HOLD: &str = "Hold, in the table of marks: how far over (+) or under (-) the \
    target to hold that pin.";

/// How to read the table of twigs.
pub(super) const PASSED: &str = "Arrow over (+) or under (-) the twig or edge, from the arrow's \
    line; it touches within its reach, half the shaft and a vane. This is a perfect shot: your own group needs its room on top.";
