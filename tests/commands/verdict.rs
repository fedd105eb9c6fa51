//! `clothyard verdict`.

use clothyard_tests::program::{Folder, run};

const WIDE: &str = "left [in],up [in]\n2.0,1.0\n-2.5,0.5\n0.5,-3.0\n-1.0,2.5\n3.0,-0.5\n-2,-2\n";
const TIGHT: &str =
    "\u{feff}up [cm];left [cm]\n0,8;1,1\n-0,6;0,2\n\n0,3;-0,9\n-0,4;-0,3\n0,1;0,5\n0;0\n";

/// A value of the table of what was found.
fn found<'a>(said: &'a serde_json::Value, name: &str) -> &'a serde_json::Value {
    let rows = said["tables"]["found"].as_array().unwrap();
    &rows.iter().find(|row| row["of_the_verdict"] == name).unwrap()["value"]
}

#[test]
fn law_a_verdict_tells_two_groups_apart() {
    let folder = Folder::new("verdict");
    let (wide, tight) = (folder.write("wide.csv", WIDE), folder.write("tight.csv", TIGHT));
    let out = folder.at("out");
    let ran = run(&["verdict", &wide, &tight, "--out", &out]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("\n\"tight\" groups tighter"), "{}", ran.out);
    assert!(ran.out.lines().all(|line| line.chars().count() <= 100 || line.contains(&out)));
    let names: Vec<String> = folder.files().into_iter().map(|(name, _)| name).collect();
    for name in ["report.html", "verdict.svg", "verdict.csv", "result.json"] {
        assert!(names.contains(&format!("out/{name}")), "{names:?}");
    }
    let before = folder.files();
    assert_eq!(run(&["verdict", &wide, &tight, "--out", &out]).code, 2);
    let again = run(&["verdict", &wide, &tight, "--out", &out, "--replace", "--json"]);
    assert!(folder.files() == before, "the same shots give the same bytes");

    let said: serde_json::Value = serde_json::from_str(&again.out).unwrap();
    assert_eq!(found(&said, "told"), "yes");
    let ratio = |said| found(said, "ratio, first over second")["value"].as_f64().unwrap();
    let swapped = run(&["verdict", &tight, &wide, "--json"]);
    let swapped: serde_json::Value = serde_json::from_str(&swapped.out).unwrap();
    assert!((ratio(&swapped) * ratio(&said) - 1.0).abs() < 1e-12);
}

/// 28 for 2.8: the answer begins by asking, and nothing is asked of groups without.
#[test]
fn law_a_slip_of_the_pen_is_asked_about_first() {
    let folder = Folder::new("verdict-slip");
    let slip = folder.write("old.csv", &WIDE.replace("3.0,-0.5", "28,-0.5"));
    let (wide, tight) = (folder.write("wide.csv", WIDE), folder.write("tight.csv", TIGHT));
    let said = |first: &str| {
        let ran = run(&["verdict", first, &tight]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""));
        ran.out
    };
    let asked = said(&slip);
    assert!(asked.contains("\nOne arrow of \"old\" lies 28"), "{asked}");
    assert!(!said(&wide).contains("One arrow"));
}

/// A group against itself shows nothing, by file or by its numbers.
#[test]
fn law_a_group_does_not_differ_from_itself() {
    let folder = Folder::new("verdict-same");
    let wide = folder.write("wide.csv", WIDE);
    let numbers = ["--n", "6", "--mean-radius", "2.5 in"];
    for words in [
        vec!["verdict", &wide, &wide],
        [&["verdict"], &numbers[..], &numbers[..]].concat(),
        [&["verdict", &wide], &numbers[..]].concat(),
    ] {
        let ran = run(&words);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""));
        assert!(ran.out.contains("\nThese shots do not show"), "{}", ran.out);
    }
}

/// Every slip ends with 2, says what is wrong, and writes nothing.
#[test]
fn regress_slips_in_a_verdict_are_named() {
    let folder = Folder::new("verdict-slips");
    let wide = folder.write("wide.csv", WIDE);
    let odd = folder.write("odd.csv", "x [in],up [in]\n1,2\n");
    let lines = folder.write("lines.csv", "left [in],up [in]\n1,2\n1;2,3\nup,4\n");
    let point = folder.write("point.csv", "left [in],up [in]\n1,2\n1,2\n");
    let out = folder.at("out");
    let before = folder.files();
    let told = |words: &[&str]| {
        let ran = run(&[&["verdict"], words, &["--out", &out]].concat());
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{words:?}");
        ran.err
    };
    let has = |text: String, wanted: &[&str]| {
        for word in wanted {
            assert!(text.contains(word), "{word} is not in: {text}");
        }
    };
    has(told(&[&wide]), &["a verdict needs two groups: 1 files"]);
    has(told(&[&wide, &wide, "--n", "6", "--mean-radius", "1 in"]), &["2 files, 1 times --n"]);
    has(told(&[&wide, "--n", "6"]), &["1 times --n and 0 times --mean-radius"]);
    has(told(&[&wide, "--n", "6", "--mean-radius", "1"]), &["--mean-radius \"1\"", "no unit"]);
    has(told(&[&wide, "--n", "6", "--mean-radius", "0 in"]), &["the mean radius is 0 m"]);
    has(told(&[&wide, &wide, "--confidence", "95"]), &["the confidence is 95"]);
    has(
        told(&[&wide, &odd]),
        &["there is no column left or right", "odd.csv:1:1", "x [in], up [in]"],
    );
    has(told(&[&wide, &lines]), &["lines.csv:3:1", "the same in line 4"]);
    has(told(&[&wide, &point]), &["these groups cannot be judged"]);
    has(told(&[&wide, &folder.at("none.csv")]), &["there is no such file"]);
    assert!(folder.files() == before, "nothing is written");
}

/// The same table of shots in the dialect of every command: two of three once
/// refused it.
#[test]
fn regress_what_one_command_reads_every_command_reads() {
    let folder = Folder::new("verdict-dialect");
    let hits = folder.write(
        "hits.csv",
        "\u{feff}# own\narrow;turn (deg);left (in);up, in;wind\n\
         7;0;-2,1;-1,3;calm\n7;120;-0,9;\"-2,1\";\n7;240;-0,3;0,1;gusty\n7;60;-1,5;-1,9;\n\
         7;0;-2,2;-1,2;\n7;120;-1;-2;\n",
    );
    let seen = folder
        .write("seen.csv", "\u{feff}Distance (yd);wind;mark, mm\n20;calm;12,0\n60;;\"31,9\"\n");
    let sound = folder.write("sound.toml", crate::SOUND);
    let note = |name: &str, own: &str| {
        let path = folder.at(name);
        format!("note: {path}: passed over column {own}\n")
    };
    let ran = run(&["verdict", &hits, &hits]);
    let own = note("hits.csv", "A (arrow), B (turn (deg)), E (wind)");
    assert_eq!((ran.code, ran.err), (0, own.repeat(2)));
    let ran = run(&["fit", &sound, "--shots", &seen]);
    assert_eq!((ran.code, ran.err), (0, note("seen.csv", "B (wind)")));
    let bench = clothyard_tests::program::path("scenarios/bench/bench.toml");
    let ran = run(&["bench", "index", &bench, "--shots", &hits, "--out", &folder.at("out")]);
    assert_eq!((ran.code, ran.err), (0, note("hits.csv", "E (wind)")));
}
