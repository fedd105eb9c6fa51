//! Points that fill the space of chances evenly, laid out for shares.
//! Model card: docs/model/shares.md.

use crate::{RandomStream, StudyError};

/// Sets of points, each scrambled on its own, whose scatter gives the
/// intervals. Chosen: Student's t is then within 9 % of the normal.
pub const REPLICATES: usize = 16;
/// Points of a set at most: the length of the sequence.
pub(crate) const MOST_POINTS: usize = 1 << 16;
/// Half a cell of the sequence's numbers, which are whole 2^-23: it keeps a
/// chance above 0 and below 1.
pub(crate) const HALF_CELL: f64 = 1.0 / (1 << 24) as f64;
/// The stream that scrambles the sets.
const STREAM: &str = "question.matters";

/// Points in rows: for each point one row `A`, one row `B`, and for each cause
/// the row `A` with the inputs of that cause taken from `B`.
///
/// A point of a Sobol' sequence with Owen scrambling has twice as many
/// dimensions as there are inputs; its first half is `A`, its second `B`.
/// [joe-kuo-2008] [burley-2020]
#[derive(Debug, Clone)]
pub struct Design {
    seeds: Vec<u32>,
    inputs: usize,
    /// Which inputs each cause owns.
    owned: Vec<Vec<bool>>,
}

impl Design {
    /// For so many inputs, and causes that own some of them.
    ///
    /// # Errors
    /// [`StudyError::ManyDraws`] when the sequence has too few dimensions.
    pub fn new(seed: u64, inputs: usize, causes: &[Vec<usize>]) -> Result<Self, StudyError> {
        let most = sobol_burley::NUM_DIMENSIONS as usize / 2;
        if inputs > most {
            return Err(StudyError::ManyDraws { draws: inputs, most });
        }
        let mut stream = RandomStream::new(seed, STREAM);
        let seeds = (0..REPLICATES).map(|set| bits(stream.chance(set as u64))).collect();
        let owned = causes.iter().map(|own| (0..inputs).map(|i| own.contains(&i)).collect());
        Ok(Self { seeds, inputs, owned: owned.collect() })
    }

    /// Rows for each point.
    pub fn rows(&self) -> usize {
        2 + self.owned.len()
    }

    /// The chance of an input in a row of a set: uniform, above 0 and below 1.
    pub fn chance(&self, set: usize, row: usize, input: usize) -> f64 {
        let (point, kind) = (row / self.rows(), row % self.rows());
        let from_b = match kind {
            0 => false,
            1 => true,
            cause => self.owned[cause - 2][input],
        };
        let dimension = if from_b { self.inputs + input } else { input };
        let (point, dimension) = (small(point), small(dimension));
        f64::from(sobol_burley::sample(point, dimension, self.seeds[set])) + HALF_CELL
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "below 2^32")]
pub(crate) fn bits(chance: f64) -> u32 {
    (chance * 2_f64.powi(32)) as u32
}

/// A number below the length and the dimensions of the sequence.
pub(crate) fn small(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_mixed_rows_take_their_own_inputs_from_b() {
        let design = Design::new(1, 3, &[vec![0, 2], vec![1]]).unwrap();
        let row = |kind: usize| -> Vec<f64> {
            (0..3).map(|input| design.chance(0, design.rows() * 5 + kind, input)).collect()
        };
        let (a, b, first) = (row(0), row(1), row(2));
        assert_eq!(first, [b[0], a[1], b[2]]);
        assert_eq!(row(3), [a[0], b[1], a[2]]);
    }

    #[test]
    fn law_points_fill_halves_evenly() {
        let design = Design::new(1, 2, &[vec![0], vec![1]]).unwrap();
        for input in 0..2 {
            let low = (0..64).filter(|p| design.chance(3, design.rows() * p, input) < 0.5).count();
            assert_eq!(low, 32);
        }
    }

    #[test]
    fn regress_too_many_draws_are_refused() {
        let most = sobol_burley::NUM_DIMENSIONS as usize / 2;
        let refused = Design::new(1, most + 1, &[]).unwrap_err();
        assert_eq!(refused, StudyError::ManyDraws { draws: most + 1, most });
    }
}
