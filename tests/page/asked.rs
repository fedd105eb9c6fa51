//! The front door, and questions that are answered whole.

use clothyard_tests::browser::{get, live, post};
use clothyard_tests::program::run;

use crate::site;

/// Links of the front door that open an example.
fn examples(door: &str) -> Vec<String> {
    let links = door.split("href=\"/?from=").skip(1);
    links.filter_map(|rest| Some(rest.split_once('"')?.0.to_owned())).collect()
}

#[test]
fn law_every_question_of_the_front_door_opens_and_saves_as_a_file() {
    let (folder, address) = site("door");
    let (code, door) = get(address, "/").unwrap();
    assert_eq!(code, 200);
    assert_eq!(door, get(address, "/questions").unwrap().1);
    let all = examples(&door);
    assert!(all.len() >= 10, "{all:?}");
    for name in all {
        let (code, text) = get(address, &format!("/scenario.toml?from={name}")).unwrap();
        assert_eq!(code, 200, "{name}: {text}");
        let (code, said) =
            post(address, "/save", &format!("from={name}&name={name}.toml")).unwrap();
        assert_eq!(code, 201, "{name}: {said}");
        let saved = std::fs::read_to_string(folder.at(&format!("{name}.toml"))).unwrap();
        assert_eq!(saved, text, "{name}");
        assert_eq!(get(address, &format!("/scenario.toml?from={name}.toml")).unwrap().1, text);
    }
    // The files of the folder stand on it, and what is neither leads to neither.
    let door = get(address, "/questions").unwrap().1;
    assert!(door.contains("/?from=squaring.toml") && door.contains("/?from=squaring\""));
    assert_eq!(get(address, "/?from=nothing").unwrap().0, 422);
}

/// What the stream says in the end.
fn asked(address: std::net::SocketAddr, form: &str) -> String {
    let (code, events) = live(address, form, usize::MAX).unwrap();
    let (name, said) = events.last().unwrap();
    assert!(code == 200 && name == "asked", "{code} {name}: {said}");
    said["html"].as_str().unwrap().to_owned()
}

/// The words are those of the report that the page exports.
#[test]
fn law_a_question_is_answered_whole() {
    let (_folder, address) = site("asked");
    let said = asked(address, "from=fingers&visit=a-q");
    let report = get(address, "/take/report.html?from=fingers").unwrap().1;
    let lead = |text: &str| {
        let (_, rest) = text.split_once("<p class=\"answer\">").unwrap();
        let plain = rest.split_once("</p>").unwrap().0.replace(['\u{a0}', '\u{202f}'], " ");
        plain.replace("<wbr>", "").replace("&nbsp;", " ").chars().take(60).collect::<String>()
    };
    assert_eq!(lead(&said), lead(&report));
    assert!(said.contains("data-part=\"asked\"") && said.contains("<table>"));
    assert_eq!(live(address, "from=fingers&colour=red", 1).unwrap().0, 400);
}

#[test]
fn law_a_face_holds_its_scale_until_a_group_leaves_it() {
    let (_folder, address) = site("scale");
    let scale = |more: &str| {
        let (code, events) = live(address, &format!("visit=s{more}"), 1).unwrap();
        assert_eq!(code, 200, "{events:?}");
        events[0].1["scale"].as_f64().unwrap()
    };
    let own = scale("");
    // A smaller group leaves the face as it is, a larger one does not fit on it.
    let small = scale("&aim=0.03+deg");
    assert!(small < own);
    assert!((scale(&format!("&aim=0.03+deg&scale={own}")) - own).abs() < 1e-12);
    assert!(scale(&format!("&aim=0.3+deg&scale={own}")) > own);
    for bad in ["0", "-1", "nan", "inf", "wide"] {
        assert_eq!(live(address, &format!("scale={bad}"), 1).unwrap().0, 422, "{bad}");
    }
}

#[test]
fn law_marks_are_told_as_the_command_tells_them() {
    let (_folder, address) = site("marks");
    let said = asked(address, "from=marks&visit=m-q");
    let table = said.matches("<table>").count();
    assert!(table >= 1 && said.contains("60 yd"), "{said:.600}");
    assert!(get(address, "/?from=marks").unwrap().1.contains("id=\"question\""));
    assert!(!get(address, "/?").unwrap().1.contains("id=\"question\""));
}

/// Bare pairs, a table with a head and a width are all read; what is wrong is told at
/// its field, and nothing that was typed is lost.
#[test]
fn law_two_groups_are_judged_as_the_command_judges_them() {
    let (folder, address) = site("groups");
    assert!(get(address, "/groups").unwrap().1.contains("name=\"shots1\""));
    let pairs = "1+2%0A-1.5+0.5%0A0.2+-1%0A2+1%0A-0.4+0.3";
    let table = "left+(in)%2Cup+(in)%0A4%2C2%0A3.5%2C0.5%0A5%2C-1%0A6%2C1%0A4.4%2C0.3";
    let form =
        format!("name1=first&name2=second&unit=in&distance=40+yd&shots1={pairs}&shots2={table}");
    let (code, said) = post(address, "/groups", &form).unwrap();
    assert_eq!(code, 200, "{said}");
    folder.write("first.csv", "left (in),up (in)\n1,2\n-1.5,0.5\n0.2,-1\n2,1\n-0.4,0.3\n");
    folder.write("second.csv", "left (in),up (in)\n4,2\n3.5,0.5\n5,-1\n6,1\n4.4,0.3\n");
    let [first, second] = ["first.csv", "second.csv"].map(|name| folder.at(name));
    let ran = run(&["verdict", &first, &second, "--distance", "40 yd", "--json"]);
    let told: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let lead = told["answer"].as_str().or_else(|| told["lead"].as_str()).unwrap_or_default();
    let words = |text: &str| text.split_whitespace().take(4).collect::<Vec<_>>().join(" ");
    let plain =
        said.replace('\u{a0}', " ").replace("&quot;", "\"").replace(['\u{201c}', '\u{201d}'], "\"");
    assert!(!lead.is_empty() && plain.contains(&words(lead)), "{lead}: {plain:.1500}");

    let (_, said) =
        post(address, "/groups", "unit=in&count1=5&spread1=6+in&count2=5&spread2=9+in").unwrap();
    assert!(said.contains("class=\"answer\""), "{said:.1500}");
    for (form, hint) in [
        ("unit=in&shots1=1+2%0Anonsense+3&shots2=1+1%0A2+2", "nonsense"),
        ("unit=in&count1=5&spread1=6&count2=5&spread2=9+in", "6"),
        ("unit=ell&count1=5&spread1=6+in", "ell"),
        ("unit=in&shots1=&shots2=", "paste its shots"),
    ] {
        let (code, said) = post(address, "/groups", form).unwrap();
        assert!(
            code == 200 && said.contains("mistakes") && said.contains(hint),
            "{form}: {said:.900}"
        );
    }
    assert_eq!(post(address, "/groups", "colour=red").unwrap().0, 400);
}
