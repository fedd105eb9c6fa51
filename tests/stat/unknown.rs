//! Bands against invented truths.

use clothyard_tests::recipe::{Simple, Value, compare};
use study::{BuildAnswer, OUTER_POINTS, Plan, Quiet, RandomStream, Recipe, Slot, run};

/// Truths invented. With 90 % inside, 60 of them know the share to 4 points (one
/// standard deviation).
const TRUTHS: u64 = 60;

fn doubted() -> Simple {
    let simple = Simple::new().sawn(0.004).doubted(Value::NockDrag, 0.3, 0.6);
    simple.doubted(Value::Restraint, 0.4, 1.2)
}

fn numbers(build: &BuildAnswer) -> Vec<f64> {
    let marks = build.marks.iter();
    marks.flat_map(|mark| [mark.nominal.drop, mark.machine.stats.r50.value]).collect()
}

/// Answers with the poorly known values at random places of their ranges lie in
/// the bands nine times in ten. Drop and R50 of one truth go together, so the
/// share is known no better than from the truths alone: 2.5 deviations.
#[test]
fn stat_bands_cover_nine_tenths_of_the_truths() {
    let simple = doubted();
    let plan = |simple: Simple, points| Plan { points, ..compare(vec![simple.build("one")], 200) };
    let found = run(&plan(simple.clone(), OUTER_POINTS), &Quiet).unwrap();
    let build = &found.compared().unwrap().builds[0];
    let bands: Vec<(f64, f64)> =
        build.marks.iter().flat_map(|mark| [mark.drop_band, mark.machine_band]).collect();
    let mut inside = vec![0.0; bands.len()];
    let mut stream = RandomStream::new(99, "truths");
    for truth in 0..TRUTHS {
        let values: Vec<(Slot, f64)> = (0..)
            .zip(&simple.uncertain)
            .map(|(at, of)| (of.slot, of.at(stream.chance(2 * truth + at))))
            .collect();
        let mut held = simple.clone();
        held.base = simple.setup(&values).unwrap();
        held.uncertain.clear();
        let found = run(&plan(held, 0), &Quiet).unwrap();
        let numbers = numbers(&found.compared().unwrap().builds[0]);
        for ((inside, number), (low, high)) in inside.iter_mut().zip(numbers).zip(&bands) {
            *inside += f64::from(u8::from(*low <= number && number <= *high));
        }
    }
    for share in inside.iter().map(|inside| inside / TRUTHS as f64) {
        assert!((0.8..=0.99).contains(&share), "{share}");
    }
}
