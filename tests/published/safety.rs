//! The safety gate beside what the trade does.

use clothyard_tests::program::{Folder, run};

/// What is said of a shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Told {
    Nothing,
    Weak,
    Danger,
}

/// T: spines that common practice takes for a bow of so many pounds at some 28 in, spines
/// a grade or two weaker, and spines far weaker than anyone takes. The first pass in
/// silence, of the second the maker's chart is to be asked, the last are told as dangerous.
#[test]
fn published_shafts_that_suit_pass_and_weak_ones_do_not() {
    let folder = Folder::new("spines");
    let told = |kind: &str, (pounds, spine): (f64, f64)| {
        let (draw, length, point) = match kind {
            "compound" => (28.5, 28.0, 100),
            _ => (28.0, 28.75, 110),
        };
        let density = 4.0 + 1.9 / spine;
        let text = format!(
            "[bow]\nkind = \"{kind}\"\ndraw_weight = \"{pounds} lbf\"\ndraw_length = \"{draw} in\"\n\
             speed_from = \"stored\"\n[arrow.shaft]\noutside = \"0.246 in\"\ninside = \"0.2 in\"\n\
             spine = \"{spine} in\"\nlength = \"{length} in\"\ndensity = \"{density} gr/in\"\n\
             [arrow.insert]\nmass = \"20 gr\"\n[arrow.point]\nmass = \"{point} gr\"\n"
        );
        let ran = run(&["check", &folder.write("pair.toml", &text)]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        let says = |words: &str| ran.out.contains(words);
        match (says("Shaft too weak") || says("Shaft bent too far"), says("Weak shaft")) {
            (true, false) => Told::Danger,
            (false, true) => Told::Weak,
            (false, false) => Told::Nothing,
            (true, true) => panic!("told twice: {}", ran.out),
        }
    };
    let suit = [
        (
            "compound",
            vec![(40.0, 0.6), (50.0, 0.5), (60.0, 0.4), (64.0, 0.4), (70.0, 0.34), (80.0, 0.3)],
        ),
        (
            "recurve",
            vec![(20.0, 1.3), (30.0, 0.9), (35.0, 0.8), (40.0, 0.6), (45.0, 0.55), (50.0, 0.5)],
        ),
    ];
    let weak = [
        (
            "compound",
            vec![(40.0, 1.0), (50.0, 0.8), (60.0, 0.6), (64.0, 1.0), (70.0, 0.5), (80.0, 0.5)],
        ),
        ("recurve", vec![(30.0, 1.6), (35.0, 1.3), (40.0, 1.3), (45.0, 1.0), (50.0, 1.0)]),
    ];
    let grade = [
        ("compound", vec![(40.0, 0.7), (50.0, 0.6), (60.0, 0.5), (64.0, 0.5), (70.0, 0.4)]),
        ("recurve", vec![(40.0, 0.9)]),
    ];
    for (pairs, want) in [(suit, Told::Nothing), (grade, Told::Weak), (weak, Told::Danger)] {
        for (kind, pairs) in pairs {
            for pair in pairs {
                assert_eq!(told(kind, pair), want, "{kind} {pair:?}");
            }
        }
    }
}
