//! The cut list.

use study::workbench::{CLAIM, CutShaft, Cutting, Way};
use units::{Role, Style};

use super::part::{Part, Story};
use super::words::{growth, last, way_word};
use crate::csv::Sheet;
use crate::show;
use crate::table::{Cell, Column, Table};

/// Economy shafts read about six thousandths of an inch, m; readings within a
/// factor of about one and a half count as that grade. Chosen.
const ECONOMY: std::ops::RangeInclusive<f64> = 1.0e-4..=2.3e-4;

/// An end not read over more than this is pointed out, m. Chosen: an inch.
const UNREAD: f64 = 0.0255;

pub(super) fn story(found: &Cutting, style: Style) -> Story {
    let mut parts = vec![Part::Head("Cut list"), Part::Table(list(found, style))];
    parts.push(Part::Say(format!(
        "Cut from each end, kerf of {} included, for a length of {}. Reads: total indicator reading \
         in the middle of a 28 in span, carried over to it where the piece is shorter, with twice \
         its standard error from the readings. Within: the most it reads with the stop wrong by {}.",
        Role::Part.text(found.job.kerf.si(), style),
        Role::Part.text(found.job.wanted.si(), style),
        Role::Part.text(found.job.tolerance.si(), style)
    )));
    for at in 0..found.shafts.len() {
        parts.push(Part::Plot(format!("shaft-{}.svg", at + 1)));
    }
    parts.push(Part::Head("Against the plain ways"));
    parts.push(Part::Table(ways(found, style)));
    parts.push(Part::Say(format!(
        "Worst: the most the piece reads anywhere on its span, ends included, as it lies. Ring: how \
         far the bend throws the impact at {} as the nock is turned, root mean square, over what is \
         poorly known; it is what differs between arrows with bends at unlike clock positions. \
         Growth: the archer's group with such arrows.",
        last(&found.distances, style)
    )));
    parts.extend(remarks(found, style).into_iter().map(Part::Say));
    Story {
        headline: headline(found, style),
        parts,
        sure: vec![
            "The axis is straight between stations: read them closer where the shaft bends, and \
             near both ends.",
            "A shaft that is not round where it rests moves the whole axis; dirt on a roller does \
             the same. Read the supports too: they should show nothing.",
            "What a bend does to the impact is computed with a rest and a string that are poorly \
             known. The straightness itself is not affected by that.",
        ],
        saws: true,
        sheets: vec![("cuts.csv", sheet(found, style)), ("axis.csv", axis(found, style))],
    }
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let values: Vec<f64> = values.collect();
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

fn gauge(si: f64, style: Style) -> String {
    Role::Gauge.text(si, style)
}

fn headline(found: &Cutting, style: Style) -> String {
    let best = mean(found.shafts.iter().map(|s| s.plan.best.straight.total)).unwrap_or(0.0);
    let uncut = mean(found.shafts.iter().map(|s| s.plan.uncut.total)).unwrap_or(0.0);
    let fronts: Option<Vec<f64>> =
        found.shafts.iter().map(|s| Some(s.plan.front_only?.straight.total)).collect();
    let front = fronts.and_then(|all| mean(all.into_iter())).map_or_else(String::new, |front| {
        format!(", against {} with everything off the point end", gauge(front, style))
    });
    let who = match found.shafts.as_slice() {
        [one] => format!("Shaft {}, cut as listed, reads", one.name),
        many => format!("The {} shafts, cut as listed, read on average", many.len()),
    };
    format!("{who} {} over 28 in{front}. Uncut: {}.", gauge(best, style), gauge(uncut, style))
}

fn list(found: &Cutting, style: Style) -> Table {
    let row = |shaft: &CutShaft| {
        let cut = &shaft.plan.best;
        vec![
            Cell::text(&shaft.name),
            Cell::number(Role::Part, cut.rear, style),
            Cell::number(Role::Part, cut.front, style),
            Cell::text(format!(
                "{} +- {}",
                Role::Gauge.number(cut.straight.total, style),
                Role::Gauge.number(2.0 * cut.straight.error, style)
            )),
            Cell::number(Role::Gauge, cut.within, style),
            Cell::number(Role::Gauge, shaft.plan.uncut.total, style),
        ]
    };
    Table {
        columns: vec![
            Column::new("shaft", ""),
            Column::of("off nock end", Role::Part, style),
            Column::of("off point end", Role::Part, style),
            Column::of("reads", Role::Gauge, style),
            Column::of("within", Role::Gauge, style),
            Column::of("uncut", Role::Gauge, style),
        ],
        rows: found.shafts.iter().map(row).collect(),
    }
}

fn ways(found: &Cutting, style: Style) -> Table {
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let row = |shaft: &CutShaft, way: &Way| {
        let ring = way.ring.last().copied().unwrap_or(0.0);
        let grown = if sigma > 0.0 {
            growth((1.0 + ring * ring / (2.0 * sigma * sigma)).sqrt())
        } else {
            String::new()
        };
        vec![
            Cell::text(format!("{}: {}", shaft.name, way_word(way.kind))),
            Cell::number(Role::Part, way.cut.rear, style),
            Cell::number(Role::Part, way.cut.front, style),
            Cell::number(Role::Gauge, way.cut.straight.total, style),
            Cell::number(Role::Gauge, way.cut.straight.worst, style),
            {
                let all = [way.band.value, way.band.low, way.band.high];
                let [value, low, high] = show::alike(Role::Impact, all, style);
                Cell::Interval { value, low, high }
            },
            Cell::text(grown),
        ]
    };
    Table {
        columns: vec![
            Column::new("way", ""),
            Column::of("nock end", Role::Part, style),
            Column::of("point end", Role::Part, style),
            Column::of("reads", Role::Gauge, style),
            Column::of("worst", Role::Gauge, style),
            Column::of("ring", Role::Impact, style),
            Column::new("growth", ""),
        ],
        rows: found
            .shafts
            .iter()
            .flat_map(|shaft| shaft.ways.iter().map(move |way| row(shaft, way)))
            .collect(),
    }
}

fn remarks(found: &Cutting, style: Style) -> Vec<String> {
    let mut out = Vec::new();
    for shaft in &found.shafts {
        let axis = &shaft.axis;
        if axis.one_side() {
            out.push(format!(
                "Shaft {} was read at one clock position: that side of it alone is known, and its \
                 sag under its own weight is in the readings.",
                shaft.name
            ));
        }
        let (first, last) = axis.reach();
        let (rear, front) = (first, axis.stock() - last);
        if rear.max(front) > UNREAD {
            out.push(format!(
                "Shaft {} is not known over its last {} at the nock end and {} at the point end; it \
                 is taken to go on straight there. Ends are often the worst: read nearer to them.",
                shaft.name,
                Role::Part.text(rear, style),
                Role::Part.text(front, style)
            ));
        }
        if axis.at_supports() > (3.0 * axis.noise()).max(5e-6) {
            out.push(format!(
                "Shaft {} reads {} off its axis on a support itself: it is not round there, or a \
                 roller is dirty.",
                shaft.name,
                gauge(axis.at_supports(), style)
            ));
        }
    }
    out.extend(claim(found, style));
    out
}

/// The trade's claim, held against shafts of the grade it is made of.
fn claim(found: &Cutting, style: Style) -> Option<String> {
    let economy: Vec<&CutShaft> =
        found.shafts.iter().filter(|s| ECONOMY.contains(&s.plan.uncut.total)).collect();
    let gains: Option<Vec<f64>> = economy
        .iter()
        .map(|s| Some(s.plan.front_only?.straight.total - s.plan.best.straight.total))
        .collect();
    let gain = mean(gains?.into_iter())?;
    let (low, high) = CLAIM;
    let word = if (low..=high).contains(&gain) {
        "These readings agree"
    } else if gain > high {
        "These readings gain more"
    } else {
        "These readings gain less"
    };
    Some(format!(
        "The trade says that on a shaft of six thousandths cutting both ends commonly gains one to \
         two thousandths of an inch (common practice, no source). {word}: {} on average over the \
         point end alone, on {} of {} shafts near that grade.",
        gauge(gain, style),
        economy.len(),
        found.shafts.len()
    ))
}

fn sheet(found: &Cutting, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("shaft").field("way").head("off nock end", Role::Part);
    sheet.head("off point end", Role::Part).head("reads over 28 in", Role::Gauge);
    sheet.head("standard error", Role::Gauge).head("within tolerance", Role::Gauge);
    sheet.head("worst on the piece", Role::Gauge);
    for distance in &found.distances {
        let at = show::plain(Role::Range, distance.si(), style);
        sheet.head(&format!("ring at {at}"), Role::Impact);
    }
    sheet.end();
    for shaft in &found.shafts {
        for way in &shaft.ways {
            let cut = &way.cut;
            sheet.field(&shaft.name).field(way_word(way.kind));
            sheet.number(Role::Part, cut.rear).number(Role::Part, cut.front);
            sheet.number(Role::Gauge, cut.straight.total).number(Role::Gauge, cut.straight.error);
            sheet.number(Role::Gauge, cut.within).number(Role::Gauge, cut.straight.worst);
            for ring in &way.ring {
                sheet.number(Role::Impact, *ring);
            }
            sheet.end();
        }
    }
    sheet.finish()
}

fn axis(found: &Cutting, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("shaft").head("station", Role::Part).head("off at clock 0", Role::Gauge);
    sheet.head("off at clock 90", Role::Gauge).head("total reading", Role::Gauge);
    sheet.head("standard error", Role::Gauge).end();
    for shaft in &found.shafts {
        for x in shaft.axis.stations() {
            let off = shaft.axis.at(x);
            sheet.field(&shaft.name).number(Role::Part, x);
            sheet.number(Role::Gauge, off.at0).number(Role::Gauge, off.at90);
            sheet.number(Role::Gauge, 2.0 * off.size());
            sheet.number(Role::Gauge, shaft.axis.error_at(x)).end();
        }
    }
    sheet.finish()
}
