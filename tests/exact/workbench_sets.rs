//! Sets, splits and turns against looking at every way.

use workbench::{
    Place, best_by_value, best_set, best_turns, set_of, split_in_turn, split_together,
};

/// Places from a fixed jumble; some blurred, two alike.
fn places(seed: u32, count: u32) -> Vec<Place> {
    let draw = |k: u32| {
        let mix = f64::from(seed) * 0.377 + f64::from(k) * 0.618_033_988_749_895;
        (mix * 1013.0).fract() - 0.5
    };
    let mut places: Vec<Place> = (0..count)
        .map(|k| Place {
            left: 0.1 * draw(3 * k),
            up: 0.06 * draw(3 * k + 1),
            blur: (0.03 * draw(3 * k + 2)).max(0.0),
        })
        .collect();
    places[1] = places[0];
    places
}

fn subsets(count: usize, size: usize) -> Vec<Vec<usize>> {
    (0_u32..1 << count)
        .filter(|bits| bits.count_ones() as usize == size)
        .map(|bits| (0..count).filter(|at| bits >> at & 1 == 1).collect())
        .collect()
}

/// Twelve choose six and other sizes, all 924 ways.
#[test]
fn exact_the_best_set_equals_an_exhaustive_search() {
    for seed in 0..40 {
        let places = places(seed, 12);
        for size in [1, 2, 6, 9, 11, 12] {
            let least = subsets(12, size)
                .iter()
                .map(|members| set_of(&places, members).spread)
                .fold(f64::INFINITY, f64::min);
            let got = best_set(&places, size).unwrap();
            assert_eq!(got.members.len(), size);
            assert!((got.spread - least).abs() <= 1e-12 * least.max(1e-3), "{seed} {size}");
        }
    }
}

/// Arrows on one spot, in a row, and on a square: nothing is left out.
#[test]
fn exact_the_best_set_of_places_in_line_or_alike() {
    let at = |left: f64, up: f64| Place { left, up, blur: 0.0 };
    let same = vec![at(0.1, 0.2); 5];
    assert!(best_set(&same, 3).unwrap().spread < 1e-15);
    let row: Vec<Place> = [0.0, 1.0, 1.1, 1.2, 5.0].map(|x| at(x, 2.0 * x)).to_vec();
    assert_eq!(best_set(&row, 3).unwrap().members, [1, 2, 3]);
    let square = [at(0.0, 0.0), at(1.0, 0.0), at(0.0, 1.0), at(1.0, 1.0), at(0.5, 0.5)];
    let want = subsets(5, 3).iter().map(|m| set_of(&square, m).spread).fold(9.0, f64::min);
    assert!((best_set(&square, 3).unwrap().spread - want).abs() < 1e-15);
}

/// A gross: no swap of one arrow makes the best set better.
#[test]
fn law_no_swap_betters_the_best_set_of_a_gross() {
    let places = places(7, 144);
    let best = best_set(&places, 36).unwrap();
    for out in &best.members {
        for into in (0..144).filter(|at| !best.members.contains(at)) {
            let members: Vec<usize> =
                best.members.iter().map(|at| if at == out { into } else { *at }).collect();
            assert!(set_of(&places, &members).spread >= best.spread * (1.0 - 1e-12));
        }
    }
}

/// Neighbours by value, all ways.
#[test]
fn exact_the_best_by_value_equals_an_exhaustive_search() {
    let values: Vec<f64> = places(3, 10).iter().map(|p| p.left).collect();
    let as_places: Vec<Place> =
        values.iter().map(|&left| Place { left, up: 0.0, blur: 0.0 }).collect();
    for size in 1..=10 {
        let got = set_of(&as_places, &best_by_value(&values, size).unwrap()).spread;
        let least = subsets(10, size)
            .iter()
            .map(|members| set_of(&as_places, members).spread)
            .fold(f64::INFINITY, f64::min);
        assert!((got - least).abs() < 1e-15, "{size}: {got} {least}");
    }
}

/// Two sets of a dozen against every way to pick both; a gross within its
/// stated gap, and never worse than one set after the other.
#[test]
fn exact_splits_of_a_dozen_equal_an_exhaustive_search() {
    for seed in 0..6 {
        let places = places(seed, 10);
        let split = split_together(&places, &[4, 3]).unwrap();
        let mut least = f64::INFINITY;
        for first in subsets(10, 4) {
            for second in subsets(10, 3).iter().filter(|s| s.iter().all(|at| !first.contains(at))) {
                let squares = 4.0 * set_of(&places, &first).spread.powi(2)
                    + 3.0 * set_of(&places, second).spread.powi(2);
                least = least.min((squares / 7.0).sqrt());
            }
        }
        assert!((split.spread - least).abs() < 1e-12, "{seed}: {} {least}", split.spread);
        assert_eq!((split.bound, split.left_over.len()), (split.spread, 3));
    }
    let gross = places(5, 144);
    let (turn, both) =
        (split_in_turn(&gross, &[48, 48]).unwrap(), split_together(&gross, &[48, 48]).unwrap());
    assert!(both.bound <= both.spread && both.spread <= turn.spread);
    assert_eq!(turn.sets[0].members, best_set(&gross, 48).unwrap().members);
}

/// Six arrows with three positions each: all 729 ways.
#[test]
fn exact_the_best_turns_equal_an_exhaustive_search() {
    for seed in 0..20 {
        let all = places(seed, 18);
        let arrows: Vec<Vec<Place>> = all.chunks(3).map(<[Place]>::to_vec).collect();
        let got = best_turns(&arrows).unwrap();
        let least = (0..729_usize)
            .map(|code| {
                let pick = |at: usize| arrows[at][code / [1, 3, 9, 27, 81, 243][at] % 3];
                let chosen: Vec<Place> = (0..6).map(pick).collect();
                set_of(&chosen, &[0, 1, 2, 3, 4, 5]).spread
            })
            .fold(f64::INFINITY, f64::min);
        assert!((got.spread - least).abs() <= 1e-12, "{seed}: {} against {least}", got.spread);
    }
}
