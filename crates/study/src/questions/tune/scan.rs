//! A look at the whole range of the two restraints, and where to search from.

use nalgebra::{DMatrix, DVector};

/// Restraints tried, over the simple value. Chosen: ten times either way is
/// wider than any string.
pub(super) const RANGE: (f64, f64) = (0.1, 10.0);
/// Places looked at for each hold, by ratio. Chosen: 1.5 apart, so that two answers
/// nearer than that may be taken for one.
pub(super) const PLACES: usize = 13;
/// How far from its middle an answer may lie that a field of four promises, in its
/// sides. Chosen: the field, and a quarter beyond it on every side.
const CLOSE_BY: f64 = 0.75;

/// Logarithms of the restraints, left and up.
pub(super) type Logs = [f64; 2];

/// Logarithm of a place of the range.
fn place(index: usize) -> f64 {
    let (low, high) = (RANGE.0.ln(), RANGE.1.ln());
    low + (high - low) * index as f64 / (PLACES - 1) as f64
}

/// Sum of squares of lacks over their scales.
pub(super) fn off(lacks: &[f64], scales: &[f64]) -> f64 {
    lacks.iter().zip(scales).map(|(lack, scale)| (lack / scale).powi(2)).sum()
}

/// What was seen at the places of the range: lacks, and how far off they are.
pub(super) struct Scan {
    pub(super) lacks: Vec<Option<Vec<f64>>>,
    pub(super) far: Vec<f64>,
}

impl Scan {
    pub(super) fn nearest(&self) -> Option<usize> {
        let known = (0..self.far.len()).filter(|at| self.far[*at].is_finite());
        known.min_by(|a, b| self.far[*a].total_cmp(&self.far[*b]))
    }

    /// Whether a hold, the other one staying, moves any shift by as much.
    pub(super) fn feels(&self, hold: usize, from: usize, least: f64) -> bool {
        let (row, column) = (from / PLACES, from % PLACES);
        let index = |k: usize| if hold == 0 { k * PLACES + column } else { row * PLACES + k };
        let along: Vec<&Vec<f64>> =
            (0..PLACES).filter_map(|k| self.lacks[index(k)].as_ref()).collect();
        (0..along.first().map_or(0, |lacks| lacks.len())).any(|at| {
            let values = along.iter().map(|lacks| lacks[at]);
            let (low, high) =
                values.fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(v), high.max(v)));
            high - low >= least
        })
    }

    /// Where a search for the felt holds starts: the nearest place, and in every field
    /// of four the place where the shifts would be as measured if they changed evenly
    /// over the field, where that lies in it or close by.
    pub(super) fn starts(&self, felt: [bool; 2]) -> Vec<Logs> {
        let mut starts: Vec<Logs> = self.nearest().map(looked_at).into_iter().collect();
        let fields = (1..PLACES).flat_map(|row| (1..PLACES).map(move |c| row * PLACES + c));
        starts.extend(fields.filter_map(|last| self.crossing(last, felt)));
        starts
    }

    /// The place in the field that ends at a place, from its middle: least squares on
    /// the mean slopes over the field.
    fn crossing(&self, last: usize, felt: [bool; 2]) -> Option<Logs> {
        let corner = |index: usize| self.lacks[index].as_deref();
        let (low, along, across, high) =
            (corner(last - PLACES - 1)?, corner(last - PLACES)?, corner(last - 1)?, corner(last)?);
        let columns: Vec<usize> = (0..2).filter(|hold| felt[*hold]).collect();
        let slopes =
            DMatrix::from_fn(low.len(), columns.len(), |i, column| match columns[column] {
                0 => 0.5 * (high[i] + across[i] - low[i] - along[i]),
                _ => 0.5 * (high[i] + along[i] - low[i] - across[i]),
            });
        let middle =
            DVector::from_fn(low.len(), |i, _| 0.25 * (low[i] + along[i] + across[i] + high[i]));
        let step = (slopes.transpose() * &slopes).try_inverse()? * slopes.transpose() * -middle;
        let inside = step.iter().all(|step| step.abs() <= CLOSE_BY);
        let (from, to) = (looked_at(last - PLACES - 1), looked_at(last));
        let mut steps = step.iter();
        let mut at = [0, 1].map(|hold| f64::midpoint(from[hold], to[hold]));
        for hold in columns {
            at[hold] += (to[hold] - from[hold]) * steps.next()?;
        }
        inside.then_some(at)
    }
}

/// The logarithms of a place of the scan.
pub(super) fn looked_at(index: usize) -> Logs {
    [index / PLACES, index % PLACES].map(place)
}
