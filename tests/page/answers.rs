//! What the page answers and writes.

use clothyard_tests::browser::{get, live, post};
use clothyard_tests::program::run;

use crate::site;

#[test]
fn law_what_is_saved_runs_to_the_same_bits() {
    let (folder, address) = site("same");
    let state = "point=125+gr&front=0.4+deg&at=33+yd&wind=4+mph&pinned=1&p.point=85+gr";
    let (code, said) = post(address, "/save", &format!("{state}&name=mine.toml")).unwrap();
    assert_eq!(code, 201, "{said}");
    let (code, shown) = get(address, &format!("/take/result.json?{state}")).unwrap();
    assert_eq!(code, 200);
    let out = folder.at("out");
    let ran = run(&["run", &folder.at("mine.toml"), "--out", &out]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let written = std::fs::read_to_string(folder.at("out/result.json")).unwrap();
    let numbers = |text: &str| {
        let mut all: serde_json::Value = serde_json::from_str(text).unwrap();
        // Where it comes from names the file.
        all.as_object_mut().unwrap().remove("provenance");
        all
    };
    let (shown, written) = (numbers(&shown), numbers(&written));
    assert!(shown.to_string().contains("pinned"));
    assert!(shown == written, "the page and the run differ");
}

#[test]
fn law_nothing_is_saved_over() {
    let (folder, address) = site("over");
    folder.write("mine.toml", "# mine");
    let (code, said) = post(address, "/save", "name=mine.toml").unwrap();
    assert_eq!(code, 409);
    assert!(said.contains("mine-2.toml"), "{said}");
    assert_eq!(folder.files(), [("mine.toml".to_owned(), b"# mine".to_vec())]);
    for name in ["../out.toml", "a/b.toml", ".hidden.toml", "x.txt", "", ".toml", "a%00.toml"] {
        let (code, said) = post(address, "/save", &format!("name={name}")).unwrap();
        assert_eq!(code, 422, "{name}: {said}");
    }
    assert_eq!(folder.files().len(), 1);
    // The ending goes without saying.
    assert_eq!(post(address, "/save", "name=my+elk+arrow").unwrap().0, 201);
    assert!(std::fs::exists(folder.at("my elk arrow.toml")).unwrap());
}

/// The tape is that of the build on the page: a lighter arrow is faster.
#[test]
fn law_the_tape_follows_the_build() {
    let (_folder, address) = site("tape");
    let speed = |state: &str| {
        let (code, page) = get(address, &format!("/take/tape.svg?{state}")).unwrap();
        assert_eq!(code, 200, "{page}");
        let (before, _) = page.split_once(" ft/s").expect("its speed is told");
        before.rsplit([' ', '>']).next().unwrap().parse::<f64>().expect("a speed")
    };
    assert!(speed("point=85+gr") > speed("point=150+gr"));
    assert_eq!(get(address, "/take/card.svg?point=85+gr").unwrap().0, 200);
}

#[test]
fn law_a_saved_state_opens_as_it_was() {
    let (_folder, address) = site("open");
    let state = "point=140+gr&insert=50+gr&zone=6+in";
    assert_eq!(post(address, "/save", &format!("{state}&name=heavy.toml")).unwrap().0, 201);
    let (_, before) = get(address, &format!("/scenario.toml?{state}")).unwrap();
    let (code, after) = get(address, "/scenario.toml?from=heavy.toml").unwrap();
    assert_eq!(code, 200);
    // The page's sole addition is nothing: each key reads back as it was.
    assert_eq!(before, after);
    let (_, page) = get(address, "/?from=heavy.toml").unwrap();
    assert!(page.contains("value=\"140 gr\""));
}

#[test]
fn law_more_flights_narrow_the_interval() {
    let (_folder, address) = site("narrow");
    let (code, events) = live(address, "visit=narrow", usize::MAX).unwrap();
    assert_eq!(code, 200, "{events:?}");
    let answers = events.iter().filter(|(name, _)| name == "answer");
    let read = |(_, data): &(String, serde_json::Value)| {
        let build = &data["numbers"]["builds"][0];
        let end = |name: &str| build["r50_m"][name].as_f64().unwrap();
        (build["flights"].as_u64().unwrap(), end("high") - end("low"))
    };
    let found: Vec<_> = answers.map(read).collect();
    let widths = [found[0].1, found[1].1, found[2].1];
    assert_eq!(found.iter().map(|one| one.0).collect::<Vec<_>>(), [200, 2000, 10_000]);
    assert!(widths[0] > 2.0 * widths[1] && widths[1] > 1.5 * widths[2], "{widths:?}");
}

/// The last answer of the stream holds the numbers of the file that the page exports, and
/// what was read from a stream that is compressed is the same.
#[test]
fn law_the_stream_ends_with_the_numbers_of_the_run() {
    let (_folder, address) = site("stream");
    let (_, events) = live(address, "visit=s&point=125+gr&at=30+yd", usize::MAX).unwrap();
    let (name, last) = events.last().unwrap();
    assert!(name == "answer" && last["last"] == true, "{name}");
    let (_, shown) = get(address, "/take/result.json?point=125+gr&at=30+yd").unwrap();
    let shown: serde_json::Value = serde_json::from_str(&shown).unwrap();
    let r50 = last["numbers"]["builds"][0]["r50_m"]["value"].as_f64().unwrap();
    let text = shown.to_string();
    assert!(text.contains(&r50.to_string()), "{r50}");
    // The quickest answer leaves out what is read at leisure.
    assert!(events[0].1["parts"]["told"].is_null() && last["parts"]["told"].is_string());
}

#[test]
fn exact_a_feeler_and_a_diameter_give_the_angle() {
    let (_folder, address) = site("gauge");
    let ask = |gap: &str| {
        let form = format!("gap={gap}&across=0.25+in&keep=0.1+deg&reject=1+deg");
        post(address, "/gauge", &form).unwrap()
    };
    // Angle whose tangent is gap over width: 0.001 / 0.25 is 0.229 deg.
    for (gap, word, angle) in [
        ("0+in", "As is", "0.000 deg"),
        ("0.001+in", "Square it", "0.229 deg"),
        ("0.005+in", "Reject", "1.146 deg"),
    ] {
        let (code, said) = ask(gap);
        assert_eq!(code, 200);
        assert!(said.contains(word) && said.contains(angle), "{gap}: {said}");
    }
    assert_eq!(ask("1+in").0, 422);
}

#[test]
fn law_a_later_request_of_a_visitor_takes_the_place_of_the_one_that_runs() {
    let (_folder, address) = site("visitor");
    let ask = move |form: &'static str| {
        let (_, events) = live(address, form, usize::MAX).unwrap();
        events.last().unwrap().0.clone()
    };
    // The longest answers there are, so that the first still runs.
    let first =
        std::thread::spawn(move || ask("visit=me&at=99+yd&pinned=1&p.aim=0.4+deg&p.rear=0.9+deg"));
    std::thread::sleep(std::time::Duration::from_millis(150));
    let other = std::thread::spawn(move || ask("visit=you"));
    let second = ask("visit=me");
    // Whichever came first had to go.
    let mut mine = [first.join().unwrap(), second];
    mine.sort_unstable();
    assert_eq!(mine, ["answer", "wrong"]);
    assert_eq!(other.join().unwrap(), "answer");
}

/// A shaft far too weak for the bow is told before the answer, in the report, and on
/// what is printed.
#[test]
fn law_dangers_stand_before_the_answer() {
    let (_folder, address) = site("danger");
    let (code, page) = get(address, "/?spine=1.0+in&front=0.4+deg").unwrap();
    assert_eq!(code, 200);
    let (told, answer) = (page.find("Shaft too weak"), page.find("class=\"answer\""));
    assert!(told.is_some() && told < answer, "{page}");
    for name in ["report.html", "tape.svg", "tape.pdf", "card.svg", "card.pdf"] {
        let (code, file) = get(address, &format!("/take/{name}?spine=1.0+in")).unwrap();
        assert!(code == 200 && file.contains("Shaft too weak"), "{name}");
    }
    let (_, page) = get(address, "/?front=0.4+deg").unwrap();
    assert!(!page.contains("Shaft too weak"));
}
