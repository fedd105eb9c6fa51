//! A dozen as a technician types it into a spreadsheet, against the same dozen told
//! tidily.

use std::path::Path;

use scenario::measured::{Stations, Table, batch, profiles};
use workbench::Measured;

/// Mass (gr), spine and run-out (in), length (in), high side (deg).
const DOZEN: [(&str, &str, &str, &str, &str); 12] = [
    ("425.3", "0.340", "28.5", "0.002", "90"),
    ("424.8", "0.338", "28.5", "0.002", "90"),
    ("", "0.345", "28.5", "0.0015", "180"),
    ("425.9", "0.342", "28.4375", "0.003", "360"),
    ("427.5", "0.341", "28.5", "0.0015", "195"),
    ("425.0", "0.339", "28.5", "", "90"),
    ("424.1", "0.340", "28.625", "0.001", "30"),
    ("426.0", "0.343", "28.5", "0.002", "270"),
    ("425.5", "", "28.5", "0.0025", "60"),
    ("423.9", "0.337", "28.5625", "0.003", "0"),
    ("425.2", "0.340", "28.5", "0.002", "315"),
    ("426.4", "0.344", "28.5", "0.001", "120"),
];

/// The same with a title, units below the heads and in one of them, thou, mil and inches
/// one below the other, fractions, a spine said bare, hours of the clock, blanks, the
/// heads once more where a page ended, and two rows of sums.
const TYPED: &str = "\
Tansy Creek dozen (invented),,,,,,
,,,,,,
Arrow #,Weight gr,Spine,Arrow length,TIR [thou],High side,Remarks
,grains,in,inches,,o'clock,
1,425.3,340,28 1/2,2,3,
2,424.8,.338,28.5 in,0.002 in,3 o'clock,
3,,345,28-1/2,1.5,6,scale was out
4,425.9 gr,342,\"28 7/16\"\"\",3 thou,12 o\u{2019}clock,
5,427.5,0.341 in,\"28 1/2\"\"\",1.5 mil,6:30,
6,425,339,28 1/2,,90 deg,
Arrow #,Weight gr,Spine,Arrow length,TIR [thou],High side,Remarks
7,424.1,340,28 5/8,1,1:00,
8,426,343,28.5,2 thou,9 o'clock,
9,425.5,,28\u{bd},2.5,2,spine not read
10,423.9,337,28 9/16,.003 in,0,
11,425.2,340,28 1/2,2,10:30,
12,426.4,344,28.5,1,4,
Average,425.5,341,28.5,1.9,,
Total,5106,,,,,
";

fn read(text: &str) -> Table<Measured> {
    batch(Path::new("typed.csv"), Ok(text.into())).unwrap_or_else(|wrong| panic!("{wrong}"))
}

fn tidy() -> String {
    let heads = "arrow,mass [gr],spine [in],length [in],run-out [in],run-out high [deg]\n";
    let row = |(at, (mass, spine, length, run_out, high)): (usize, &(_, _, _, _, _))| {
        format!("{},{mass},{spine},{length},{run_out},{high}\n", at + 1)
    };
    DOZEN.iter().enumerate().map(row).fold(heads.to_owned(), |all, row: String| all + &row)
}

/// Rounding of one factor or another: a few last digits.
fn near(one: Option<f64>, other: Option<f64>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => (one - other).abs() <= 4.0 * f64::EPSILON * other.abs(),
        (one, other) => one == other,
    }
}

#[test]
fn law_a_dozen_as_it_is_typed_is_the_tidy_dozen() {
    let (typed, tidy) = (read(TYPED), read(&tidy()));
    assert_eq!((typed.found.len(), &typed.passed_over), (12, &tidy.passed_over));
    let lines = ["line 1 (a title)", "line 11 (the heads again)", "line 18 (Average)"];
    assert_eq!(typed.left_out[..3], lines);
    for (one, other) in typed.found.iter().zip(&tidy.found) {
        let numbers = |m: &Measured| {
            let run_out = m.run_out.map(|spun| spun.total.si());
            let high = m.run_out.and_then(|spun| spun.high).map(|high| high.si().sin());
            [
                m.mass.map(units::Mass::si),
                m.spine.map(units::Length::si),
                m.length.map(units::Length::si),
                run_out,
                high,
            ]
        };
        let (one_of, other_of) = (numbers(one), numbers(other));
        let alike = one_of[..4].iter().zip(&other_of[..4]).all(|(a, b)| near(*a, *b));
        assert!(one.name == other.name && alike, "{one:?}\n{other:?}");
        // A whole turn rounds.
        let turned = one_of[4].zip(other_of[4]).is_none_or(|(a, b)| (a - b).abs() < 1e-12);
        assert!(turned, "{one:?}\n{other:?}");
    }
}

/// A sum at the end of a row and one below it are no readings.
#[test]
fn law_a_wide_table_with_sums_is_the_table_without_them() {
    let read = |text: &str| {
        let table =
            profiles(Path::new("wide.csv"), Ok(text.into())).unwrap_or_else(|w| panic!("{w}"));
        let Stations::Dial(dial) = table.found[0].stations.clone() else { panic!("no dial") };
        (dial, table.found.len(), table.passed_over, table.left_out)
    };
    let rows = "18.5,20,21.5\n1,32,3 o'clock,18,20,21\n";
    let heads = "Shaft,Stock [in],Clock,0.5 in [thou],8 in [thou],at 31.5 in [thou]";
    let (bare, ..) = read(&format!("{heads}\n1,32,12 o'clock,{rows}"));
    let summed = rows.replace("21.5\n", "21.5,60\n").replace("21\n", "21,59\n");
    let (dial, count, own, left) =
        read(&format!("{heads},Total\n1,32,12 o'clock,{summed}Mean,,,18.25,20,21.25,59.5\n"));
    assert_eq!((dial, count, own), (bare, 1, vec!["G (Total)".to_owned()]));
    assert_eq!(left, ["line 4 (Mean)"]);
}
