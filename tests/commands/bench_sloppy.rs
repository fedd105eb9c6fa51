//! Notebooks as they are in a shop: a blank here, a slipped point there. What can be
//! answered is, and what cannot is named.

use clothyard_tests::program::{Folder, path, run};

const DEMO: &str = "scenarios/bench/bench.toml";

/// A text with every run of blanks and line ends as one blank.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn demo(name: &str) -> String {
    std::fs::read_to_string(path(&format!("scenarios/bench/{name}"))).unwrap()
}

/// One shaft without a high side stopped the whole dozen, and nobody was told its line.
#[test]
fn regress_a_shaft_that_says_nothing_is_one_line_of_the_list() {
    let folder = Folder::new("bench-blank");
    let three = folder.write(
        "three.csv",
        "shaft,stock [in],middle [in],middle high [deg],nock end [in],nock end high [deg]\n\
         1,32,0.003,30,0.005,90\n\
         2,32,0.002,200,0.006,\n\
         3,28,0.003,30,0.005,90\n\
         4,,0.003,30,0.005,90\n\
         5,32,0.001,330,0.002,10\n",
    );
    let (scenario, out) = (path(DEMO), folder.at("out"));
    let words = ["bench", "cut", &scenario, "--three", &three, "--out", &out];
    let ran = run(&words);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let told = flat(&ran.out);
    for said in [
        "The 2 shafts, cut as listed",
        "Not cut: shaft 2 (line 3): no high side; 4 (line 5): no length; 3 (line 4): too short.",
        // Which end goes against the stop, and what half off each end needs.
        "First stop: point end against it, cut the nock end. Then turn the shaft about: nock end \
         against the stop, cut the point end.",
        // Both, with 3 1/2 in to come off 32 in.
        "28 1/2 in [ ] 30 1/4 in",
    ] {
        assert!(told.contains(said), "{said}\n{told}");
    }
    let full = run(&[&words[..], &["--replace", "--full"]].concat()).out;
    let page = std::fs::read_to_string(format!("{out}/report.html")).unwrap();
    for text in [flat(&full), flat(&page)] {
        assert!(text.contains("2 (line 3): this shaft has more than one reading"), "{text}");
        // Inches first, as the notebook has them.
        assert!(
            text.contains("the shaft is 28.000 in (711.2 mm) long, 0.500 in (12.7 mm) too short")
        );
        assert!(text.contains("First stop: point end against it"));
    }
    // Of shafts that all say nothing there is no list.
    let none = folder.write("none.csv", "shaft,middle [in],nock end [in]\n1,0.003,0.005\n");
    let words = ["bench", "cut", &scenario, "--three", &none, "--out", &out, "--replace"];
    assert!(run(&words).err.contains("shaft 1 has no length"));
    let ran = run(&[&words[..], &["--stock", "32 in"]].concat());
    assert_eq!(ran.code, 1);
    assert!(ran.err.contains("high side"), "{}", ran.err);
}

/// A part of ten times the mass of its fellows was built in, and grams were read as grains.
#[test]
fn regress_a_mass_that_cannot_be_is_asked_about_before_anything_is_planned() {
    let folder = Folder::new("bench-masses");
    let scenario = path(DEMO);
    let (shafts, parts) = (demo("shafts.csv"), demo("parts.csv"));
    let build = |name: &str, shafts: &str, parts: &str| {
        let [shafts, parts] = [("shafts", shafts), ("parts", parts)]
            .map(|(kind, text)| folder.write(&format!("{name}-{kind}.csv"), text));
        let words = ["bench", "build", &scenario, "--shafts", &shafts, "--parts", &parts];
        run(&[&words[..], &["--out", &folder.at(name)]].concat())
    };
    assert!(parts.contains("point,P3,100.3,"));
    let heavy = build("heavy", &shafts, &parts.replace("point,P3,100.3,", "point,P3,1003,"));
    assert_eq!((heavy.code, heavy.out.as_str()), (2, ""));
    for said in [":5:10", "10.00 times the middle", "is that so?", "point,P3,1003,"] {
        assert!(heavy.err.contains(said), "{said}\n{}", heavy.err);
    }
    let grams = build("grams", &shafts.replace("mass [gr]", "mass [g]"), &parts);
    assert_eq!((grams.code, grams.out.as_str()), (2, ""));
    let asked = "bare shafts weigh, for their length, 146.58 gr/in in the middle, and the scenario \
                 says 9.50 gr/in: are they the same arrows?";
    assert!(grams.err.contains(asked), "{}", grams.err);
    let long = build("long", &shafts.replace("length [in]", "length [cm]"), &parts);
    assert!(long.code == 2 && long.err.contains("are they the same arrows?"), "{}", long.err);
    // Nothing else of them is asked about.
    assert_eq!(build("sound", &shafts, &parts).code, 0);
}

/// The verdict on end faces comes first, in plain words, with thousandths at the rim.
#[test]
fn regress_end_faces_are_judged_before_they_are_listed() {
    let folder = Folder::new("bench-faces");
    let (scenario, out) = (path(DEMO), folder.at("out"));
    let faces = path("scenarios/bench/faces.csv");
    let words = ["bench", "square", &scenario, "--readings", &faces, "--out", &out];
    let told = flat(&run(&words).out);
    let verdict = "Not worth squaring for the group: the rear end face of 1 and the front end face of \
                   2. They stand more than 0.43 thou out at the rim (0.1 deg), but were all arrows like \
                   the worst here, nobody would see a difference.";
    assert!(told.contains(verdict), "{told}");
    let page = std::fs::read_to_string(format!("{out}/report.html")).unwrap();
    assert!(page.contains("at the rim") && flat(&page).contains(verdict));
    // A gauge tells hundredths of a degree at best.
    assert!(told.contains("0.46 (0.46 to 0.55)") && told.contains("2.0 (2.0 to 2.4)"), "{told}");
    let none = folder.write("none.csv", "arrow,where,stage,gauge,reading [mm],step [mm],across [mm]\n1,front,squared,leaf,0.001,0.001,6.2\n");
    let words = ["bench", "square", &scenario, "--readings", &none, "--out", &out, "--replace"];
    let ran = run(&words);
    let sound = "Nothing to square: every end is within 0.43 thou at the rim (0.1 deg).";
    assert!(flat(&ran.out).contains(sound), "{}{}", ran.out, ran.err);
}

/// A shaft that reads .060 in got a cut plan without a word: it is set aside, asked about,
/// and its danger is told before the plan of the others.
#[test]
fn regress_a_bent_shaft_is_set_aside_before_any_plan() {
    let folder = Folder::new("bench-bent");
    let three = folder.write(
        "three.csv",
        "shaft,stock [in],middle [in],middle high [deg],nock end [in],nock end high [deg]\n\
         1,32,0.003,30,0.005,90\n\
         2,32,0.060,200,0.006,10\n\
         5,32,0.001,330,0.002,10\n",
    );
    let (scenario, out) = (path(DEMO), folder.at("out"));
    let words = ["bench", "cut", &scenario, "--three", &three, "--out", &out];
    let ran = run(&words);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let told = flat(&ran.out);
    let (aside, plan) = (told.find("! Set aside shaft 2 (reads"), told.find("The 2 shafts, cut"));
    assert!(aside.is_some() && aside < plan, "{told}");
    assert!(told.contains("bent or cracked") && told.contains("break it"), "{told}");
    assert!(told.contains("2 (line 3): reads"), "{told}");
    for name in ["report.html", "result.json"] {
        let file = std::fs::read_to_string(format!("{out}/{name}")).unwrap();
        assert!(file.contains("Set aside shaft 2"), "{name}");
    }
    // A batch is asked about by its cell, unless the arrow is taken out.
    let batch = |out: &str| {
        format!(
            "arrow,run-out [in],mass [gr],out\n1,0.003,420,\n2,0.060,421,{out}\n3,0.002,419,\n\
             4,0.001,420,\n"
        )
    };
    let sort = |name: &str, text: &str| {
        let (file, out) = (folder.write(name, text), folder.at(&format!("out-{name}")));
        run(&["bench", "sort", &scenario, "--batch", &file, "--set", "a=2", "--out", &out])
    };
    let ran = sort("batch.csv", &batch(""));
    assert_eq!(ran.code, 2, "{}", ran.out);
    assert!(ran.err.contains("decimal point") && ran.err.contains("batch.csv:3"), "{}", ran.err);
    let ran = sort("out.csv", &batch("bent"));
    assert!(!ran.err.contains("decimal point"), "{}", ran.err);
}
