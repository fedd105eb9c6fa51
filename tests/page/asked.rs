//! The front door, and questions that are answered whole.

use clothyard_tests::browser::{get, post};

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

/// The words are those of the report that the page exports.
#[test]
fn law_a_question_is_answered_whole() {
    let (_folder, address) = site("asked");
    let (code, said) = post(address, "/asked", "from=fingers&visit=a-q").unwrap();
    assert_eq!(code, 200, "{said}");
    let report = get(address, "/take/report.html?from=fingers").unwrap().1;
    let lead = |text: &str| {
        let (_, rest) = text.split_once("<p class=\"answer\">").unwrap();
        let plain = rest.split_once("</p>").unwrap().0.replace(['\u{a0}', '\u{202f}'], " ");
        plain.replace("<wbr>", "").replace("&nbsp;", " ").chars().take(60).collect::<String>()
    };
    assert_eq!(lead(&said), lead(&report));
    assert!(said.contains("data-part=\"asked\"") && said.contains("<table>"));
    assert_eq!(post(address, "/asked", "from=fingers&colour=red").unwrap().0, 400);
}

#[test]
fn law_a_face_holds_its_scale_until_a_group_leaves_it() {
    let (_folder, address) = site("scale");
    let scale = |more: &str| {
        let (code, said) = post(address, "/answer", &format!("visit=s&flights=200{more}")).unwrap();
        assert_eq!(code, 200, "{said}");
        let (_, rest) = said.split_once("data-scale=\"").unwrap();
        rest.split_once('"').unwrap().0.parse::<f64>().unwrap()
    };
    let own = scale("");
    // A smaller group leaves the face as it is, a larger one does not fit on it.
    let small = scale("&aim=0.03+deg");
    assert!(small < own);
    assert!((scale(&format!("&aim=0.03+deg&scale={own}")) - own).abs() < 1e-12);
    assert!(scale(&format!("&aim=0.3+deg&scale={own}")) > own);
    for bad in ["0", "-1", "nan", "inf", "wide"] {
        let (code, _) = post(address, "/answer", &format!("flights=200&scale={bad}")).unwrap();
        assert_eq!(code, 422, "{bad}");
    }
}
