//! What the trade says of square ends (common practice, no source), and where
//! the computation agrees or not, with the numbers that decide it.

use study::{Answer, EndsView, TradeClaim};
use units::{Role, Style};

use crate::show::{about, form_share, plain, share};

/// A claim, the verdict on it and the reason.
pub(crate) struct Verdict {
    /// What the trade says.
    pub(crate) claim: &'static str,
    /// "agrees" or "disagrees".
    pub(crate) finding: &'static str,
    /// The numbers and why.
    pub(crate) why: String,
}

/// Every claim of an answer.
pub(crate) fn verdicts(answer: &Answer, style: Style) -> Vec<Verdict> {
    let one = |claim: &TradeClaim| Verdict {
        claim: match claim.claim {
            EndsView::LooksTrue => "A saw cut that looks true still shows on a gauge.",
            EndsView::FrontOutweighsNock => "Front-end errors weigh more than nock-end ones.",
            EndsView::MachineNotShooter => "A machine would notice where a shooter would not.",
        },
        finding: if claim.agrees { "agrees" } else { "disagrees" },
        why: why(claim, answer, style),
    };
    answer.trade.iter().map(one).collect()
}

fn why(claim: &TradeClaim, answer: &Answer, style: Style) -> String {
    let (first, second) = claim.numbers;
    match (claim.claim, claim.agrees) {
        (EndsView::LooksTrue, agrees) => format!(
            "Half of the sawn faces read more than {} on a gauge, {} its smallest step of {}.",
            Role::Gauge.text(first, style),
            if agrees { "above" } else { "which is not above" },
            Role::Gauge.text(second, style),
        ),
        (EndsView::FrontOutweighsNock, agrees) => format!(
            "From a machine at {}, the front end alone gives an R50 of {}, the nock end alone {}. \
             {}",
            farthest(answer, style),
            Role::Impact.text(first, style),
            Role::Impact.text(second, style),
            if agrees {
                "The point is heavy and sits far from the balance point, so its tilt turns the \
                 line about which the arrow balances, and carries the groove off the line of push."
            } else {
                "A canted nock moves its groove, where the string pushes, straight off the line; \
                 a canted point must first turn the line about which the whole arrow balances."
            },
        ),
        (EndsView::MachineNotShooter, _) => machine(answer, style).unwrap_or_else(|| {
            format!("A machine would need {first:.0} shots each way, the archer {second:.0} shots.")
        }),
    }
}

fn machine(answer: &Answer, style: Style) -> Option<String> {
    let pair = answer.pairs.first()?;
    let mark = pair.marks.last()?;
    let form = form_share(answer.builds[pair.base].marks.last()?)
        .map(|ratio| {
            format!(" The archer's own form makes {} of the spread (by variance).", share(ratio))
        })
        .unwrap_or_default();
    Some(format!(
        "At {} a machine would need {} shots each way, the archer {} shots.{form}",
        farthest(answer, style),
        about(mark.machine_shots),
        about(mark.archer_shots),
    ))
}

fn farthest(answer: &Answer, style: Style) -> String {
    let mark = answer.builds.first().and_then(|build| build.marks.last());
    mark.map_or_else(String::new, |mark| plain(Role::Range, mark.distance.si(), style))
}
