//! Sight marks against the parabola of a shot without air.

use clothyard_tests::marks::plan;
use clothyard_tests::no_air;
use clothyard_tests::recipe::Simple;
use study::{SightMarks, marks};

/// The hunting arrow without air, its departure clean, its point flown as the
/// balance point is: the nose follows nothing, so it stays level with its
/// launch.
fn vacuum() -> (SightMarks, f64) {
    let mut simple = Simple::new();
    simple.base.aero = no_air();
    let answer = marks(&simple, &plan()).unwrap();
    let speed = answer.departure.speed;
    (answer, speed)
}

#[test]
fn exact_try() {
    let start = std::time::Instant::now();
    let (answer, speed) = vacuum();
    eprintln!("{:?} {speed}", start.elapsed());
    let simple = Simple::new();
    let start = std::time::Instant::now();
    let real = marks(&simple, &plan()).unwrap();
    eprintln!("{:?}", start.elapsed());
    for row in &real.rows {
        eprintln!("{row:?}");
    }
    for hill in &real.hills {
        eprintln!("{hill:?}");
    }
    eprintln!("{:?} {:?}", real.pins, real.doubts);
    for row in &answer.rows {
        eprintln!("{row:?}");
    }
}
