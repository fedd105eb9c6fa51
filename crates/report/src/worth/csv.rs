//! Bench steps as CSV.

use study::{Bench, Done};
use units::{Role, Style};

use crate::csv::Sheet;
use crate::show;

/// Every table with its file name.
pub(super) fn all(found: &Bench, style: Style) -> Vec<(&'static str, String)> {
    vec![("steps.csv", steps(found, style)), ("chain.csv", chain(found, style))]
}

fn names(found: &Bench, done: &Done) -> String {
    let names: Vec<&str> = done.steps.iter().map(|at| found.steps[*at].name.as_str()).collect();
    names.join(" + ")
}

/// Every set of steps that was tried.
fn steps(found: &Bench, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").field("steps").field("who").field("time [min]").field("cost [1]");
    sheet.field("unbeaten").head("distance", Role::Range);
    sheet.estimate_head("R50", Role::Impact);
    sheet.estimate_head("gain in R50", Role::Impact);
    sheet.estimate_head("group ratio", Role::Number);
    sheet.field("group that is a point");
    sheet.estimate_head("R50 as flown", Role::Impact);
    sheet.estimate_head("gain as flown", Role::Impact);
    sheet.end();
    for build in &found.builds {
        let tried = build.tried.iter().enumerate().map(|(at, done)| ("archer", Some(at), done));
        let machine = build.machine.iter().map(|done| ("machine", None, done));
        for (who, at, done) in tried.chain(machine) {
            let unbeaten = match at {
                Some(at) if build.front.contains(&at) => "yes",
                Some(_) => "no",
                None => "",
            };
            for (distance, mark) in found.distances.iter().zip(&done.marks) {
                sheet.field(&build.name).field(&names(found, done)).field(who);
                sheet.field(&(done.time / 60.0).to_string()).field(&done.cost.to_string());
                sheet.field(unbeaten).number(Role::Range, distance.si());
                sheet.estimate(Role::Impact, &mark.r50);
                sheet.estimate(Role::Impact, &mark.gain);
                sheet.maybe(Role::Number, mark.ratio.as_ref());
                sheet.field(show::point(mark.ratio.as_ref()).unwrap_or("none"));
                sheet.estimate(Role::Impact, &mark.flown);
                sheet.estimate(Role::Impact, &mark.flown_gain);
                sheet.end();
            }
        }
    }
    sheet.finish()
}

fn chain(found: &Bench, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").field("place [1]").field("step").field("time so far [min]");
    sheet.field("cost so far [1]").head("distance", Role::Range);
    sheet.estimate_head("R50", Role::Impact);
    sheet.estimate_head("this step adds", Role::Impact);
    sheet.end();
    for build in &found.builds {
        for (place, link) in build.chain.iter().enumerate() {
            let done = &build.tried[link.done];
            for ((distance, mark), gain) in found.distances.iter().zip(&done.marks).zip(&link.gain)
            {
                sheet.field(&build.name).field(&(place + 1).to_string());
                sheet.field(&found.steps[link.step].name);
                sheet.field(&(done.time / 60.0).to_string()).field(&done.cost.to_string());
                sheet.number(Role::Range, distance.si());
                sheet.estimate(Role::Impact, &mark.r50);
                sheet.estimate(Role::Impact, gain);
                sheet.end();
            }
        }
    }
    sheet.finish()
}
