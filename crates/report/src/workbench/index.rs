//! Nock turns.

use study::workbench::{HIT_WORTH, IndexFit, Indexed, Indexing, Shooting, Verdict};
use units::{Dimension, Role, Style};

use super::part::{Part, Story};
use super::words::{last, row};
use crate::csv::Sheet;
use crate::show;
use crate::table::{Cell, Column, Table};

pub(super) fn story(found: &Indexing, style: Style) -> Story {
    let at = last(&found.distances, style);
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let mut parts = vec![Part::Plot("clocks.svg".to_owned())];
    if !found.arrows.is_empty() {
        parts.push(Part::Head("Turns to try"));
        parts.push(Part::Table(turns(found, style)));
        parts.push(Part::Say(format!(
            "Turn: of the nock in the shaft, clockwise seen from behind. Away: how far the arrow \
             hits from the set's centre at {at}, now and with its nock turned. Shots: at the \
             present position and at the new one, each, until the difference shows four times out \
             of five beside the archer's {} in each direction.",
            Role::Impact.text(sigma, style)
        )));
        parts.push(Part::Head("How to shoot it"));
        parts.push(Part::Say(plan(found, style)));
    }
    if !found.fits.is_empty() {
        parts.push(Part::Head("What the shots say"));
        parts.push(Part::Table(fits(found, style)));
        parts.push(Part::Say(
            "Ring: on which the arrow hits as its nock turns. Nearer: how much nearer than unturned \
             to where the arrows shot can meet (one arrow alone: to the point of aim). Both with \
             95 % intervals from the scatter of the shots."
                .to_owned(),
        ));
    }
    Story {
        headline: headline(found, style),
        parts,
        sure: vec![
            "These are computed numbers until you shoot. Which way a bend throws an arrow depends \
             on the bow's rest; shots at a few positions settle it for good.",
            "A turned nock turns the vanes against the bow. Look for contact at the new position \
             before you believe a group.",
            "A fit takes shots as independent and form as steady; mix the positions as you shoot, \
             so that a tired arm does not look like a turn.",
        ],
        saws: false,
        sheets: vec![("turns.csv", sheet(found, style)), ("fits.csv", fit_sheet(found, style))],
    }
}

fn degrees(si: f64) -> String {
    show::significant(Dimension::Angle.unit("deg").map_or(si, |unit| unit.of_si(si)))
}

fn headline(found: &Indexing, style: Style) -> String {
    let at = last(&found.distances, style);
    if found.arrows.is_empty() {
        return fitted(found);
    }
    let turned = found.arrows.iter().filter(|arrow| arrow.choice != 0).count();
    let [now, then] = found.spread.map(|s| {
        let [value, low, high] = show::alike(Role::Impact, [s.value, s.low, s.high], style);
        format!("{value} ({low} to {high}) {}", Role::Impact.symbol(style))
    });
    format!(
        "Turning {turned} of {} nocks is expected to bring the set at {at} from {now} to {then} \
         about its centre (root mean square, from a machine).",
        found.arrows.len()
    )
}

fn fitted(found: &Indexing) -> String {
    let count =
        |wanted: fn(&Verdict) -> bool| found.fits.iter().filter(|fit| wanted(&fit.verdict)).count();
    format!(
        "Of {} arrows shot, {} should be turned, {} are best left, and {} need more shots.",
        found.fits.len(),
        count(|v| *v == Verdict::Turn),
        count(|v| *v == Verdict::Stop),
        count(|v| matches!(v, Verdict::More(_)))
    )
}

fn turns(found: &Indexing, style: Style) -> Table {
    let one = |arrow: &Indexed| {
        let shots = match arrow.shooting {
            Shooting::Leave => "leave it".to_owned(),
            Shooting::Each(shots) => format!("{shots} each"),
            Shooting::TooMany(shots) => format!("{} each: too many", show::count(shots.into())),
        };
        vec![
            Cell::text(&arrow.name),
            Cell::text(degrees(found.turns[arrow.choice].si())),
            Cell::number(Role::Impact, arrow.away.0, style),
            Cell::number(Role::Impact, arrow.away.1, style),
            Cell::text(shots),
        ]
    };
    Table {
        columns: vec![
            Column::new("arrow", ""),
            Column::new("turn", "deg"),
            Column::of("away now", Role::Impact, style),
            Column::of("away then", Role::Impact, style),
            Column::new("shots", ""),
        ],
        rows: found.arrows.iter().map(one).collect(),
    }
}

fn plan(found: &Indexing, style: Style) -> String {
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let worth = Role::Impact.text(HIT_WORTH * sigma, style);
    let shoot: Vec<&Indexed> =
        found.arrows.iter().filter(|a| matches!(a.shooting, Shooting::Each(_))).collect();
    let stop = format!(
        "Stop with an arrow when the interval of what a turn gains lies above zero (turn it) or \
         below {worth}, a quarter of your own spread (leave it)."
    );
    if shoot.is_empty() {
        return format!(
            "No arrow is worth shooting for at this distance: what a turn gains drowns in your own \
             spread. Turn the nocks as listed if you like; it does no harm where vanes clear. {stop}"
        );
    }
    let most = shoot.iter().map(|a| if let Shooting::Each(n) = a.shooting { n } else { 0 });
    format!(
        "Shoot {} with the nock at every position in turn, mixed, at least {} shots to a position, \
         and note arrow, turn, left and up of each. {stop}",
        row(shoot.iter().map(|arrow| arrow.name.as_str())),
        most.max().unwrap_or(0)
    )
}

fn verdict(found: &Indexing, fit: &IndexFit) -> String {
    match fit.verdict {
        Verdict::Turn => format!("turn to {} deg, stop", degrees(found.turns[fit.choice].si())),
        Verdict::Stop => "leave it, stop".to_owned(),
        Verdict::More(shots) => format!("{shots} more at each position"),
    }
}

fn fits(found: &Indexing, style: Style) -> Table {
    let banded = |b: &study::Banded| {
        let [value, low, high] = show::alike(Role::Impact, [b.value, b.low, b.high], style);
        Cell::Interval { value, low, high }
    };
    let one = |fit: &IndexFit| {
        vec![
            Cell::text(&fit.name),
            Cell::text(fit.shots.to_string()),
            banded(&fit.ring),
            Cell::text(degrees(found.turns[fit.choice].si())),
            banded(&fit.gain),
            Cell::text(verdict(found, fit)),
        ]
    };
    Table {
        columns: vec![
            Column::new("arrow", ""),
            Column::new("shots", ""),
            Column::of("ring", Role::Impact, style),
            Column::new("best turn", "deg"),
            Column::of("nearer", Role::Impact, style),
            Column::new("what to do", ""),
        ],
        rows: found.fits.iter().map(one).collect(),
    }
}

fn sheet(found: &Indexing, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("arrow").head("turn", Role::Angle).head("left", Role::Impact);
    sheet.head("up", Role::Impact).field("chosen").end();
    for arrow in &found.arrows {
        for (at, (turn, place)) in found.turns.iter().zip(&arrow.places).enumerate() {
            sheet.field(&arrow.name).number(Role::Angle, turn.si());
            sheet.number(Role::Impact, place.left).number(Role::Impact, place.up);
            sheet.field(if at == arrow.choice { "yes" } else { "no" }).end();
        }
    }
    sheet.finish()
}

fn fit_sheet(found: &Indexing, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("arrow").field("shots [1]").head("best turn", Role::Angle);
    sheet.head("ring", Role::Impact).head("ring low95", Role::Impact);
    sheet.head("ring high95", Role::Impact).head("nearer", Role::Impact);
    sheet.head("nearer low95", Role::Impact).head("nearer high95", Role::Impact);
    sheet.field("what to do").end();
    for fit in &found.fits {
        sheet.field(&fit.name).field(&fit.shots.to_string());
        sheet.number(Role::Angle, found.turns[fit.choice].si());
        for b in [&fit.ring, &fit.gain] {
            for value in [b.value, b.low, b.high] {
                sheet.number(Role::Impact, value);
            }
        }
        sheet.field(&verdict(found, fit)).end();
    }
    sheet.finish()
}
