//! What cutting both ends gains on shafts that nobody has read along their
//! length. Model card: docs/model/cut-plan.md.

use body::Across;
use rayon::prelude::*;
use target::Estimate;
use units::{Angle, Dimension, Length};
use workbench::{Axis, FULL_SPAN, RunOut, SawJob, plan};

use crate::first::all_or_first;
use crate::unknown::filling;
use crate::{
    Band, Banded, Distribution, QUICK_POINTS, RandomStream, Slot, StudyError, UncertainParameter,
};

/// Shafts drawn. Chosen: the mean gain is then known to some two per cent.
const SHAFTS: u64 = 1_000;
/// Distance over which a shaft's ends get worse, m. Chosen: two inches; one
/// batch sold at .001 in read .009 in over the last 1.5 in.
const END: f64 = 0.0508;
/// Curvature at the very end over that in the middle, and its range. Chosen:
/// a guess; one is a shaft alike everywhere.
const WORSE: (f64, f64, f64) = (3.0, 1.0, 6.0);
/// Share of the curvature's variance that the whole shaft has in common, and
/// its range. Chosen: half, anything from little to nearly all.
const COMMON: (f64, f64, f64) = (0.5, 0.1, 0.9);
/// Length of shaft with one curvature, m: one inch. Chosen.
const PIECE: f64 = 0.0254;
/// What the trade says that cutting both ends gains, m: one to two thousandths
/// of an inch. Common practice, no source.
pub const CLAIM: (f64, f64) = (2.54e-5, 5.08e-5);
/// The grade that the trade says it of, m: six thousandths in all.
const CLAIM_GRADE: f64 = 1.524e-4;

/// What is known of a shaft without a profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grade {
    /// Length of the shaft.
    pub stock: Length,
    /// Total reading in the middle of a 28 in span.
    pub total: Length,
}

/// Scrambles the points at which the two chosen numbers are drawn. Chosen: any will
/// do.
const SEED: u32 = 28;

/// A chosen number and its range as a poorly known value.
fn doubt((value, low, high): (f64, f64, f64)) -> UncertainParameter {
    let (slot, key, dimension) = (Slot(0), String::new(), Dimension::Ratio);
    UncertainParameter { slot, key, dimension, value, low, high }
}

/// Totals over 28 in, and what the ways of cutting make of them, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockGain {
    /// Mean reading of the arrow with all cut off the point end.
    pub front_only: Estimate,
    /// The same with half cut off each end; none where the saw does not allow
    /// it.
    pub halves: Option<Estimate>,
    /// What half off each end gains over the point end alone: the mean, with
    /// its band over the end factor and the common share.
    pub gain: Option<Banded>,
    /// The tenth and ninetieth hundredth of that gain among shafts.
    pub among: Option<(f64, f64)>,
    /// What the best cut would gain over the point end alone if each shaft were
    /// read along its length: the mean, with its band.
    pub best: Banded,
    /// What the trade's claim comes to here, for its own grade.
    pub claim: Claimed,
    /// How many shafts were drawn.
    pub shafts: u64,
}

/// A gain that the trade speaks of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Claimed {
    /// The grade, total reading, m.
    pub grade: f64,
    /// Mean gain of half off each end over the point end alone, with its band,
    /// m, by the trade's measure; none where the saw does not allow both ends.
    pub gain: Option<Banded>,
    /// Whether mean or band reach the one to two thousandths.
    pub agrees: Option<bool>,
    /// The same by the worst reading anywhere on the piece, ends included.
    pub worst: Option<Banded>,
    /// Whether that agrees.
    pub worst_agrees: Option<bool>,
}

/// What cutting is expected to gain on shafts of a grade.
///
/// # Errors
/// [`StudyError::Workbench`] when the shaft cannot give the piece.
pub fn stock_gain(grade: &Grade, job: &SawJob, seed: u64) -> Result<StockGain, StudyError> {
    let middle = drawn(grade, job, seed, WORSE.0, COMMON.0)?;
    let [worse, common] = [WORSE, COMMON].map(doubt);
    let at = |point: usize| {
        let chance = |input| filling(point, input, SEED);
        drawn(grade, job, seed, worse.at(chance(0)), common.at(chance(1)))
    };
    let points = all_or_first((0..QUICK_POINTS).into_par_iter().map(at))?;
    let band = |read: &dyn Fn(&DrawnShaft) -> Option<f64>| -> Option<Banded> {
        let value = read(&middle)?;
        let all: Vec<(f64, f64)> = points.iter().filter_map(read).map(|of| (of, 1.0)).collect();
        let Band { low, high } = Band::of(&all)?.about(value);
        Some(Banded { value, low, high })
    };
    let gain = band(&|drawn| mean(drawn.gains.as_deref()?));
    let best = band(&|drawn| mean(&drawn.best));
    // Readings go with the grade: bows scale as a whole.
    let scale = CLAIM_GRADE / grade.total.si();
    let scaled = |gain: Option<Banded>| {
        gain.map(|g| Banded { value: g.value * scale, low: g.low * scale, high: g.high * scale })
    };
    let reaches = |gain: Option<Banded>| gain.map(|g| g.high >= CLAIM.0 && g.low <= CLAIM.1);
    let claimed = scaled(gain);
    let worst = scaled(band(&|drawn| mean(drawn.worst.as_deref()?)));
    let among = middle.gains.as_ref().map(|gains| {
        let mut sorted = gains.clone();
        sorted.sort_by(f64::total_cmp);
        let tenth = sorted.len() / 10;
        (sorted[tenth], sorted[sorted.len() - 1 - tenth])
    });
    Ok(StockGain {
        front_only: target::mean_estimate(&middle.front)?,
        halves: middle.halves.as_deref().map(target::mean_estimate).transpose()?,
        gain,
        among,
        best: best.unwrap_or(Banded { value: 0.0, low: 0.0, high: 0.0 }),
        claim: Claimed {
            grade: CLAIM_GRADE,
            gain: claimed,
            agrees: reaches(claimed),
            worst,
            worst_agrees: reaches(worst),
        },
        shafts: SHAFTS,
    })
}

/// Total readings over 28 in of drawn shafts, m.
struct DrawnShaft {
    front: Vec<f64>,
    halves: Option<Vec<f64>>,
    gains: Option<Vec<f64>>,
    /// Gain of half off each end by the worst reading on the piece.
    worst: Option<Vec<f64>>,
    best: Vec<f64>,
}

fn drawn(
    grade: &Grade,
    job: &SawJob,
    seed: u64,
    worse: f64,
    common: f64,
) -> Result<DrawnShaft, StudyError> {
    let mut streams =
        ["bench.stock.at0", "bench.stock.at90"].map(|key| RandomStream::new(seed, key));
    let (mut front, mut halves, mut best) = (Vec::new(), Vec::new(), Vec::new());
    let mut worst = Vec::new();
    for index in 0..SHAFTS {
        let axis = shaft(grade, &mut streams, index, worse, common)?;
        let plan = plan(&axis, job)?;
        // Where the point end alone cannot be cut, the shaft stays as it is.
        let one_end = plan.front_only.map_or(plan.uncut, |cut| cut.straight);
        let alone = one_end.total;
        front.push(alone);
        halves.extend(plan.halves.map(|cut| cut.straight.total));
        worst.extend(plan.halves.map(|cut| one_end.worst - cut.straight.worst));
        best.push(alone - plan.best.straight.total);
    }
    let both = halves.len() == front.len();
    let gains = both.then(|| front.iter().zip(&halves).map(|(f, h)| f - h).collect());
    Ok(DrawnShaft {
        front,
        halves: both.then_some(halves),
        gains,
        worst: both.then_some(worst),
        best,
    })
}

/// One shaft: curvature drawn for each inch, summed twice, and the whole scaled
/// so that it reads its grade in the middle of a 28 in span.
fn shaft(
    grade: &Grade,
    streams: &mut [RandomStream; 2],
    index: u64,
    worse: f64,
    common: f64,
) -> Result<Axis, StudyError> {
    let stock = grade.stock.si();
    let pieces = (stock / PIECE).ceil().max(1.0);
    let width = stock / pieces;
    let normal = Distribution::Normal { mean: 0.0, sd: 1.0 };
    // Room in the stream for a shaft of any length.
    let first = index * 128;
    let mut draw = |k: u64| {
        let [a, b] = streams;
        Across { at0: a.value(&normal, first + k), at90: b.value(&normal, first + k) }
    };
    let whole = draw(0) * common.sqrt();
    let (mut slope, mut off) = (Across::ZERO, Across::ZERO);
    let mut places = vec![(0.0, off)];
    let mut at = 0.0;
    let mut k = 1;
    while at < stock - width / 2.0 {
        let middle = at + width / 2.0;
        let depth = middle.min(stock - middle);
        let size = 1.0 + (worse - 1.0) * (-depth / END).exp();
        let curvature = (whole + draw(k) * (1.0 - common).sqrt()) * size;
        off = off + slope * width + curvature * (width * width / 2.0);
        slope = slope + curvature * width;
        at += width;
        k += 1;
        places.push((at.min(stock), off));
    }
    let axis = |scale: f64| -> Result<Axis, StudyError> {
        let end = places[places.len() - 1].1;
        let run_out = |(x, off): &(f64, Across)| {
            let off = (*off - end * (x / stock)) * scale;
            RunOut {
                station: Length::from_si(*x),
                total: Length::from_si(2.0 * off.size()),
                high: Angle::from_si(off.clock()),
            }
        };
        let readings: Vec<RunOut> = places.iter().map(run_out).collect();
        let supports = [Length::ZERO, grade.stock];
        Ok(Axis::from_run_out(grade.stock, supports, &readings, Length::ZERO)?)
    };
    // Drawn to about the right size first, then exactly.
    let rough = grade.total.si() / FULL_SPAN.si().powi(2);
    let total = axis(rough)?.straight(0.0, stock).total;
    axis(rough * grade.total.si() / total)
}

fn mean(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}
