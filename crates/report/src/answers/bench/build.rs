//! Arrows to build from measured shafts and parts.

use std::f64::consts::TAU;

use study::workbench::{BuildStep, Building, CROOKED, PlannedArrow, SpinLimit, StepTaken, Trait};
use units::{Dimension, Role, Style};
use workbench::{PART_KINDS, PartKind};

use super::story::Story;
use super::words::{form, grown, grows, growth, last, row, would_see};
use crate::answers::evidence::Number;
use crate::document::{Cell, Kind, Part, Table, head, note, say, table_of};
use crate::show;

/// The spread with nocks set, for what a measurement narrows of it.
pub(super) fn numbers(found: &Building, style: Style) -> Vec<Number<Building>> {
    let at = last(&found.distances, style);
    let last = found.steps.last().map(|step| {
        let read = |of: &Building| Some(of.steps.last()?.spread.value);
        let what = format!("The spread with nocks set at {at}");
        Number::new(what, (Role::Impact, step.spread.value), read)
    });
    last.into_iter().collect()
}

pub(super) fn story(found: &Building, style: Style) -> Story {
    let at = last(&found.distances, style);
    let mut parts: Vec<Part> = doubts(found).into_iter().map(note).collect();
    parts.extend([head("Build them like this"), Part::Table(arrows(found))]);
    parts.push(say(
        "Stiff side and high side: the hour at which each stands when the nock sits in the jig with \
         its top vane at twelve, seen from behind. A dash was not read; a shaft without either is \
         set as it comes.",
    ));
    parts.push(head("The jig"));
    parts.push(say(jig(found, style)));
    parts.push(head("What each step buys"));
    parts.push(Part::Table(steps(found)));
    parts.push(say(format!(
        "Spread: how far the arrows hit from their own centre at {at}, root mean square, shot by a \
         machine, with its range over what is poorly known; the choices stay as they are. Growth: how \
         much larger they make the archer's group, whose standard deviation is {} in each direction.",
        Role::Impact.text(found.form.last().copied().unwrap_or(0.0), style)
    )));
    parts.extend(seen(found).into_iter().map(say));
    parts.push(head("The spin test"));
    parts.push(say(spin_words(found, style)));
    parts.push(Part::Table(spin(found)));
    parts.push(say(
        "Group: the total wobble at which the archer's group grows by the share asked, were every arrow \
         to wobble so much, each at its own hour. A wobble that stays when the part is changed is a bent \
         shaft.",
    ));
    if !found.spun.is_empty() {
        parts.push(Part::Table(spun(found)));
    }
    parts.push(Part::Data(form(&found.distances, &found.form)));
    parts.push(Part::Data(spare(found)));
    Story {
        headline: headline(found, style),
        parts,
        short: Vec::new(),
        sure: vec![
            "These are computed numbers, not measured ones. Glue, vanes and wraps are taken as alike \
             in all arrows: weigh the finished ones.",
            "Parts are paired for mass and balance, each weighed by how far it moves the impact from \
             this bow; the spines of the shafts are in the spread, not in the pairing.",
            "Which way a stiff side throws an arrow depends on rest and string, which are poorly known: \
             the band of a step says how far that may go. Shoot two of each before you fletch the rest.",
        ],
        saws: true,
    }
}

fn part_word(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Point => "point",
        PartKind::Insert => "insert",
        PartKind::Nock => "nock",
    }
}

fn step_word(step: BuildStep) -> &'static str {
    match step {
        BuildStep::AsTheyCome => "as they come",
        BuildStep::Paired => "parts paired",
        BuildStep::StiffUp => "and stiff sides up",
        BuildStep::NocksSet => "or nocks set as listed",
    }
}

fn taken(found: &Building, step: BuildStep) -> f64 {
    let one = found.steps.iter().find(|taken| taken.step == step);
    one.map_or(1.0, |taken| taken.growth)
}

fn headline(found: &Building, style: Style) -> String {
    let at = last(&found.distances, style);
    let masses = || found.arrows.iter().map(|arrow| arrow.mass);
    let focs = || found.arrows.iter().map(|arrow| arrow.foc);
    let ends = |role: Role, all: Vec<f64>| {
        let low = all.iter().copied().fold(f64::INFINITY, f64::min);
        let high = all.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let [low, high] = show::alike(role, [low, high], style);
        format!("{low} to {high} {}", role.symbol(style))
    };
    let kinds: Vec<&str> = PART_KINDS
        .into_iter()
        .filter(|kind| found.arrows.iter().any(|a| a.parts.iter().any(|p| p.kind == *kind)))
        .map(part_word)
        .collect();
    let pairs = if kinds.is_empty() {
        "no part was weighed, so nothing is paired".to_owned()
    } else {
        format!(
            "shafts paired by {} to {}, FOC {}",
            row(kinds),
            ends(Role::Mass, masses().collect()),
            ends(Role::Percent, focs().collect())
        )
    };
    let (came, paired) = (taken(found, BuildStep::AsTheyCome), taken(found, BuildStep::Paired));
    let set = taken(found, BuildStep::NocksSet);
    let built = if found.built.is_empty() {
        String::new()
    } else {
        let built = row(found.built.iter().map(String::as_str));
        format!(" Arrows already, so left alone: {built}.")
    };
    let (wish, without) = (wish(found, style), without_insert(found).unwrap_or_default());
    format!(
        "{} arrows: {pairs}.{wish}{without}{built} Put together as they come they make your group at {at} grow by {}, \
         paired by {}, with nocks set as listed by {}. {}",
        found.arrows.len(),
        growth(came),
        growth(paired),
        growth(set),
        would_see(set, came)
    )
}

/// That inserts were weighed and the scenario's arrow has none.
fn without_insert(found: &Building) -> Option<String> {
    let inserts = found.spare.iter().filter(|(kind, ..)| *kind == PartKind::Insert).count();
    (inserts > 0 && found.setup.parts.insert.is_none()).then(|| {
        format!(
            " The scenario's arrow has no insert, so the {inserts} inserts of the table are in none of \
             these, nor in their mass: write [arrow.insert] where yours has one."
        )
    })
}

/// What was wished and cannot be had.
fn wish(found: &Building, style: Style) -> String {
    let [(mass, said), (foc, foc_said)] = found.wanted;
    if !said && !foc_said {
        return String::new();
    }
    let text = |role: Role, si: f64| role.text(si, style);
    let wanted = [
        said.then(|| text(Role::Mass, mass)),
        foc_said.then(|| format!("FOC of {}", text(Role::Percent, foc))),
    ];
    let wanted: Vec<String> = wanted.into_iter().flatten().collect();
    let mean = |read: fn(&PlannedArrow) -> f64| {
        found.arrows.iter().map(read).sum::<f64>() / found.arrows.len().max(1) as f64
    };
    format!(
        " Wanted: {}; these shafts and parts give {} and {} on average, which moves them {} at the \
         last distance: for more, change the parts.",
        row(wanted.iter().map(String::as_str)),
        text(Role::Mass, mean(|arrow| arrow.mass)),
        text(Role::Percent, mean(|arrow| arrow.foc)),
        text(Role::Impact, found.off.0)
    )
}

/// What is left out, and how good the pairing is.
fn doubts(found: &Building) -> Vec<String> {
    let mut out = Vec::new();
    if !found.unweighed.is_empty() {
        out.push(format!(
            "Not weighed, or raw without a length: {}. Such a shaft is not paired by mass; weigh it, or \
             build it from what is left.",
            row(found.unweighed.iter().map(String::as_str))
        ));
    }
    let weighed: Vec<String> = found
        .spare
        .iter()
        .filter(|(.., weighed)| !weighed)
        .map(|(kind, name, _)| format!("{} {name}", part_word(*kind)))
        .collect();
    if !weighed.is_empty() {
        out.push(format!(
            "Not weighed: {}. A part without a mass is given to no arrow.",
            row(weighed.iter().map(String::as_str))
        ));
    }
    let blind = found.arrows.iter().filter(|a| a.stiff.is_none() && a.high.is_none());
    let blind: Vec<&str> = blind.map(|arrow| arrow.shaft.name.as_str()).collect();
    if !blind.is_empty() {
        out.push(format!(
            "Neither stiff side nor high side was read of {}: where its nock goes is not known.",
            row(blind)
        ));
    }
    out
}

/// How good the pairing is, and whether anybody would see each step.
fn seen(found: &Building) -> Vec<String> {
    let (came, paired, up, set) = (
        taken(found, BuildStep::AsTheyCome),
        taken(found, BuildStep::Paired),
        taken(found, BuildStep::StiffUp),
        taken(found, BuildStep::NocksSet),
    );
    let off = found.off;
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let best = if found.best {
        "No other pairing is nearer to mass and balance wanted: this is the best there is."
            .to_owned()
    } else {
        let most = grown(off.0, sigma) / grown(off.1, sigma);
        let most = if most < 1.0005 { "even 0.1 %".to_owned() } else { growth(most) };
        format!("The pairing was searched; no other could make your group smaller by {most}.")
    };
    let worse = |from: f64, to: f64| {
        if to > from * (1.0 + 1e-4) { "It makes the group larger: leave it." } else { "" }
    };
    let step = |name: &str, from: f64, to: f64| {
        let (small, large) = if from < to { (from, to) } else { (to, from) };
        format!("{name}: {} {}", would_see(small, large), worse(from, to)).trim().to_owned()
    };
    vec![
        best,
        step("Pairing", came, paired),
        step("Stiff sides up", paired, up),
        step("Nocks set as listed", paired, set),
    ]
}

fn jig(found: &Building, style: Style) -> String {
    let Some(vanes) = found.setup.parts.vanes else {
        return "The scenario's arrow has no vanes: nothing to set.".to_owned();
    };
    let degrees =
        |si: f64| show::significant(Dimension::Angle.unit("deg").map_or(si, |u| u.of_si(si)));
    let way = match vanes.angle.si() {
        angle if angle > 1e-4 => "turning the arrow clockwise, seen from behind",
        angle if angle < -1e-4 => "turning the arrow counterclockwise, seen from behind",
        _ => "straight",
    };
    format!(
        "{} vanes, {} deg apart, the first at twelve with the nock in the jig; {} deg to the shaft, {way}; \
         rear of the vane {} ahead of the bottom of the groove. Roll the shaft in the nock until its mark \
         stands at the hour listed, then glue.",
        vanes.count,
        degrees(TAU / f64::from(vanes.count)),
        degrees(vanes.angle.si().abs()),
        Role::Part.text(vanes.position.si(), style)
    )
}

/// A clock position in hours and minutes, as a technician says it.
fn hour(clock: f64) -> String {
    let minutes = (clock.rem_euclid(TAU) / TAU * 720.0).round() % 720.0;
    let (hours, minutes) = ((minutes / 60.0).floor(), minutes % 60.0);
    let hours = if hours < 1.0 { 12.0 } else { hours };
    format!("{hours:.0}:{minutes:02.0}")
}

fn arrows(found: &Building) -> Table {
    let kinds: Vec<PartKind> = PART_KINDS
        .into_iter()
        .filter(|kind| found.arrows.iter().any(|a| a.parts.iter().any(|p| p.kind == *kind)))
        .collect();
    let part = |arrow: &PlannedArrow, kind: PartKind| {
        arrow.parts.iter().find(|p| p.kind == kind).map_or(String::new(), |p| p.name.clone())
    };
    let clock =
        |clock: Option<units::Angle>| clock.map_or(Cell::None(""), |c| Cell::Word(hour(c.si())));
    table_of("arrows", &found.arrows)
        .words("shaft", |arrow| &arrow.shaft.name)
        .each(kinds, |table, kind| table.words(part_word(kind), move |arrow| part(arrow, kind)))
        .quantity("mass", Role::Mass, |arrow| arrow.mass)
        .quantity("FOC", Role::Percent, |arrow| arrow.foc)
        .words("stiff side at", |arrow| clock(arrow.stiff))
        .words("high side at", |arrow| clock(arrow.high))
        .quantity("rolled", Role::Angle, |arrow| arrow.roll.si())
        .filed()
        .quantity("left", Role::Impact, |arrow| arrow.place.left)
        .filed()
        .quantity("up", Role::Impact, |arrow| arrow.place.up)
        .filed()
        .quantity("unknown", Role::Impact, |arrow| arrow.place.blur)
        .filed()
        .done()
}

fn steps(found: &Building) -> Table {
    table_of("steps", &found.steps)
        .words("step", |taken: &&StepTaken| step_word(taken.step))
        .cells("spread", Kind::Bandeds(Role::Impact), |taken| {
            Cell::Banded(Role::Impact, taken.spread)
        })
        .quantity("growth", Role::Percent, |taken| grows(taken.growth))
        .done()
}

fn spin(found: &Building) -> Table {
    table_of("spin", &found.spin)
        .words("wobble of", |limit| wobble_word(limit.of))
        .banded("group grows at", Role::Gauge, |limit| limit.total)
        .done()
}

/// What passes: never what is crooked, however wide the group.
fn spin_words(found: &Building, style: Style) -> String {
    let crooked = Role::Gauge.text(CROOKED, style);
    let low = |limit: &SpinLimit| limit.total.map_or(f64::INFINITY, |total| total.low);
    let limit = |limit: &SpinLimit| {
        let low = low(limit);
        let text = if low < CROOKED { Role::Gauge.text(low, style) } else { crooked.clone() };
        format!("{} {text}", wobble_word(limit.of))
    };
    let limits: Vec<String> = found.spin.iter().map(limit).collect();
    let wide = if found.spin.iter().all(|limit| low(limit) >= CROOKED) {
        " This archer would see neither; beyond it a part is crooked or cracked, and comes off."
    } else {
        ""
    };
    format!("Passes up to: {}.{wide}", row(limits.iter().map(String::as_str)))
}

fn wobble_word(of: Trait) -> &'static str {
    if of == Trait::Tip { "the tip" } else { "the nock" }
}

fn spun(found: &Building) -> Table {
    table_of("spun", &found.spun)
        .words("arrow", |spun| spun.name.as_str())
        .words("wobble of", |spun| wobble_word(spun.of))
        .quantity("reads", Role::Gauge, |spun| spun.total)
        .words("passes", |spun| match spun.passes {
            Some(true) => "yes",
            Some(false) => "no",
            None => "open",
        })
        .done()
}

fn spare(found: &Building) -> Table {
    table_of("spare", &found.spare)
        .words("part", |(kind, ..)| part_word(*kind))
        .words("name", |(_, name, _)| name.as_str())
        .words("weighed", |(.., weighed)| if *weighed { "yes" } else { "no" })
        .done()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_hours_as_a_clock_shows_them() {
        for (turn, text) in
            [(0.0, "12:00"), (0.25, "3:00"), (0.5417, "6:30"), (0.99999, "12:00"), (-0.25, "9:00")]
        {
            assert_eq!(hour(TAU * turn), text);
        }
    }
}
