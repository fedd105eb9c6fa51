//! Chances: every drawn value is a function of seed, key and index alone.

use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};
use target::normal_below;

use crate::Distribution;
use crate::quantile::normal_quantile;

/// The drawn values of one key. See `docs/model/study.md`.
///
/// `ChaCha` with 8 rounds serves as a counter-based generator: the seed is its
/// key, a hash of the draw's key its stream, and the index of the arrow or
/// shot its position. So a value depends on neither the order of drawing, nor
/// the thread, nor what else is drawn, and two builds that draw the same key
/// share their chances.
#[derive(Debug, Clone)]
pub struct RandomStream {
    rng: ChaCha8Rng,
}

impl RandomStream {
    /// The stream of one key under one seed.
    pub fn new(seed: u64, key: &str) -> Self {
        let mut bytes = [0_u8; 32];
        bytes[..8].copy_from_slice(&seed.to_le_bytes());
        let mut rng = ChaCha8Rng::from_seed(bytes);
        rng.set_stream(fnv1a(key));
        Self { rng }
    }

    /// The chance at an index: uniform, above 0 and below 1.
    ///
    /// The midpoints of 2^52 equal cells: with 53 bits the last midpoint would
    /// round to 1.
    pub fn chance(&mut self, index: u64) -> f64 {
        const CELLS: f64 = (1_u64 << 52) as f64;
        // A chance takes two 32-bit words.
        let at = 2 * u128::from(index);
        if self.rng.get_word_pos() != at {
            self.rng.set_word_pos(at);
        }
        ((self.rng.next_u64() >> 12) as f64 + 0.5) / CELLS
    }

    /// The value of a law at an index, SI.
    pub fn value(&mut self, law: &Distribution, index: u64) -> f64 {
        law.at(self.chance(index))
    }
}

impl Distribution {
    /// The value below which a share `chance` (above 0, below 1) of all values
    /// lies, SI.
    pub fn at(&self, chance: f64) -> f64 {
        match *self {
            Self::Normal { mean, sd } => mean + sd * normal_quantile(chance),
            Self::Uniform { low, high } => low + (high - low) * chance,
            Self::NormalWithin { mean, sd, within } => {
                let below = normal_below(-within / sd);
                let inside = below + (1.0 - 2.0 * below) * chance;
                mean + (sd * normal_quantile(inside)).clamp(-within, within)
            }
            Self::RayleighUpTo { scale, most } => {
                let kept = -(-0.5 * (most / scale).powi(2)).exp_m1();
                (scale * (-2.0 * (-kept * chance).ln_1p()).sqrt()).min(most)
            }
            Self::Rayleigh { scale } => scale * (-2.0 * (-chance).ln_1p()).sqrt(),
        }
    }

    /// The value that half of all values lie below, SI.
    pub fn median(&self) -> f64 {
        self.at(0.5)
    }
}

/// FNV-1a, 64 bits: the same on every machine and in every version. [fnv]
fn fnv1a(text: &str) -> u64 {
    const BASIS: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0000_0100_0000_01b3;
    text.bytes().fold(BASIS, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(PRIME))
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "exact halves")]
mod tests {
    use super::*;

    #[test]
    fn exact_medians_of_the_laws() {
        assert_eq!(Distribution::Normal { mean: 3.0, sd: 2.0 }.at(0.5), 3.0);
        assert_eq!(Distribution::Uniform { low: 1.0, high: 4.0 }.at(0.5), 2.5);
        assert_eq!(Distribution::NormalWithin { mean: 3.0, sd: 2.0, within: 1.0 }.at(0.5), 3.0);
        // Rayleigh: scale times the root of 2 ln 2.
        let median = Distribution::Rayleigh { scale: 2.0 }.at(0.5);
        assert!((median - 2.0 * (2.0 * 2.0_f64.ln()).sqrt()).abs() < 1e-15);
    }

    #[test]
    fn law_a_chance_depends_on_seed_key_and_index_alone() {
        let (mut one, mut other) =
            (RandomStream::new(7, "form.aim"), RandomStream::new(7, "form.aim"));
        let forward: Vec<f64> = (0..8).map(|index| one.chance(index)).collect();
        let back: Vec<f64> = (0..8).rev().map(|index| other.chance(index)).collect();
        assert!(forward.iter().eq(back.iter().rev()));
        assert!(forward.iter().all(|chance| *chance > 0.0 && *chance < 1.0));
        assert_ne!(one.chance(0).to_bits(), RandomStream::new(8, "form.aim").chance(0).to_bits());
    }
}
