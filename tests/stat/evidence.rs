//! What is left by what was measured, against invented truths on the whole chain.

use std::sync::Arc;

use clothyard_tests::recipe::{Simple, Value, compare};
use launch::hold_at;
use study::{Evidence, Measured, Plan, Quiet, RandomStream, Recipe, Slot, normal_quantile, run};
use units::{Force, Length, Speed};

/// Truths invented.
const TRUTHS: u64 = 96;
const BINS: usize = 4;
/// Force of a push, N.
const PUSH: f64 = 20.0;

fn doubted() -> Simple {
    let simple = Simple::new().doubted(Value::NockDrag, 0.2, 0.9);
    simple.doubted(Value::Restraint, 0.4, 1.6)
}

/// The share of the points left below the truth is even from 0 to 1 [talts-2018]:
/// truths drawn as the values are, a push on the nock and a speed down range read with
/// their errors, few flights. Chi-square of four bins below what 999 in 1000 good sets
/// give (16.3).
#[test]
fn stat_truths_of_the_chain_lie_anywhere_among_the_points_left() {
    let simple = doubted();
    let mut stream = RandomStream::new(31, "truths");
    let mut bins = [[0_u32; BINS]; 2];
    let far = Length::from_si(45.0);
    for truth in 0..TRUTHS {
        let mut next = 4 * truth..;
        let mut chance = || stream.chance(next.next().unwrap());
        let values: Vec<(Slot, f64)> =
            simple.uncertain.iter().map(|of| (of.slot, of.at(chance()))).collect();
        let mut held = simple.clone();
        held.base = simple.setup(&values).unwrap();
        held.uncertain.clear();
        let give = PUSH / hold_at(&held.base.bow, 0.0).unwrap()[0];
        let speed = study::nominal(&held, &[far]).unwrap().marks[0].speed;
        let errors = [0.15 * give, 0.4];
        let read = [
            give + errors[0] * normal_quantile(chance()),
            speed + errors[1] * normal_quantile(chance()),
        ];
        let push =
            Measured::Push { force: Force::from_si(PUSH), give: [read[0], 0.0], drawn: false };
        let clock = Measured::Speed { distance: far, speed: Speed::from_si(read[1]) };
        let evidence = [push, clock].into_iter().zip(errors).map(|(what, error)| Evidence {
            name: String::new(),
            recipe: Arc::new(simple.clone()),
            what,
            sides: [true, false],
            shots: 1,
            error: Some(error),
        });
        let evidence = evidence.collect();
        let plan = compare(vec![simple.clone().build("one")], 100);
        let answer = run(&Plan { evidence, points: 32, seed: truth, ..plan }, &Quiet).unwrap();
        let joint = answer.unknown.unwrap();
        let whole: f64 = joint.points.iter().map(|point| point.weight).sum();
        for (bins, (slot, value)) in bins.iter_mut().zip(&values) {
            let at = joint.inputs.iter().position(|input| input.slot == *slot).unwrap();
            let below = joint.points.iter().filter(|p| joint.inputs[at].at(p.chances[at]) < *value);
            let share = below.map(|point| point.weight).sum::<f64>() / whole;
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a bin")]
            let bin = (share * BINS as f64) as usize;
            bins[bin.min(BINS - 1)] += 1;
        }
    }
    let even = TRUTHS as f64 / BINS as f64;
    for bins in bins {
        let chi: f64 = bins.iter().map(|of| (f64::from(*of) - even).powi(2) / even).sum();
        assert!(chi < 16.3, "{chi} {bins:?}");
    }
}
