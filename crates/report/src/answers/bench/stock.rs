//! What cutting gains on shafts that were not read along their length.

use study::Banded;
use study::workbench::{CLAIM, Grade, StockGain};
use target::Estimate;
use units::{Role, Style};
use workbench::SawJob;

use super::story::Story;
use crate::document::{Cell, Kind, Part, Table, facts, head, say, table_of};
use crate::show;

pub(super) fn story(found: &StockGain, grade: &Grade, job: &SawJob, style: Style) -> Story {
    let mut parts = vec![head("What to expect"), Part::Table(table(found))];
    parts.push(say(format!(
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
        parts.push(say(format!(
            "A single shaft can lose: eight of ten gain between {} and {} from half off each end.",
            Role::Gauge.text(low, style),
            Role::Gauge.text(high, style)
        )));
    }
    parts.push(head("What the trade says"));
    parts.push(say(claim(found, style)));
    parts.push(Part::Data(data(found, grade)));
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

fn table(found: &StockGain) -> Table {
    let estimate = |of: &Estimate| Cell::Estimate(Role::Gauge, *of);
    let banded = |of: &Banded| Cell::Banded(Role::Gauge, *of);
    let mut rows = vec![("reads, all off the point end", estimate(&found.front_only))];
    rows.extend(found.halves.as_ref().map(|h| ("reads, half off each end", estimate(h))));
    rows.extend(found.gain.as_ref().map(|g| ("gain of half off each end", banded(g))));
    rows.push(("gain of the best cut, if it were known", banded(&found.best)));
    table_of("stock", rows)
        .words("what", |(name, _)| *name)
        .cells("mean", Kind::Estimates(Role::Gauge), |(_, cell)| cell.clone())
        .done()
}

/// What only files hold.
fn data(found: &StockGain, grade: &Grade) -> Table {
    let claim = &found.claim;
    let gauge = |si| Cell::Quantity(Role::Gauge, si);
    let word = |agrees: bool| Cell::from(if agrees { "yes" } else { "no" });
    let mut rows = vec![
        ("length of the shafts", Cell::Quantity(Role::Part, grade.stock.si())),
        ("total reading over 28 in", gauge(grade.total.si())),
        ("shafts drawn", Cell::Count(found.shafts)),
        ("grade of the claim", gauge(claim.grade)),
    ];
    let among = |(low, high)| ("gain of eight of ten", Cell::Band(Role::Gauge, low, high));
    rows.extend(found.among.map(among));
    let gain = |of: &Banded| Cell::Banded(Role::Gauge, *of);
    rows.extend(claim.gain.as_ref().map(|of| ("gain of the claim", gain(of))));
    rows.extend(claim.agrees.map(|of| ("agrees", word(of))));
    rows.extend(claim.worst.as_ref().map(|of| ("gain in the worst reading", gain(of))));
    rows.extend(claim.worst_agrees.map(|of| ("agrees in the worst reading", word(of))));
    facts("claim", ["of stock and claim", "value"], rows)
}
