//! The order of a trial, drawn by lot.

use crate::RandomStream;

/// Which arrow is which, and in what order they are shot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lot {
    /// The build, 0 or 1, of each arrow, from number 1 on.
    pub key: Vec<usize>,
    /// Of each end the numbers of its arrows, first shot first.
    pub ends: Vec<Vec<u32>>,
}

impl Lot {
    /// Draws so many ends, each of every arrow once, `arrows` of each build. What is
    /// drawn depends on the seed alone, and of more ends the first are the same.
    pub fn draw(seed: u64, arrows: u32, ends: u32) -> Self {
        let all = 2 * arrows;
        let mut stream = RandomStream::new(seed, "trial.key");
        let mut key: Vec<usize> = (0..all).map(|at| usize::from(at >= arrows)).collect();
        shuffle(&mut stream, 0, &mut key);
        let mut stream = RandomStream::new(seed, "trial.order");
        let one = |end: u32| {
            let mut order: Vec<u32> = (1..=all).collect();
            shuffle(&mut stream, u64::from(end) * u64::from(all), &mut order);
            order
        };
        let ends = (0..ends).map(one).collect();
        Self { key, ends }
    }
}

/// Every order equally likely: each place takes one of what is left (Fisher and Yates).
fn shuffle<T>(stream: &mut RandomStream, from: u64, of: &mut [T]) {
    for at in (1..of.len()).rev() {
        let chance = stream.chance(from + at as u64);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "below at + 1")]
        let other = (chance * (at + 1) as f64) as usize;
        of.swap(at, other.min(at));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_every_end_holds_every_arrow_once_and_each_build_alike() {
        for seed in 0..50 {
            let lot = Lot::draw(seed, 3, 12);
            assert_eq!(lot.key.iter().sum::<usize>(), 3, "half of the six are of the second");
            assert_eq!(lot.ends.len(), 12);
            for end in &lot.ends {
                let mut sorted = end.clone();
                sorted.sort_unstable();
                assert_eq!(sorted, [1, 2, 3, 4, 5, 6]);
            }
        }
    }

    #[test]
    fn law_a_seed_draws_the_same_and_more_ends_begin_alike() {
        let lot = Lot::draw(7, 3, 12);
        assert_eq!(lot, Lot::draw(7, 3, 12));
        assert_eq!(lot.ends[..5], Lot::draw(7, 3, 5).ends[..]);
        assert_ne!(lot, Lot::draw(8, 3, 12));
    }

    /// Over 3000 seeds each arrow is of the second build half the time, and shot first
    /// a sixth of the time: within four standard errors.
    #[test]
    fn stat_every_arrow_and_place_is_as_likely() {
        let (mut second, mut first) = ([0_u32; 6], [0_u32; 6]);
        for seed in 0..3000 {
            let lot = Lot::draw(seed, 3, 1);
            for (count, build) in second.iter_mut().zip(&lot.key) {
                *count += u32::from(*build == 1);
            }
            first[lot.ends[0][0] as usize - 1] += 1;
        }
        assert!(second.iter().all(|&count| (1391..=1609).contains(&count)), "{second:?}");
        assert!(first.iter().all(|&count| (419..=581).contains(&count)), "{first:?}");
    }
}
