//! Nock turns.

use study::Shots;
use study::workbench::{HIT_WORTH, IndexFit, IndexVerdict, Indexed, Indexing, Shooting};
use target::Estimate;
use units::{Dimension, Role, Style};

use super::story::Story;
use super::words::{form, grown, growth, last, row, would_see};
use crate::answers::evidence::Number;
use crate::document::{Cell, Kind, Part, Table, facts, head, say, table_of};
use crate::plots::workbench::clocks;
use crate::show;

/// The spread with nocks turned, for what a measurement narrows of it.
pub(super) fn numbers(found: &Indexing, style: Style) -> Vec<Number<Indexing>> {
    let what = format!("The spread with nocks turned at {}", last(&found.distances, style));
    let read = |of: &Indexing| Some(of.spread[1].value);
    vec![Number::new(what, (Role::Impact, found.spread[1].value), read)]
}

pub(super) fn story(found: &Indexing, style: Style) -> Story {
    let at = last(&found.distances, style);
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let mut parts = vec![Part::Figure(clocks(found))];
    if !found.arrows.is_empty() {
        if gains(found) {
            parts.push(head("Turns to try"));
            parts.push(Part::Table(turns(found)));
            parts.push(say(format!(
            "Turn: of the nock in the shaft, clockwise seen from behind. Away: how far the arrow \
             hits from the set's centre at {at}, now and with its nock turned. Shots: at the \
             present position and at the new one, each, until the difference shows four times out \
             of five beside the archer's {} in each direction.",
                Role::Impact.text(sigma, style)
            )));
        } else {
            parts.push(Part::Data(turns(found)));
        }
        parts.push(head("How to shoot it"));
        parts.push(say(plan(found, style)));
    }
    if !found.fits.is_empty() {
        parts.push(head("What the shots say"));
        parts.push(Part::Table(fits(found)));
        parts.push(say(
            "Ring: on which the arrow hits as its nock turns. Nearer: how much nearer than unturned \
             to where the arrows shot can meet (one arrow alone: to the point of aim). Both with \
             95 % intervals from the scatter of the shots.",
        ));
    }
    parts.extend(data(found).into_iter().map(Part::Data));
    Story {
        headline: headline(found, style),
        parts,
        short: Vec::new(),
        sure: vec![
            "These are computed numbers until you shoot. Which way a bend throws an arrow depends \
             on the bow's rest; shots at a few positions settle it for good.",
            "A turned nock turns the vanes against the bow. Look for contact at the new position \
             before you believe a group.",
            "A fit takes shots as independent and form as steady; mix the positions as you shoot, \
             so that a tired arm does not look like a turn.",
        ],
        saws: false,
    }
}

fn degrees(si: f64) -> String {
    show::significant(Dimension::Angle.unit("deg").map_or(si, |unit| unit.of_si(si)))
}

/// Whether what the turns gain shows in the growth of the group as it is told.
fn gains(found: &Indexing) -> bool {
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let [before, after] = found.spread.map(|spread| growth(grown(spread.value, sigma)));
    before != after && found.arrows.iter().any(|arrow| arrow.choice != 0)
}

/// Of which arrows no turn can be given, for want of a clock position.
fn unclocked(found: &Indexing) -> String {
    let blind: Vec<&str> =
        found.arrows.iter().filter(|a| !a.clocked).map(|a| a.name.as_str()).collect();
    let what = "stiff side, or high side of run-out, tip or nock";
    match blind.len() {
        0 => String::new(),
        all if all == found.arrows.len() => {
            format!("No clock position was noted ({what}), so no turn can be given. ")
        }
        _ => format!(
            "Of {} no clock position was noted ({what}), so no turn can be given. ",
            row(blind.iter().copied())
        ),
    }
}

fn headline(found: &Indexing, style: Style) -> String {
    let at = last(&found.distances, style);
    if found.arrows.is_empty() {
        return fitted(found);
    }
    let turn = |arrow: &&Indexed| {
        format!("{} by {} deg", arrow.name, degrees(found.turns[arrow.choice].si()))
    };
    let shot = |arrow: &&Indexed| found.fits.iter().any(|fit| fit.name == arrow.name);
    let model = found.arrows.iter().filter(|arrow| arrow.choice != 0 && !shot(arrow));
    let turned: Vec<String> = model.map(|arrow| turn(&arrow)).collect();
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let [before, after] = found.spread.map(|spread| grown(spread.value, sigma));
    let [now, then] = found.spread.map(|s| {
        let [value, low, high] = show::alike(Role::Impact, [s.value, s.low, s.high], style);
        format!("{value} ({low} to {high}) {}", Role::Impact.symbol(style))
    });
    let shown = found.arrows.iter().any(|arrow| matches!(arrow.shooting, Shooting::Each(_)));
    let unclocked = unclocked(found);
    if found.arrows.iter().all(|arrow| !arrow.clocked) {
        return format!(
            "{}{unclocked}As they are they make your group at {at} grow by {} over faultless \
             arrows. Note the clock positions, or shoot a few arrows with their nocks turned and \
             give the shots.",
            shots_first(found),
            growth(before)
        );
    }
    let with = match (found.fits.is_empty(), turned.is_empty()) {
        (true, true) => "Your group",
        (true, false) if !gains(found) => "With the best turns your group",
        (true, false) => "With these turns your group",
        (false, _) => "With the model's turns of all arrows, as if none were shot, your group",
    };
    let which = if !turned.is_empty() && !gains(found) {
        "Turn no nock: what the best turns gain rounds to nothing.".to_owned()
    } else if turned.is_empty() && !found.fits.is_empty() {
        "It turns no other nock.".to_owned()
    } else if turned.is_empty() {
        "Turn no nock: each is at its best already.".to_owned()
    } else if shown {
        format!(
            "Turn {} of {} nocks, clockwise seen from behind: {}.",
            turned.len(),
            found.arrows.len(),
            row(turned.iter().map(String::as_str))
        )
    } else {
        format!(
            "No nock needs turning. The best turns, if you like, of {} of {} nocks, clockwise seen \
             from behind: {}.",
            turned.len(),
            found.arrows.len(),
            row(turned.iter().map(String::as_str))
        )
    };
    let by_shots = shots_first(found);
    format!(
        "{by_shots}{which} {unclocked}{with} at {at} grows by {} over faultless arrows in place of {}. {} From a \
         machine the set comes from {now} to {then} about its centre (root mean square).",
        growth(after),
        growth(before),
        would_see(after, before)
    )
}

/// What shots say of arrows of a batch, which goes before the model.
fn shots_first(found: &Indexing) -> String {
    if found.fits.is_empty() {
        return String::new();
    }
    let inside = |fit: &&IndexFit| found.arrows.iter().any(|arrow| arrow.name == fit.name);
    let said: Vec<String> = found
        .fits
        .iter()
        .filter(inside)
        .map(|fit| format!("arrow {}: {}", fit.name, verdict(found, fit)))
        .collect();
    let strange: Vec<&str> =
        found.fits.iter().filter(|fit| !inside(fit)).map(|fit| fit.name.as_str()).collect();
    let strange = if strange.is_empty() {
        String::new()
    } else {
        format!("Shots are of {}, which the batch does not hold. ", row(strange))
    };
    if said.is_empty() {
        return format!("{strange}What follows is the model's. ");
    }
    format!(
        "By the shots, which go before the model: {}. {strange}What follows is the model's. ",
        said.join("; ")
    )
}

fn fitted(found: &Indexing) -> String {
    let count = |wanted: fn(&IndexVerdict) -> bool| {
        found.fits.iter().filter(|fit| wanted(&fit.verdict)).count()
    };
    format!(
        "Of {} arrows shot, turn {}, leave {}, and shoot {} more.",
        found.fits.len(),
        count(|v| *v == IndexVerdict::Turn),
        count(|v| *v == IndexVerdict::Stop),
        count(|v| matches!(v, IndexVerdict::More(_)))
    )
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
             spread. Turning the nocks as listed does no harm where vanes clear. If you shoot all \
             the same: {stop}"
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
        IndexVerdict::Turn => {
            format!("turn to {} deg, stop", degrees(found.turns[fit.choice].si()))
        }
        IndexVerdict::Stop => "leave it, stop".to_owned(),
        IndexVerdict::More(shots) => format!("{shots} more at each position"),
    }
}

fn turns(found: &Indexing) -> Table {
    let shots = |arrow: &&Indexed| match arrow.shooting {
        Shooting::Leave => Cell::None(""),
        Shooting::Each(shots) | Shooting::TooMany(shots) => Cell::Shots(Shots::Each(shots)),
    };
    table_of("tries", &found.arrows)
        .words("arrow", |arrow| &arrow.name)
        .quantity("turn", Role::Angle, |arrow| found.turns[arrow.choice].si())
        .decimals(1)
        .quantity("away now", Role::Impact, |arrow| arrow.away.0)
        .quantity("away then", Role::Impact, |arrow| arrow.away.1)
        .cells("shots", Kind::Shots, shots)
        .words("worth shooting", |arrow| match arrow.shooting {
            Shooting::Leave => "no",
            Shooting::Each(_) => "yes",
            Shooting::TooMany(_) => "no, too many",
        })
        .done()
}

fn fits(found: &Indexing) -> Table {
    let estimate = |b: &study::Banded| Estimate { value: b.value, low: b.low, high: b.high };
    table_of("fits", &found.fits)
        .words("arrow", |fit| &fit.name)
        .counts("shots", "", |fit| fit.shots as u64)
        .quantity("best turn", Role::Angle, |fit| found.turns[fit.choice].si())
        .decimals(1)
        .estimate("ring", Role::Impact, |fit| estimate(&fit.ring))
        .estimate("nearer", Role::Impact, |fit| estimate(&fit.gain))
        .quantity("noise", Role::Impact, |fit| fit.noise)
        .filed()
        .cells("more at each", Kind::Shots, |fit| match fit.verdict {
            IndexVerdict::More(shots) => Cell::Shots(Shots::Each(shots)),
            IndexVerdict::Turn | IndexVerdict::Stop => Cell::None("no more"),
        })
        .filed()
        .words("what to do", |fit| verdict(found, fit))
        .done()
}

/// The tables that only files hold.
fn data(found: &Indexing) -> Vec<Table> {
    let all = found.arrows.iter().flat_map(|arrow| {
        let places = found.turns.iter().zip(&arrow.places).enumerate();
        places.map(move |(at, (turn, place))| (arrow, at, turn, place))
    });
    let turns = table_of("turns", all)
        .words("arrow", |(arrow, ..)| &arrow.name)
        .quantity("turn", Role::Angle, |(_, _, turn, _)| turn.si())
        .quantity("left", Role::Impact, |(.., place)| place.left)
        .quantity("up", Role::Impact, |(.., place)| place.up)
        .quantity("unknown", Role::Impact, |(.., place)| place.blur)
        .words("chosen", |(arrow, at, ..)| if *at == arrow.choice { "yes" } else { "no" });
    let positions =
        table_of("positions", &found.turns).quantity("turn", Role::Angle, |turn| turn.si());
    let [now, then] = found.spread.map(|band| Cell::Banded(Role::Impact, band));
    let [left, up] = found.centre.map(|si| Cell::Quantity(Role::Impact, si));
    let whole = [
        ("spread now", now),
        ("spread then", then),
        ("centre to the left", left),
        ("centre up", up),
    ];
    let mut tables = vec![turns.done(), positions.done()];
    if found.fits.is_empty() {
        tables.push(fits(found));
    }
    tables.push(form(&found.distances, &found.form));
    tables.push(facts("whole", ["of the set", "value"], whole));
    tables
}
