//! What the trade says that cutting both ends gains, held against shafts as they are
//! sold. Model card: docs/model/cut-plan.md.

use units::Length;
use workbench::{Axis, Known, Population, SawJob};

use super::chanced::{hooked, normals};
use crate::{Band, Banded, OUTER_POINTS, Standing, StudyError};

/// Shafts drawn at each outer point. Chosen: a mean gain is then known to a fifth of
/// its band.
const SHAFTS: u32 = 64;
/// How far in from each end of a piece the rollers stand when the end is read, m: 3 in.
/// Chosen: beyond the longest hook.
const SET_IN: f64 = 0.0762;
/// What the trade says that cutting both ends gains, m: one to two thousandths
/// of an inch. Common practice, no source.
pub const CLAIM: (f64, f64) = (2.54e-5, 5.08e-5);
/// The grade that the trade says it of, m: six thousandths in all.
pub const CLAIM_GRADE: f64 = 1.524e-4;

/// Where a dial stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dial {
    /// In the middle of a 28 in span.
    Middle,
    /// At the very end, rollers 3 in from each: the worse end.
    Ends,
    /// Wherever on the piece it reads most, the piece on a 28 in span.
    Worst,
}

/// What half off each end is held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Against {
    /// The shaft as sold.
    Raw,
    /// All off the point end.
    PointEnd,
    /// All off the nock end.
    NockEnd,
}

/// One reading of what the trade says.
#[derive(Debug, Clone, PartialEq)]
pub struct Claim {
    /// Where the dial stands.
    pub dial: Dial,
    /// Against what.
    pub against: Against,
    /// Mean gain of half off each end, m, over what is not known of such shafts.
    pub gain: Banded,
    /// In what share of that the mean gain is one to two thousandths.
    pub agrees: Option<Standing>,
    /// The mean gain at each outer point, m.
    at: Vec<f64>,
}

impl Claim {
    /// The same at one outer point.
    #[must_use]
    pub fn at(&self, point: Option<usize>) -> Self {
        let at = point.and_then(|point| self.at.get(point));
        let gain = at.map_or(self.gain, |gain| Banded::sure(*gain));
        Self { gain, ..self.clone() }
    }
}

/// The trade's statement under every reading of it; empty where the saw cannot take
/// half off each end.
///
/// # Errors
/// [`StudyError::Workbench`] for a shaft or figures that make no sense.
pub fn claims(
    stock: Length,
    job: &SawJob,
    population: Population,
    seed: u64,
) -> Result<Vec<Claim>, StudyError> {
    let (length, wanted) = (stock.si(), job.wanted.si());
    let waste = length - wanted;
    if waste < 2.0 * job.kerf.si() {
        return Ok(Vec::new());
    }
    let grade = Population { body: Length::from_si(CLAIM_GRADE), ..population };
    let pieces = [(waste / 2.0, wanted), (0.0, length), (0.0, wanted), (waste, wanted)];
    let dials = [Dial::Middle, Dial::Ends, Dial::Worst];
    // Mean reading of each piece by each dial, at each outer point.
    let mut means = Vec::new();
    let mut hooked = hooked(seed, grade);
    for point in 0..OUTER_POINTS {
        let known = Known::new(length, &[], hooked(point))?;
        let mut normal = normals(seed, &format!("bench.claim.{point}"));
        let mut sums = [[0.0; 4]; 3];
        for _ in 0..SHAFTS {
            let axis = known.axis_of(&known.draw(&mut normal))?;
            for (sums, dial) in sums.iter_mut().zip(dials) {
                for (sum, (rear, length)) in sums.iter_mut().zip(pieces) {
                    *sum += reads(&axis, dial, rear, length) / f64::from(SHAFTS);
                }
            }
        }
        means.push(sums);
    }
    let mut all = Vec::new();
    for (at, dial) in dials.into_iter().enumerate() {
        for (piece, against) in [(1, Against::Raw), (2, Against::PointEnd), (3, Against::NockEnd)] {
            let gains: Vec<(f64, f64)> =
                means.iter().map(|mean| (mean[at][piece] - mean[at][0], 1.0)).collect();
            let within: Vec<(bool, f64)> =
                gains.iter().map(|gain| ((CLAIM.0..=CLAIM.1).contains(&gain.0), 1.0)).collect();
            let value = gains.iter().map(|gain| gain.0).sum::<f64>() / gains.len() as f64;
            let band = Band::of(&gains).unwrap_or(Band { low: value, high: value });
            let Band { low, high } = band.about(value);
            let gain = Banded { value, low, high };
            let at = gains.iter().map(|gain| gain.0).collect();
            all.push(Claim { dial, against, gain, agrees: Standing::of(&within), at });
        }
    }
    Ok(all)
}

/// What a dial reads on a piece, m.
fn reads(axis: &Axis, dial: Dial, rear: f64, length: f64) -> f64 {
    match dial {
        Dial::Middle => axis.straight(rear, length).total,
        // As it lies on the span, without carrying over.
        Dial::Worst => axis.straight(rear, length).worst,
        Dial::Ends => {
            let (front, span) = (rear + length, [rear + SET_IN, rear + length - SET_IN]);
            axis.total(rear, span).max(axis.total(front, span))
        }
    }
}
