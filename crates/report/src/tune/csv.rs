//! The tables of a tuning answer as CSV, numbers unrounded.

use study::{Banded, Nearest, Offset, Tuned};
use units::{Role, Style};

use super::say::degrees;
use crate::csv::Sheet;

/// Every table with its file name.
pub(super) fn all(tuned: &Tuned, style: Style) -> Vec<(&'static str, String)> {
    let mut files = vec![
        ("bare.csv", bare(tuned, style)),
        ("clearance.csv", clearance(tuned, style)),
        ("nock.csv", nock(tuned, style)),
    ];
    if tuned.builds.iter().any(|build| !build.paper.is_empty()) {
        files.push(("paper.csv", paper(tuned, style)));
    }
    if tuned.builds.iter().any(|build| !build.trends.is_empty()) {
        files.push(("trends.csv", trends(tuned, style)));
    }
    if tuned.builds.len() > 1 {
        files.push(("against.csv", against(tuned, style)));
    }
    files
}

fn banded_head(sheet: &mut Sheet, name: &str, role: Role) {
    sheet.head(name, role).head(&format!("{name} low"), role).head(&format!("{name} high"), role);
}

fn banded(sheet: &mut Sheet, role: Role, banded: &Banded) {
    sheet.number(role, banded.value).number(role, banded.low).number(role, banded.high);
}

fn offset_heads(sheet: &mut Sheet) {
    for name in ["left", "up", "size"] {
        banded_head(sheet, name, Role::Impact);
    }
    sheet.field("band open");
}

fn offset(sheet: &mut Sheet, offset: Option<&Offset>) {
    match offset {
        Some(o) => {
            for part in [&o.left, &o.up, &o.size] {
                banded(sheet, Role::Impact, part);
            }
            sheet.field(if o.open { "yes" } else { "no" });
        }
        None => {
            for _ in 0..10 {
                sheet.field("");
            }
        }
    }
}

fn place(sheet: &mut Sheet, place: Option<[f64; 2]>) {
    match place {
        Some([left, up]) => sheet.number(Role::Impact, left).number(Role::Impact, up),
        None => sheet.field("").field(""),
    };
}

fn bare(tuned: &Tuned, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").head("distance", Role::Range);
    offset_heads(&mut sheet);
    sheet.head("with tape left", Role::Impact).head("with tape up", Role::Impact).end();
    for build in &tuned.builds {
        for mark in &build.bare {
            sheet.field(&build.name).number(Role::Range, mark.distance.si());
            offset(&mut sheet, mark.apart.as_ref());
            place(&mut sheet, mark.taped);
            sheet.end();
        }
    }
    sheet.finish()
}

fn paper(tuned: &Tuned, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").head("sheet", Role::Range);
    offset_heads(&mut sheet);
    sheet.head("nose left", Role::Angle).head("nose up", Role::Angle).end();
    for build in &tuned.builds {
        for tear in &build.paper {
            sheet.field(&build.name).number(Role::Range, tear.distance.si());
            offset(&mut sheet, Some(&tear.nock));
            sheet.number(Role::Angle, tear.yaw).number(Role::Angle, tear.pitch).end();
        }
    }
    sheet.finish()
}

fn trends(tuned: &Tuned, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").field("changed").field("value");
    for (name, role) in [
        ("mass", Role::Mass),
        ("speed", Role::Speed),
        ("yaw", Role::Angle),
        ("pitch", Role::Angle),
        ("yaw rate", Role::Rate),
        ("pitch rate", Role::Rate),
        ("going left", Role::Speed),
        ("going up", Role::Speed),
        ("tip swings left-right", Role::Gauge),
        ("tip swings up-down", Role::Gauge),
        ("distance", Role::Range),
        ("bare left", Role::Impact),
        ("bare up", Role::Impact),
    ] {
        sheet.head(name, role);
    }
    sheet.end();
    for build in &tuned.builds {
        for trend in &build.trends {
            for point in &trend.points {
                let Ok(shot) = &point.shot else { continue };
                let d = &shot.departure;
                for (distance, apart) in tuned.distances.iter().zip(&shot.apart) {
                    sheet.field(&build.name).field(&trend.key).field(&point.label);
                    sheet.number(Role::Mass, shot.mass).number(Role::Speed, d.speed);
                    sheet.number(Role::Angle, d.yaw).number(Role::Angle, d.pitch);
                    sheet.number(Role::Rate, d.yaw_rate).number(Role::Rate, d.pitch_rate);
                    sheet.number(Role::Speed, d.velocity_left);
                    sheet.number(Role::Speed, d.velocity_up);
                    sheet.number(Role::Gauge, shot.swing[0]).number(Role::Gauge, shot.swing[1]);
                    sheet.number(Role::Range, distance.si());
                    place(&mut sheet, *apart);
                    sheet.end();
                }
            }
        }
    }
    sheet.finish()
}

fn against(tuned: &Tuned, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").field("less").head("distance", Role::Range);
    offset_heads(&mut sheet);
    sheet.end();
    for build in tuned.builds.iter().skip(1) {
        for (distance, moved) in tuned.distances.iter().zip(&build.against) {
            sheet.field(&build.name).field(&tuned.builds[0].name);
            sheet.number(Role::Range, distance.si());
            offset(&mut sheet, moved.as_ref());
            sheet.end();
        }
    }
    sheet.finish()
}

fn nock(tuned: &Tuned, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").head("nock turned", Role::Angle).head("distance", Role::Range);
    offset_heads(&mut sheet);
    sheet.end();
    for build in &tuned.builds {
        for turn in &build.turns.steps {
            for (distance, moved) in tuned.distances.iter().zip(&turn.moved) {
                sheet.field(&build.name).number(Role::Angle, turn.angle);
                sheet.number(Role::Range, distance.si());
                offset(&mut sheet, moved.as_ref());
                sheet.end();
            }
        }
    }
    sheet.finish()
}

fn clearance(tuned: &Tuned, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").field("to");
    banded_head(&mut sheet, "room", Role::Part);
    sheet.head("nock moved", Role::Part).head("ahead of groove", Role::Part);
    sheet.field("vane [deg]").field("string has let go").end();
    for build in &tuned.builds {
        let found = [("riser", build.clearance.riser), ("rest", build.clearance.rest)];
        for (what, nearest) in found {
            let Some(Nearest { gap, travel, station, clock, after }) = nearest else { continue };
            sheet.field(&build.name).field(what);
            banded(&mut sheet, Role::Part, &gap);
            sheet.number(Role::Part, travel).number(Role::Part, station).field(&degrees(clock));
            sheet.field(if after { "yes" } else { "no" }).end();
        }
    }
    sheet.finish()
}
