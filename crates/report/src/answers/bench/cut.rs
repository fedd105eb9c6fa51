//! The cut list.

use study::workbench::{CLAIM, CutShaft, Cutting, Way};
use units::{Role, Style};

use super::super::unknown::{self, Asked};
use super::story::Story;
use super::words::{form, grows, last, way_word};
use crate::document::{Cell, Part, Table, facts, head, say, table_of};
use crate::plots::workbench::profile;
use crate::show;

/// Economy shafts read about six thousandths of an inch, m; readings within a
/// factor of about one and a half count as that grade. Chosen.
const ECONOMY: std::ops::RangeInclusive<f64> = 1.0e-4..=2.3e-4;

/// An end not read over more than this is pointed out, m. Chosen: an inch.
const UNREAD: f64 = 0.0255;

pub(super) fn story(found: &Cutting, style: Style) -> Story {
    let mut parts = vec![head("Cut list"), Part::Table(list(found))];
    parts.push(say(format!(
        "Cut from each end, kerf of {} included, for a length of {}. Reads: total indicator reading \
         in the middle of a 28 in span, carried over to it where the piece is shorter, and twice \
         its standard error from the readings. Within: the most it reads with the stop wrong by {}.",
        Role::Part.text(found.job.kerf.si(), style),
        Role::Part.text(found.job.wanted.si(), style),
        Role::Part.text(found.job.tolerance.si(), style)
    )));
    for shaft in found.shafts.iter().enumerate() {
        parts.push(Part::Figure(profile(shaft, style)));
    }
    parts.push(head("Against the plain ways"));
    parts.push(Part::Table(ways(found, style)));
    parts.push(say(format!(
        "Worst: the most the piece reads anywhere on its span, ends included, as it lies. Ring: how \
         far the bend throws the impact at {} as the nock is turned, root mean square; it is what differs between arrows with bends at unlike clock positions. \
         Growth: the archer's group with such arrows. Closer in: the share of what is not known in \
         which that way throws the impact less than the straightest; below 95 % that is no reason to \
         cut crooked.",
        last(&found.distances, style)
    )));
    parts.extend(remarks(found, style).into_iter().map(say));
    parts.extend(not_known(found));
    parts.extend(data(found).into_iter().map(Part::Data));
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
    }
}

/// How far the shafts, cut as listed, throw the impact on average, m.
fn thrown(found: &Cutting) -> Option<f64> {
    mean(found.shafts.iter().filter_map(|shaft| shaft.ways.first()).map(Way::far))
}

/// What is not known of what the bend does; which cut is straightest rests on the
/// readings alone.
fn not_known(found: &Cutting) -> Vec<Part> {
    let what = "how far the bend throws the impact, cut as listed".to_owned();
    let asked = Asked { what, read: &thrown, verdict: &|_| true };
    unknown::section(found.unknown.as_deref(), &[asked])
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

fn list(found: &Cutting) -> Table {
    table_of("cut-list", &found.shafts)
        .words("shaft", |shaft| &shaft.name)
        .quantity("off nock end", Role::Part, |shaft| shaft.plan.best.rear)
        .quantity("off point end", Role::Part, |shaft| shaft.plan.best.front)
        .quantity("reads", Role::Gauge, |shaft| shaft.plan.best.straight.total)
        .quantity("give or take", Role::Gauge, |shaft| 2.0 * shaft.plan.best.straight.error)
        .quantity("within", Role::Gauge, |shaft| shaft.plan.best.within)
        .quantity("uncut", Role::Gauge, |shaft| shaft.plan.uncut.total)
        .done()
}

/// Every way of every shaft.
fn all_ways(found: &Cutting) -> impl Iterator<Item = (&CutShaft, &Way)> {
    found.shafts.iter().flat_map(|shaft| shaft.ways.iter().map(move |way| (shaft, way)))
}

fn ways(found: &Cutting, style: Style) -> Table {
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let growth = |way: &Way| {
        let ring = way.far();
        (sigma > 0.0).then(|| grows((1.0 + ring * ring / (2.0 * sigma * sigma)).sqrt()))
    };
    table_of("cuts", all_ways(found))
        .words("shaft and way", |(shaft, way)| format!("{}: {}", shaft.name, way_word(way.kind)))
        .words("shaft", |(shaft, _)| &shaft.name)
        .filed()
        .words("way", |(_, way)| way_word(way.kind))
        .filed()
        .quantity("off nock end", Role::Part, |(_, way)| way.cut.rear)
        .quantity("off point end", Role::Part, |(_, way)| way.cut.front)
        .quantity("reads over 28 in", Role::Gauge, |(_, way)| way.cut.straight.total)
        .quantity("standard error", Role::Gauge, |(_, way)| way.cut.straight.error)
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
        .quantity("ring", Role::Impact, |(_, way)| way.far())
        .quantity("growth", Role::Percent, |(_, way)| growth(way))
        .when(found.unknown.is_some(), |rows| {
            rows.quantity("closer in", Role::Percent, |(shaft, way)| {
                let at = found.shafts.iter().position(|of| of.name == shaft.name)?;
                let way = shaft.ways.iter().position(|of| of.kind == way.kind)?;
                Some(found.closer(at, way)?.share)
            })
            .over_all()
        })
        .done()
}

/// The tables that only files hold.
fn data(found: &Cutting) -> Vec<Table> {
    let stations = found.shafts.iter().flat_map(|shaft| {
        let stations = shaft.axis.stations().into_iter();
        stations.map(move |x| (shaft, x, shaft.axis.at(x)))
    });
    let axis = table_of("axis", stations)
        .words("shaft", |(shaft, ..)| &shaft.name)
        .quantity("station", Role::Part, |(_, x, _)| *x)
        .quantity("off at clock 0", Role::Gauge, |(.., off)| off.at0)
        .quantity("off at clock 90", Role::Gauge, |(.., off)| off.at90)
        .quantity("total reading", Role::Gauge, |(.., off)| 2.0 * off.size())
        .quantity("standard error", Role::Gauge, |(shaft, x, _)| shaft.axis.error_at(*x));
    let shafts = table_of("shafts", &found.shafts)
        .words("shaft", |shaft| &shaft.name)
        .quantity("stock", Role::Part, |shaft| shaft.axis.stock())
        .quantity("noise", Role::Gauge, |shaft| shaft.axis.noise())
        .words("one side", |shaft| if shaft.axis.one_side() { "yes" } else { "no" })
        .quantity("at supports", Role::Gauge, |shaft| shaft.axis.at_supports())
        .quantity("uncut over 28 in", Role::Gauge, |shaft| shaft.plan.uncut.total)
        .quantity("standard error", Role::Gauge, |shaft| shaft.plan.uncut.error)
        .quantity("span", Role::Part, |shaft| shaft.plan.uncut.span)
        .quantity("worst", Role::Gauge, |shaft| shaft.plan.uncut.worst);
    let part = |length: units::Length| Cell::Quantity(Role::Part, length.si());
    let asked = [
        ("length", part(found.job.wanted)),
        ("kerf", part(found.job.kerf)),
        ("tolerance", part(found.job.tolerance)),
    ];
    vec![
        axis.done(),
        shafts.done(),
        form(&found.distances, &found.form),
        facts("cut", ["asked", "value"], asked),
    ]
}
