//! The range that a stated error leaves of the string's holds must hold the truth.

use clothyard_tests::push;
use clothyard_tests::recipe::Simple;
use launch::hold_at;
use study::{Distribution, Held, MeasuredShift, Moved, Pinned, Quiet, RandomStream, pin};
use units::{Length, Ratio};

/// A bow whose nock is pushed, and the holds it really has.
const TRUTH: [f64; 2] = [0.8, 1.5];

fn held(truth: [f64; 2]) -> Simple {
    let mut simple = Simple::new();
    simple.base.bow = push::recurve();
    simple.base.bow.restraint.left = Ratio::from_si(truth[0]);
    simple.base.bow.restraint.up = Ratio::from_si(truth[1]);
    simple
}

fn covers(pinned: &Pinned) -> [bool; 2] {
    [(&pinned.left, TRUTH[0]), (&pinned.up, TRUTH[1])].map(|(held, truth)| {
        let Held::Found { restraint, .. } = held else { panic!("{held:?}") };
        (restraint.low..=restraint.high).contains(&truth)
    })
}

/// Pushed with 20 N, read to 0.5 mm and to 0.3 mm more than once: 95 % of 400
/// ranges hold the truth, within four standard errors of the count.
#[test]
fn stat_pin_covers_the_truth() {
    const SETS: u64 = 400;
    let (force, error) = (20.0, 5e-4);
    let give = hold_at(&held(TRUTH).base.bow, 0.0).unwrap().map(|hold| force / hold);
    let law = Distribution::Normal { mean: 0.0, sd: error };
    let stream = RandomStream::new(11, "noise");
    let scenario = held([1.0, 1.0]);
    let mut hits = [0_u32; 2];
    for set in 0..SETS {
        let read = |give: f64, plane: u64| give + stream.clone().value(&law, 2 * set + plane);
        let measured = MeasuredShift {
            distance: Length::ZERO,
            shift: [read(give[0], 0), read(give[1], 1)],
            how: Moved::Pushed(force),
            error: Some(error),
        };
        let pinned = pin(&scenario, &[measured], &Quiet).unwrap();
        for (hits, covered) in hits.iter_mut().zip(covers(&pinned)) {
            *hits += u32::from(covered);
        }
    }
    // 380 of 400 expected, standard error 4.4; the linear range of a logarithm
    // costs a few.
    for hits in hits {
        assert!((360..=397).contains(&hits), "{hits}");
    }
}
