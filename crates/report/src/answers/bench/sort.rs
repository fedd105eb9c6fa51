//! Sets of a batch.

use study::Band;
use study::workbench::{ChosenSet, Sorting};
use units::{Role, Style};
use workbench::Set;

use super::super::unknown::{self, Asked};
use super::story::Story;
use super::words::{form, grows, growth, last, row, trait_word};
use crate::document::{Cell, Kind, Part, Table, facts, head, say, table_of};
use crate::plots::workbench::strip;
use crate::show;

pub(super) fn story(found: &Sorting, style: Style) -> Story {
    let at = last(&found.distances, style);
    let mut parts = vec![head("The sets"), Part::Table(sets(found))];
    parts.push(say(format!(
        "Spread: how far the arrows of a set hit from their own centre at {at}, root mean square, \
         shot by a machine. Growth: how much larger they \
         make the archer's group, whose standard deviation is {} in each direction.",
        Role::Impact.text(found.form.last().copied().unwrap_or(0.0), style)
    )));
    for set in &found.sets {
        parts.push(say(format!("{}: {}.", set.name, names(found, &set.set.members))));
        if let Some(weighed) = &set.by_weight {
            parts.push(say(format!(
                "{}, by weight alone: {}.",
                set.name,
                names(found, &weighed.members)
            )));
        }
    }
    if !found.left_over.is_empty() {
        parts.push(say(format!("In no set: {}.", names(found, &found.left_over))));
    }
    parts.push(Part::Figure(strip(found, style)));
    parts.push(head("Fliers"));
    parts.push(say(fliers(found, style)));
    parts.push(head("Every arrow"));
    parts.push(Part::Table(arrows(found, found.distances.len() - 1)));
    parts.push(say(format!(
        "Left and up from where the faultless arrow hits at {at}. Unknown: how far a fault whose \
         clock position was not noted may carry it, in no known direction. Moved most by: what, \
         set to the batch's own mean or taken away, moves the impact most, and by how much."
    )));
    if found.sets.len() > 1 {
        parts.push(say(if found.together {
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
    parts.extend(not_known(found));
    parts.extend(data(found).into_iter().map(Part::Data));
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
    }
}

fn names(found: &Sorting, members: &[usize]) -> String {
    row(members.iter().map(|&at| found.arrows[at].measured.name.as_str()))
}

/// The spread of the first set.
fn first_spread(found: &Sorting) -> Option<f64> {
    Some(found.sets.first()?.set.spread)
}

/// How much wider the first set would be, sorted by weight alone.
fn weighed_apart(found: &Sorting) -> Option<f64> {
    let first = found.sets.first()?;
    Some(first.by_weight.as_ref()?.spread - first.set.spread)
}

/// Whether the first set is tighter than by weight alone.
fn tighter(found: &Sorting) -> bool {
    weighed_apart(found).is_some_and(|apart| apart > 0.0)
}

fn headline(found: &Sorting, style: Style) -> String {
    let at = last(&found.distances, style);
    let joint = found.unknown.as_deref();
    let spread = |si: f64, read: &dyn Fn(&Sorting) -> Option<f64>| {
        unknown::figure(Role::Impact, si, joint.and_then(|joint| joint.band(si, read)), style)
    };
    let Some(first) = found.sets.first() else { return String::new() };
    let weighed = first.by_weight.as_ref().map_or_else(String::new, |set| {
        let stands = joint.and_then(|joint| joint.standing(tighter));
        format!(
            " As many sorted by weight alone: {}, {}.{}",
            spread(set.spread, &|of| Some(of.sets.first()?.by_weight.as_ref()?.spread)),
            ratio(set.spread, first.set.spread),
            if tighter(found) { unknown::stands(stands, None) } else { String::new() },
        )
    });
    let grown = grows(first.growth);
    let band = joint.and_then(|of| of.band(grown, |of| Some(grows(of.sets.first()?.growth))));
    format!(
        "The best {} of {} arrows for {} hit within {} of their centre at {at} (root mean square); \
         all together, {}.{weighed} Beside the archer's own spread, the set makes the group grow by \
         {}.",
        first.set.members.len(),
        found.arrows.len(),
        first.name,
        spread(first.set.spread, &first_spread),
        spread(found.whole.spread, &|of| Some(of.whole.spread)),
        grown_by(first.growth, band)
    )
}

/// A growth in words, with its band.
fn grown_by(over: f64, band: Option<Band>) -> String {
    let of = |share: f64| growth(1.0 + share);
    match band.map(|band| [of(band.low), of(band.high)]) {
        Some([low, high]) if low != high => {
            format!("{} ({low} to {high} for what is not known)", growth(over))
        }
        _ => growth(over),
    }
}

/// What is not known of the first set.
fn not_known(found: &Sorting) -> Vec<Part> {
    let Some(first) = found.sets.first() else { return Vec::new() };
    let what = format!("how far {} spreads", first.name);
    let mut asked = vec![Asked { what, read: &first_spread, verdict: &tighter }];
    if first.by_weight.is_some() {
        let what = format!("whether {} is tighter than by weight alone", first.name);
        asked.push(Asked { what, read: &weighed_apart, verdict: &tighter });
    }
    unknown::section(found.unknown.as_deref(), &asked)
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

fn sets(found: &Sorting) -> Table {
    let role = Role::Impact;
    let sets = found.sets.iter().map(Some).chain([None]);
    let weighed = |set: &ChosenSet| match &set.by_weight {
        Some(other) => Cell::Quantity(role, other.spread),
        None => Cell::None("not weighed"),
    };
    table_of("spreads", sets)
        .words("set", |set| set.map_or("all arrows", |set| set.name.as_str()))
        .counts("arrows", "", |set| {
            set.map_or(found.arrows.len(), |set| set.set.members.len()) as u64
        })
        .quantity("spread", role, |set| set.map_or(found.whole.spread, |set| set.set.spread))
        .cells("by weight alone", Kind::Quantities(role), |set| set.map_or(Cell::None(""), weighed))
        .quantity("growth", Role::Percent, |set| set.map(|set| grows(set.growth)))
        .quantity("group over group", Role::Number, |set| set.map(|set| set.growth))
        .filed()
        .done()
}

/// Every arrow as it hits at one distance.
fn arrows(found: &Sorting, at: usize) -> Table {
    table_of("arrows", &found.arrows)
        .words("arrow", |arrow| &arrow.measured.name)
        .words("set", |arrow| arrow.set.map_or("none", |set| found.sets[set].name.as_str()))
        .quantity("left", Role::Impact, |arrow| arrow.places[at].left)
        .quantity("up", Role::Impact, |arrow| arrow.places[at].up)
        .quantity("unknown", Role::Impact, |arrow| arrow.places[at].blur)
        .words("moved most by", |arrow| {
            arrow.causes.first().map_or("nothing", |(of, _)| trait_word(*of))
        })
        .quantity("by", Role::Impact, |arrow| arrow.causes.first().map(|(_, size)| *size))
        .done()
        .at("distance", Role::Range, found.distances[at].si())
}

/// Every set as it was chosen, and as weight alone would have it.
fn chosen(found: &Sorting) -> impl Iterator<Item = (&ChosenSet, &'static str, &Set)> {
    found.sets.iter().flat_map(|set| {
        let weighed = set.by_weight.as_ref().map(|other| (set, "weight", other));
        std::iter::once((set, "impact", &set.set)).chain(weighed)
    })
}

/// The tables that only files hold.
fn data(found: &Sorting) -> Vec<Table> {
    let name = |at: usize| found.arrows[at].measured.name.as_str();
    let members =
        chosen(found).flat_map(|(set, by, of)| of.members.iter().map(move |m| (set, by, *m)));
    let sets = table_of("sets", members)
        .words("set", |(set, ..)| &set.name)
        .words("chosen by", |(_, by, _)| *by)
        .words("arrow", |(.., at)| name(*at));
    let centres = table_of("centres", chosen(found))
        .words("set", |(set, ..)| &set.name)
        .words("chosen by", |(_, by, _)| *by)
        .quantity("left", Role::Impact, |(.., of)| of.centre[0])
        .quantity("up", Role::Impact, |(.., of)| of.centre[1])
        .quantity("spread", Role::Impact, |(.., of)| of.spread);
    let causes = found.arrows.iter().flat_map(|arrow| arrow.causes.iter().map(move |c| (arrow, c)));
    let causes = table_of("causes", causes)
        .words("arrow", |(arrow, _)| &arrow.measured.name)
        .words("of", |(_, (of, _))| trait_word(*of))
        .quantity("moves", Role::Impact, |(_, (_, size))| *size);
    let fliers = table_of("fliers", &found.fliers)
        .words("arrow", |flier| name(flier.arrow))
        .quantity("away", Role::Impact, |flier| flier.away)
        .quantity("limit", Role::Impact, |flier| flier.limit)
        .words("cause", |flier| flier.cause.map_or("unknown", trait_word));
    let impact = |si| Cell::Quantity(Role::Impact, si);
    let whole = [
        ("chosen together", Cell::from(if found.together { "yes" } else { "no" })),
        ("spread of all arrows", impact(found.whole.spread)),
        ("common spread of the sets", impact(found.spread.0)),
        ("least possible", impact(found.spread.1)),
    ];
    let nearer = (0..found.distances.len() - 1).map(|at| arrows(found, at));
    nearer
        .chain([
            sets.done(),
            centres.done(),
            causes.done(),
            fliers.done(),
            form(&found.distances, &found.form),
            facts("whole", ["of the batch", "value"], whole),
        ])
        .collect()
}
