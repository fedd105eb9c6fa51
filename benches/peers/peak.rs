//! The most fused operations a core can do.

use std::hint::black_box;
use std::time::Instant;

use solve::{Arch, LANES_MAX, Lanes, Number, Simd, WithSimd};

/// Rounds of the loop, and sums that do not wait for each other.
const ROUNDS: u32 = 4_000_000;
const SUMS: usize = 12;

struct Work;

impl WithSimd for Work {
    type Output = (usize, f64);

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) -> Self::Output {
        let load = |value: f64| Lanes::load(simd, &black_box([value; LANES_MAX]));
        let (factor, term) = (load(0.999), load(1e-3));
        let mut sums = [load(1.0); SUMS];
        for _ in 0..ROUNDS {
            for sum in &mut sums {
                *sum = sum.mul_add(factor, term);
            }
        }
        (Lanes::<S>::COUNT, black_box(sums).iter().map(|sum| sum.store()[0]).sum())
    }
}

/// Floating-point operations a second, a fused one counted as two.
pub(crate) fn flops() -> f64 {
    let run = |()| {
        let start = Instant::now();
        let (lanes, _) = black_box(Arch::new().dispatch(Work));
        2.0 * f64::from(ROUNDS) * (SUMS * lanes) as f64 / start.elapsed().as_secs_f64()
    };
    [(); 5].map(run).into_iter().fold(0.0, f64::max)
}
