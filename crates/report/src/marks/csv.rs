//! The tables as CSV: one header row with units, numbers unrounded.

use study::{MarkRow, Passing, SightMarks};
use units::{Role, Style};

use crate::csv::Sheet;
use crate::show::plain;

/// Every table that is filled, with its file name.
pub(super) fn all(marks: &SightMarks, style: Style) -> Vec<(&'static str, String)> {
    let mut files = vec![("marks.csv", rows(marks, style)), ("arcs.csv", arcs(marks, style))];
    if !marks.hills.is_empty() {
        files.push(("slopes.csv", slopes(marks, style)));
    }
    if !marks.changes.is_empty() {
        files.push(("changes.csv", changes(marks, style)));
    }
    if !marks.twigs.is_empty() {
        files.push(("twigs.csv", twigs(marks, style)));
    }
    files
}

/// A column of the rows.
type Field = (&'static str, Role, fn(&MarkRow) -> f64);

const FIELDS: [Field; 12] = [
    ("launch above line to target", Role::Angle, |r| r.launch),
    ("line of sight below arrow", Role::Angle, |r| r.depression),
    ("drop", Role::Impact, |r| r.drop),
    ("above sight", Role::Impact, |r| r.above_sight),
    ("time", Role::Time, |r| r.time),
    ("speed", Role::Speed, |r| r.speed),
    ("energy", Role::Energy, |r| r.energy),
    ("momentum", Role::Momentum, |r| r.momentum),
    ("drift", Role::Impact, |r| r.drift),
    ("path pitch", Role::Angle, |r| r.path_pitch),
    ("highest", Role::Impact, |r| r.apex),
    ("highest at", Role::Range, |r| r.apex_at),
];

pub(super) fn rows(marks: &SightMarks, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.head("distance", Role::Range).field("pin above arrow [mm]");
    sheet.field("mark below zero [mm]").field("mark low [mm]").field("mark high [mm]");
    sheet.field("clicks [1]");
    for (name, role, _) in &FIELDS {
        sheet.head(name, *role);
    }
    for pin in &marks.pins {
        sheet.head(&format!("hold {} pin", plain(Role::Range, pin.zero, style)), Role::Impact);
    }
    sheet.head("hold point", Role::Impact).end();
    let mm = |value: f64| (1e3 * value).to_string();
    for row in &marks.rows {
        sheet.number(Role::Range, row.distance).field(&mm(row.pin));
        sheet.field(&mm(row.travel.value)).field(&mm(row.travel.low)).field(&mm(row.travel.high));
        sheet.field(&row.clicks.map_or_else(String::new, |clicks| clicks.to_string()));
        for (_, role, read) in &FIELDS {
            sheet.number(*role, read(row));
        }
        for hold in &row.holds {
            sheet.number(Role::Impact, *hold);
        }
        maybe(&mut sheet, Role::Impact, row.point_hold);
        sheet.end();
    }
    sheet.finish()
}

/// A number, or an empty field where there is none.
fn maybe(sheet: &mut Sheet, role: Role, value: Option<f64>) {
    match value {
        Some(value) => sheet.number(role, value),
        None => sheet.field(""),
    };
}

fn arcs(marks: &SightMarks, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.head("target", Role::Range).head("distance", Role::Range);
    sheet.head("above line of sight", Role::Impact).end();
    for arc in &marks.arcs {
        for &(at, above) in &arc.points {
            sheet.number(Role::Range, arc.distance).number(Role::Range, at);
            sheet.number(Role::Impact, above).end();
        }
    }
    sheet.finish()
}

fn slopes(marks: &SightMarks, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.head("slope", Role::Angle).head("distance", Role::Range).head("dial", Role::Range);
    sheet.field("pin above arrow [mm]").head("cosine distance", Role::Range);
    sheet.head("high with cosine distance", Role::Impact);
    sheet.head("high with slope distance", Role::Impact);
    sheet.head("high with highest mark", Role::Impact).end();
    for hill in &marks.hills {
        for shot in &hill.shots {
            sheet.number(Role::Angle, hill.slope).number(Role::Range, shot.distance);
            maybe(&mut sheet, Role::Range, shot.dial);
            sheet.field(&(1e3 * shot.pin).to_string()).number(Role::Range, shot.cosine);
            sheet.number(Role::Impact, shot.cosine_miss);
            sheet.number(Role::Impact, shot.slope_miss);
            sheet.number(Role::Impact, shot.least_miss).end();
        }
    }
    sheet.finish()
}

fn changes(marks: &SightMarks, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("changed").field("to").head("speed", Role::Speed).head("distance", Role::Range);
    sheet.head("high with old mark", Role::Impact).field("mark moves down [mm]");
    sheet.field("mark moves down with zero set anew [mm]").end();
    for change in &marks.changes {
        for value in &change.values {
            for (at, place) in marks.plan.places.iter().enumerate() {
                sheet.field(&change.key).field(&value.label).number(Role::Speed, value.speed);
                sheet.number(Role::Range, place.si()).number(Role::Impact, value.shifts[at]);
                sheet.field(&(1e3 * value.moves[at]).to_string());
                sheet.field(&(1e3 * value.rezeroed[at]).to_string()).end();
            }
        }
    }
    sheet.finish()
}

fn twigs(marks: &SightMarks, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.head("twig at", Role::Range).head("twig above line of sight", Role::Impact);
    sheet.head("target", Role::Range).head("arrow above twig", Role::Impact).field("passes").end();
    for answer in &marks.twigs {
        for (place, over) in marks.plan.places.iter().zip(&answer.over) {
            let Some(over) = *over else { continue };
            sheet.number(Role::Range, answer.twig.distance.si());
            sheet.number(Role::Impact, answer.twig.height.si());
            sheet.number(Role::Range, place.si()).number(Role::Impact, over);
            sheet
                .field(match answer.passing(over) {
                    Passing::Over => "over",
                    Passing::Under => "under",
                    Passing::Touching => "touches",
                })
                .end();
        }
    }
    sheet.finish()
}
