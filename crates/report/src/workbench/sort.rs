//! Sets of a batch.

use study::workbench::{ChosenSet, Foreseen, Sorting};
use units::{Role, Style};

use super::part::{Part, Story};
use super::words::{growth, last, row, trait_word};
use crate::csv::Sheet;
use crate::show;
use crate::table::{Cell, Column, Table};

pub(super) fn story(found: &Sorting, style: Style) -> Story {
    let at = last(&found.distances, style);
    let mut parts = vec![Part::Head("The sets"), Part::Table(sets(found, style))];
    parts.push(Part::Say(format!(
        "Spread: how far the arrows of a set hit from their own centre at {at}, root mean square, \
         shot by a machine, with its range over what is poorly known. Growth: how much larger they \
         make the archer's group, whose standard deviation is {} in each direction.",
        Role::Impact.text(found.form.last().copied().unwrap_or(0.0), style)
    )));
    for set in &found.sets {
        parts.push(Part::Say(format!("{}: {}.", set.name, names(found, &set.set.members))));
        if let Some((weighed, _)) = &set.by_weight {
            parts.push(Part::Say(format!(
                "{}, by weight alone: {}.",
                set.name,
                names(found, &weighed.members)
            )));
        }
    }
    if !found.left_over.is_empty() {
        parts.push(Part::Say(format!("In no set: {}.", names(found, &found.left_over))));
    }
    parts.push(Part::Plot("batch.svg".to_owned()));
    parts.push(Part::Head("Fliers"));
    parts.push(Part::Say(fliers(found, style)));
    parts.push(Part::Head("Every arrow"));
    parts.push(Part::Table(arrows(found, style)));
    parts.push(Part::Say(format!(
        "Left and up from where the faultless arrow hits at {at}. Unknown: how far a fault whose \
         clock position was not noted may carry it, in no known direction. Moved most by: what, \
         set to the batch's own mean or taken away, moves the impact most, and by how much."
    )));
    if found.sets.len() > 1 {
        parts.push(Part::Say(if found.together {
            format!(
                "The sets were chosen together. Their common spread is {}; no split of these sizes \
                 can have less than {}.",
                Role::Impact.text(found.spread.0, style),
                Role::Impact.text(found.spread.1, style)
            )
        } else {
            "The sets were chosen in the order given, each the best that the arrows left over \
             allow."
                .to_owned()
        }));
    }
    Story {
        headline: headline(found, style),
        parts,
        sure: vec![
            "These are computed numbers, not measured ones. What was not measured is taken to be \
             alike in all arrows; a wall that is uneven or a vane that sits wrong shows on the \
             range alone.",
            "How strongly a bend or a wobble throws an arrow depends on the bow's rest and string, \
             which are poorly known. The bands say how far the spread may move; the order of the \
             arrows moves less.",
            "Best is exact for the places foreseen, and no better than the readings behind them.",
        ],
        saws: false,
        sheets: vec![("arrows.csv", sheet(found, style)), ("sets.csv", set_sheet(found, style))],
    }
}

fn names(found: &Sorting, members: &[usize]) -> String {
    row(members.iter().map(|&at| found.arrows[at].measured.name.as_str()))
}

fn headline(found: &Sorting, style: Style) -> String {
    let at = last(&found.distances, style);
    let spread = |si: f64| Role::Impact.text(si, style);
    let Some(first) = found.sets.first() else { return String::new() };
    let weighed = first.by_weight.as_ref().map_or_else(String::new, |(set, _)| {
        format!(
            " As many sorted by weight alone: {}, {}.",
            spread(set.spread),
            ratio(set.spread, first.set.spread)
        )
    });
    format!(
        "The best {} of {} arrows for {} hit within {} of their centre at {at} (root mean square); \
         all together, {}.{weighed} Beside the archer's own spread, the set makes the group grow by \
         {}.",
        first.set.members.len(),
        found.arrows.len(),
        first.name,
        spread(first.set.spread),
        spread(found.whole.spread),
        growth(first.growth)
    )
}

/// How much larger or smaller one spread is than another.
fn ratio(of: f64, than: f64) -> String {
    let ratio = of / than.max(1e-12);
    if ratio >= 2.0 {
        format!("{ratio:.1} times as large")
    } else if ratio >= 1.0 {
        format!("{} larger", show::share(ratio - 1.0))
    } else {
        format!("{} smaller", show::share(1.0 - ratio))
    }
}

fn fliers(found: &Sorting, style: Style) -> String {
    if found.fliers.is_empty() {
        return "None: no arrow lies more than three times the median distance, and half a shaft, \
                from the middle of the batch."
            .to_owned();
    }
    let one = |flier: &study::workbench::Flier| {
        let name = &found.arrows[flier.arrow].measured.name;
        let why = flier.cause.map_or_else(String::new, |of| format!(", by its {}", trait_word(of)));
        format!("{name}, {} away{why}", Role::Impact.text(flier.away, style))
    };
    let list: Vec<String> = found.fliers.iter().map(one).collect();
    let limit = found.fliers.first().map_or(0.0, |flier| flier.limit);
    format!(
        "More than {} from the middle of the batch (three times the median distance, or half a \
         shaft): {}.",
        Role::Impact.text(limit, style),
        list.join("; ")
    )
}

fn sets(found: &Sorting, style: Style) -> Table {
    let role = Role::Impact;
    let banded = |b: &study::Banded| {
        let [value, low, high] = show::alike(role, [b.value, b.low, b.high], style);
        Cell::Interval { value, low, high }
    };
    let one = |set: &ChosenSet| {
        vec![
            Cell::text(&set.name),
            Cell::text(set.set.members.len().to_string()),
            banded(&set.band),
            set.by_weight.as_ref().map_or(Cell::text("not weighed"), |(_, band)| banded(band)),
            Cell::text(growth(set.growth)),
        ]
    };
    let mut rows: Vec<Vec<Cell>> = found.sets.iter().map(one).collect();
    rows.push(vec![
        Cell::text("all arrows"),
        Cell::text(found.arrows.len().to_string()),
        Cell::number(role, found.whole.spread, style),
        Cell::text(""),
        Cell::text(""),
    ]);
    Table {
        columns: vec![
            Column::new("set", ""),
            Column::new("arrows", ""),
            Column::of("spread", role, style),
            Column::of("by weight alone", role, style),
            Column::new("growth", ""),
        ],
        rows,
    }
}

fn arrows(found: &Sorting, style: Style) -> Table {
    let at = found.distances.len() - 1;
    let one = |arrow: &Foreseen| {
        let place = &arrow.places[at];
        let set = arrow.set.map_or("none", |set| found.sets[set].name.as_str());
        let cause = arrow.causes.first().map_or_else(String::new, |(of, size)| {
            format!("{}, {}", trait_word(*of), Role::Impact.text(*size, style))
        });
        vec![
            Cell::text(&arrow.measured.name),
            Cell::text(set),
            Cell::number(Role::Impact, place.left, style),
            Cell::number(Role::Impact, place.up, style),
            Cell::number(Role::Impact, place.blur, style),
            Cell::text(cause),
        ]
    };
    Table {
        columns: vec![
            Column::new("arrow", ""),
            Column::new("set", ""),
            Column::of("left", Role::Impact, style),
            Column::of("up", Role::Impact, style),
            Column::of("unknown", Role::Impact, style),
            Column::new("moved most by", ""),
        ],
        rows: found.arrows.iter().map(one).collect(),
    }
}

fn sheet(found: &Sorting, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("arrow").field("set").head("distance", Role::Range).head("left", Role::Impact);
    sheet.head("up", Role::Impact).head("unknown", Role::Impact).field("moved most by").end();
    for arrow in &found.arrows {
        for (distance, place) in found.distances.iter().zip(&arrow.places) {
            let set = arrow.set.map_or("", |set| found.sets[set].name.as_str());
            sheet.field(&arrow.measured.name).field(set).number(Role::Range, distance.si());
            sheet.number(Role::Impact, place.left).number(Role::Impact, place.up);
            sheet.number(Role::Impact, place.blur);
            sheet.field(arrow.causes.first().map_or("", |(of, _)| trait_word(*of))).end();
        }
    }
    sheet.finish()
}

fn set_sheet(found: &Sorting, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("set").field("chosen by").field("arrow").end();
    for set in &found.sets {
        let ways = [("impact", Some(&set.set)), ("weight", set.by_weight.as_ref().map(|w| &w.0))];
        for (by, members) in ways {
            for &at in members.iter().flat_map(|set| &set.members) {
                sheet.field(&set.name).field(by).field(&found.arrows[at].measured.name).end();
            }
        }
    }
    sheet.finish()
}
