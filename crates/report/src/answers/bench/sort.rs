//! Sets of a batch.

use study::workbench::{ChosenSet, Sorting, Trait};
use units::{Role, Style};
use workbench::Set;

use super::story::Story;
use super::words::{form, grown, grows, growth, last, row, trait_word, would_see};
use crate::answers::evidence::Number;
use crate::document::{Cell, Kind, Part, Table, facts, head, note, say, table_of};
use crate::plots::workbench::strip;
use crate::show;

/// The spread of the first set, for what a measurement narrows of it.
pub(super) fn numbers(found: &Sorting, style: Style) -> Vec<Number<Sorting>> {
    let at = last(&found.distances, style);
    let first = found.sets.first().map(|set| {
        let read = |of: &Sorting| Some(of.sets.first()?.band.value);
        let what = format!("The spread of {} at {at}", set.name);
        Number::new(what, (Role::Impact, set.band.value), read)
    });
    first.into_iter().collect()
}

pub(super) fn story(found: &Sorting, style: Style) -> Story {
    let at = last(&found.distances, style);
    let mut parts: Vec<Part> = doubts(found).into_iter().map(note).collect();
    parts.extend([head("The sets"), Part::Table(sets(found))]);
    parts.push(say(format!(
        "Spread: how far the arrows of a set hit from their own centre at {at}, root mean square, \
         shot by a machine, with its range over what is poorly known. Growth: how much larger they \
         make the archer's group, whose standard deviation is {} in each direction.",
        Role::Impact.text(found.form.last().copied().unwrap_or(0.0), style)
    )));
    for set in &found.sets {
        parts.push(say(format!("{}: {}.", set.name, names(found, &set.set.members))));
        if let Some((weighed, _)) = &set.by_weight {
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
    parts.extend(data(found).into_iter().map(Part::Data));
    Story {
        headline: headline(found, style),
        parts,
        short: Vec::new(),
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

fn headline(found: &Sorting, style: Style) -> String {
    let at = last(&found.distances, style);
    let spread = |si: f64| Role::Impact.text(si, style);
    let Some(first) = found.sets.first() else { return String::new() };
    let sigma = found.form.last().copied().unwrap_or(0.0);
    let whole = grown(found.whole.spread, sigma);
    let weighed = first.by_weight.as_ref().map_or_else(String::new, |(set, _)| {
        format!(
            " As many sorted by weight alone: {}, {}.",
            spread(set.spread),
            ratio(set.spread, first.set.spread)
        )
    });
    format!(
        "Keep together for {}: {}.{} Need you sort at all? Shot as they come, all {} make your group \
         at {at} grow by {}; these {} by {}. {} From a machine they hit within {} of their centre \
         (root mean square), all together within {}.{weighed}",
        first.name,
        names(found, &first.set.members),
        others(found),
        found.arrows.len(),
        growth(whole),
        first.set.members.len(),
        growth(first.growth),
        would_see(first.growth, whole),
        spread(first.set.spread),
        spread(found.whole.spread)
    )
}

/// The members of the sets behind the first.
fn others(found: &Sorting) -> String {
    let one = |set: &ChosenSet| format!(" For {}: {}.", set.name, names(found, &set.set.members));
    found.sets.iter().skip(1).map(one).collect()
}

/// What of the notebook is in doubt: blanks, bare shafts.
fn doubts(found: &Sorting) -> Vec<String> {
    let mut out = Vec::new();
    let mut blanks: Vec<(&[Trait], Vec<&str>)> = Vec::new();
    for arrow in found.arrows.iter().filter(|arrow| !arrow.blanks.is_empty()) {
        let name = arrow.measured.name.as_str();
        match blanks.iter_mut().find(|(of, _)| *of == arrow.blanks.as_slice()) {
            Some((_, names)) => names.push(name),
            None => blanks.push((&arrow.blanks, vec![name])),
        }
    }
    for (of, names) in blanks {
        out.push(format!(
            "Not read, though others were: {} of {}. A blank is a blank: it stands at the mean of the \
             others with their scatter as a blur, so nothing is gained or lost by it, and it is named \
             as no cause.",
            row(of.iter().map(|of| trait_word(*of))),
            row(names.iter().copied())
        ));
    }
    let bare = found.arrows.iter().filter(|arrow| !arrow.measured.stage.finished());
    let bare: Vec<&str> = bare.map(|arrow| arrow.measured.name.as_str()).collect();
    if !bare.is_empty() {
        out.push(format!(
            "Bare shafts: {}. Their mass is that of the shaft alone, spread over the length that was \
             weighed; a raw one without a length says nothing by its mass. Balance and wobble are read \
             of finished arrows only.",
            row(bare.iter().copied())
        ));
    }
    out
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
    let spread = |set: &ChosenSet| Cell::Banded(role, set.band);
    let weighed = |set: &ChosenSet| match set.by_weight {
        Some((_, band)) => Cell::Banded(role, band),
        None => Cell::None("not weighed"),
    };
    table_of("spreads", sets)
        .words("set", |set| set.map_or("all arrows", |set| set.name.as_str()))
        .counts("arrows", "", |set| {
            set.map_or(found.arrows.len(), |set| set.set.members.len()) as u64
        })
        .cells("spread", Kind::Bandeds(role), |set| {
            set.map_or(Cell::Quantity(role, found.whole.spread), spread)
        })
        .cells("by weight alone", Kind::Bandeds(role), |set| set.map_or(Cell::None(""), weighed))
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
        .words("not read", |arrow| row(arrow.blanks.iter().map(|of| trait_word(*of))))
        .filed()
        .done()
        .at("distance", Role::Range, found.distances[at].si())
}

/// Every set as it was chosen, and as weight alone would have it.
fn chosen(found: &Sorting) -> impl Iterator<Item = (&ChosenSet, &'static str, &Set)> {
    found.sets.iter().flat_map(|set| {
        let weighed = set.by_weight.as_ref().map(|(other, _)| (set, "weight", other));
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
