//! Everything the command line does is done on the page.

use std::net::SocketAddr;

use clothyard_tests::browser::{get, post};

use crate::site;

/// Text as it stands in a form.
fn encoded(text: &str) -> String {
    text.bytes()
        .map(|byte| match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => char::from(byte).to_string(),
            _ => format!("%{byte:02X}"),
        })
        .collect()
}

fn shipped(name: &str) -> String {
    encoded(&std::fs::read_to_string(clothyard_tests::program::path(name)).unwrap())
}

/// What the page says to a form, and its files.
fn asked(address: SocketAddr, tool: &str, form: &str) -> (String, Vec<String>) {
    let (code, said) = post(address, &format!("/tools/{tool}"), form).unwrap();
    assert_eq!(code, 200, "{tool}: {said:.900}");
    let links = said.split("href=\"/tools/files/").skip(1);
    let files = links.filter_map(|rest| Some(format!("/tools/files/{}", rest.split_once('"')?.0)));
    (said.clone(), files.collect())
}

/// Each command that is not apart stands on the index, and its form opens.
#[test]
fn law_every_command_has_a_page() {
    let (_folder, address) = site("tools");
    let index = get(address, "/tools").unwrap().1;
    let mut count = 0;
    for name in clothyard::on_the_page() {
        let path = format!("/tools/{}", name.replace(' ', "-"));
        assert!(index.contains(&format!("href=\"{path}\"")), "{name} has no words");
        let (code, page) = get(address, &path).unwrap();
        assert!(
            code == 200 && page.contains("<form") && page.contains("type=\"submit\""),
            "{name}"
        );
        count += 1;
    }
    assert!(count >= 20, "{count}");
    assert_eq!(get(address, "/tools/page").unwrap().0, 404);
    assert!(get(address, "/questions").unwrap().1.contains("href=\"/tools\""));
}

/// And each answers as on a command line.
#[test]
fn law_every_command_answers_on_the_page() {
    let (folder, address) = site("answered");
    let dozen = shipped("scenarios/bench/dozen.csv");
    let bench = |job: &str, form: String, word: &str| {
        let (said, files) = asked(address, &format!("bench-{job}"), &form);
        assert!(said.contains(word) && !said.contains("role=\"alert\""), "{job}: {said:.2500}");
        assert!(files.iter().any(|name| name.ends_with("report.html")), "{job}: {files:?}");
        assert_eq!(get(address, &files[0]).unwrap().0, 200);
    };
    bench(
        "cut",
        format!(
            "from=squaring&t.supports=2+in%2C+30+in&t.readings={}",
            shipped("scenarios/bench/profile.csv")
        ),
        "shaft",
    );
    bench(
        "square",
        format!("from=squaring&t.readings={}", shipped("scenarios/bench/faces.csv")),
        "square",
    );
    bench("sort", format!("from=squaring&t.batch={dozen}&t.sets=hunt%3D6%0Apractice%3D4"), "hunt");
    bench("index", format!("from=squaring&t.batch={dozen}"), "nock");
    let (shafts, parts) =
        (shipped("scenarios/bench/shafts.csv"), shipped("scenarios/bench/parts.csv"));
    bench("build", format!("from=squaring&t.shafts={shafts}&t.parts={parts}"), "shaft");

    let (said, _) = asked(address, "bench-columns", "t.kind=three&t.sheet=yes");
    assert!(said.contains("nock end"), "{said:.900}");
    let (_, files) =
        asked(address, "bench-note", "t.kind=batch&t.values=arrow%3D7%0Amass%3D425.3+gr");
    let book = get(address, &files[0]).unwrap().1;
    assert!(book.contains("425.3"), "{book}");

    // Jobs are kept in the folder that the page was started in.
    let (said, _) = asked(address, "job-open", "t.folder=tansy&t.whom=Tansy+Creek&t.arrows=12");
    assert!(
        !said.contains("role=\"alert\"") && folder.at("tansy/job.csv").len() > 3,
        "{said:.900}"
    );
    assert!(std::fs::exists(folder.at("tansy/job.csv")).unwrap());
    let note = "t.folder=tansy&t.values=arrow%3D7%0Astage%3Draw%0Amass%3D305.2+gr";
    assert!(!asked(address, "job-note", note).0.contains("role=\"alert\""));
    assert!(asked(address, "job-show", "t.folder=tansy").0.contains("Tansy Creek"));
    let (_, files) = asked(address, "job-print", "t.folder=tansy");
    assert!(files.iter().any(|name| name.rsplit('.').next() == Some("pdf")), "{files:?}");
    for bad in ["..", "%2Fetc", "a%2Fb", "-x", ""] {
        let (said, _) = asked(address, "job-show", &format!("t.folder={bad}"));
        assert!(said.contains("role=\"alert\""), "{bad}: {said:.900}");
    }

    let shots = "left+%5Bin%5D%2Cup+%5Bin%5D%0A1%2C2%0A-1%2C0%0A0%2C-2%0A2%2C1%0A-2%2C-1%0A";
    let (said, _) = asked(address, "verdict", &format!("t.files={shots}&t.files.2={shots}"));
    assert!(said.contains("differ"), "{said:.2500}");
    let sheet = "from=builds&t.builds=old%0Anew&t.distance=30+yd&t.times=2&t.out=blind";
    assert!(asked(address, "trial-sheet", sheet).0.contains("Shoot"));
    assert!(std::fs::exists(folder.at("blind/sheet.pdf")).unwrap());
    assert!(asked(address, "trial-judge", "t.folder=blind").0.contains("look"));
    for (tool, form, word) in [
        ("marks", "from=marks", "yd"),
        ("tape", "from=marks&t.mark=20+yd+%3D+12+mm%0A60+yd+%3D+31.9+mm", "tape"),
        ("arrow", "from=squaring", "FOC"),
        ("fly", "from=squaring&t.marks=10+yd%2C+20+yd", "20"),
        ("push", "from=squaring", "push"),
    ] {
        let (said, _) = asked(address, tool, form);
        assert!(said.contains(word) && !said.contains("role=\"alert\""), "{tool}: {said:.2500}");
    }
    let fit = format!("from=marks&t.shots={}", shipped("scenarios/shots/two-marks.csv"));
    assert!(asked(address, "fit", &fit).0.contains("speed"));
    // What is missing is told as the command tells it.
    let (said, _) = asked(address, "pin", "from=squaring");
    assert!(said.contains("role=\"alert\"") && said.contains("measured"), "{said:.2500}");
    assert_eq!(post(address, "/tools/fly", "t.nothing=1").unwrap().0, 400);
    assert_eq!(get(address, "/tools/files/0/none.csv").unwrap().0, 404);
}
