//! The safety gate: every danger is told in every medium, before the answer.

use std::path::Path;

use clothyard_tests::program::{Folder, path, run};
use serde_json::Value;

use crate::SOUND;

/// How each danger comes about, and how its caution begins.
const GATES: [(&str, &str, &str); 8] = [
    ("density = \"9.5 gr/in\"", "density = \"5.8 gr/in\"", "Too light"),
    ("spine = \"0.340 in\"", "spine = \"0.700 in\"", "Shaft too weak"),
    ("spine = \"0.340 in\"", "spine = \"0.500 in\"", "Weak shaft"),
    ("[arrow.vanes]", "[arrow.vanes]\n[bow.release]\nleft = \"80 mN s\"", "Shaft bent too far"),
    ("length = \"28.5 in\"", "length = \"27.2 in\"", "Arrow too short"),
    (
        "[arrow.vanes]",
        "[arrow.insert]\nmass = \"25 gr\"\nengaged = \"0.2 in\"",
        "Point held too short",
    ),
    ("speed = \"276 ft/s\"", "speed = \"310 ft/s\"", "Energy does not fit"),
    (
        "[arrow.vanes]",
        "[archer]\naim_left = { mean = \"0 deg\", sd = \"0.2 deg\" }\naim_up = { mean = \"0 deg\", \
         sd = \"0.2 deg\" }",
        "Too far for an animal",
    ),
];

/// All of them at once.
const ALL: &str = r#"
title = "Invented: everything at once"
[question]
distances = ["20 yd", "40 yd"]
flights = 100
zone = "8 in"
[bow]
kind = "recurve"
draw_weight = "50 lbf"
draw_length = "28 in"
speed = "260 ft/s"
speed_mass = "300 gr"
release.left = "15 mN s"
[arrow.shaft]
outside = "0.246 in"
inside = "0.2 in"
density = "5 gr/in"
spine = "1.4 in"
length = "25.9 in"
[arrow.point]
mass = "100 gr"
[arrow.insert]
mass = "12 gr"
engaged = "0.15 in"
[arrow.vanes]
mass = "6 gr"
root = "2 in"
span = "0.5 in"
thickness = "0.03 in"
[archer]
aim_left = { mean = "0 deg", sd = "0.3 deg" }
aim_up = { mean = "0 deg", sd = "0.3 deg" }
[marks]
[measured]
distance = "20 yd"
left = "0.1 in"
up = "0.1 in"
nock_turn = "120 deg"
"#;

/// A danger alone is told alone; a sound arrow is told of none.
#[test]
fn law_each_gate_fires_alone() {
    let folder = Folder::new("gates");
    let sound = run(&["check", &folder.write("sound.toml", SOUND)]);
    assert_eq!((sound.code, sound.err.as_str()), (0, ""));
    assert_eq!(sound.out.lines().count(), 1, "{}", sound.out);
    for (was, is, begins) in GATES {
        let text = SOUND.replace(was, is);
        assert_ne!(text, SOUND, "{begins}");
        let ran = run(&["check", &folder.write("gate.toml", &text), "--json"]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{begins}");
        let said: Value = serde_json::from_str(&ran.out).unwrap();
        let cautions = said["cautions"].as_array().unwrap();
        assert_eq!(cautions.len(), 1, "{begins}: {cautions:?}");
        assert!(cautions[0].as_str().unwrap().starts_with(begins), "{begins}: {cautions:?}");
    }
}

/// A medium: the words of its command, and the files that it writes for people.
struct Medium<'a> {
    words: &'a [&'a str],
    files: &'a [&'a str],
    /// What the answer begins with, in the text of the terminal.
    answer: &'a str,
}

/// Every command that answers, in every shape it answers in.
#[test]
fn law_every_gate_stands_before_every_answer() {
    let folder = Folder::new("media");
    let file = folder.write("all.toml", ALL);
    let shots = folder.write("shots.csv", "distance [yd],speed [ft/s]\n3,262\n5,261\n");
    let demo = |name: &str| path(&format!("scenarios/bench/{name}"));
    let (faces, profile) = (demo("faces.csv"), demo("profile.csv"));
    // Arrows of this scenario, far too light as they are.
    let dozen = std::fs::read_to_string(demo("dozen.csv"))
        .unwrap()
        .replace(",42", ",26")
        .replace(",43", ",27");
    let dozen = folder.write("dozen.csv", &dozen);
    let page = ["report.html", "result.json"];
    // A shaft that is too weak is not told as weak as well.
    let gates: Vec<_> = GATES.into_iter().filter(|gate| gate.2 != "Weak shaft").collect();
    let media = [
        Medium { words: &["check"], files: &[], answer: "reads without a mistake; but mind" },
        Medium { words: &["arrow"], files: &[], answer: "as built" },
        Medium { words: &["fly"], files: &[], answer: "distance" },
        Medium { words: &["pin"], files: &[], answer: "Measured:" },
        Medium { words: &["fit", "--shots", &shots], files: &[], answer: "Fitted to" },
        Medium { words: &["push"], files: &page, answer: "The arrow leaves" },
        Medium { words: &["run"], files: &page, answer: "half within" },
        Medium { words: &["marks"], files: &page, answer: "With the sight set" },
        Medium {
            words: &["tape"],
            files: &["tape.svg", "card.svg", "tape.pdf", "card.pdf"],
            answer: "Written to",
        },
        Medium {
            words: &["bench", "square", "--readings", &faces, "--full"],
            files: &page,
            answer: "WHAT THE GAUGES",
        },
        Medium {
            words: &["bench", "cut", "--readings", &profile, "--supports", "2 in, 30 in", "--full"],
            files: &page,
            answer: "AT THE SAW",
        },
        Medium {
            words: &["bench", "sort", "--batch", &dozen, "--set", "a=6", "--full"],
            files: &page,
            answer: "THE SETS",
        },
        Medium {
            words: &["bench", "index", "--batch", &dozen, "--full"],
            files: &page,
            answer: "TURNS TO TRY",
        },
    ];
    for (at, medium) in media.iter().enumerate() {
        let (command, more) = match medium.words {
            ["bench", job, more @ ..] => (vec!["bench", *job], more),
            [command, more @ ..] => (vec![*command], more),
            [] => continue,
        };
        let out = folder.at(&format!("out-{at}"));
        let mut words = [command, vec![file.as_str()], more.to_vec()].concat();
        if !medium.files.is_empty() {
            words.extend(["--out", &out]);
        }
        let ran = run(&words);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{words:?}");
        let answer =
            ran.out.find(medium.answer).unwrap_or_else(|| panic!("{words:?}: {}", ran.out));
        for (_, _, begins) in &gates {
            let told = ran.out.find(&format!("! {begins}"));
            assert!(told.is_some_and(|told| told < answer), "{words:?}, {begins}: {}", ran.out);
            for name in medium.files {
                let bytes = std::fs::read(Path::new(&out).join(name)).unwrap();
                let text = String::from_utf8_lossy(&bytes);
                let told = text.find(begins);
                let answer = match name.rsplit_once('.').unwrap().1 {
                    "html" => text.find("class=\"answer\""),
                    "json" => text.find("\"answer\""),
                    // The first mark of strips and cards, after all that stands above them.
                    _ => text.rfind("20"),
                };
                assert!(
                    told.is_some_and(|told| Some(told) < answer),
                    "{words:?}, {name}, {begins}"
                );
            }
        }
        // JSON holds the same list; of a folder it was read above.
        if medium.files.is_empty() {
            words.push("--json");
            let said: Value = serde_json::from_str(&run(&words).out).unwrap();
            assert!(said["cautions"].as_array().unwrap().len() >= gates.len(), "{words:?}");
        }
    }
    // Where a table is all that is printed, they go beside it.
    for words in [
        vec!["fly", &file, "--as", "csv"],
        vec!["marks", &file, "--csv", "--out", &folder.at("csv")],
        vec!["check", &file, "--resolved"],
    ] {
        let ran = run(&words);
        assert!(
            gates.iter().all(|(_, _, begins)| ran.err.contains(begins)),
            "{words:?}: {}",
            ran.err
        );
        assert!(!ran.out.contains("Too light"), "{words:?}");
    }
}

/// 98 % at the usual values passed though the band went below the limit: a band is told by
/// its low end, in every medium, and the farthest distance is where that holds.
#[test]
fn regress_the_low_end_of_a_band_is_cautioned() {
    let folder = Folder::new("low-end");
    let text = SOUND.replace("\"20 yd\", \"40 yd\"", "\"10 yd\", \"20 yd\"").replace(
        "[arrow.vanes]",
        "[archer]\nform = { value = \"0.11 deg\", low = \"0.08 deg\", high = \"0.2 deg\" }\n\
         [arrow.vanes]",
    );
    let file = folder.write("may.toml", &text);
    let begins = "! May be too far for an animal: at 20 yd about 9";
    let against = "if what is poorly known goes against you, under 90 %; up to 10 yd it holds";
    let out = folder.at("out");
    for words in [
        vec!["check", &file],
        vec!["fly", &file],
        vec!["run", &file, "--flights", "400", "--out", &out],
    ] {
        let ran = run(&words);
        assert_eq!(ran.code, 0, "{}", ran.err);
        let told = self::words(&ran.out);
        assert!(told.contains(begins) && told.contains(against), "{words:?}: {told}");
    }
    for name in ["report.html", "result.json"] {
        let file = std::fs::read_to_string(Path::new(&out).join(name)).unwrap();
        let told = file.find("May be too far for an animal");
        let answer =
            file.find(if name == "report.html" { "class=\"answer\"" } else { "\"answer\"" });
        assert!(told.is_some() && told < answer, "{name}");
    }
    // A form that is well known is not cautioned at the same value.
    let sure = text.replace(
        "low = \"0.08 deg\", high = \"0.2 deg\"",
        "low = \"0.109 deg\", high = \"0.111 deg\"",
    );
    let ran = run(&["check", &folder.write("sure.toml", &sure)]);
    assert!(!ran.out.contains("too far"), "{}", ran.out);
}

/// No answer says to shoot what its cautions say is dangerous; what can hurt the shooter
/// stands first and keeps what may come of it.
#[test]
fn law_next_is_never_to_shoot_a_dangerous_arrow() {
    let folder = Folder::new("next");
    let file = folder.write("all.toml", ALL);
    let ran = run(&["run", &file, "--flights", "100", "--out", &folder.at("out")]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let flat = words(&ran.out);
    assert!(flat.contains("Next: do not shoot it; mend what is marked !"), "{}", ran.out);
    let (weak, far) = (flat.find("! Shaft too weak"), flat.find("! Too far for an animal"));
    assert!(weak.is_some() && weak < far, "{}", ran.out);
    // Two of them, weak and bent too far, may do so.
    assert_eq!(flat.matches("it may break into the hand").count(), 2, "{}", ran.out);
    let two = format!(
        "{SOUND}\n[[build]]\nname = \"sound\"\n[[build]]\nname = \"weak\"\narrow.shaft.spine = \
         \"0.7 in\"\n"
    );
    let file = folder.write("two.toml", &two);
    let ran = run(&["run", &file, "--flights", "100", "--out", &folder.at("two")]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(words(&ran.out).contains("Next: do not shoot \"weak\""), "{}", ran.out);
}

/// A build that is dangerous was told to hit most: it is told to be dangerous, and the best
/// of the others leads.
#[test]
fn regress_a_dangerous_build_is_never_the_better_choice() {
    let folder = Folder::new("choice");
    let builds = |text: &str, builds: &[(&str, &str)]| {
        builds.iter().fold(text.to_owned(), |text, (name, line)| {
            format!("{text}\n[[build]]\nname = \"{name}\"\n{line}\n")
        })
    };
    let light = ("light", "arrow.shaft.density = \"5.8 gr/in\"");
    let sound = ("sound", "arrow.shaft.density = \"9.5 gr/in\"");
    let heavy = ("heavy", "arrow.shaft.density = \"11 gr/in\"");
    let archer = SOUND.replace(
        "[arrow.shaft]",
        "[archer]\naim_left = { mean = \"0 deg\", sd = \"0.1 deg\" }\naim_up = { mean = \"0 deg\", \
         sd = \"0.1 deg\" }\n[arrow.shaft]",
    );
    let asked = archer.replace("flights = 100", "flights = 2000\nrange_error = \"4 yd\"");
    let three = builds(&asked, &[sound, light, heavy]);
    let safe = builds(&asked, &[sound, heavy]);
    let run_of = |name: &str, text: &str| {
        let file = folder.write(&format!("{name}.toml"), text);
        let ran = run(&["run", &file, "--out", &folder.at(name)]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        words(&ran.out)
    };
    let told = run_of("three", &three);
    let barred = "\"light\" is dangerous (marked !): it cannot be the better choice.";
    assert!(told.contains(barred) && !told.contains("\"light\" hits most"), "{told}");
    let first = told.split(barred).nth(1).unwrap().split("With the sight set").next().unwrap();
    assert!(!first.contains("light"), "{first}");
    let told = run_of("two", &builds(&asked, &[sound, light]));
    assert!(
        told.contains("Only \"sound\" is safe to shoot here: \"light\" is dangerous"),
        "{told}"
    );
    let told = run_of("none", &builds(&asked, &[light, ("lighter", light.1)]));
    assert!(told.contains("None of these builds is safe to shoot"), "{told}");
    // Nothing is said where nothing is wrong.
    assert!(!run_of("safe", &safe).contains("marked !"));
}

/// A text on one line.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A cut is judged by the arrow it leaves, and dust is told where there is some.
#[test]
fn law_a_cut_that_comes_near_the_rest_is_told() {
    let folder = Folder::new("cut");
    let file = folder.write("sound.toml", SOUND);
    let grade = ["--grade", "0.003 in", "--measure", "plus-minus", "--stock", "32 in"];
    let cut = |length: &str, out: &str| {
        let out = folder.at(out);
        let words =
            [vec!["bench", "cut", &file, "--out", &out, "--wanted", length], grade.to_vec()];
        run(&words.concat())
    };
    let (long, short, off) = (cut("28.5 in", "a"), cut("27.2 in", "b"), cut("26 in", "c"));
    assert_eq!((long.code, short.code), (0, 0), "{}{}", long.err, short.err);
    assert!(!long.out.contains("Arrow too short"), "{}", long.out);
    assert!(short.out.contains("! Arrow too short"), "{}", short.out);
    assert!(long.out.contains("law first. Sawing carbon"), "{}", long.out);
    assert_eq!(off.code, 1, "{}", off.out);
    assert!(off.err.contains("do not draw it"), "{}", off.err);
}

/// Tuning computes a bare shaft; with fixed blades it is none to shoot.
#[test]
fn law_bare_blades_are_cautioned_where_bare_shafts_are_asked_for() {
    let folder = Folder::new("bare-blades");
    for (kind, shape, told) in
        [("tune", "fixed-blade", true), ("tune", "field", false), ("compare", "fixed-blade", false)]
    {
        let text = SOUND
            .replace("[question]", &format!("[question]\nkind = \"{kind}\""))
            .replace("flights = 100\n", if kind == "tune" { "" } else { "flights = 100\n" })
            .replace("[arrow.point]", &format!("[arrow.point]\nshape = \"{shape}\""));
        let ran = run(&["check", &folder.write("bare.toml", &text)]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{kind} {shape}");
        assert_eq!(ran.out.contains("Never shoot it bare"), told, "{kind} {shape}: {}", ran.out);
    }
}
