//! Lanes against lone numbers, bit for bit, and our sine against the standard
//! library's.

use solve::{Arch, LANES_MAX, Lanes, Number, Simd, WithSimd};

const VALUES: [[f64; LANES_MAX]; 3] = [
    [0.0, -0.0, 1.5, -2.25, 1e-300, 1e300, 3.0, -7.125],
    [1.0, 2.0, -1.5, 2.25, 1e-200, 1e200, 0.1, 1e4],
    [250.0, -31.4, 0.7, 6.3, 3.2, -0.1, 1e3, 12.5],
];

/// Runs `f` on the widest lanes there are, and gives each lane's result.
struct Run<F>(F);

trait Operation {
    fn over<N: Number>(&self, a: N, b: N) -> N;
}

impl<F: Operation> WithSimd for Run<(F, [f64; LANES_MAX], [f64; LANES_MAX])> {
    type Output = (usize, [f64; LANES_MAX]);
    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) -> Self::Output {
        let Run((f, a, b)) = self;
        let out = f.over(Lanes::load(simd, &a), Lanes::load(simd, &b));
        (Lanes::<S>::COUNT, out.store())
    }
}

macro_rules! operations {
    ($($name:ident: |$a:ident, $b:ident| $body:expr;)*) => {$(
        #[derive(Clone, Copy)]
        struct $name;
        impl Operation for $name {
            #[inline(always)]
            fn over<N: Number>(&self, $a: N, $b: N) -> N {
                $body
            }
        }
    )*};
}

operations! {
    Plus: |a, b| a + b;
    Minus: |a, b| a - b;
    Times: |a, b| a * b;
    Fused: |a, b| a.mul_add(b, a);
    Over: |a, b| a / b;
    Negative: |a, _b| -a;
    Root: |a, _b| a.abs().sqrt();
    Larger: |a, b| a.max(b);
    Size: |a, _b| a.abs();
    Log: |a, _b| a.abs().ln();
    Sine: |a, _b| a.sin_cos().0;
    Cosine: |a, _b| a.sin_cos().1;
    Constant: |a, _b| a.same(0.3);
    Smaller: |a, b| a.min(b);
    Chosen: |a, b| a.if_above_zero(b, a * b);
    Exponential: |a, _b| (a * a.same(1e-300)).exp();
    Whole: |a, _b| a.nearest_whole(7).0;
    Looked: |a, b| {
        let (_, places) = a.nearest_whole(2);
        N::look_up(&[a, b, a * b, a + b], &places, 1)
    };
}

fn same_bits(f: &(impl Operation + Copy)) {
    for a in VALUES {
        for b in VALUES {
            let (count, lanes) = Arch::new().dispatch(Run((*f, a, b)));
            for lane in 0..count {
                let lone = f.over(a[lane], b[lane]);
                let got = lanes[lane];
                let same = lone.to_bits() == got.to_bits() || (lone.is_nan() && got.is_nan());
                assert!(same, "lane {lane}: {got} for {lone} of {} and {}", a[lane], b[lane]);
            }
        }
    }
}

/// Every operation gives each lane the bits that a lone number gets.
#[test]
fn exact_lanes_are_lone_numbers() {
    same_bits(&Plus);
    same_bits(&Minus);
    same_bits(&Times);
    same_bits(&Fused);
    same_bits(&Over);
    same_bits(&Negative);
    same_bits(&Root);
    same_bits(&Larger);
    same_bits(&Size);
    same_bits(&Log);
    same_bits(&Sine);
    same_bits(&Cosine);
    same_bits(&Constant);
    same_bits(&Smaller);
    same_bits(&Chosen);
    same_bits(&Exponential);
    same_bits(&Whole);
    same_bits(&Looked);
}

/// The larger of two is not a number if either is not.
#[test]
fn exact_lanes_keep_what_is_not_a_number() {
    let (mut a, b) = ([1.0; LANES_MAX], [2.0; LANES_MAX]);
    a[0] = f64::NAN;
    for (a, b) in [(a, b), (b, a)] {
        let (_, lanes) = Arch::new().dispatch(Run((Larger, a, b)));
        assert!(lanes[0].is_nan() && Larger.over(a[0], b[0]).is_nan());
    }
}

/// Sine and cosine against the standard library's, up to ten thousand turns:
/// some roundings of numbers near one.
#[test]
fn exact_sine_and_cosine() {
    for i in -2000..2000_i32 {
        for scale in [0.01, 1.0, 31.4] {
            let x = f64::from(i) * scale;
            let (sin, cos) = Number::sin_cos(x);
            let gap = (sin - x.sin()).abs().max((cos - x.cos()).abs());
            assert!(gap < 2e-15, "{x}: off by {gap}");
        }
    }
}
