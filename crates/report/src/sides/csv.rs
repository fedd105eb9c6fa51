//! Builds held side by side as CSV.

use study::{Answer, Measure, Shots, Sides};
use units::{Role, Style};

use super::Shown;
use super::json::{measure, word};
use crate::csv::Sheet;

/// Every table that the answer fills, with its file name.
pub(crate) fn all(answer: &Answer, sides: &Sides, style: Style) -> Vec<(&'static str, String)> {
    let mut files = vec![("sides.csv", builds(answer, sides, style))];
    if sides.builds.iter().any(|build| build.marks.iter().any(|mark| !mark.misjudged.is_empty())) {
        files.push(("misjudged.csv", misjudged(answer, sides, style)));
    }
    if !sides.pairs.is_empty() {
        files.push(("differences.csv", differences(answer, sides, style)));
        files.push(("told.csv", told(answer, sides, style)));
    }
    if sides.builds.iter().any(|build| build.reach.is_some()) {
        files.push(("hits.csv", hits(answer, sides, style)));
    }
    files
}

fn builds(answer: &Answer, sides: &Sides, style: Style) -> String {
    let drift = Shown::of(Measure::Drift, answer, style);
    let mut sheet = Sheet::new(style);
    sheet.field("build").head("distance", Role::Range);
    for end in ["", " low", " high"] {
        sheet.head(&format!("{}{end}", drift.name), Role::Impact);
    }
    sheet.estimate_head(super::hits(answer), Role::Percent);
    sheet.estimate_head("score of an arrow", Role::Number);
    sheet.field("arrows in a round [1]");
    sheet.estimate_head("round", Role::Number);
    for head in ["round deviation [1]", "19 rounds in 20 from [1]", "19 rounds in 20 to [1]"] {
        sheet.field(head);
    }
    sheet.end();
    for (build, side) in answer.builds.iter().zip(&sides.builds) {
        for (mark, of) in side.marks.iter().zip(&build.marks) {
            sheet.field(&build.name).number(Role::Range, mark.distance.si());
            for value in [mark.drift.value, mark.drift.low, mark.drift.high] {
                sheet.number(Role::Impact, drift.si(value));
            }
            sheet.estimate(Role::Percent, &of.hit);
            sheet.maybe(Role::Number, of.score.as_ref());
            let round = mark.round.as_ref();
            let field =
                |text: fn(&study::RoundScore) -> String| round.map_or_else(String::new, text);
            sheet.field(&field(|round| round.arrows.to_string()));
            sheet.maybe(Role::Number, round.map(|round| &round.mean));
            sheet.field(&field(|round| round.deviation.to_string()));
            sheet.field(&field(|round| round.low.to_string()));
            sheet.field(&field(|round| round.high.to_string()));
            sheet.end();
        }
    }
    sheet.finish()
}

fn misjudged(answer: &Answer, sides: &Sides, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").head("distance", Role::Range).field("misjudged");
    sheet.head("shift left", Role::Impact).head("shift up", Role::Impact);
    sheet.estimate_head(super::hits(answer), Role::Percent);
    sheet.estimate_head("score of an arrow", Role::Number);
    sheet.end();
    for (build, side) in answer.builds.iter().zip(&sides.builds) {
        for mark in &side.marks {
            for one in &mark.misjudged {
                sheet.field(&build.name).number(Role::Range, mark.distance.si());
                sheet.field(word(one.what));
                sheet.number(Role::Impact, one.shift.left).number(Role::Impact, one.shift.up);
                sheet.estimate(Role::Percent, &one.hit);
                sheet.maybe(Role::Number, one.score.as_ref());
                sheet.end();
            }
        }
    }
    sheet.finish()
}

/// One row a pair, distance and measure; the unit stands in a column, since
/// it changes from row to row.
fn differences(answer: &Answer, sides: &Sides, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("one").field("other").head("distance", Role::Range).field("difference of");
    sheet.field("unit").field("other less one").field("low").field("high").field("shown").end();
    for pair in &sides.pairs {
        for mark in &pair.marks {
            for difference in &mark.differences {
                let shown = Shown::of(difference.of, answer, style);
                sheet.field(&answer.builds[pair.one].name).field(&answer.builds[pair.other].name);
                sheet.number(Role::Range, mark.distance.si()).field(measure(difference.of).0);
                let per = if difference.of == Measure::Drift {
                    format!("{} per {}", shown.unit(style), Role::Wind.symbol(style))
                } else {
                    shown.unit(style).to_owned()
                };
                sheet.field(if per.is_empty() { "1" } else { &per });
                let e = shown.estimate(&difference.value);
                for value in [e.value, e.low, e.high] {
                    sheet.number(shown.role, value);
                }
                sheet.field(if difference.shown() { "yes" } else { "no" }).end();
            }
        }
    }
    sheet.finish()
}

fn told(answer: &Answer, sides: &Sides, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("one").field("other").head("distance", Role::Range).field("who");
    sheet.estimate_head("group ratio", Role::Number);
    sheet.field("shots to tell [1]").field("shots at least").field("shots with each [1]");
    for head in [
        "smaller group is the wrong build's",
        "test sees nothing",
        "test says the opposite",
        "picked: smaller group is the wrong build's",
        "picked: test sees nothing",
    ] {
        sheet.head(head, Role::Percent);
    }
    sheet.end();
    for pair in &sides.pairs {
        for mark in &pair.marks {
            for (who, told) in [("archer", &mark.archer), ("machine", &mark.machine)] {
                for after in &told.after {
                    sheet.field(&answer.builds[pair.one].name);
                    sheet.field(&answer.builds[pair.other].name);
                    sheet.number(Role::Range, mark.distance.si()).field(who);
                    sheet.maybe(Role::Number, told.ratio.as_ref());
                    let (count, beyond) = match told.shots {
                        Shots::Each(count) => (count, "no"),
                        Shots::MoreThan(limit) => (limit, "yes"),
                    };
                    sheet.field(&count.to_string()).field(beyond);
                    sheet.field(&after.shots.to_string());
                    for chance in [
                        after.odds.wrong,
                        after.odds.missed,
                        after.odds.reversed,
                        after.picked_wrong,
                        after.picked_missed,
                    ] {
                        sheet.number(Role::Percent, chance);
                    }
                    sheet.end();
                }
            }
        }
    }
    sheet.finish()
}

fn hits(answer: &Answer, sides: &Sides, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    let name = super::hits(answer);
    sheet.field("build").head("distance", Role::Range);
    sheet.estimate_head(name, Role::Percent);
    sheet.estimate_head(&format!("{name} misjudged the worst way"), Role::Percent);
    sheet.end();
    for (build, side) in answer.builds.iter().zip(&sides.builds) {
        for mark in side.reach.iter().flat_map(|reach| &reach.curve) {
            sheet.field(&build.name).number(Role::Range, mark.distance.si());
            sheet.estimate(Role::Percent, &mark.hit);
            sheet.maybe(Role::Percent, mark.misjudged.as_ref());
            sheet.end();
        }
    }
    sheet.finish()
}
