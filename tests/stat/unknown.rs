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

/// Seeds, each with its own scramble of the points and its own flights.
const SEEDS: u64 = 8;

/// An end of a band is itself known from so many points only. Chance alone would leave it
/// uncertain, for a number that is spread like a bell, by 0.08 of the band's width with 64
/// points and 0.16 with 16 (one deviation: the root of p (1 - p)/n over the density at p =
/// 5 %, C); points that fill the ranges evenly do better. Eight seeds know a deviation to
/// a quarter.
#[test]
fn stat_ends_of_bands_wander_less_than_chance_would_have_them() {
    for (points, chance) in [(OUTER_POINTS, 0.08), (study::QUICK_POINTS, 0.16)] {
        let ends: Vec<Vec<[f64; 2]>> = (0..SEEDS)
            .map(|seed| {
                let plan = compare(vec![doubted().build("one")], 200);
                let found = run(&Plan { points, seed, ..plan }, &Quiet).unwrap();
                let marks = found.compared().unwrap().builds[0].marks.clone();
                let over = |(low, high): (f64, f64), value: f64| [low / value, high / value];
                let both = |mark: study::MarkAnswer| {
                    let r50 = mark.machine.stats.r50.value;
                    [over(mark.drop_band, mark.nominal.drop), over(mark.machine_band, r50)]
                };
                marks.into_iter().flat_map(both).collect()
            })
            .collect();
        for number in 0..ends[0].len() {
            let at = |end: usize| ends.iter().map(move |ends| ends[number][end]);
            let mean = |end: usize| at(end).sum::<f64>() / SEEDS as f64;
            let width = mean(1) - mean(0);
            for end in 0..2 {
                let square = at(end).map(|value| (value - mean(end)).powi(2)).sum::<f64>();
                let wander = (square / (SEEDS - 1) as f64).sqrt() / width;
                assert!(wander > 1e-4 && wander < chance, "{points} {number} {end}: {wander}");
            }
        }
    }
}
