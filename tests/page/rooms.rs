//! Every value of a scenario has its control.

use std::io::{Read, Write};
use std::path::Path;

use clothyard_tests::browser::{get, post};
use scenario::{Control, Field, Scenario, controls};
use units::Style;

use crate::site;

/// A value as it stands in a link.
fn linked(text: &str) -> String {
    let letter = |byte: u8| match byte {
        b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'.' | b'-' => char::from(byte).to_string(),
        _ => format!("%{byte:02X}"),
    };
    text.bytes().map(letter).collect()
}

fn shipped(name: &str) -> Scenario {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let path = folder.join(name);
    scenario::read(&path, &|path| std::fs::read_to_string(path)).ok().unwrap()
}

/// The file that a state is saved as.
fn file(address: std::net::SocketAddr, state: &str) -> Result<String, String> {
    let (code, text) = get(address, &format!("/scenario.toml?{state}")).unwrap();
    if code == 200 { Ok(text) } else { Err(text) }
}

#[test]
fn law_every_control_stands_on_the_page_once() {
    let (_folder, address) = site("rooms");
    for from in ["", "from=squaring", "from=fingers"] {
        let (code, page) = get(address, &format!("/?{from}")).unwrap();
        assert_eq!(code, 200);
        for control in controls() {
            let id = format!(" id=\"f-{}\"", control.name());
            assert_eq!(page.matches(&id).count(), 1, "{}", control.name());
        }
    }
}

/// What moves nothing, and what nobody added, is no mistake.
#[test]
fn law_zero_is_perfect_on_every_slider() {
    let (_folder, address) = site("zero");
    let mut tried = 0;
    for from in ["", "&from=squaring", "&from=matters"] {
        for control in controls() {
            for (style, word) in [(Style::Archery, "archery"), (Style::Metric, "metric")] {
                let Some(slide) = control.slide(style) else { continue };
                if !(slide.low..=slide.high).contains(&0.0) {
                    continue;
                }
                let state = format!("{}=0+{}&units={word}{from}", control.name(), slide.unit);
                let text = file(address, &state).unwrap_or_else(|said| panic!("{state}: {said}"));
                let read = scenario::read(Path::new("a.toml"), &|_| Ok(text.clone())).ok().unwrap();
                let shown = read.shown(control, 0);
                let zero = shown.as_deref().and_then(|text| text.split(' ').next());
                assert_eq!(zero, Some("0"), "{state}: {text}");
                tried += 1;
            }
        }
    }
    assert!(tried > 60, "{tried}");
    let perfect = "front=0+deg&rear=0+deg&runout=0+in&nock=0+deg&aim=0+deg&pace=0+ft/s&loose=0+deg";
    let (code, said) = get(address, &format!("/?{perfect}")).unwrap();
    assert!(code == 200 && said.contains("class=\"answer\""), "{said:.900}");
}

/// A field filled in with what holds anyway, or emptied again, is a scenario; what is
/// written comes back from the file as it was typed.
#[test]
fn law_every_control_takes_its_own_default() {
    let (_folder, address) = site("defaults");
    let scenario = shipped("square-ends.toml");
    let mut taken = 0;
    for control in controls() {
        let said = scenario.said(control, 0);
        if said.unused.is_some() || said.usual.is_empty() {
            continue;
        }
        let state = format!("from=squaring&{}={}", control.name(), linked(&said.usual));
        let text = file(address, &state).unwrap_or_else(|said| panic!("{state}: {said}"));
        let read = scenario::read(Path::new("a.toml"), &|_| Ok(text.clone())).ok().unwrap();
        let value = read.said(control, 0).value;
        assert!(value == said.usual || value.starts_with('{'), "{state}: {value}");
        taken += 1;
    }
    assert!(taken > 80, "{taken}");
    // Emptied, a value is what holds where nothing is written.
    let text = file(address, "from=squaring&front=&arrow.nock.mass=").unwrap();
    assert!(!text.contains("faults.point_end]") || !text.contains("[arrow.nock]\nmass"));
    let (code, said) = get(address, "/?from=squaring&point=").unwrap();
    assert!(code == 422 && said.contains("data-field=\"point\""), "{said:.600}");
}

#[test]
fn law_every_control_tells_a_bad_value_at_its_field() {
    let (_folder, address) = site("bad");
    for control in controls() {
        let bad = match control.field() {
            Field::Amount(_) => "1 parsec",
            Field::Count(..) => "1.5",
            Field::Words(_) => "perhaps",
            Field::Written => "[",
            Field::Text => continue,
        };
        if !there(control) {
            continue;
        }
        let form = format!("/?{}={}", control.name(), linked(bad));
        let (code, said) = get(address, &form).unwrap();
        let field = format!("data-field=\"{}\"", control.name());
        assert!(code == 422 && said.contains(&field), "{form}: {said:.2000}");
    }
}

/// A thing that may be absent takes two words; every other one is "there".
fn there(control: &Control) -> bool {
    control.range() != "" || !matches!(control.field(), Field::Words(["there", "none"]))
}

/// Laws, lists and readings are taken as they stand in a file.
#[test]
fn law_what_is_written_as_in_a_file_is_taken_so() {
    let (_folder, address) = site("as-written");
    for (field, value, line) in [
        (
            "pace",
            "{ mean = \"0 ft/s\", sd = \"1 ft/s\" }",
            "speed = { mean = \"0 ft/s\", sd = \"1 ft/s\", per = \"shot\" }",
        ),
        (
            "front",
            "{ low = \"0 deg\", high = \"0.3 deg\" }",
            "angle = { low = \"0 deg\", high = \"0.3 deg\", per = \"arrow\" }",
        ),
        (
            "archer.groups",
            "5 arrows at 40 yd span 6 in",
            "groups = \"5 arrows at 40 yd span 6 in\"",
        ),
        ("arrow.vanes.count", "4", "count = 4"),
        ("arrow.point.shape", "bullet", "shape = \"bullet\""),
        ("question.distances", "", "distances = "),
        ("at", "25 yd", "\"20 yd\", \"25 yd\", \"30 yd\""),
        ("arrow.collar", "there", "[arrow.collar]"),
        ("question.face", "40 cm", "face = \"40 cm\""),
        ("title", "Mine", "title = \"Mine\""),
        ("wind", "-7 mph", "from = \"-90 deg\""),
    ] {
        let state = format!("{field}={}", linked(value));
        let text = file(address, &state).unwrap_or_else(|said| panic!("{state}: {said}"));
        assert!(text.contains(line), "{state}: {text}");
    }
    assert!(!file(address, "arrow.vanes=none").unwrap().contains("vanes"));
}

/// A wind has a side, told by its sign, and the slider says what is written.
#[test]
fn law_a_wind_keeps_its_side() {
    let (folder, address) = site("side");
    let said = |state: &str| {
        let text = file(address, state).unwrap();
        let read = scenario::read(Path::new("a.toml"), &|_| Ok(text.clone())).ok().unwrap();
        read.said(scenario::control("wind").unwrap(), 0).value
    };
    for wind in ["-7 mph", "7 mph", "0 mph", "-0.5 m/s"] {
        assert_eq!(said(&format!("wind={}", linked(wind))), wind);
    }
    // One that comes at a slant is mirrored; one along the shot gets a side below zero.
    for (from, wind, line) in [
        ("60 deg", "-7 mph", "from = \"-60 deg\""),
        ("-60 deg", "7 mph", "from = \"60 deg\""),
        ("60 deg", "9 mph", "from = \"60 deg\""),
        ("0 deg", "-7 mph", "from = \"270 deg\""),
    ] {
        let demo = file(address, &format!("wind.from={}", linked(from))).unwrap();
        let name = format!("{}.toml", linked(from).replace('%', "-").trim_start_matches('-'));
        folder.write(&name, &demo);
        let text = file(address, &format!("from={name}&wind={}", linked(wind))).unwrap();
        assert!(text.contains(line), "{from} {wind}: {text}");
    }
}

/// Status and place that a link leads on to.
fn led(address: std::net::SocketAddr, path: &str) -> String {
    let text = format!("GET {path} HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n");
    let mut stream = std::net::TcpStream::connect(address).unwrap();
    stream.write_all(text.as_bytes()).unwrap();
    let mut said = String::new();
    stream.read_to_string(&mut said).unwrap();
    let place = said.lines().find_map(|line| line.strip_prefix("location: /?"));
    place.unwrap_or_else(|| panic!("{path}: {said:.900}")).to_owned()
}

/// What a control says in each build of a file.
fn each(text: &str, control: &str) -> Vec<String> {
    let read = scenario::read(Path::new("a.toml"), &|_| Ok(text.to_owned())).ok().unwrap();
    let control = scenario::control(control).unwrap();
    (0..read.build_names().count()).map(|at| read.said(control, at).value).collect()
}

/// A copy says what its build says, and is changed alone; taking a build away moves no
/// other.
#[test]
fn law_builds_are_copied_changed_and_taken_away_alone() {
    let (_folder, address) = site("copies");
    // One build, changed, and its copy.
    let two = led(address, "/copy?point=125+gr&copy=heavy");
    let text = file(address, &two).unwrap();
    assert!(text.contains("name = \"first\"") && text.contains("name = \"heavy\""), "{text}");
    assert_eq!(each(&text, "point"), ["125 gr", "125 gr"]);
    let text = file(address, &format!("{two}&2.point=150+gr&2.vane=")).unwrap();
    assert_eq!(each(&text, "point"), ["125 gr", "150 gr"]);
    let page = get(address, &format!("/?{two}&2.point=150+gr")).unwrap().1;
    assert!(page.contains("name=\"2.point\" value=\"150 gr\""), "{page:.4000}");

    // Builds that differ: every one says after it what it said before.
    let state = "from=squaring&build=2&2.front=0.1+deg&rear=0.02+deg&point=125+gr&1.insert=30+gr";
    let before = file(address, state).unwrap();
    let three = led(address, &format!("/copy?{state}&copy=third"));
    let after = file(address, &three).unwrap();
    for control in controls().iter().filter(|control| control.built()) {
        let (old, new) = (each(&before, control.name()), each(&after, control.name()));
        assert_eq!(new, [old[0].clone(), old[1].clone(), old[1].clone()], "{}", control.name());
    }
    for (gone, left) in [(1, [1, 2]), (2, [0, 2]), (3, [0, 1])] {
        let state = three.replace("build=3", &format!("build={gone}"));
        let fewer = file(address, &led(address, &format!("/remove?{state}"))).unwrap();
        for control in controls().iter().filter(|control| control.built()) {
            let (old, new) = (each(&after, control.name()), each(&fewer, control.name()));
            assert_eq!(new, left.map(|at: usize| old[at].clone()), "{gone}: {}", control.name());
        }
    }
    // A pinned build stays when its own is taken away.
    let pinned = format!("{three}&pinned=3&p.3.point=90+gr");
    let fewer = led(address, &format!("/remove?{pinned}"));
    assert_eq!(each(&file(address, &fewer).unwrap(), "point")[0], "90 gr");
}

#[test]
fn law_only_builds_that_are_there_are_changed() {
    let (_folder, address) = site("no-build");
    for state in [
        "build=2",
        "build=0",
        "build=x",
        "1.gone=1",
        "7.copy=3",
        "2.name=x",
        "1.copy=1",
        "100.copy=1",
        "2.copy=1&3.copy=1&4.copy=1&5.copy=1&6.copy=1&7.copy=1",
        "pinned=4",
        "2.copy=1&2.name=first",
    ] {
        assert_eq!(get(address, &format!("/scenario.toml?{state}")).unwrap().0, 422, "{state}");
    }
    assert_eq!(get(address, "/scenario.toml?1.zone=2+in").unwrap().0, 400);
    let six = "2.copy=1&3.copy=1&4.copy=1&5.copy=1&6.copy=1&6.point=150+gr";
    let text = file(address, six).unwrap();
    assert_eq!(text.matches("[[build]]").count(), 6);
    assert_eq!(each(&text, "point")[5], "150 gr");
}

/// The wind carries the group off the mark, farther with more of it, to its own side.
#[test]
fn law_a_wind_moves_the_group_on_the_face() {
    let (_folder, address) = site("drift");
    let drift = |wind: &str| {
        let page = get(address, &format!("/?wind={wind}")).unwrap().1;
        let said = page.split("class=\"drift\"").nth(1)?;
        let told = said.split_once("<strong>")?.1.split_once("</strong>")?.0.to_owned();
        let far: f64 = told.split([' ', '\u{a0}']).next()?.parse().ok()?;
        Some(if told.contains("left") { far } else { -far })
    };
    assert_eq!(drift("0+mph"), None);
    let [left, right, more] = ["-5+mph", "5+mph", "10+mph"].map(|wind| drift(wind).unwrap());
    // A wind from the right carries to the left.
    assert!(left < 0.0 && right > 0.0 && more > 1.5 * right, "{left} {right} {more}");
    assert!((left + right).abs() < 0.05 * right, "{left} {right}");
}

/// Every control says what it does here: from the flights, not from a list.
#[test]
fn law_a_control_says_what_it_does_here() {
    let (_folder, address) = site("effect");
    let ask = |form: &str| {
        let (code, said) = post(address, "/effect", form).unwrap();
        assert_eq!(code, 200, "{form}: {said:.600}");
        said.replace(['\u{a0}', '\u{202f}'], " ").replace("&nbsp;", " ").replace("&quot;", "\"")
    };
    let point = ask("control=point");
    assert!(point.starts_with("At 40 yd: 50 gr more: ") && point.contains(" in lower"), "{point}");
    assert!(point.contains("50 gr less: ") && point.contains(" in higher"), "{point}");
    // A measured speed holds; without one, a heavier draw is faster.
    assert!(ask("control=weight").contains("The speed at departure stays"));
    let stored = ask("control=weight&bow.speed_from=stored");
    assert!(!stored.contains("stays") && stored.contains(" in higher"), "{stored}");
    // The archer's own aim makes the group larger.
    assert!(ask("control=aim").contains("more: as high, group "), "{}", ask("control=aim"));
    assert!(ask("control=front").contains("a machine's group "), "{}", ask("control=front"));
    assert!(ask("control=wind").contains("from the right: "));
    assert!(ask("control=arrow.point.shape").contains("\"bullet\": "));
    // A question moves no arrow.
    assert_eq!(ask("control=question.flights"), "");
    assert_eq!(ask("control=at"), "");
    // Where a fit limits a lean, more of it adds little, and that is said.
    for (from, control) in [("tuned", "front"), ("fingers", "rear")] {
        let (_, said) =
            post(address, "/effect", &format!("from={from}&control={control}")).unwrap();
        assert!(said.contains("Beyond about 0.25 deg it adds little."), "{from}: {said}");
    }
    // And not of a fault that goes on mattering.
    let (_, said) = post(address, "/effect", "from=tuned&control=nock").unwrap();
    assert!(said.contains("more:") && !said.contains("Beyond"), "{said}");
    assert_eq!(post(address, "/effect", "control=nothing").unwrap().0, 400);
    assert_eq!(post(address, "/effect", "control=point&point=1+gr").unwrap().0, 422);
}

/// Every control answers, whatever it is.
#[test]
fn law_every_control_answers_what_it_does() {
    let (_folder, address) = site("effects");
    let mut told = 0;
    for control in controls() {
        let form = format!("from=fingers&control={}", control.name());
        let (code, said) = post(address, "/effect", &form).unwrap();
        assert!(code == 200 && !said.contains("NaN"), "{form}: {said:.600}");
        told += usize::from(!said.is_empty());
    }
    assert!(told > 60, "{told}");
}
