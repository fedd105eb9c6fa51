//! What cutting gains on shafts that were not read along their length, and what the
//! trade says of it.

use study::Banded;
use study::workbench::{Against, CLAIM, CLAIM_GRADE, Claim, Cutting, Dial, WayKind};
use units::{Role, Style};

use super::cut;
use super::story::Story;
use crate::document::{Part, Table, head, say, table_of};
use crate::show;

pub(super) fn story(found: &Cutting, claims: &[Claim], style: Style) -> Story {
    let mut story = cut::story(found, style);
    let parts = &mut story.parts;
    parts.push(head("What the trade says"));
    if claims.is_empty() {
        parts.push(say(
            "The trade's statement on cutting both ends cannot be tried: this saw cannot take half off \
             each end of this shaft.",
        ));
    } else {
        parts.push(say(said(claims, style)));
        parts.push(Part::Table(table(claims)));
        parts.push(say(group(found, style)));
    }
    story
}

fn said(claims: &[Claim], style: Style) -> String {
    let found: Vec<&Claim> =
        claims.iter().filter(|c| c.agrees.is_some_and(|of| of.share >= 0.5)).collect();
    let verdict = match found.as_slice() {
        [] => {
            "None of these ways of reading it comes out so in half of what is not known".to_owned()
        }
        some => {
            let names: Vec<String> =
                some.iter().map(|c| format!("{} by the dial {}", against(c), dial(c))).collect();
            format!("It comes out so {}", names.join("; "))
        }
    };
    format!(
        "The trade says that on a shaft of {} cutting both ends commonly gains {} to {} (common \
         practice, no source). It says neither against what nor on which rollers, so each is tried, \
         on shafts with a smooth body of that grade and hooked ends. {verdict}. Nothing here was \
         fitted to that.",
        Role::Gauge.text(CLAIM_GRADE, style),
        Role::Gauge.number(CLAIM.0, style),
        Role::Gauge.text(CLAIM.1, style)
    )
}

fn dial(claim: &Claim) -> &'static str {
    match claim.dial {
        Dial::Middle => "in the middle",
        Dial::Ends => "at the ends",
        Dial::Worst => "where it reads most",
    }
}

fn against(claim: &Claim) -> &'static str {
    match claim.against {
        Against::Raw => "against the raw shaft",
        Against::PointEnd => "against the point end alone",
        Against::NockEnd => "against the nock end alone",
    }
}

fn table(claims: &[Claim]) -> Table {
    table_of("claim", claims)
        .words("half off each end", |c| format!("{}, dial {}", against(c), dial(c)))
        .banded("gains", Role::Gauge, |c| c.gain)
        .quantity("is 1 to 2 thousandths in", Role::Percent, |c| c.agrees.map(|of| of.share))
        .over_all()
        .done()
}

/// The same question, asked of the group.
fn group(found: &Cutting, style: Style) -> String {
    let ring = |kind| found.batch.iter().find(|way| way.kind == kind).map(|way| way.ring);
    let (Some(halves), Some(front)) = (ring(WayKind::Halves), ring(WayKind::FrontOnly)) else {
        return String::new();
    };
    let text = |of: Banded| {
        let [value, low, high] = show::alike(Role::Impact, [of.value, of.low, of.high], style);
        format!("{value} ({low} to {high}) {}", Role::Impact.symbol(style))
    };
    format!(
        "In the group: with half off each end such a shaft throws a ring of {}, with everything off the \
         point end {}. That is the answer that counts; a dial in the middle hardly sees the ends.",
        text(halves),
        text(front)
    )
}
