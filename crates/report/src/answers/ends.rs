//! What the trade says of square ends (common practice, no source), and where
//! the computation agrees or not, with the numbers that decide it.

use study::{Answer, Ends, EndsView, Finding, Lever, Seen, Shots, TradeClaim};
use target::Estimate;
use units::{Role, Style};

use crate::show::{about, alike, brief, form_share, holds, plain, share};
use crate::table::{Cell, Column, Table};

/// A claim, the verdict on it and the reason.
pub(crate) struct Verdict {
    /// What the trade says.
    pub(crate) claim: &'static str,
    /// What the computation does: "agrees", for one.
    pub(crate) finding: &'static str,
    /// The numbers and why.
    pub(crate) why: String,
    /// More numbers, where there are many.
    pub(crate) table: Option<Table>,
}

/// Every claim of an answer.
pub(crate) fn verdicts(answer: &Answer, style: Style) -> Vec<Verdict> {
    let one = |claim: &TradeClaim| Verdict {
        claim: match claim.claim {
            EndsView::LooksTrue => "A saw cut that looks true still shows on a gauge.",
            EndsView::FrontOutweighsNock => "Front-end errors weigh more than nock-end ones.",
            EndsView::MachineNotShooter => "A machine would notice where a shooter would not.",
            EndsView::MachineNotShooterEndsAlone => {
                "The same, of arrows with no faults but those of their ends."
            }
        },
        finding: match claim.finding {
            Finding::Agrees => "agrees",
            Finding::InDirection => "agrees in direction, not in degree",
            Finding::Disagrees => "disagrees",
        },
        why: why(claim, answer, style),
        table: match claim.claim {
            EndsView::FrontOutweighsNock => {
                answer.ends.as_ref().map(|ends| lever_table(ends, style))
            }
            _ => None,
        },
    };
    answer.trade.iter().map(one).collect()
}

fn why(claim: &TradeClaim, answer: &Answer, style: Style) -> String {
    let (first, second) = claim.numbers;
    match claim.claim {
        EndsView::LooksTrue => looks_true(first, second, style),
        EndsView::FrontOutweighsNock => {
            let levers = answer.ends.as_ref().map_or_else(String::new, |ends| levers(ends, style));
            format!(
                "From a machine at {}, the front end alone gives an R50 of {}, the nock end alone \
                 {}.{levers}",
                farthest(answer, style),
                Role::Impact.text(first, style),
                Role::Impact.text(second, style),
            )
        }
        EndsView::MachineNotShooter => machine(answer, style),
        EndsView::MachineNotShooterEndsAlone => ends_alone(answer, style),
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

/// Whether the fits decide the order, and how to read the table of levers. It
/// holds whichever end weighs more.
fn levers(ends: &Ends, style: Style) -> String {
    let band = |band: (f64, f64)| {
        let [low, high] = alike(Role::Impact, [band.0, band.1], style);
        format!("{low} to {high} {}", Role::Impact.symbol(style))
    };
    let fits = match (ends.front.fit_band, ends.nock.fit_band) {
        (Some(front), Some(nock)) => format!(
            " Over the stated ranges of the fits these are {} and {}: the order {}.",
            band(front),
            band(nock),
            if front.0 <= nock.1 && nock.0 <= front.1 {
                "rests on the fits"
            } else {
                "does not rest on the fits"
            },
        ),
        _ => String::new(),
    };
    format!(
        "{fits} The table shows what each end's faults give to work on in the median arrow: the \
         first three rows to the push, the tilts to the air. The principal axis is the one about \
         which the arrow spins freely; a part leans no farther than its fit lets it."
    )
}

/// The levers of both ends. Cells carry their own units.
fn lever_table(ends: &Ends, style: Style) -> Table {
    type Read = fn(&Lever) -> f64;
    let sizes: [(&str, Role, Read); 4] = [
        ("groove off the principal axis", Role::Gauge, |end| end.groove_offset),
        ("balance off the shaft's line", Role::Gauge, |end| end.balance_offset),
        ("shaft to the principal axis", Role::Angle, |end| end.shaft_tilt),
        ("point to the principal axis", Role::Angle, |end| end.point_tilt),
    ];
    let both = |name: &str, read: &dyn Fn(&Lever) -> String| {
        vec![Cell::text(name), Cell::text(read(&ends.front)), Cell::text(read(&ends.nock))]
    };
    let mut rows: Vec<Vec<Cell>> = sizes
        .iter()
        .map(|(name, role, read)| both(name, &|end| brief(*role, read(end), style)))
        .collect();
    rows.push(both("lean the fit allows", &|end| {
        end.lean_limit.map_or_else(|| "any".to_owned(), |limit| brief(Role::Angle, limit, style))
    }));
    let columns = ["faults of", "front end", "nock end"].map(|head| Column::new(head, ""));
    Table { columns: columns.into(), rows }
}

fn machine(answer: &Answer, style: Style) -> String {
    let Some((pair, mark)) = answer.pairs.first().and_then(|p| Some((p, p.marks.last()?))) else {
        return String::new();
    };
    let far = answer.builds[pair.base].marks.last();
    let form = far.and_then(form_share).map_or_else(String::new, |ratio| {
        format!(" The archer's own form makes {} of the spread (by variance).", share(ratio))
    });
    let told = noticed(
        mark.seen,
        (mark.machine_shots, mark.archer_shots),
        mark.machine_ratio.as_ref(),
        &farthest(answer, style),
    );
    format!("{told}{form}")
}

fn ends_alone(answer: &Answer, style: Style) -> String {
    let Some(alone) = answer.ends.as_ref().and_then(|ends| ends.alone.as_ref()) else {
        return String::new();
    };
    let range = farthest(answer, style);
    let told = noticed(
        alone.seen,
        (alone.machine_shots, alone.archer_shots),
        alone.machine_ratio.as_ref(),
        &range,
    );
    format!(
        "{told} R50 from a machine then goes from {} to {}.",
        Role::Impact.text(alone.base_r50.value, style),
        Role::Impact.text(alone.other_r50.value, style),
    )
}

/// Who would notice within the archer's patience, and what each would need.
fn noticed(
    seen: Seen,
    (machine, archer): (Shots, Shots),
    ratio: Option<&Estimate>,
    range: &str,
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
        about(machine),
        about(archer),
    )
}

fn farthest(answer: &Answer, style: Style) -> String {
    let mark = answer.builds.first().and_then(|build| build.marks.last());
    mark.map_or_else(String::new, |mark| plain(Role::Range, mark.distance.si(), style))
}
