//! End faces.

use study::workbench::{Flat, Squareness};
use units::{Role, Style};

use super::part::{Part, Story};
use super::words::{growth, last, shape_word, where_word};
use crate::csv::Sheet;
use crate::show;
use crate::table::{Cell, Column, Table};

pub(super) fn story(found: &Squareness, style: Style) -> Story {
    let mut parts = Vec::new();
    if !found.costs.is_empty() {
        parts.push(Part::Head("What the gauges say"));
        parts.push(Part::Table(angles(found, style)));
        parts.push(Part::Say(
            "The range is what the gauge leaves. A part follows its face only as far as its fit \
             lets it lean; beyond that it stands on the high side."
                .to_owned(),
        ));
        parts.push(Part::Head("What it costs"));
        parts.push(Part::Table(costs(found, style)));
        parts.push(Part::Say(format!(
            "How far such a face moves an impact, root mean square over its clock positions, with \
             the gauge's range. Growth: the archer's group at {} if every arrow had such a face, \
             each at its own clock position.",
            last(&found.distances, style)
        )));
    }
    parts.push(Part::Head("How flat is flat enough"));
    parts.push(Part::Table(flat(found, style)));
    parts.push(Part::Say(format!(
        "The angle at which the archer's group at {} grows by {}, over the stated ranges of what is \
         poorly known. Where the part can lean no further than its fit, only the growth at that \
         limit can come about. Points other than your own are as heavy as it; the fixed-blade head \
         is a common one.",
        last(&found.distances, style),
        share(found)
    )));
    Story {
        headline: headline(found, style),
        parts,
        sure: vec![
            "These are computed numbers, not measured ones. A gauge reading is as good as the hand \
             that took it: take it three times.",
            "Most of what a face does comes about in the bow, whose rest and string are \
             poorly known; the bands say how much that leaves open.",
            "Glue that fills a gap can hold a part truer, or less true, than its face.",
        ],
        saws: true,
        sheets: vec![("faces.csv", sheet(found, style)), ("flat.csv", flat_sheet(found, style))],
    }
}

fn headline(found: &Squareness, style: Style) -> String {
    let at = last(&found.distances, style);
    let own: Vec<&Flat> = found.flat.iter().filter(|flat| flat.own).collect();
    if own.iter().all(|flat| flat.angle.is_none()) {
        return format!(
            "At {at} this scenario's archer has no spread of their own, so there is no group to \
             hold a face against; what each face costs stands below."
        );
    }
    let mut text = format!("With your point, for the group at {at} to grow by {}:", share(found));
    let one = |flat: &&Flat| {
        let angle = flat.angle.as_ref()?;
        let name = where_word(flat.at);
        Some(match (flat.limit, flat.at_limit) {
            (Some(limit), Some(grown)) if limit < angle.value => format!(
                " the {name} cannot, since the fit lets its part lean only {} (growth {})",
                Role::Angle.text(limit, style),
                growth(grown)
            ),
            _ => format!(
                " the {name} must be {} out of square",
                Role::Angle.text(angle.value, style)
            ),
        })
    };
    let list: Vec<String> = own.iter().filter_map(one).collect();
    text.push_str(&list.join(";"));
    text + "."
}

fn share(found: &Squareness) -> String {
    show::share(found.share)
}

fn angles(found: &Squareness, style: Style) -> Table {
    let row = |cost: &study::workbench::FaceCost| {
        let a = [cost.angle.value, cost.angle.low, cost.angle.high];
        let [value, low, high] = show::alike(Role::Angle, a, style);
        let limit = cost.limit.map_or("none".to_owned(), |l| Role::Angle.number(l, style));
        vec![
            Cell::text(&cost.reading.name),
            Cell::text(where_word(cost.reading.at)),
            Cell::text(&cost.reading.stage),
            Cell::text(value),
            Cell::text(format!("{low} to {high}")),
            Cell::text(limit),
        ]
    };
    Table {
        columns: vec![
            Column::new("arrow", ""),
            Column::new("where", ""),
            Column::new("stage", ""),
            Column::of("angle", Role::Angle, style),
            Column::of("range", Role::Angle, style),
            Column::of("fit's limit", Role::Angle, style),
        ],
        rows: found.costs.iter().map(row).collect(),
    }
}

fn costs(found: &Squareness, style: Style) -> Table {
    let mut columns =
        vec![Column::new("arrow", ""), Column::new("where", ""), Column::new("stage", "")];
    for distance in &found.distances {
        let at = format!("at {}", show::plain(Role::Range, distance.si(), style));
        columns.push(Column::of(at, Role::Impact, style));
    }
    columns.push(Column::new("growth", ""));
    let row = |cost: &study::workbench::FaceCost| {
        let mut cells = vec![
            Cell::text(&cost.reading.name),
            Cell::text(where_word(cost.reading.at)),
            Cell::text(&cost.reading.stage),
        ];
        for shift in &cost.shift {
            let all = [shift.value, shift.low, shift.high];
            let [value, low, high] = show::alike(Role::Impact, all, style);
            cells.push(Cell::Interval { value, low, high });
        }
        cells.push(Cell::text(growth(cost.growth)));
        cells
    };
    Table { columns, rows: found.costs.iter().map(row).collect() }
}

fn flat(found: &Squareness, style: Style) -> Table {
    let row = |flat: &Flat| {
        let own = if flat.own { " (yours)" } else { "" };
        let (angle, band) = flat.angle.map_or(("none".to_owned(), String::new()), |angle| {
            let [low, high] = show::alike(Role::Angle, [angle.low, angle.high], style);
            (Role::Angle.number(angle.value, style), format!("{low} to {high}"))
        });
        vec![
            Cell::text(format!("{}{own}", shape_word(flat.shape))),
            Cell::text(where_word(flat.at)),
            Cell::text(angle),
            Cell::text(band),
            Cell::text(flat.limit.map_or("none".to_owned(), |l| Role::Angle.number(l, style))),
            Cell::text(flat.at_limit.map_or(String::new(), growth)),
        ]
    };
    Table {
        columns: vec![
            Column::new("point", ""),
            Column::new("face", ""),
            Column::of("enough", Role::Angle, style),
            Column::of("band", Role::Angle, style),
            Column::of("fit's limit", Role::Angle, style),
            Column::new("growth at limit", ""),
        ],
        rows: found.flat.iter().map(row).collect(),
    }
}

fn sheet(found: &Squareness, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("arrow").field("where").field("stage");
    sheet.head("angle", Role::Angle).head("angle low", Role::Angle).head("angle high", Role::Angle);
    sheet.head("distance", Role::Range).head("shift", Role::Impact);
    sheet.head("shift low", Role::Impact).head("shift high", Role::Impact).end();
    for cost in &found.costs {
        for (distance, shift) in found.distances.iter().zip(&cost.shift) {
            sheet.field(&cost.reading.name).field(where_word(cost.reading.at));
            sheet.field(&cost.reading.stage);
            for value in [cost.angle.value, cost.angle.low, cost.angle.high] {
                sheet.number(Role::Angle, value);
            }
            sheet.number(Role::Range, distance.si());
            for value in [shift.value, shift.low, shift.high] {
                sheet.number(Role::Impact, value);
            }
            sheet.end();
        }
    }
    sheet.finish()
}

fn flat_sheet(found: &Squareness, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("point").field("face").head("enough", Role::Angle).head("low", Role::Angle);
    sheet.head("high", Role::Angle).head("fit's limit", Role::Angle).end();
    for flat in &found.flat {
        sheet.field(shape_word(flat.shape)).field(where_word(flat.at));
        let ends: [fn(&study::Banded) -> f64; 3] = [|a| a.value, |a| a.low, |a| a.high];
        for end in ends {
            match &flat.angle {
                Some(angle) => sheet.number(Role::Angle, end(angle)),
                None => sheet.field(""),
            };
        }
        match flat.limit {
            Some(limit) => sheet.number(Role::Angle, limit),
            None => sheet.field(""),
        };
        sheet.end();
    }
    sheet.finish()
}
