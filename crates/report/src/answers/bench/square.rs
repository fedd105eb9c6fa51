//! End faces.

use study::Banded;
use study::workbench::{FaceCost, Flat, Squareness};
use units::{Role, Style};

use super::story::Story;
use super::words::{band, form, grows, growth, last, shape_word, where_word};
use crate::document::{Cell, Kind, Part, Table, facts, head, say, table_of};
use crate::show;

pub(super) fn story(found: &Squareness, style: Style) -> Story {
    let mut parts = Vec::new();
    if !found.costs.is_empty() {
        parts.push(head("What the gauges say"));
        parts.push(Part::Table(angles(found)));
        parts.push(say(
            "The range is what the gauge leaves. A part follows its face only as far as its fit \
             lets it lean; beyond that it stands on the high side.",
        ));
        parts.push(head("What it costs"));
        parts.push(Part::Table(costs(found, style)));
        parts.push(say(format!(
            "How far such a face moves an impact, root mean square over its clock positions, with \
             the gauge's range. Growth: the archer's group at {} if every arrow had such a face, \
             each at its own clock position.",
            last(&found.distances, style)
        )));
    }
    parts.push(head("How flat is flat enough"));
    parts.push(Part::Table(enough(found)));
    parts.push(say(format!(
        "The angle at which the archer's group at {} grows by {}, over the stated ranges of what is \
         poorly known. Where the part can lean no further than its fit, only the growth at that \
         limit can come about. Points other than your own are as heavy as it; the fixed-blade head \
         is a common one.",
        last(&found.distances, style),
        share(found)
    )));
    parts.extend(data(found).into_iter().map(Part::Data));
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

/// The start of a table of faces.
fn faces<'a>(name: &str, found: &'a Squareness) -> crate::document::Rows<&'a FaceCost> {
    table_of(name, &found.costs)
        .words("arrow", |cost| &cost.reading.name)
        .words("where", |cost| where_word(cost.reading.at))
        .words("stage", |cost| &cost.reading.stage)
}

/// How far a part may lean in its fit.
fn limit(of: Option<f64>) -> Cell {
    of.map_or(Cell::None("none"), |limit| Cell::Quantity(Role::Angle, limit))
}

fn angles(found: &Squareness) -> Table {
    faces("angles", found)
        .banded("angle", Role::Angle, |cost| band(&cost.angle))
        .cells("fit's limit", Kind::Quantities(Role::Angle), |cost| limit(cost.limit))
        .done()
}

fn costs(found: &Squareness, style: Style) -> Table {
    faces("costs", found)
        .each(found.distances.iter().enumerate(), |t, (at, distance)| {
            let head = format!("at {}", show::plain(Role::Range, distance.si(), style));
            t.banded(head, Role::Impact, |cost| band(&cost.shift[at]))
        })
        .quantity("growth", Role::Percent, |cost| grows(cost.growth))
        .done()
}

fn enough(found: &Squareness) -> Table {
    table_of("enough", &found.flat)
        .words("point", |flat| {
            format!("{}{}", shape_word(flat.shape), if flat.own { " (yours)" } else { "" })
        })
        .words("face", |flat| where_word(flat.at))
        .banded("enough", Role::Angle, |flat| flat.angle)
        .cells("fit's limit", Kind::Quantities(Role::Angle), |flat| limit(flat.limit))
        .quantity("growth at limit", Role::Percent, |flat| flat.at_limit.map(grows))
        .done()
}

/// The tables that only files hold.
fn data(found: &Squareness) -> Vec<Table> {
    let all = found.costs.iter().flat_map(|cost| {
        found
            .distances
            .iter()
            .zip(&cost.shift)
            .map(move |(distance, shift)| (cost, distance, shift))
    });
    let faces_at = table_of("faces", all)
        .words("arrow", |(cost, ..)| &cost.reading.name)
        .words("where", |(cost, ..)| where_word(cost.reading.at))
        .words("stage", |(cost, ..)| &cost.reading.stage)
        .banded("angle", Role::Angle, |(cost, ..)| band(&cost.angle))
        .quantity("distance", Role::Range, |(_, distance, _)| distance.si())
        .banded("shift", Role::Impact, |(.., shift)| band(shift));
    let end = |read: fn(&Banded) -> f64| move |flat: &&Flat| flat.angle.as_ref().map(read);
    let flat = table_of("flat", &found.flat)
        .words("point", |flat| shape_word(flat.shape))
        .words("face", |flat| where_word(flat.at))
        .quantity("enough", Role::Angle, end(|angle| angle.value))
        .quantity("low", Role::Angle, end(|angle| angle.low))
        .quantity("high", Role::Angle, end(|angle| angle.high))
        .quantity("fit's limit", Role::Angle, |flat| flat.limit);
    let grown = faces("growths", found).quantity("group over group", Role::Number, |c| c.growth);
    let limits = table_of("limits", &found.flat)
        .words("point", |flat| shape_word(flat.shape))
        .words("face", |flat| where_word(flat.at))
        .words("own", |flat| if flat.own { "yes" } else { "no" })
        .quantity("group over group at limit", Role::Number, |flat| flat.at_limit);
    let asked = facts(
        "square",
        ["asked", "value"],
        [("share", Cell::Quantity(Role::Percent, found.share))],
    );
    vec![
        faces_at.done(),
        flat.done(),
        grown.done(),
        limits.done(),
        form(&found.distances, &found.form),
        asked,
    ]
}
