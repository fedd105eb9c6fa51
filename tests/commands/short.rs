//! Short answers of the commands: they fit a window, and hold what an archer acts on.

use clothyard_tests::program::{Folder, path, run};

/// Lines of a small window.
const LINES: usize = 25;

/// The first scenario of somebody who has read nothing.
const FIRST: &str = "draw_weight = \"60 lbs\"\ndraw_length = \"29 in\"\nspeed = \"285 fps\"\n\
                     arrow_length = \"28 1/2 in\"\nspine = 340\npoint = \"100 grains\"\n\
                     group = \"5 arrows at 40 yd span 6 in\"\n";

fn short(words: &[&str]) -> String {
    let ran = run(words);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{words:?}");
    assert!(ran.out.lines().count() <= LINES, "{}", ran.out);
    ran.out
}

/// What nobody wrote is named, a wind that was written moves the arrow, and a file without
/// a title is called as it is.
#[test]
fn regress_a_first_answer_names_what_it_took_and_where_the_wind_goes() {
    let folder = Folder::new("short-first");
    let answer = |name: &str, more: &str| {
        let file = folder.write(&format!("{name}.toml"), &format!("{FIRST}{more}"));
        short(&["run", &file, "--flights", "1000", "--out", &folder.at(name)])
    };
    let calm = answer("calm", "");
    assert!(calm.starts_with("calm\n"), "{calm}");
    assert!(
        calm.contains("Assumed: taken as a compound (bow.kind), arrow.vanes 3 of 6 gr, 2 in"),
        "{calm}"
    );
    let flat = calm.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("bow.speed_mass 369.25 gr, this arrow's"), "{calm}");
    assert!(!calm.contains("drift"), "{calm}");
    // From the right unless said, so to the left.
    let wind = answer("wind", "[wind]\nspeed = \"8 mph\"\n");
    assert!(wind.contains("drift left"), "{wind}");
    let other = answer("other", "[wind]\nspeed = \"8 mph\"\nfrom = \"270 deg\"\n");
    assert!(other.contains("drift right") && !other.contains("drift left"), "{other}");
}

/// Two marks make a tape, a card that reads as the sight's own scale, and an answer that
/// fits a window; a verdict with centres fits it too.
#[test]
fn regress_two_marks_and_two_groups_are_told_shortly() {
    let folder = Folder::new("short-tape");
    let (file, out) = (path("scenarios/sight-marks.toml"), folder.at("tape"));
    let marks = ["--mark", "20 yd = 12 mm", "--mark", "60 yd = 31.9 mm"];
    let words = [&["tape", &file, "--out", &out][..], &marks].concat();
    let told = short(&words);
    assert!(told.contains("Fitted to 2 sight marks") && told.contains("Shoot one more"), "{told}");
    let card = std::fs::read_to_string(format!("{out}/card.svg")).unwrap();
    assert!(card.contains("as your scale reads"), "{card}");
    assert!(card.contains(">12.0<") && card.contains(">31.9<") && !card.contains(">pin down<"));
    // A cell that is held, not dialled, says so by its own unit.
    assert!(card.contains(" in</text>") && card.contains(" yd</text>"), "{card}");
    let full = run(&[&words[..], &["--full", "--replace"]].concat()).out;
    assert!(full.lines().count() > LINES && full.contains("State your own in error columns"));
    short(&["tape", &file, "--out", &folder.at("fan")]);
    let card = std::fs::read_to_string(folder.at("fan/card.svg")).unwrap();
    assert!(card.contains(">pin down<"), "{card}");

    let shots = |name: &str, left: f64| {
        let rows = [(0.8, -1.2), (1.1, 0.3), (-0.4, 0.9), (0.2, -0.7), (-1.2, 1.1), (0.6, 0.1)];
        let rows = rows.map(|(x, up)| format!("{},{up}\n", x + left));
        folder.write(name, &format!("left [in],up [in]\n{}", rows.concat()))
    };
    let (one, other) = (shots("a.csv", 0.0), shots("b.csv", 2.0));
    let words = ["verdict", &one, &other, "--distance", "30 yd"];
    let told = short(&words);
    assert!(told.contains("The centres differ") && told.contains("What it would take"), "{told}");
    assert!(run(&[&words[..], &["--full"]].concat()).out.contains("spoil it"));
}

/// Where a share of hits is asked for, how far it holds is the answer, with its band, and
/// nearer where the distance is misjudged.
#[test]
fn regress_how_far_is_said_first() {
    let folder = Folder::new("short-far");
    let asked = "[question]\ndistances = [\"20 yd\", \"30 yd\", \"40 yd\", \"50 yd\", \"60 yd\"]\n\
                 hit_share = \"90 %\"\nrange_error = \"3 yd\"\n";
    let file = folder.write("far.toml", &format!("{FIRST}{asked}"));
    let told = short(&["run", &file, "--flights", "1000", "--out", &folder.at("out")]);
    let flat = told.split_whitespace().collect::<Vec<_>>().join(" ");
    let (_, said) =
        flat.split_once("90 % or more of your arrows hit a zone 8 in across up to ").unwrap();
    let (known, missed) = said
        .split_once("; with the distance misjudged by 3 yd, the worst way, up to ")
        .unwrap_or_else(|| panic!("{flat}"));
    let far = |text: &str| text.split(' ').next().unwrap().parse::<f64>().unwrap();
    assert!(known.contains("may be ") && far(missed) < far(known), "{flat}");
    assert!(told.find("90 % or more") < told.find("At 40 yd"), "{told}");
    // Its low end was "-1 yd", and a limit was spoken of where there is none.
    assert!(missed.contains("may be at none asked, or up to "), "{flat}");
    assert!(flat.contains("No distance asked is near enough to be a limit"), "{flat}");
    let wide =
        folder.write("wide.toml", &format!("{FIRST}{asked}").replace("span 6 in", "span 14 in"));
    let told = short(&["run", &wide, "--flights", "1000", "--out", &folder.at("wide")]);
    let flat = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("hit a zone 8 in across at no distance asked (not even 20 yd"), "{flat}");
}
