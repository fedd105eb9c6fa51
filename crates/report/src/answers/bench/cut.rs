//! The cut list.

use study::Word;
use study::workbench::{BatchWay, CutShaft, Cutting, LeftOut, Read, Way, WayKind};
use units::{Role, Style};
use workbench::WorkbenchError;

use super::cut_list::{at_the_saw, briefly, list, reads, saw};
use super::story::Story;
use super::unseen::unseen;
use super::words::{ROWS, form, grown, grows, growth, last, row, way_word, would_see};
use crate::answers::evidence::Number;
use crate::answers::unknown::stands;
use crate::document::{Cell, Part, Table, facts, head, say, table_of};
use crate::plots::workbench::profile;
use crate::safety::{CautionText, set_aside};
use crate::show;

/// The ring of the list, for what a measurement narrows of it.
pub(super) fn numbers(found: &Cutting, style: Style) -> Vec<Number<Cutting>> {
    let ring = |of: &Cutting| Some(of.batch.first()?.ring.value);
    let what = format!("The ring of the cuts as listed at {}", last(&found.distances, style));
    let value = ring(found).map(|value| Number::new(what, (Role::Impact, value), ring));
    value.into_iter().collect()
}

pub(super) fn story(found: &Cutting, style: Style) -> Story {
    let mut parts = vec![head("At the saw"), Part::Table(list(found)), say(saw(found, style))];
    parts.push(head("What each way does"));
    parts.push(Part::Table(batch(found)));
    parts.push(say(format!(
        "Reads: total indicator reading in the middle of a 28 in span, carried over to it where the \
         piece is shorter, root mean square. Ring: how far the shafts throw the impact at {} as their nocks turn, \
         root mean square over the shafts and over all that they may be; it is what differs between \
         arrows with bends at unlike clock positions. Gain: what the listed cuts take off that ring. \
         Holds: in what share of all that is not known, of the bow and of the shafts, they gain. \
         Uncut is the whole shaft as if it were the arrow.",
        last(&found.distances, style)
    )));
    parts.extend(remarks(found, style).into_iter().map(say));
    parts.push(head("Each shaft"));
    parts.push(Part::Table(ways(found, style)));
    for shaft in found.shafts.iter().enumerate() {
        parts.push(Part::Figure(profile(shaft, style)));
    }
    parts.extend(data(found).into_iter().map(Part::Data));
    let headline = headline(found, style);
    let short = vec![
        say(verdict(found, style)),
        Part::Table(at_the_saw(found).at_most(ROWS)),
        say(briefly(found)),
    ];
    Story {
        headline,
        parts,
        short,
        sure: vec![
            "The axis is the likeliest among shafts as they are sold: a smooth body, and a hook at \
             each end. What lies between the readings is known by that alone, and the bands count it.",
            "A shaft that is not round where it rests moves the whole axis; dirt on a roller does \
             the same. Read the supports too: they should show nothing.",
            "What a bend does to the impact is computed with a rest and a string that are poorly \
             known. The readings themselves are not affected by that.",
        ],
        saws: true,
    }
}

fn gauge(si: f64, style: Style) -> String {
    Role::Gauge.text(si, style)
}

fn way(found: &Cutting, kind: WayKind) -> Option<&BatchWay> {
    found.batch.iter().find(|way| way.kind == kind)
}

pub(super) fn headline(found: &Cutting, style: Style) -> String {
    let Some(listed) = way(found, WayKind::Listed) else { return String::new() };
    let at = last(&found.distances, style);
    let ring = |way: &BatchWay| Role::Impact.text(way.ring.value, style);
    let who = who(found);
    let one_end = way(found, WayKind::FrontOnly).map_or_else(String::new, |front| {
        format!(", and {} with everything off the point end", ring(front))
    });
    let against = match way(found, WayKind::Halves) {
        Some(halves) => {
            let [gain, low, high] = show::alike(
                Role::Impact,
                [halves.gain.value, halves.gain.low, halves.gain.high],
                style,
            );
            format!(
                ", against {} with half off each end{one_end}. Over half off each end that gains \
                 {gain} ({low} to {high}) {}.{}{}",
                ring(halves),
                Role::Impact.symbol(style),
                stands("That the listed cuts are better", halves.standing, None),
                plain(halves)
            )
        }
        None => format!("{one_end}."),
    };
    format!(
        "{who}, cut as listed, throw{} a ring of {} at {at} as the nocks turn{against}{}",
        if found.shafts.len() == 1 { "s" } else { "" },
        ring(listed),
        seen(found, listed, style)
    )
}

/// The same in fewer words.
fn verdict(found: &Cutting, style: Style) -> String {
    let Some(listed) = way(found, WayKind::Listed) else { return String::new() };
    let ring = |way: &BatchWay| Role::Impact.text(way.ring.value, style);
    let (against, choice) = match way(found, WayKind::Halves) {
        Some(halves) => {
            (format!(", against {} with half off each end", ring(halves)), plain(halves))
        }
        None => (String::new(), ""),
    };
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let seen = way(found, WayKind::Halves).filter(|_| sigma > 0.0).map_or_else(String::new, |h| {
        format!(" {}", would_see(grown(listed.ring.value, sigma), grown(h.ring.value, sigma)))
    });
    format!(
        "{}, cut as listed, throw{} a ring of {} at {} as the nocks turn{against}.{choice}{seen}",
        who(found),
        if found.shafts.len() == 1 { "s" } else { "" },
        ring(listed),
        last(&found.distances, style)
    )
}

fn who(found: &Cutting) -> String {
    match found.shafts.as_slice() {
        [one] => format!("Shaft {}", one.shaft.name),
        many => format!("The {} shafts", many.len()),
    }
}

/// The plain choice, where what is known does not decide for the list.
fn plain(halves: &BatchWay) -> &'static str {
    match halves.standing.map(|standing| standing.word()) {
        Some(Word::Open | Word::Unlikely) => {
            " So half off each end does as well as far as is known: take it unless you saw by a list \
             anyway."
        }
        _ => "",
    }
}

/// Whether anyone would see it.
fn seen(found: &Cutting, listed: &BatchWay, style: Style) -> String {
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let Some(halves) = way(found, WayKind::Halves).filter(|_| sigma > 0.0) else {
        return String::new();
    };
    let [small, large] = [listed, halves].map(|way| grown(way.ring.value, sigma));
    format!(
        " {} This archer groups {} in each direction; half off each end makes that {} wider.",
        would_see(small, large),
        Role::Impact.text(sigma, style),
        growth((large / small).max(1.0))
    )
}

fn remarks(found: &Cutting, style: Style) -> Vec<String> {
    let mut out = unseen(found, style);
    for shaft in &found.shafts {
        let Read::Profile(axis) = &shaft.shaft.read else { continue };
        if axis.at_supports() > (3.0 * axis.noise()).max(5e-6) {
            out.push(format!(
                "Shaft {} reads {} off its axis on a support itself: it is not round there, or a \
                 roller is dirty.",
                shaft.shaft.name,
                gauge(axis.at_supports(), style)
            ));
        }
    }
    let dearer: Vec<&str> = found
        .shafts
        .iter()
        .filter(|shaft| {
            let ring = |kind| shaft.ways.iter().find(|w| w.kind == kind).map(|w| w.band.value);
            matches!((ring(WayKind::Listed), ring(WayKind::Closest)),
                (Some(listed), Some(closest)) if closest < 0.97 * listed)
        })
        .map(|shaft| shaft.shaft.name.as_str())
        .collect();
    if !dearer.is_empty() {
        out.push(format!(
            "On {} another cut is expected to hit closer, but it reads worse than a dial can \
             overlook; it stands in the table of each shaft as \"hits closest\".",
            row(dearer.into_iter())
        ));
    }
    out
}

fn batch(found: &Cutting) -> Table {
    let sigma = found.form.last().copied().unwrap_or(0.0);
    table_of("ways", &found.batch)
        .words("way", |way| way_word(way.kind))
        .quantity("reads", Role::Gauge, |way| way.reads)
        .banded("ring", Role::Impact, |way| way.ring)
        .banded("gain of the list", Role::Impact, |way| {
            (way.kind != WayKind::Listed).then_some(way.gain)
        })
        .quantity("holds", Role::Percent, |way| way.standing.map(|of| of.share))
        .over_all()
        .quantity("group grows by", Role::Percent, |way| {
            let ring = way.ring.value;
            (sigma > 0.0).then(|| grows(grown(ring, sigma)))
        })
        .done()
}

/// Every way of every shaft.
fn all_ways(found: &Cutting) -> impl Iterator<Item = (&CutShaft, &Way)> {
    found.shafts.iter().flat_map(|shaft| shaft.ways.iter().map(move |way| (shaft, way)))
}

fn ways(found: &Cutting, style: Style) -> Table {
    table_of("cuts", all_ways(found))
        .words("shaft and way", |(shaft, way)| {
            format!("{}: {}", shaft.shaft.name, way_word(way.kind))
        })
        .words("shaft", |(shaft, _)| &shaft.shaft.name)
        .filed()
        .words("way", |(_, way)| way_word(way.kind))
        .filed()
        .quantity("off nock end", Role::Part, |(_, way)| way.cut.rear)
        .quantity("off point end", Role::Part, |(_, way)| way.cut.front)
        .quantity("reads over 28 in", Role::Gauge, |(_, way)| reads(way))
        .quantity("standard error", Role::Gauge, |(_, way)| way.cut.straight.error)
        .over_all()
        .filed()
        .quantity("span", Role::Part, |(_, way)| way.cut.straight.span)
        .filed()
        .quantity("within tolerance", Role::Gauge, |(_, way)| way.cut.within)
        .filed()
        .quantity("worst", Role::Gauge, |(_, way)| way.cut.straight.worst)
        .each(found.distances.iter().enumerate(), |t, (at, distance)| {
            let head = format!("ring at {}", show::plain(Role::Range, distance.si(), style));
            t.quantity(head, Role::Impact, |(_, way)| way.ring[at]).filed()
        })
        .banded("ring", Role::Impact, |(_, way)| way.band)
        .done()
}

/// The tables that only files hold.
fn data(found: &Cutting) -> Vec<Table> {
    let stations = found.shafts.iter().flat_map(|shaft| {
        let stations = shaft.axis.stations().into_iter();
        stations.map(move |x| (shaft, x, shaft.axis.at(x)))
    });
    let axis = table_of("axis", stations)
        .words("shaft", |(shaft, ..)| &shaft.shaft.name)
        .quantity("station", Role::Part, |(_, x, _)| *x)
        .quantity("off at clock 0", Role::Gauge, |(.., off)| off.at0)
        .quantity("off at clock 90", Role::Gauge, |(.., off)| off.at90)
        .quantity("total reading", Role::Gauge, |(.., off)| 2.0 * off.size());
    let shafts = table_of("shafts", &found.shafts)
        .words("shaft", |shaft| &shaft.shaft.name)
        .quantity("stock", Role::Part, |shaft| shaft.axis.stock())
        .counts("readings", "numbers", |shaft| shaft.shaft.read.sightings().len() as u64)
        .quantity("uncut over 28 in", Role::Gauge, |shaft| shaft.plan.uncut.total)
        .quantity("span", Role::Part, |shaft| shaft.plan.uncut.span)
        .quantity("worst", Role::Gauge, |shaft| shaft.plan.uncut.worst);
    let part = |length: units::Length| Cell::Quantity(Role::Part, length.si());
    let gauge = |length: units::Length| Cell::Quantity(Role::Gauge, length.si());
    let asked = [
        ("length", part(found.job.wanted)),
        ("kerf", part(found.job.kerf)),
        ("tolerance", part(found.job.tolerance)),
        ("scale of the stop", gauge(found.stop)),
        ("reading of a body", gauge(found.population.body)),
        ("hook at the nock end", gauge(found.population.nock_hook)),
        ("hook at the point end", gauge(found.population.point_hook)),
    ];
    vec![
        axis.done(),
        shafts.done(),
        form(&found.distances, &found.form),
        facts("cut", ["asked", "value"], asked),
    ]
}

/// That shafts whose readings no sound one gives are set aside; none where there are none.
pub(super) fn unsound(found: &Cutting, style: Style) -> Option<CautionText> {
    let bent = |of: &LeftOut| match of.why {
        WorkbenchError::Unsound { reading, .. } => {
            Some(format!("{} (reads {})", of.name, Role::Gauge.text(reading, style)))
        }
        _ => None,
    };
    let all: Vec<String> = found.left_out.iter().filter_map(bent).collect();
    (!all.is_empty()).then(|| set_aside(&row(all.iter().map(String::as_str))))
}
