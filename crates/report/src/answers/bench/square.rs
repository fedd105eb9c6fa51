//! End faces.

use study::Banded;
use study::workbench::{FaceCost, FaceVerdict, Flat, KEEP, Squareness};
use units::{Dimension, Role, Style};
use workbench::Span;

use super::story::Story;
use super::words::{
    ROWS, band, face_word, form, grows, growth, last, row, shape_word, where_word, would_see,
};
use crate::answers::evidence::Number;
use crate::document::{Cell, Kind, Part, Rows, Table, facts, head, say, table_of};
use crate::show;

/// How flat the first face must be, for what a measurement narrows of it.
pub(super) fn numbers(found: &Squareness, style: Style) -> Vec<Number<Squareness>> {
    let at = last(&found.distances, style);
    let first = found.flat.first().and_then(|flat| {
        let what = format!("How flat is flat enough at the {} for {at}", where_word(flat.at));
        let read = |of: &Squareness| Some(of.flat.first()?.angle?.value);
        Some(Number::new(what, (Role::Angle, flat.angle?.value), read))
    });
    first.into_iter().collect()
}

pub(super) fn story(found: &Squareness, style: Style) -> Story {
    let mut parts = Vec::new();
    if !found.costs.is_empty() {
        parts.push(head("What the gauges say, and what it costs"));
        parts.push(Part::Table(faces(found, style)));
        parts.push(say(
            "Do: an end up to 0.1 deg out of square stays as it is, one beyond 1 deg is more likely \
             crushed or cracked than sawn; both limits are chosen, and the page's gauge has the same. \
             The range of an angle is nine tenths of what the gauge leaves. A part follows its face only as far \
             as its fit lets it lean; beyond that it stands on the high side.",
        ));
        parts.push(say(format!(
            "At a distance: how far such a face moves an impact, root mean square over its clock positions, with \
             the range that gauge, bow and air leave. Growth: the archer's group at {} if every arrow had such a face, \
             each at its own clock position.",
            last(&found.distances, style)
        )));
    }
    parts.push(head("How flat is flat enough"));
    parts.push(Part::Table(enough(found)));
    parts.push(say(format!(
        "The angle at which the archer's group at {} grows by {}, over the stated ranges of what is \
         poorly known. Where the part can lean no further than its fit, only the growth at that \
         limit can come about. Points other than your own are as heavy as it; the fixed-blade head \
         is a common one.",
        last(&found.distances, style),
        show::share(found.share)
    )));
    parts.push(Part::Data(form(&found.distances, &found.form)));
    let share = ("share", Cell::Quantity(Role::Percent, found.share));
    parts.push(Part::Data(facts("square", ["asked", "value"], [share])));
    let headline = headline(found, style);
    let mut short = vec![say(headline.clone())];
    if !found.costs.is_empty() {
        short.push(Part::Table(verdicts(found)));
    }
    Story {
        headline,
        parts,
        short,
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

/// Whether the same face was read again later, which is what counts.
fn again(found: &Squareness, cost: &FaceCost) -> bool {
    let at = found.costs.iter().position(|other| std::ptr::eq(other, cost)).unwrap_or_default();
    let (name, place) = (&cost.reading.name, cost.reading.at);
    found.costs[at + 1..].iter().any(|o| o.reading.name == *name && o.reading.at == place)
}

/// Which ends to work on, first of all.
fn todo(found: &Squareness, style: Style) -> String {
    let latest: Vec<&FaceCost> = found.costs.iter().filter(|cost| !again(found, cost)).collect();
    let of = |wanted: FaceVerdict| -> Vec<String> {
        let all = latest.iter().filter(|cost| cost.verdict == Some(wanted));
        all.map(|c| format!("the {} of {}", where_word(c.reading.at), c.reading.name)).collect()
    };
    let (reject, square) = (of(FaceVerdict::Reject), of(FaceVerdict::Square));
    let list = |names: &[String]| row(names.iter().map(String::as_str));
    let limit = rim(found.across.si() * KEEP.si().tan(), style);
    let mut said = Vec::new();
    if !reject.is_empty() {
        said.push(format!("Reject {}; look for a crushed or cracked end. ", list(&reject)));
    }
    let worst = worst(&latest);
    let stand = if square.len() == 1 { "it stands" } else { "they stand" };
    match square.as_slice() {
        [] if reject.is_empty() && !latest.is_empty() => said
            .push(format!("Nothing to square: every end is within {limit} at the rim (0.1 deg). ")),
        [] => {}
        some if noticed(worst) => said.push(format!(
            "Square {}: {stand} more than {limit} out at the rim (0.1 deg), and were all arrows \
             like the worst here it would show. {} ",
            list(some),
            would_see(1.0, worst)
        )),
        some => said.push(format!(
            "Not worth squaring for the group: {}. {} more than {limit} out at the rim (0.1 deg), \
             but were all arrows like the worst here, nobody would see a difference. Square them \
             only where a part sits crooked or you hold to that limit. ",
            list(some),
            if square.len() == 1 { "It stands" } else { "They stand" },
        )),
    }
    said.concat()
}

/// How the archer's group grows by the worst of some faces.
fn worst(of: &[&FaceCost]) -> f64 {
    of.iter().map(|cost| cost.growth).fold(1.0, f64::max)
}

/// Whether this archer would see a group so much larger than with faultless arrows.
fn noticed(growth: f64) -> bool {
    would_see(1.0, growth).starts_with("This archer would see")
}

fn headline(found: &Squareness, style: Style) -> String {
    todo(found, style) + &enough_said(found, style)
}

fn enough_said(found: &Squareness, style: Style) -> String {
    let at = last(&found.distances, style);
    let own: Vec<&Flat> = found.flat.iter().filter(|flat| flat.own).collect();
    if own.iter().all(|flat| flat.angle.is_none()) {
        return format!(
            "At {at} this scenario's archer has no spread of their own, so there is no group to \
             hold a face against; what each face costs stands below."
        );
    }
    let share = show::share(found.share);
    let cannot = |flat: &&Flat| {
        let angle = flat.angle.as_ref()?;
        let (limit, grown) = (flat.limit?, flat.at_limit?);
        (limit < angle.value).then_some((limit, grown))
    };
    let fits: Vec<(f64, f64)> = own.iter().filter_map(cannot).collect();
    if fits.len() == own.len() {
        let ends = |of: &dyn Fn(&(f64, f64)) -> f64| {
            let all = || fits.iter().map(of);
            (all().fold(f64::INFINITY, f64::min), all().fold(0.0, f64::max))
        };
        let (least, most) = ends(&|fit| fit.0);
        let step = |angle: f64| rim(found.across.si() * angle.tan(), style);
        let (least, most) = (step(least), step(most));
        let range = if least == most {
            most
        } else {
            format!("{} to {most}", least.split(' ').next().unwrap_or_default())
        };
        return format!(
            "However its faces are cut, this arrow cannot make the group at {at} grow by {share}: a \
             part is held by its fit in the shaft and leans no more than {range} across its face, \
             which makes the group larger by {}.",
            growth(ends(&|fit| fit.1).1)
        );
    }
    let mut text = format!("With your point, for the group at {at} to grow by {share}:");
    let one = |flat: &&Flat| {
        let angle = flat.angle.as_ref()?;
        let name = where_word(flat.at);
        Some(match cannot(flat) {
            Some((limit, grown)) => format!(
                " the {name} cannot, since the fit lets its part lean only {} across its face, {} \
                 deg (growth {})",
                rim(found.across.si() * limit.tan(), style),
                show::figures(limit.to_degrees(), 2),
                growth(grown)
            ),
            None => format!(
                " the {name} must be {} out of square at the rim ({} deg)",
                rim(found.across.si() * angle.value.tan(), style),
                show::figures(angle.value.to_degrees(), 2)
            ),
        })
    };
    let list: Vec<String> = own.iter().filter_map(one).collect();
    text.push_str(&list.join(";"));
    text + "."
}

/// A step at the rim of a face, as a technician reads it.
fn rim(si: f64, style: Style) -> String {
    let unit = match style {
        Style::Archery => "thou",
        Style::Metric => "mm",
    };
    let of = Dimension::Length.unit(unit).map_or(si, |unit| unit.of_si(si));
    format!("{} {unit}", show::figures(of, 2))
}

/// How far a part may lean in its fit.
fn limit(of: Option<f64>) -> Cell {
    of.map_or(Cell::None("none"), |limit| Cell::Quantity(Role::Angle, limit))
}

/// What the angle of a face makes at its rim.
fn at_the_rim(found: &Squareness, angle: &Span) -> Banded {
    let step = |angle: f64| found.across.si() * angle.tan();
    Banded { value: step(angle.value), low: step(angle.low), high: step(angle.high) }
}

/// Every face with its verdict and what was read; more columns may follow.
fn judged(found: &Squareness) -> Rows<&FaceCost> {
    let all: Vec<&FaceCost> = found.costs.iter().filter(|cost| !again(found, cost)).collect();
    let seen = noticed(worst(&all));
    table_of("faces", &found.costs)
        .words("arrow", |cost| &cost.reading.name)
        .words("where", |cost| where_word(cost.reading.at))
        .words("stage", |cost| &cost.reading.stage)
        .words("do", move |cost| match cost.verdict {
            Some(_) if again(found, cost) => "read again",
            Some(FaceVerdict::Square) if !seen => "may stay",
            verdict => verdict.map_or("", face_word),
        })
        .banded("at the rim", Role::Rim, |cost| at_the_rim(found, &cost.angle))
        .banded("angle", Role::Angle, |cost| band(&cost.angle))
        .decimals(2)
}

/// The faces for the short answer.
fn verdicts(found: &Squareness) -> Table {
    judged(found)
        .quantity("group grows by", Role::Percent, |cost| grows(cost.growth))
        .done()
        .at_most(ROWS)
}

fn faces(found: &Squareness, style: Style) -> Table {
    judged(found)
        .cells("fit's limit", Kind::Quantities(Role::Angle), |cost| limit(cost.limit))
        .decimals(2)
        .each(found.distances.iter().enumerate(), |t, (at, distance)| {
            let head = format!("at {}", show::plain(Role::Range, distance.si(), style));
            t.banded(head, Role::Impact, |cost| band(&cost.shift[at]))
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
        .banded("enough", Role::Angle, |flat| flat.angle)
        .decimals(2)
        .cells("fit's limit", Kind::Quantities(Role::Angle), |flat| limit(flat.limit))
        .decimals(2)
        .quantity("growth at limit", Role::Percent, |flat| flat.at_limit.map(grows))
        .quantity("group over group at limit", Role::Number, |flat| flat.at_limit)
        .filed()
        .done()
}
