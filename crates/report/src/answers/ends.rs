//! What the trade says of square ends (common practice, no source), and where
//! the computation agrees or not, with the numbers that decide it.

use study::{
    Band, Banded, Ends, EndsAlone, EndsOrder, EndsView, Finding, Found, Lever, Seen, Shots,
    SquareEnds, TradeClaim, Word,
};
use target::Estimate;
use units::{Role, Style};

use super::compare::{self, Case};
use super::unknown::{self, Asked};
use crate::ReportError;
use crate::document::{Cell, Document, Kind, Part, Table, facts, head, say, table_of};
use crate::show::{alike, form_share, holds, share};

/// The comparison with what the trade says of it.
///
/// # Errors
/// As for a comparison.
pub(super) fn ends(title: &str, found: &SquareEnds, case: Case) -> Result<Document, ReportError> {
    let mut parts = compare::body(case);
    if !found.trade.is_empty() {
        parts.push(head("What the trade says"));
        parts.push(say("Common practice, no source. Nothing here was assumed; each was computed."));
    }
    for claim in &found.trade {
        let (found_so, stands) = claim_stands(claim, case);
        parts.push(Part::Claim {
            claim: said(claim.claim).to_owned(),
            finding: finding(found_so).to_owned(),
            why: format!("{}{stands}", why(claim, found, case)),
        });
        if claim.claim == EndsView::FrontOutweighsNock {
            parts.push(Part::Table(levers_table(&found.ends)));
        }
    }
    parts.extend(compare::end(case));
    parts.extend([
        Part::Data(claims_table(&found.trade)),
        Part::Data(ends_table(&found.ends)),
        Part::Data(order_table(&found.orders)),
    ]);
    let lead = compare::lead(case);
    Document::new("ends", title, lead, parts, case.style)?.shortly(compare::short(case))
}

/// What the trade says.
fn said(claim: EndsView) -> &'static str {
    match claim {
        EndsView::LooksTrue => "A saw cut that looks true still shows on a gauge.",
        EndsView::FrontOutweighsNock => "Front-end errors weigh more than nock-end ones.",
        EndsView::FrontOutweighsNockBladed => {
            "The same, of this arrow with three fixed blades on a head of its mass."
        }
        EndsView::MachineNotShooter => "A machine would notice where a shooter would not.",
        EndsView::MachineNotShooterEndsAlone => {
            "The same, of arrows with no faults but those of their ends."
        }
    }
}

/// What the computation does with it.
fn finding(finding: Finding) -> &'static str {
    match finding {
        Finding::Agrees => "agrees",
        Finding::InDirection => "agrees in direction, not in degree",
        Finding::LikelyAgrees => "most likely agrees",
        Finding::Open => "leaves it open",
        Finding::LikelyDisagrees => "most likely disagrees",
        Finding::Disagrees => "disagrees",
    }
}

/// The same claim at an outer point.
fn same(claim: EndsView) -> impl Fn(&Found) -> Option<TradeClaim> {
    move |found| match found {
        Found::Ends(ends) => ends.trade.iter().find(|at| at.claim == claim).cloned(),
        _ => None,
    }
}

/// In what share of what is not known the computation says the same of a claim: its
/// finding, and a sentence. What is open is neither agreed with nor disagreed with.
fn claim_stands(claim: &TradeClaim, case: Case) -> (Finding, String) {
    let Some(joint) = case.unknown else { return (claim.finding, String::new()) };
    // Which end does more is told over its own draws.
    if matches!(claim.claim, EndsView::FrontOutweighsNock | EndsView::FrontOutweighsNockBladed) {
        return (claim.finding, String::new());
    }
    let at = same(claim.claim);
    // The two numbers decide every claim: by how much one outweighs the other.
    let read = |found: &Found| {
        let (first, second) = at(found)?.numbers;
        (first > 0.0 && second > 0.0).then(|| (first / second).ln())
    };
    let verdict = |found: &Found| at(found).is_some_and(|at| at.finding == claim.finding);
    let asked = Asked { what: String::new(), read: &read, verdict: &verdict };
    let standing = joint.standing(verdict);
    let open = standing.is_some_and(|of| matches!(of.word(), Word::Open | Word::Unlikely));
    let what = match claim.finding {
        Finding::Agrees => "That the trade is right",
        Finding::InDirection => "That the trade is right in direction alone",
        Finding::Open => "That it stays open",
        Finding::LikelyAgrees => "That the trade is most likely right",
        Finding::LikelyDisagrees => "That the trade is most likely wrong",
        Finding::Disagrees => "That the trade is wrong",
    };
    let told = unknown::stands(what, standing, unknown::decider(joint, &asked));
    (if open { Finding::Open } else { claim.finding }, told)
}

/// The bands of the two numbers that decide a claim.
fn claim_bands(claim: &TradeClaim, case: Case) -> [Option<Band>; 2] {
    let Some(joint) = case.unknown else { return [None; 2] };
    let at = same(claim.claim);
    // More shots than were looked for have no end.
    let endless = |of: f64| {
        let shots = matches!(
            claim.claim,
            EndsView::MachineNotShooter | EndsView::MachineNotShooterEndsAlone
        );
        if shots && of >= f64::from(study::MOST_SHOTS) { f64::INFINITY } else { of }
    };
    let first = joint.band(endless(claim.numbers.0), |of| Some(endless(at(of)?.numbers.0)));
    let second = joint.band(endless(claim.numbers.1), |of| Some(endless(at(of)?.numbers.1)));
    [first, second]
}

fn why(claim: &TradeClaim, found: &SquareEnds, case: Case) -> String {
    let ((first, second), style) = (claim.numbers, case.style);
    let order = |bladed: bool| {
        let order = found.orders.iter().find(|order| order.bladed == bladed);
        order.map_or_else(String::new, |order| order_told(order, case))
    };
    match claim.claim {
        EndsView::LooksTrue => looks_true(first, second, style),
        EndsView::FrontOutweighsNock => {
            format!("{} {LEVERS}", order(false).trim_end())
        }
        EndsView::FrontOutweighsNockBladed => order(true),
        EndsView::MachineNotShooter => machine(case, claim_bands(claim, case)),
        EndsView::MachineNotShooterEndsAlone => {
            ends_alone(&found.ends, case, claim_bands(claim, case))
        }
    }
}

/// What each end does with its range, and in how much of that the front leads.
fn order_told(order: &EndsOrder, case: Case) -> String {
    let style = case.style;
    let end = |end: &Banded| {
        let [value, low, high] = alike(Role::Impact, [end.value, end.low, end.high], style);
        format!("{value} {} ({low} to {high})", Role::Impact.symbol(style))
    };
    let leads = order.front_larger.map_or_else(String::new, |share_of| {
        format!(" The front end's is the larger in {} of it.", share(share_of))
    });
    format!(
        "From a machine at {}, with the front end alone at fault half of the arrows land within {}, with the nock \
         end alone within {}: in \
         brackets 5 to 95 % of what is poorly known of rest, string and bow, of fits and of \
         air.{leads}",
        farthest(case),
        end(&order.front),
        end(&order.nock),
    )
}

fn looks_true(run_out: f64, step: f64, style: Style) -> String {
    let gauge = |length| Role::Gauge.text(length, style);
    let verdict = if run_out < step {
        format!("which is not above its smallest step of {}", gauge(step))
    } else if run_out > study::EYE {
        format!(
            "above its smallest step of {}, but a gap beyond {} shows without one",
            gauge(step),
            gauge(study::EYE)
        )
    } else {
        format!("above its smallest step of {}", gauge(step))
    };
    format!("Half of the sawn faces read more than {} on a gauge, {verdict}.", gauge(run_out))
}

/// How to read the table of levers.
const LEVERS: &str = "The table shows what each end's faults give to work on in the median arrow: \
    the first three rows to the push, the tilts to the air. The principal axis is the one about \
    which the arrow spins freely; a part leans no farther than its fit lets it.";

/// The levers of both ends.
fn levers_table(ends: &Ends) -> Table {
    type Read = fn(&Lever) -> Cell;
    let rows: [(&str, Read); 5] = [
        ("groove off the principal axis", |e| Cell::Quantity(Role::Gauge, e.groove_offset)),
        ("balance off the shaft's line", |e| Cell::Quantity(Role::Gauge, e.balance_offset)),
        ("shaft to the principal axis", |e| Cell::Quantity(Role::Angle, e.shaft_tilt)),
        ("point to the principal axis", |e| Cell::Quantity(Role::Angle, e.point_tilt)),
        ("lean the fit allows", |e| {
            e.lean_limit.map_or(Cell::None("any"), |limit| Cell::Quantity(Role::Angle, limit))
        }),
    ];
    table_of("levers", rows)
        .words("faults of", |(name, _)| *name)
        .cells("front end", Kind::Own, |(_, read)| read(&ends.front))
        .cells("nock end", Kind::Own, |(_, read)| read(&ends.nock))
        .done()
}

/// The claims with the two numbers that decide each.
fn claims_table(claims: &[TradeClaim]) -> Table {
    let cells = |claim: &TradeClaim| {
        let (first, second) = claim.numbers;
        match claim.claim {
            EndsView::LooksTrue => [first, second].map(|si| Cell::Quantity(Role::Gauge, si)),
            EndsView::FrontOutweighsNock | EndsView::FrontOutweighsNockBladed => {
                [first, second].map(|si| Cell::Quantity(Role::Impact, si))
            }
            EndsView::MachineNotShooter | EndsView::MachineNotShooterEndsAlone => {
                [first, second].map(|shots| Cell::Quantity(Role::Points, shots))
            }
        }
    };
    let names = |claim: EndsView| match claim {
        EndsView::LooksTrue => "median run-out, smallest gauge step",
        EndsView::FrontOutweighsNock | EndsView::FrontOutweighsNockBladed => {
            "R50 by the front end, by the nock end"
        }
        EndsView::MachineNotShooter | EndsView::MachineNotShooterEndsAlone => {
            "shots for the machine, for the archer"
        }
    };
    table_of("claims", claims)
        .about(|claim| said(claim.claim))
        .words("claim", |claim| said(claim.claim))
        .words("the computation", |claim| finding(claim.finding))
        .words("decided by", |claim| names(claim.claim))
        .cells("first", Kind::Own, |claim| cells(claim)[0].clone())
        .cells("second", Kind::Own, |claim| cells(claim)[1].clone())
        .done()
}

/// What each end does alone, and the two builds with no other faults.
fn ends_table(ends: &Ends) -> Table {
    let impact = |e| Cell::Estimate(Role::Impact, e);
    let mut rows = Vec::new();
    if let Some(alone) = &ends.alone {
        let ratio = alone.machine_ratio;
        rows.extend([
            ("base, ends alone, machine R50", impact(alone.base_r50)),
            ("other, ends alone, machine R50", impact(alone.other_r50)),
            (
                "ends alone, machine ratio",
                ratio.map_or(Cell::None("a point"), |ratio| Cell::Estimate(Role::Number, ratio)),
            ),
            ("ends alone, archer tells", Cell::Shots(alone.archer_shots)),
            ("ends alone, machine tells", Cell::Shots(alone.machine_shots)),
            ("ends alone, seen by", crate::words::seen(alone.seen).into()),
        ]);
    }
    facts("ends", ["what", "is"], rows)
}

/// Which end does more, over what is poorly known.
fn order_table(orders: &[EndsOrder]) -> Table {
    table_of("ends-order", orders)
        .words("head", |order| if order.bladed { "three fixed blades" } else { "as it is" })
        .banded("R50 by the front end", Role::Impact, |order| order.front)
        .banded("R50 by the nock end", Role::Impact, |order| order.nock)
        .quantity("front end larger in", Role::Percent, |order| order.front_larger)
        .done()
}

fn machine(case: Case, bands: [Option<Band>; 2]) -> String {
    let Some((pair, mark)) = case.pairs.first().and_then(|p| Some((p, p.marks.last()?))) else {
        return String::new();
    };
    let far = case.builds[pair.base].marks.last();
    let form = far.and_then(form_share).map_or_else(String::new, |ratio| {
        format!(" The archer's own form makes {} of the spread (by variance).", share(ratio))
    });
    let told = noticed(
        mark.seen,
        (mark.machine_shots, mark.archer_shots),
        mark.machine_ratio.as_ref(),
        &farthest(case),
        bands,
    );
    format!("{told}{form}")
}

fn ends_alone(ends: &Ends, case: Case, bands: [Option<Band>; 2]) -> String {
    let Some(alone) = &ends.alone else { return String::new() };
    let (range, style) = (farthest(case), case.style);
    let told = noticed(
        alone.seen,
        (alone.machine_shots, alone.archer_shots),
        alone.machine_ratio.as_ref(),
        &range,
        bands,
    );
    let r50 = |value: f64, read: fn(&EndsAlone) -> f64| {
        let band = case.unknown.and_then(|joint| {
            joint.band(value, |found| match found {
                Found::Ends(ends) => ends.ends.alone.as_ref().map(read),
                _ => None,
            })
        });
        unknown::figure(Role::Impact, value, band, style)
    };
    format!(
        "{told} From a machine half of the arrows then land within {}, or within {}.",
        r50(alone.base_r50.value, |alone| alone.base_r50.value),
        r50(alone.other_r50.value, |alone| alone.other_r50.value),
    )
}

/// Who would notice within the archer's patience, and what each would need.
fn noticed(
    seen: Seen,
    (machine, archer): (Shots, Shots),
    ratio: Option<&Estimate>,
    range: &str,
    [machine_band, archer_band]: [Option<Band>; 2],
) -> String {
    if ratio.is_some_and(|ratio| holds(ratio, 1.0)) {
        return format!(
            "At {range} the groups from a machine differ by no more than chance would have it."
        );
    }
    let who = match seen {
        Seen::Archer => "the archer would notice too",
        Seen::MachineOnly => "a machine would notice, the archer would not",
        Seen::Nobody => "neither a machine nor the archer would notice",
    };
    format!(
        "Within {} shots with each build at {range} {who}: a machine needs {}, the archer {}.",
        study::ARCHER_SHOTS,
        unknown::needed(machine, machine_band),
        unknown::needed(archer, archer_band),
    )
}

fn farthest(case: Case) -> String {
    case.range(case.builds[0].marks.len() - 1)
}
