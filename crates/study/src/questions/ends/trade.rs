//! What the trade says of square ends, held against the computation.

use target::Estimate;

use super::answer::EndsAlone;
use super::order::EndsOrder;
use crate::group_cache::GroupCache;
use crate::quantile::middle;
use crate::sample::Sample;
use crate::{Compared, Distribution, Pair, Seen, Shots, StudyError};

/// What the trade says, and what was computed.
#[derive(Debug, Clone, PartialEq)]
pub struct TradeClaim {
    /// Which claim.
    pub claim: EndsView,
    /// What the computation says of it.
    pub finding: Finding,
    /// The two numbers that decide it, SI; see [`EndsView`].
    pub numbers: (f64, f64),
}

/// What the computation says of a claim.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finding {
    /// It agrees.
    Agrees,
    /// In direction, not in degree: a machine would notice far sooner than the
    /// archer, but not within `ARCHER_SHOTS`.
    InDirection,
    /// It most likely agrees, over what is poorly known.
    LikelyAgrees,
    /// Open, over what is poorly known.
    Open,
    /// It most likely disagrees, over what is poorly known.
    LikelyDisagrees,
    /// It disagrees.
    Disagrees,
}

/// Shares of what is poorly known from which on something holds everywhere, and
/// from which on it most likely does. Chosen: nineteen and sixteen in twenty.
const EVERYWHERE: f64 = 0.95;
const LIKELY: f64 = 0.80;

impl Finding {
    /// The finding where something holds in this share of what is poorly known.
    pub fn of_share(share: f64) -> Self {
        match share {
            s if s >= EVERYWHERE => Self::Agrees,
            s if s >= LIKELY => Self::LikelyAgrees,
            s if s > 1.0 - LIKELY => Self::Open,
            s if s > 1.0 - EVERYWHERE => Self::LikelyDisagrees,
            _ => Self::Disagrees,
        }
    }
}

/// The trade's view of square ends (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EndsView {
    /// A saw cut that looks true still shows on a gauge. Numbers: median
    /// run-out of the sawn face, m; the smallest step of a dial indicator, m.
    LooksTrue,
    /// Front-end errors weigh more than nock-end ones. Numbers: R50 from the
    /// front end alone and from the nock end alone at the farthest distance,
    /// m.
    FrontOutweighsNock,
    /// The same of the arrow with a fixed-blade head.
    FrontOutweighsNockBladed,
    /// A machine would notice where a shooter would not. Numbers: shots each
    /// way for the machine and for the archer at the farthest distance.
    MachineNotShooter,
    /// The same on arrows without other faults than those of their ends.
    MachineNotShooterEndsAlone,
}

/// Key of the fault that a saw leaves at the point end.
const SAWN_FACE: &str = "faults.point_end.angle";
/// Smallest step of a dial indicator, m: 0.0005 in (common practice, no
/// source).
const DIAL_STEP: f64 = 0.0005 * 0.0254;
/// Widest gap that looks closed, m. Chosen: 0.1 mm, what an eye makes out at
/// reading distance without a light behind the gap.
pub const EYE: f64 = 0.1e-3;
/// A machine that needs the archer's shots over this, or fewer, needs many
/// fewer. Chosen: half, well beyond what chance does to the counts.
const MANY_FEWER: u32 = 2;
/// Midpoints at which a law is sampled for its median size. Chosen: odd, so
/// that one falls on the middle.
const MIDPOINTS: u32 = 9_999;

/// The claims, as far as the builds can decide them.
pub(crate) fn claims(
    range: &GroupCache,
    compared: &Compared,
    alone: Option<EndsAlone>,
    orders: &[EndsOrder],
) -> Result<Vec<TradeClaim>, StudyError> {
    let mut claims = vec![looks_true(range)?];
    claims.extend(orders.iter().map(front_outweighs_nock));
    claims.extend(machine_claims(&compared.pairs, alone));
    Ok(claims)
}

/// Claims on who would notice.
pub(super) fn machine_claims(pairs: &[Pair], alone: Option<EndsAlone>) -> Vec<TradeClaim> {
    let mut claims = Vec::new();
    let far = pairs.first().and_then(|pair| pair.marks.last());
    claims.extend(far.map(|far| {
        let shots = (far.machine_shots, far.archer_shots);
        machine_not_shooter(
            EndsView::MachineNotShooter,
            far.machine_ratio.as_ref(),
            shots,
            far.seen,
        )
    }));
    claims.extend(alone.map(|alone| {
        let shots = (alone.machine_shots, alone.archer_shots);
        machine_not_shooter(
            EndsView::MachineNotShooterEndsAlone,
            alone.machine_ratio.as_ref(),
            shots,
            alone.seen,
        )
    }));
    claims
}

/// A face out of square by an angle runs out by the angle times its diameter.
fn looks_true(range: &GroupCache) -> Result<TradeClaim, StudyError> {
    let sampler = &range.rigs[0];
    let setup = sampler.variant.undrawn(Sample::Full)?;
    let drawn = sampler.variant.draws(Sample::Full).find(|draw| draw.key == SAWN_FACE);
    let angle = drawn
        .map_or_else(|| setup.faults.point_end.angle.si().abs(), |draw| median_size(&draw.law));
    let run_out = angle * setup.parts.shaft.outside.si();
    Ok(TradeClaim {
        claim: EndsView::LooksTrue,
        finding: plain((DIAL_STEP..=EYE).contains(&run_out)),
        numbers: (run_out, DIAL_STEP),
    })
}

/// The median of the size of a drawn value, whatever its sign.
fn median_size(law: &Distribution) -> f64 {
    let size = |i| law.at((f64::from(i) + 0.5) / f64::from(MIDPOINTS)).abs();
    middle((0..MIDPOINTS).map(size).collect()).unwrap_or_default()
}

/// Where neither end has faults, the front end weighs no more.
pub(super) fn front_outweighs_nock(order: &EndsOrder) -> TradeClaim {
    let claim = if order.bladed {
        EndsView::FrontOutweighsNockBladed
    } else {
        EndsView::FrontOutweighsNock
    };
    let finding = Finding::of_share(order.front_larger.unwrap_or(0.0));
    TradeClaim { claim, finding, numbers: (order.front.value, order.nock.value) }
}

fn plain(agrees: bool) -> Finding {
    if agrees { Finding::Agrees } else { Finding::Disagrees }
}

/// A ratio whose interval holds 1 shows no difference, however few shots its
/// value would take.
fn machine_not_shooter(
    claim: EndsView,
    ratio: Option<&Estimate>,
    (machine, archer): (Shots, Shots),
    seen: Seen,
) -> TradeClaim {
    let count = |shots| match shots {
        Shots::Each(count) | Shots::MoreThan(count) => count,
    };
    let shown = ratio.is_none_or(|ratio| ratio.low > 1.0 || ratio.high < 1.0);
    let finding = match (seen, machine) {
        (Seen::MachineOnly, _) if shown => Finding::Agrees,
        (Seen::Nobody, Shots::Each(each)) if shown && each <= count(archer) / MANY_FEWER => {
            Finding::InDirection
        }
        _ => Finding::Disagrees,
    };
    let numbers = (f64::from(count(machine)), f64::from(count(archer)));
    TradeClaim { claim, finding, numbers }
}
