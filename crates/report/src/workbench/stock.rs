//! What cutting gains on shafts that were not read along their length.

use study::Banded;
use study::workbench::{CLAIM, Grade, StockGain};
use target::Estimate;
use units::{Role, Style};
use workbench::Job;

use super::part::{Part, Story};
use crate::csv::Sheet;
use crate::show;
use crate::table::{Cell, Column, Table};

pub(super) fn story(found: &StockGain, grade: &Grade, job: &Job, style: Style) -> Story {
    let mut parts = vec![Part::Head("What to expect"), Part::Table(table(found, style))];
    parts.push(Part::Say(format!(
        "From {} drawn shafts of {} that each read {} in the middle of a 28 in span, cut to {}. \
         Their ends curve three times as much as their middle (anything from alike to six times), \
         and half of the curvature is common to the whole shaft (a tenth to nine tenths): guesses, \
         which the bands cover. Reads: total reading over 28 in, with the 95 % interval of the mean.",
        show::count(found.shafts),
        Role::Part.text(grade.stock.si(), style),
        Role::Gauge.text(grade.total.si(), style),
        Role::Part.text(job.wanted.si(), style)
    )));
    if let Some((low, high)) = found.among {
        parts.push(Part::Say(format!(
            "A single shaft can lose: eight of ten gain between {} and {} from half off each end.",
            Role::Gauge.text(low, style),
            Role::Gauge.text(high, style)
        )));
    }
    parts.push(Part::Head("What the trade says"));
    parts.push(Part::Say(claim(found, style)));
    Story {
        headline: headline(found, style),
        parts,
        sure: vec![
            "Nobody measured these shafts: the population is a stated guess. One profile of a real \
             shaft says more than all of this.",
            "A reading in the middle of the span misses the ends. One batch sold at .001 in read \
             .009 in over the last 1.5 in at the nock end.",
        ],
        saws: true,
        sheets: vec![("stock.csv", sheet(found, style))],
    }
}

fn band(gain: &Banded, style: Style) -> String {
    let [value, low, high] = show::alike(Role::Gauge, [gain.value, gain.low, gain.high], style);
    format!("{value} ({low} to {high}) {}", Role::Gauge.symbol(style))
}

fn headline(found: &StockGain, style: Style) -> String {
    let best = band(&found.best, style);
    match &found.gain {
        Some(gain) => format!(
            "Without a profile, cutting half off each end gains {} over cutting the point end \
             alone, on average. Reading each shaft along its length and cutting where it is \
             straightest would gain {best}.",
            band(gain, style)
        ),
        None => format!(
            "This saw cannot take half off each end. Reading each shaft along its length and \
             cutting where it is straightest would gain {best} over the point end alone."
        ),
    }
}

fn claim(found: &StockGain, style: Style) -> String {
    let claim = &found.claim;
    let (Some(gain), Some(agrees), Some(worst), Some(worst_agrees)) =
        (&claim.gain, claim.agrees, &claim.worst, claim.worst_agrees)
    else {
        return "The trade's claim about cutting both ends cannot be tried with this saw."
            .to_owned();
    };
    let word = |agrees| if agrees { "agrees within its band" } else { "disagrees" };
    format!(
        "On a shaft of {} cutting both ends commonly gains {} to {} (common practice, no source; \
         against what, it does not say). Against the point end alone, by the reading in the middle \
         of a 28 in span, the computation {}: {}. By the worst reading anywhere on the arrow, ends \
         included, it {}: {}. Nothing here was fitted to that.",
        Role::Gauge.text(claim.grade, style),
        Role::Gauge.number(CLAIM.0, style),
        Role::Gauge.text(CLAIM.1, style),
        word(agrees),
        band(gain, style),
        word(worst_agrees),
        band(worst, style)
    )
}

fn table(found: &StockGain, style: Style) -> Table {
    let estimate = |name: &str, value: &Estimate| {
        vec![Cell::text(name), Cell::estimate(Role::Gauge, value, style)]
    };
    let banded = |name: &str, value: &Banded| {
        let [value, low, high] =
            show::alike(Role::Gauge, [value.value, value.low, value.high], style);
        vec![Cell::text(name), Cell::Interval { value, low, high }]
    };
    let mut rows = vec![estimate("reads, all off the point end", &found.front_only)];
    rows.extend(found.halves.as_ref().map(|h| estimate("reads, half off each end", h)));
    rows.extend(found.gain.as_ref().map(|g| banded("gain of half off each end", g)));
    rows.push(banded("gain of the best cut, if it were known", &found.best));
    Table { columns: vec![Column::new("", ""), Column::of("mean", Role::Gauge, style)], rows }
}

fn sheet(found: &StockGain, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("what").head("mean", Role::Gauge).head("low", Role::Gauge);
    sheet.head("high", Role::Gauge).end();
    let mut row = |name: &str, value: [f64; 3]| {
        sheet.field(name);
        for value in value {
            sheet.number(Role::Gauge, value);
        }
        sheet.end();
    };
    let three = |e: &Estimate| [e.value, e.low, e.high];
    let banded = |b: &Banded| [b.value, b.low, b.high];
    row("reads, all off the point end", three(&found.front_only));
    if let Some(halves) = &found.halves {
        row("reads, half off each end", three(halves));
    }
    if let Some(gain) = &found.gain {
        row("gain of half off each end", banded(gain));
    }
    row("gain of the best cut", banded(&found.best));
    sheet.finish()
}
