//! A scenario on the page keeps its question and its builds.

use std::net::SocketAddr;
use std::path::Path;

use clothyard::PageSite;
use clothyard_tests::browser::{get, post};
use clothyard_tests::program::{Folder, path, run};

use crate::site;

/// A page that starts with a shipped scenario.
fn shipped(test: &str, name: &str) -> (Folder, SocketAddr) {
    let folder = Folder::new(&format!("{test}-{name}"));
    let file = path(&format!("scenarios/{name}.toml"));
    let site = PageSite::local(Path::new(&folder.at("")), Some(Path::new(&file))).unwrap();
    let address = site.address();
    site.serve_aside();
    (folder, address)
}

/// What a file says in the end, without where each value comes from.
fn values(file: &str) -> Vec<String> {
    let ran = run(&["check", file, "--resolved"]);
    // Dangers are told beside the values; mistakes are not.
    assert!(ran.code == 0 && !ran.err.contains("error:"), "{file}: {}", ran.err);
    let plain = |line: &str| line.split(" # ").next().unwrap_or_default().to_owned();
    ran.out.lines().filter(|line| !line.starts_with('#')).map(plain).collect()
}

/// The page once dropped the kind of the question and every build but the
/// first, without a word.
#[test]
fn regress_a_save_keeps_the_question_and_every_build() {
    let mut kept = 0;
    for entry in std::fs::read_dir(path("scenarios")).unwrap() {
        let file = entry.unwrap().path();
        if file.extension().is_none_or(|ending| ending != "toml") {
            continue;
        }
        let name = file.file_stem().unwrap().to_str().unwrap().to_owned();
        let text = std::fs::read_to_string(&file).unwrap();
        if text.contains("[job") {
            continue;
        }
        let (folder, address) = shipped("save", &name);
        let (code, said) = post(address, "/save", "name=saved.toml").unwrap();
        assert_eq!(code, 201, "{name}: {said}");
        assert_eq!(values(&folder.at("saved.toml")), values(&file.display().to_string()), "{name}");
        // And once more, from the file that was saved.
        let first = get(address, "/scenario.toml").unwrap();
        assert_eq!(get(address, "/scenario.toml?from=saved.toml").unwrap(), first, "{name}");
        kept += 1;
    }
    assert!(kept >= 10, "{kept}");
}

/// With a question of another kind, too, the file answers what the page's own
/// export says.
#[test]
fn law_a_tune_question_is_answered_as_it_is_written() {
    let (folder, address) = shipped("tune", "tune-hunter");
    assert_eq!(post(address, "/save", "name=saved.toml").unwrap().0, 201);
    let numbers = |text: &str| {
        let mut all: serde_json::Value = serde_json::from_str(text).unwrap();
        all.as_object_mut().unwrap().remove("provenance");
        all
    };
    let (code, shown) = get(address, "/take/result.json").unwrap();
    assert_eq!(code, 200);
    let original = path("scenarios/tune-hunter.toml");
    for file in [folder.at("saved.toml"), original] {
        let out = folder.at("out");
        assert_eq!(run(&["run", &file, "--out", &out]).code, 0);
        let written = std::fs::read_to_string(folder.at("out/result.json")).unwrap();
        assert!(numbers(&shown) == numbers(&written), "the page and {file} differ");
        std::fs::remove_dir_all(out).unwrap();
    }
    assert_eq!(get(address, "/take/groups.csv").unwrap().0, 404);
}

#[test]
fn law_the_page_names_what_is_asked_and_shows_every_build() {
    for (name, words, builds) in [
        ("tune-hunter", "how well arrow and bow are tuned", &["field point", "fixed blades"][..]),
        ("economy-dozen", "what makes the group's spread", &[]),
        (
            "elk-builds",
            "There are 3 builds.",
            &["light, field point", "middling, fixed blades", "heavy front, fixed blades"],
        ),
        ("target-70", "There are 2 builds.", &["thin shaft", "thick shaft"]),
    ] {
        let (_folder, address) = shipped("view", name);
        let (code, page) = get(address, "/").unwrap();
        assert_eq!(code, 200, "{name}");
        assert!(page.contains(words), "{name}: {page}");
        for build in builds {
            assert!(page.contains(&format!("{build}: half land within ")), "{name}: no {build}");
        }
        assert!(name == "elk-builds" || name == "target-70" || page.contains("id=\"question\""));
    }
}

/// What all builds share is set in all; where they differ, in the first.
#[test]
fn law_a_value_is_set_where_the_builds_share_it() {
    let (_folder, address) = shipped("share", "three-builds");
    let text = |state: &str| get(address, &format!("/scenario.toml?{state}")).unwrap().1;
    let before = text("");
    let (top, builds) = before.split_once("[[build]]").unwrap();
    // The wind is drawn for all of them.
    let wind = text("wind=4+mph");
    let (windy, same) = wind.split_once("[[build]]").unwrap();
    assert!(windy.contains("speed = \"4 mph\"") && !top.contains("\"4 mph\""), "{wind}");
    assert_eq!(same, builds);
    // The inserts are their own.
    let insert = text("insert=33+gr");
    assert_eq!(insert, before.replacen("mass = \"10 gr\"", "mass = \"33 gr\"", 1));
    // Beside a pinned build all three are still there.
    let pinned = text("insert=33+gr&pinned=1");
    assert_eq!(pinned.matches("[[build]]").count(), 4);
    assert!(pinned.contains("name = \"pinned\""), "{pinned}");
}

/// What says the same thing in another way makes room.
#[test]
fn law_a_value_set_drops_its_rivals() {
    let (folder, address) = site("rivals");
    folder.write("demo.toml", &{
        let (_, demo) = get(address, "/scenario.toml").unwrap();
        demo + "\n[air]\npressure = \"900 hPa\"\n"
    });
    let ask = |state: &str| {
        let (code, text) = get(address, &format!("/scenario.toml?from=demo.toml{state}")).unwrap();
        assert_eq!(code, 200, "{text}");
        text
    };
    assert!(ask("").contains("pressure"));
    let high = ask("&height=1000+m");
    assert!(high.contains("altitude = \"1000 m\"") && !high.contains("pressure"), "{high}");
}

/// Any law of a fault is watched at its median, not only a Rayleigh one.
#[test]
fn regress_a_fault_of_any_law_is_drawn_when_one_arrow_is_watched() {
    let (folder, address) = site("laws");
    let (_, demo) = get(address, "/scenario.toml").unwrap();
    let fault = "angle = { rayleigh = \"0.25 deg\", per = \"arrow\" }";
    assert_eq!(demo.matches(fault).count(), 2, "{demo}");
    let watch = |law: &str| {
        folder.write("law.toml", &demo.replace(fault, &format!("angle = {law}")));
        let (code, said) = post(address, "/motion", "from=law.toml").unwrap();
        assert_eq!(code, 200, "{said}");
        std::fs::remove_file(folder.at("law.toml")).unwrap();
        said
    };
    let square = watch("\"0 deg\"");
    // All of one median: 0.4 deg.
    let fixed = watch("\"0.4 deg\"");
    assert_ne!(square, fixed);
    for law in [
        "{ low = \"0 deg\", high = \"0.8 deg\" }",
        "{ mean = \"0.4 deg\", sd = \"0.1 deg\" }",
        "{ mean = \"0.4 deg\", sd = \"0.1 deg\", within = \"0.2 deg\" }",
    ] {
        assert_eq!(watch(law), fixed, "{law}");
    }
    for law in ["{ rayleigh = \"0.3 deg\" }", "{ rayleigh = \"0.3 deg\", at_most = \"0.9 deg\" }"] {
        assert_ne!(watch(law), square, "{law}");
    }
}

/// A form that follows from groups once stood beside them in what the page wrote, and the
/// page refused its own scenario.
#[test]
fn regress_a_group_that_was_shot_opens_and_saves() {
    let (folder, address) = site("grouped");
    let six = "draw_weight = \"62 lb\"\ndraw_length = \"29 in\"\nspeed = \"272 fps\"\n\
               arrow_length = \"28 1/2 in\"\nspine = 340\npoint = \"125 grains\"\n\
               group = \"5 arrows at 40 yd span 6 in\"\n";
    folder.write("six.toml", six);
    let (code, page) = get(address, "/?from=six.toml").unwrap();
    assert_eq!(code, 200, "{page:.900}");
    assert!(page.contains("class=\"answer\"") && !page.contains("class=\"mistakes\""));
    let (code, said) = post(address, "/save", "from=six.toml&name=seven.toml").unwrap();
    assert_eq!(code, 201, "{said}");
    assert_eq!(values(&folder.at("seven.toml")), values(&folder.at("six.toml")));
    // Another aim takes the place of the group.
    let (code, text) = get(address, "/scenario.toml?from=six.toml&aim=0.1+deg").unwrap();
    assert!(code == 200 && text.contains("aim_left") && !text.contains("groups"), "{text}");
}
