use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use study::{Distribution, RandomStream, normal_quantile};

/// C: `norm.ppf` of scipy, each branch of the algorithm.
#[test]
fn exact_normal_quantile() {
    let table = [
        (1e-16, -8.222_082_216_130_435),
        (1e-10, -6.361_340_902_404_056),
        (1e-4, -3.719_016_485_455_680_6),
        (0.025, -1.959_963_984_540_054_5),
        (0.25, -0.674_489_750_196_081_7),
        (0.5, 0.0),
        (0.8, 0.841_621_233_572_914_3),
        (0.975, 1.959_963_984_540_054),
        (0.9999, 3.719_016_485_455_709),
    ];
    for (p, want) in table {
        let found: f64 = normal_quantile(p);
        // Two units in the last place of either.
        assert!((found - want).abs() <= 4.0 * f64::EPSILON * want.abs(), "{p}: {found}");
    }
}

/// C: closed forms of the two other laws, and of the normal at its quartile.
#[test]
fn exact_laws_at_a_chance() {
    let near = |found: f64, want: f64| assert!((found - want).abs() < 1e-15, "{found} {want}");
    near(Distribution::Rayleigh { scale: 2.0 }.at(0.5), 2.0 * (2.0 * 2.0_f64.ln()).sqrt());
    near(Distribution::Rayleigh { scale: 1.0 }.at(0.25), (2.0 * (4.0_f64 / 3.0).ln()).sqrt());
    near(Distribution::Uniform { low: -1.0, high: 3.0 }.at(0.25), 0.0);
    near(Distribution::Normal { mean: 1.0, sd: 2.0 }.at(0.25), 1.0 - 2.0 * 0.674_489_750_196_081_7);
}

/// M: FNV-1a of `foobar` and of `a`, from the test vectors of its authors. The
/// generator itself, read in order, gives the chances by index.
#[test]
fn exact_a_chance_is_a_word_of_the_generator() {
    for (key, hash) in [("foobar", 0x8594_4171_f739_67e8), ("a", 0xaf63_dc4c_8601_ec8c)] {
        let mut seed = [0; 32];
        seed[..8].copy_from_slice(&99_u64.to_le_bytes());
        let mut words = ChaCha8Rng::from_seed(seed);
        words.set_stream(hash);
        let mut stream = RandomStream::new(99, key);
        for index in 0..100 {
            let want = ((words.next_u64() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64;
            assert_eq!(stream.chance(index).to_bits(), want.to_bits(), "{key} {index}");
        }
    }
}
