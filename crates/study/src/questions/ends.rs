//! What the trade says of square ends, held against the computation.

use crate::range::Range;
use crate::take::Take;
use crate::{BuildAnswer, Cause, EndsView, Law, Owner, Pair, Seen, Shots, StudyError, TradeClaim};

/// Key of the fault that a saw leaves at the point end.
const SAWN_FACE: &str = "faults.point_end.angle";
/// Smallest step of a dial indicator, m: 0.0005 in (common practice, no
/// source).
const DIAL_STEP: f64 = 0.0005 * 0.0254;
/// Widest gap that looks closed, m. Chosen: 0.1 mm, what an eye makes out at
/// reading distance without a light behind the gap.
const EYE: f64 = 0.1e-3;
/// Midpoints at which a law is sampled for its median size. Chosen: odd, so
/// that one falls on the middle.
const MIDPOINTS: u32 = 9_999;

/// The three claims, as far as the builds can decide them.
pub(crate) fn claims(
    range: &Range,
    builds: &[BuildAnswer],
    pairs: &[Pair],
) -> Result<Vec<TradeClaim>, StudyError> {
    let mut claims = vec![looks_true(range)?];
    if let Some(base) = builds.first() {
        claims.push(front_outweighs_nock(base));
    }
    claims.extend(pairs.first().and_then(machine_not_shooter));
    Ok(claims)
}

/// A face out of square by an angle runs out by the angle times its diameter.
fn looks_true(range: &Range) -> Result<TradeClaim, StudyError> {
    let rig = &range.rigs[0];
    let setup = rig.undrawn(Take::Full)?;
    let drawn = rig.draws(Take::Full).find(|draw| draw.key == SAWN_FACE);
    let angle = drawn
        .map_or_else(|| setup.faults.point_end.angle.si().abs(), |draw| median_size(&draw.law));
    let run_out = angle * setup.parts.shaft.outside.si();
    Ok(TradeClaim {
        claim: EndsView::LooksTrue,
        agrees: (DIAL_STEP..=EYE).contains(&run_out),
        numbers: (run_out, DIAL_STEP),
    })
}

/// The median of the size of a drawn value, whatever its sign.
fn median_size(law: &Law) -> f64 {
    let mut sizes: Vec<f64> =
        (0..MIDPOINTS).map(|i| law.at((f64::from(i) + 0.5) / f64::from(MIDPOINTS)).abs()).collect();
    sizes.sort_unstable_by(f64::total_cmp);
    sizes[sizes.len() / 2]
}

/// An end without faults weighs nothing.
fn front_outweighs_nock(base: &BuildAnswer) -> TradeClaim {
    let r50 = |owner: Owner| {
        let of = |cause: &&Cause| cause.owner == owner;
        let far = base.causes.iter().find(of).and_then(|cause| cause.r50.last());
        far.map_or(0.0, |r50| r50.value)
    };
    let (front, nock) = (r50(Owner::FrontEnd), r50(Owner::NockEnd));
    TradeClaim { claim: EndsView::FrontOutweighsNock, agrees: front > nock, numbers: (front, nock) }
}

fn machine_not_shooter(pair: &Pair) -> Option<TradeClaim> {
    let count = |shots| match shots {
        Shots::Each(count) | Shots::MoreThan(count) => f64::from(count),
    };
    pair.marks.last().map(|far| TradeClaim {
        claim: EndsView::MachineNotShooter,
        agrees: far.seen == Seen::MachineOnly,
        numbers: (count(far.machine_shots), count(far.archer_shots)),
    })
}
