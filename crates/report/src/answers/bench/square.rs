//! End faces.

use study::workbench::{Flat, Squareness};
use units::{Role, Style};

use super::super::unknown::{self, Asked};
use super::story::Story;
use super::words::{form, grows, growth, last, shape_word, where_word};
use crate::document::{Cell, Kind, Part, Table, facts, head, say, table_of};
use crate::show;

pub(super) fn story(found: &Squareness, style: Style) -> Story {
    let mut parts = Vec::new();
    if !found.costs.is_empty() {
        parts.push(head("What the gauges say, and what it costs"));
        parts.push(Part::Table(faces(found, style)));
        parts.push(say(
            "The range of an angle is what the gauge leaves. A part follows its face only as far \
             as its fit lets it lean; beyond that it stands on the high side.",
        ));
        parts.push(say(format!(
            "At a distance: how far such a face moves an impact, root mean square over its clock \
             positions; what the gauge's range makes of it stands in the files. Growth: the archer's group at {} if every arrow had such a face, \
             each at its own clock position.",
            last(&found.distances, style)
        )));
    }
    parts.push(head("How flat is flat enough"));
    parts.push(Part::Table(enough(found)));
    parts.push(say(format!(
        "The angle at which the archer's group at {} grows by {}, with its band for what is \
         not known. Where the part can lean no further than its fit, only the growth at that \
         limit can come about. Points other than your own are as heavy as it; the fixed-blade head \
         is a common one.",
        last(&found.distances, style),
        show::share(found.share)
    )));
    parts.extend(not_known(found));
    parts.push(Part::Data(form(&found.distances, &found.form)));
    let share = ("share", Cell::Quantity(Role::Percent, found.share));
    parts.push(Part::Data(facts("square", ["asked", "value"], [share])));
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
    let mut text =
        format!("With your point, for the group at {at} to grow by {}:", show::share(found.share));
    let one = |flat: &&Flat| {
        let angle = flat.angle?;
        let same = |of: &Squareness| {
            let same = |one: &&Flat| one.shape == flat.shape && one.at == flat.at;
            of.flat.iter().find(same)?.angle
        };
        let joint = found.unknown.as_deref();
        let band = joint.and_then(|joint| joint.band(angle, same));
        let name = where_word(flat.at);
        Some(match (flat.limit, flat.at_limit) {
            (Some(limit), Some(grown)) if limit < angle => format!(
                " the {name} cannot, since the fit lets its part lean only {} (growth {})",
                Role::Angle.text(limit, style),
                growth(grown)
            ),
            _ => format!(
                " the {name} must be {} out of square",
                unknown::figure(Role::Angle, angle, band, style)
            ),
        })
    };
    let list: Vec<String> = own.iter().filter_map(one).collect();
    text.push_str(&list.join(";"));
    text + "."
}

/// The angle that is flat enough for the front end of the own point.
fn front_enough(found: &Squareness) -> Option<f64> {
    found.flat.iter().find(|flat| flat.own)?.angle
}

/// What is not known of how flat is flat enough.
fn not_known(found: &Squareness) -> Vec<Part> {
    let Some(own) = found.flat.iter().find(|flat| flat.own && flat.angle.is_some()) else {
        return Vec::new();
    };
    let what = format!("how square the {} must be", where_word(own.at));
    let asked = Asked { what, read: &front_enough, verdict: &|_| true };
    unknown::section(found.unknown.as_deref(), &[asked])
}

/// How far a part may lean in its fit.
fn limit(of: Option<f64>) -> Cell {
    of.map_or(Cell::None("none"), |limit| Cell::Quantity(Role::Angle, limit))
}

fn faces(found: &Squareness, style: Style) -> Table {
    table_of("faces", &found.costs)
        .words("arrow", |cost| &cost.reading.name)
        .words("where", |cost| where_word(cost.reading.at))
        .words("stage", |cost| &cost.reading.stage)
        .quantity("angle", Role::Angle, |cost| cost.angle.value)
        .cells("by the gauge", Kind::Bands(Role::Angle), |cost| {
            Cell::Band(Role::Angle, cost.angle.low, cost.angle.high)
        })
        .cells("fit's limit", Kind::Quantities(Role::Angle), |cost| limit(cost.limit))
        .each(found.distances.iter().enumerate(), |t, (at, distance)| {
            let head = format!("at {}", show::plain(Role::Range, distance.si(), style));
            let ends = format!("{head}, by the gauge");
            t.quantity(head, Role::Impact, |cost| cost.shift[at].value)
                .cells(ends, Kind::Bands(Role::Impact), |cost| {
                    Cell::Band(Role::Impact, cost.shift[at].low, cost.shift[at].high)
                })
                .filed()
        })
        .quantity("growth", Role::Percent, |cost| grows(cost.growth))
        .quantity("group over group", Role::Number, |cost| cost.growth)
        .filed()
        .done()
}

fn enough(found: &Squareness) -> Table {
    table_of("flat", &found.flat)
        .words("point", |flat| shape_word(flat.shape))
        .words("own", |flat| if flat.own { "yes" } else { "no" })
        .words("face", |flat| where_word(flat.at))
        .quantity("enough", Role::Angle, |flat| flat.angle)
        .cells("fit's limit", Kind::Quantities(Role::Angle), |flat| limit(flat.limit))
        .quantity("growth at limit", Role::Percent, |flat| flat.at_limit.map(grows))
        .quantity("group over group at limit", Role::Number, |flat| flat.at_limit)
        .filed()
        .done()
}
