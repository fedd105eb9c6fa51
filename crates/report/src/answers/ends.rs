//! What the trade says of square ends (common practice, no source), and where
//! the computation agrees or not, with the numbers that decide it.

use study::{
    Band, Ends, EndsAlone, EndsView, Finding, Found, Lever, Seen, Shots, SquareEnds, TradeClaim,
};
use target::Estimate;
use units::{Role, Style};

use super::compare::{self, Case};
use super::unknown::{self, Asked};
use crate::ReportError;
use crate::document::{Cell, Document, Kind, Part, Table, facts, head, say, table_of};
use crate::show::{about, form_share, holds, share};

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
        parts.push(Part::Claim {
            claim: said(claim.claim).to_owned(),
            finding: finding(claim.finding).to_owned(),
            why: format!("{}{}", why(claim, &found.ends, case), claim_stands(claim, case)),
        });
        if claim.claim == EndsView::FrontOutweighsNock {
            parts.push(Part::Table(levers_table(&found.ends)));
        }
    }
    parts.extend(compare::end(case));
    parts.extend([Part::Data(claims_table(&found.trade)), Part::Data(ends_table(&found.ends))]);
    let lead = compare::lead(case);
    Document::new("ends", title, lead, parts, case.style)
}

/// What the trade says.
fn said(claim: EndsView) -> &'static str {
    match claim {
        EndsView::LooksTrue => "A saw cut that looks true still shows on a gauge.",
        EndsView::FrontOutweighsNock => "Front-end errors weigh more than nock-end ones.",
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

/// In what share of what is not known the computation says the same of a claim.
fn claim_stands(claim: &TradeClaim, case: Case) -> String {
    let Some(joint) = case.unknown else { return String::new() };
    let at = same(claim.claim);
    // The two numbers decide every claim: by how much one outweighs the other.
    let read = |found: &Found| {
        let (first, second) = at(found)?.numbers;
        (first > 0.0 && second > 0.0).then(|| (first / second).ln())
    };
    let verdict = |found: &Found| at(found).is_some_and(|at| at.finding == claim.finding);
    let asked = Asked { what: String::new(), read: &read, verdict: &verdict };
    unknown::stands(joint.standing(verdict), unknown::decider(joint, &asked))
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

fn why(claim: &TradeClaim, ends: &Ends, case: Case) -> String {
    let ((first, second), style) = (claim.numbers, case.style);
    let bands = claim_bands(claim, case);
    let [first_band, second_band] = bands.map(|band| unknown::band(Role::Impact, band, style));
    match claim.claim {
        EndsView::LooksTrue => looks_true(first, second, style),
        EndsView::FrontOutweighsNock => format!(
            "From a machine at {}, the front end alone gives an R50 of {}{first_band}, the nock end alone \
             {}{second_band}. {LEVERS}",
            farthest(case),
            Role::Impact.text(first, style),
            Role::Impact.text(second, style),
        ),
        EndsView::MachineNotShooter => machine(case, bands),
        EndsView::MachineNotShooterEndsAlone => ends_alone(ends, case, bands),
    }
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
            EndsView::FrontOutweighsNock => {
                [first, second].map(|si| Cell::Quantity(Role::Impact, si))
            }
            EndsView::MachineNotShooter | EndsView::MachineNotShooterEndsAlone => {
                [first, second].map(|shots| Cell::Quantity(Role::Points, shots))
            }
        }
    };
    let names = |claim: EndsView| match claim {
        EndsView::LooksTrue => "median run-out, smallest gauge step",
        EndsView::FrontOutweighsNock => "R50 by the front end, by the nock end",
        EndsView::MachineNotShooter | EndsView::MachineNotShooterEndsAlone => {
            "shots for the machine, for the archer"
        }
    };
    table_of("claims", claims)
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
        let text = Role::Impact.text(value, style);
        format!("{text}{}", unknown::band(Role::Impact, band, style))
    };
    format!(
        "{told} R50 from a machine then goes from {} to {}.",
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
        "Within {} shots with each build at {range} {who}: a machine needs {}{}, the archer {}{}.",
        study::ARCHER_SHOTS,
        about(machine),
        unknown::shots(machine_band),
        about(archer),
        unknown::shots(archer_band),
    )
}

fn farthest(case: Case) -> String {
    case.range(case.builds[0].marks.len() - 1)
}
