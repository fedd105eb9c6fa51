//! `clothyard trial`.

use clothyard_tests::program::{Folder, path, run};

/// The table with hits in its first ends; `place` says where an arrow of a build hits.
fn filled(table: &str, key: &str, ends: u32, place: impl Fn(usize, usize) -> (f64, f64)) -> String {
    let builds: Vec<&str> = key.lines().skip(2).map(|row| row.split(',').nth(1).unwrap()).collect();
    let row = |(at, row): (usize, &str)| {
        let cells: Vec<&str> = row.split(',').collect();
        let numbers = (cells[0].parse::<u32>(), cells.get(1).and_then(|c| c.parse::<usize>().ok()));
        match numbers {
            (Ok(end), Some(arrow)) if end <= ends => {
                let (left, up) = place(usize::from(builds[arrow - 1] == "\"crooked\""), at);
                format!("{end},{arrow},{left:.3},{up:.3}\n")
            }
            _ => format!("{row}\n"),
        }
    };
    table.lines().enumerate().map(row).collect()
}

#[test]
fn law_a_trial_is_planned_shot_and_stopped() {
    let folder = Folder::new("trial");
    let out = folder.at("blind");
    let plan = ["trial", "sheet", "square", "crooked", "--distance", "30 yd", "--times", "2"];
    let ran = run(&[&plan[..], &["--out", &out, "--seed", "1"]].concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("\nShoot 6 ends of 6 arrows at 30 yd, 18 with each"), "{}", ran.out);
    let before = folder.files();
    let same = run(&[&plan[..], &["--out", &out, "--seed", "1", "--replace"]].concat());
    assert_eq!((same.code, folder.files() == before), (0, true), "the same bytes by one seed");
    let seven = folder.at("seven");
    assert_eq!(run(&[&plan[..], &["--out", &seven, "--seed", "7"]].concat()).code, 0);
    let read = |name: &str| std::fs::read_to_string(folder.at(name)).unwrap();
    let (table, key) = (read("blind/shots.csv"), read("blind/key.csv"));
    assert_ne!(table, read("seven/shots.csv"), "another seed, another order");
    let keyless = ["sheet-1.svg", "shots.csv"].map(|name| read(&format!("blind/{name}")));
    assert!(keyless.iter().all(|text| !text.contains("arrow 1")), "the key has a page of its own");
    assert!(keyless.iter().all(|text| !text.to_lowercase().contains("seed")), "nor its seed");
    assert!(read("blind/key.svg").contains("arrow 1"));
    let fresh = ["one", "two"].map(|name| {
        assert_eq!(run(&[&plan[..], &["--out", &folder.at(name)]].concat()).code, 0);
        read(&format!("{name}/shots.csv"))
    });
    // Alike by chance once in 4,000 million times.
    assert_ne!(fresh[0], fresh[1], "a seed of its own for each sheet");

    let judge = |ends: u32, place: &dyn Fn(usize, usize) -> (f64, f64)| {
        let text = filled(&table, &key, ends, place);
        let ran = run(&["trial", "judge", &out, "--shots", &folder.write("shots.csv", &text)]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{text}");
        ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    // Hits round the middle, the second build's so many times as far out.
    let round = |times: f64| {
        move |build: usize, at: usize| {
            let (turn, out) = (2.4 * at as f64, if build == 1 { times } else { 1.0 });
            (out * turn.cos(), out * turn.sin())
        }
    };
    let early = judge(1, &round(9.0));
    assert!(early.contains("nothing is said before the first look, after 1 more end"), "{early}");
    let told = judge(2, &round(9.0));
    assert!(told.contains("Stop: it is settled. \"square\" groups tighter"), "{told}");
    // What was told at a look stays told, whatever is shot after it.
    assert!(judge(6, &round(9.0)).contains("That is look 1 of 3, with 2 ends"));
    let alike = judge(5, &round(1.0));
    assert!(alike.contains("Go on: shoot 1 more end") && alike.contains("look 2 of 3"), "{alike}");
    assert!(judge(6, &round(1.0)).contains("It is over:"));
    // Not yet over: no contradiction in its words, and no evidence to write.
    assert!(alike.contains("is not yet sure enough: so far") && !alike.contains("No difference"));
    let (fact, hits) = (folder.at("fact.toml"), filled(&table, &key, 5, round(1.0)));
    let hits = folder.write("hits.csv", &hits);
    let ran = run(&["trial", "judge", &out, "--shots", &hits, "--evidence", &fact]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("the trial is not over"), "{}", ran.err);
    assert!(!std::path::Path::new(&fact).exists());
    // A slip of the pen is asked about before anything is settled.
    let slip = judge(2, &|build, at| if at == 4 { (35.0, 0.0) } else { round(1.0)(build, at) });
    assert!(slip.contains("One arrow of \"") && slip.contains("was it typed right"), "{slip}");
}

/// The shift of a trial is a fact that a scenario with its builds reads.
#[test]
fn law_a_trial_is_evidence_for_other_answers() {
    let folder = Folder::new("trial-evidence");
    let (out, fact) = (folder.at("blind"), folder.at("fact.toml"));
    let names = ["light, field point", "middling, closed blades"];
    // By one seed: which hit goes to which build moves the shift that is read back.
    let asked =
        ["--of", &path("scenarios/three-builds.toml"), "--distance", "40 yd", "--seed", "1"];
    let ran =
        run(&[&["trial", "sheet", names[0], names[1]], &asked[..], &["--out", &out]].concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("Computed for this archer"), "{}", ran.out);
    let read = |name: &str| std::fs::read_to_string(folder.at(name)).unwrap();
    let key = read("blind/key.csv").replace(&format!("\"{}\"", names[1]), "\"crooked\"");
    let key = key.replace(&format!("\"{}\"", names[0]), "\"square\"");
    let place = |build: usize, at: usize| {
        let turn = 2.4 * at as f64;
        (2.0 * turn.cos(), 2.0 * turn.sin() - 6.0 * build as f64)
    };
    let shots = folder.write("hits.csv", &filled(&read("blind/shots.csv"), &key, 1_000, place));
    let ran = run(&["trial", "judge", &out, "--shots", &shots, "--evidence", &fact]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
    let text = read("fact.toml");
    assert!(text.contains("kind = \"builds-apart\"") && text.contains("up = \"-1"), "{text}");
    // One fact is written once.
    assert_eq!(run(&["trial", "judge", &out, "--shots", &shots, "--evidence", &fact]).code, 2);
    let scenario = std::fs::read_to_string(path("scenarios/three-builds.toml")).unwrap();
    let scenario = scenario.replace("\"parts/", &format!("\"{}/", path("scenarios/parts")));
    let with = folder.write("with.toml", &format!("evidence = \"fact.toml\"\n{scenario}"));
    let ran = run(&["check", &with]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
}

/// No sane number of arrows: it says so, and writes nothing.
#[test]
fn law_no_sheet_where_no_sane_number_would_do() {
    let folder = Folder::new("trial-mad");
    for (times, said) in [("1.01", "it takes more than 10,000 arrows"), ("1.1", "it takes about ")]
    {
        let plan = ["trial", "sheet", "old", "new", "--distance", "30 yd", "--times", times];
        let ran = run(&[&plan[..], &["--out", &folder.at("blind")]].concat());
        let text = ran.out.replace('\n', " ");
        assert_eq!((ran.code, ran.err.as_str()), (0, ""));
        assert!(text.contains("No sheet: if one groups") && text.contains(said), "{text}");
        assert!(folder.files().is_empty());
    }
}

/// Every slip ends with 2, says what is wrong, and writes nothing.
#[test]
fn regress_slips_in_a_trial_are_named() {
    let folder = Folder::new("trial-slips");
    let out = folder.at("blind");
    let base = ["trial", "sheet", "old", "new", "--distance", "30 yd", "--by", "spreads"];
    assert_eq!(run(&[&base[..], &["--times", "2", "--out", &out]].concat()).code, 0);
    let before = folder.files();
    let square = path("scenarios/square-ends.toml");
    let of = ["--of", &square];
    let judge = ["trial", "judge", &out];
    let sheet = ["trial", "sheet", "old", "new"];
    let mut said = String::new();
    for words in [
        vec!["trial", "sheet", "old", "--distance", "30 yd", "--times", "2"],
        vec!["trial", "sheet", "old", "old", "--distance", "30 yd", "--times", "2"],
        [&sheet[..], &["--distance", "30 yd"]].concat(),
        [&sheet[..], &["--distance", "30", "--times", "2"]].concat(),
        [&sheet[..], &["--distance", "300 yd", "--times", "2"]].concat(),
        [&sheet[..], &["--distance", "30 yd", "--times", "much"]].concat(),
        [&sheet[..], &["--distance", "30 yd", "--apart", "2 in", "--spread", "six"]].concat(),
        [&sheet[..], &["--distance", "30 yd", "--apart", "0 in", "--spread", "5 6 in"]].concat(),
        [&base[..], &["--apart", "2 in", "--spread", "5 6 in"]].concat(),
        [&sheet[..], &["--distance", "30 yd"], &of[..]].concat(),
        [&judge[..], &["--end", "6 in"]].concat(),
        [&judge[..], &["--evidence", "never.toml"]].concat(),
        vec!["trial", "judge", "nowhere"],
    ] {
        let ran = run(&words);
        assert_eq!(ran.code, 2, "{words:?} {}{}", ran.out, ran.err);
        said += &ran.err;
    }
    insta::assert_snapshot!(said);
    assert!(folder.files() == before);
}
