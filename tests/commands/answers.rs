//! What the smaller commands print.

use clothyard_tests::program::{Folder, path, run};
use serde_json::Value;

use crate::{BODY, SOUND, STICKY};

/// What a command prints when it does what it was asked.
fn printed(words: &[&str]) -> String {
    let ran = run(words);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{words:?}");
    assert!(!ran.out.is_empty(), "{words:?}");
    ran.out
}

#[test]
fn law_every_answering_command_answers_in_json() {
    let folder = Folder::new("json");
    let (sound, body) = (folder.write("sound.toml", SOUND), folder.write("body.toml", BODY));
    let out = folder.at("out");
    let commands: [&[&str]; 5] = [
        &["run", &sound, "--json", "--out", &out],
        &["fly", &sound, "--json"],
        &["fly", &body, "--json"],
        &["arrow", &sound, "--json"],
        &["check", &sound, "--json"],
    ];
    for words in commands {
        let answer: Value = serde_json::from_str(&printed(words)).unwrap();
        assert!(answer.as_object().is_some_and(|fields| !fields.is_empty()), "{words:?}");
    }
    assert_eq!(
        printed(&["fly", &sound, "--json"]),
        printed(&["fly", &sound, "--as", "json", "--units", "metric"])
    );
}

#[test]
fn law_the_reference_files_are_what_the_program_prints() {
    let file = |name: &str| std::fs::read_to_string(path(name)).unwrap();
    assert_eq!(printed(&["schema"]), file("docs/scenario.schema.json"));
    assert_eq!(printed(&["keys"]), file("docs/scenario-keys.md"));
}

#[test]
fn law_help_names_every_command_and_exit_code() {
    let help = printed(&["--help"]);
    let commands = ["run", "fly", "arrow", "check", "schema", "keys", "completions", "man"];
    let shells = ["bash", "elvish", "fish", "powershell", "zsh"];
    let man = printed(&["man"]);
    for command in commands {
        assert!(help.contains(&format!("\n  {command} ")), "{help}");
        assert!(man.contains(&format!("clothyard\\-{command}(1)")), "{man}");
        assert!(printed(&[command, "--help"]).contains("Usage: clothyard"));
        for shell in shells {
            assert!(printed(&["completions", shell]).contains(command));
        }
    }
    for code in 0..=3 {
        assert!(help.contains(&format!("\n  {code}  ")), "{help}");
    }
    assert_eq!(printed(&["--version"]), concat!("clothyard ", env!("CARGO_PKG_VERSION"), "\n"));
}

#[test]
fn law_a_flight_in_every_shape() {
    let folder = Folder::new("shapes");
    let (sound, body) = (folder.write("sound.toml", SOUND), folder.write("body.toml", BODY));
    for file in [&sound, &body] {
        let [table, csv] = ["table", "csv"].map(|shape| printed(&["fly", file, "--as", shape]));
        assert!(!table.contains(','), "{table}");
        let cells = csv.lines().map(|line| line.split(',').count());
        let wide: Vec<usize> = cells.collect();
        assert!(wide.len() >= 2 && wide.iter().all(|cells| *cells == wide[0]), "{csv}");
    }
    let point = printed(&["fly", &sound, "--model", "point-mass"]);
    assert_ne!(point, printed(&["fly", &sound]));
    assert_ne!(printed(&["fly", &sound, "--units", "metric"]), printed(&["fly", &sound]));
}

#[test]
fn regress_an_arrow_that_falls_short_says_how_far_it_came() {
    let folder = Folder::new("short");
    let stuck = SOUND.to_owned() + STICKY;
    let stuck = folder.write("stuck.toml", &stuck);
    let ran = run(&["fly", &stuck, "--marks", "5 yd, 80 yd", "--as", "csv"]);
    assert_eq!((ran.code, ran.out.lines().count()), (0, 2));
    insta::assert_snapshot!(ran.err);
}

/// A wind in the words people use is read, comes from where they say, and carries the
/// arrow to the other side; what has two readings is asked about.
#[test]
fn law_a_wind_in_words_carries_the_arrow_the_right_way() {
    let folder = Folder::new("wind-words");
    let with =
        |at: usize, wind: &str| folder.write(&format!("{at}.toml"), &format!("{wind}\n{SOUND}"));
    let left = |file: &str| -> f64 {
        let flown: Value = serde_json::from_str(&printed(&["fly", file, "--json"])).unwrap();
        flown["tables"]["states"].as_array().unwrap().last().unwrap()["left"]["value"]
            .as_f64()
            .unwrap()
    };
    for (at, (wind, carried)) in [
        ("wind = \"10 mph from the left\"", -1.0),
        ("wind.speed = \"10 mph from 9 o'clock\"", -1.0),
        ("wind_speed = \"15 mph left to right\"", -1.0),
        ("wind.speed = \"crosswind 10 mph from the right\"", 1.0),
        ("wind = { speed = \"10 mph\", from = \"from the right\" }", 1.0),
        ("wind.speed = \"headwind 5 mph\"", 0.0),
    ]
    .into_iter()
    .enumerate()
    {
        let file = with(at, wind);
        let aside = left(&file);
        // Nothing else carries it farther than an inch.
        if carried == 0.0 {
            assert!(aside.abs() < 0.0254, "{wind}: {aside}");
        } else {
            assert!(aside * carried > 0.01, "{wind}: {aside}");
        }
        // It is echoed in standard form.
        let echo = printed(&["check", &file, "--resolved"]);
        let (speed, from) = (echo.contains("speed = \"1"), echo.contains("from = \""));
        assert!(
            (speed || carried == 0.0) && from && !echo.contains("from the left"),
            "{wind}: {echo}"
        );
    }
    for (at, (wind, asked)) in [
        ("wind.speed = \"10 mph left\"", "\"10 mph from the left\", which carries arrows to"),
        ("wind = \"10 mph crosswind\"", "or \"10 mph from the right\""),
        ("wind.speed = \"10 mph from the north\"", "12 o'clock is the target"),
        ("wind.speed = \"10 mph from the left\"\nwind.from = \"90 deg\"", "say this already"),
    ]
    .into_iter()
    .enumerate()
    {
        let ran = run(&["check", &with(10 + at, wind)]);
        assert_eq!(ran.code, 2, "{wind}: {}", ran.out);
        assert!(ran.err.contains(asked), "{wind}: {}", ran.err);
    }
}
