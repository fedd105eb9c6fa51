//! A job on the page: what is corrected, what is carried on, what is said.

use std::net::SocketAddr;

use clothyard_tests::browser::{get, post};

use crate::site;
use crate::tools::{asked, encoded};

/// What the page says to a sheet of readings.
fn noted(address: SocketAddr, form: &str) -> String {
    let (code, said) = post(address, "/tools/readings", form).unwrap();
    assert_eq!(code, 200, "{said:.900}");
    said
}

/// What was noted stands in its field; written over it is a correction, and the old row stays.
#[test]
fn law_a_reading_is_corrected_where_it_stands() {
    let (folder, address) = site("corrected");
    asked(address, "job-open", "t.folder=briar&t.arrows=3");
    let raw = "t.folder=briar&t.stage=raw";
    noted(address, &format!("{raw}&t.1.mass=305.2&t.1.spine=0.341&t.2.mass=300"));
    let book = || std::fs::read_to_string(folder.at("briar/arrows.csv")).unwrap();
    let before = book();
    let sheet = get(address, "/tools/readings?t.folder=briar&t.stage=raw").unwrap().1;
    assert!(sheet.contains("name=\"t.1.mass\" value=\"305.2\""), "{sheet:.4500}");
    assert!(sheet.contains("name=\"t.was.1.mass\" value=\"305.2\""), "{sheet:.4500}");

    // The whole sheet is sent back; one reading was written over, one added.
    let same = "t.1.mass=305.2&t.was.1.mass=305.2&t.1.spine=0.341&t.was.1.spine=0.341";
    let said =
        noted(address, &format!("{raw}&{same}&t.2.mass=306&t.was.2.mass=300&t.2.spine=0.34"));
    assert!(
        said.contains("Corrected: arrow 2;") && !said.contains("role=\"alert\""),
        "{said:.4500}"
    );
    assert!(book().starts_with(&before) && book().lines().count() == 4, "{}", book());
    assert!(book().contains(",yes,"), "{}", book());
    assert!(said.contains("name=\"t.2.mass\" value=\"306\""), "{said:.4500}");
    assert_eq!(noted(address, &format!("{raw}&{same}")).matches("Nothing was noted").count(), 1);

    // Somebody noted it meanwhile; one for all is none of those read.
    let stands = book();
    for (form, why) in [
        ("t.1.mass=310", "somebody noted it"),
        ("t.1-3.mass=310", "noted already of arrow 1, 2"),
        ("t.back=3", "nothing is noted of it"),
    ] {
        let said = noted(address, &format!("{raw}&{form}"));
        assert!(said.contains("role=\"alert\"") && said.contains(why), "{form}: {said:.4500}");
        assert_eq!(book(), stands, "{form}");
    }

    // Made blank, one reading is taken back and the other stands.
    let said = noted(address, &format!("{raw}&t.1.mass=&t.was.1.mass=305.2"));
    assert!(said.contains("Taken back: a reading of arrow 1;"), "{said:.4500}");
    assert!(
        said.contains("name=\"t.1.mass\" value=\"\"")
            && said.contains("name=\"t.1.spine\" value=\"0.341\""),
        "{said:.4500}"
    );
    assert!(book().starts_with(&stands), "{}", book());

    // An arrow that is out is called so at every stage.
    asked(address, "job-note", "t.folder=briar&t.values=arrow%3D3%0Aout%3Dcracked");
    let cut = get(address, "/tools/readings?t.folder=briar&t.stage=cut").unwrap().1;
    assert!(cut.contains("3 out: cracked") && !cut.contains("2 out:"), "{cut:.4500}");
    let stands = book();

    // Taken back, its field is empty and its rows are there.
    let said = noted(address, &format!("{raw}&t.back=2"));
    assert!(
        said.contains("Taken back") && said.contains("name=\"t.2.mass\" value=\"\""),
        "{said:.4500}"
    );
    assert!(book().starts_with(&stands) && book().contains(",void,"), "{}", book());
}

/// Two people at one sheet: what another noted is neither blanked nor written over unasked.
#[test]
fn regress_two_sheets_of_one_job_void_nothing_of_each_other() {
    let (folder, address) = site("two-sheets");
    asked(address, "job-open", "t.folder=briar&t.arrows=3");
    let raw = "t.folder=briar&t.stage=raw";
    let book = || std::fs::read_to_string(folder.at("briar/arrows.csv")).unwrap();
    noted(address, &format!("{raw}&t.1.mass=305.2"));
    // Opened before, the other sheet has arrow 1 blank; its own field is sent, and now shows 1.
    let said = noted(address, &format!("{raw}&t.1.mass=&t.2.mass=306.4&t.3.mass=heavy"));
    assert!(said.contains("Arrow 3 was not noted"), "{said:.4500}");
    for field in ["t.1.mass\" value=\"305.2\"", "t.2.mass\" value=\"306.4\""] {
        assert!(said.contains(field), "{field}: {said:.4500}");
    }
    assert!(said.contains("t.3.mass\" value=\"heavy\""), "{said:.4500}");
    // What stands was corrected, or blanked, meanwhile: asked first, then done.
    noted(address, &format!("{raw}&t.1.mass=305.9&t.was.1.mass=305.2"));
    let stands = book();
    for own in ["306", ""] {
        let said = noted(address, &format!("{raw}&t.1.mass={own}&t.was.1.mass=305.2"));
        assert!(said.contains("mass is 305.9 in the job by now"), "{said:.4500}");
        assert!(said.contains(&format!("t.1.mass\" value=\"{own}\"")), "{said:.4500}");
        assert!(said.contains("t.was.1.mass\" value=\"305.9\""), "{said:.4500}");
        assert_eq!(book(), stands, "{own}");
    }
    noted(address, &format!("{raw}&t.1.mass=&t.was.1.mass=305.9"));
    let stands = book();
    let said = noted(address, &format!("{raw}&t.1.mass=307&t.was.1.mass=305.9"));
    assert!(said.contains("mass is no longer noted in the job"), "{said:.4500}");
    assert_eq!(book(), stands);
}

/// An odd reading that is right was refused for good: the sheet had no way to say so.
#[test]
fn regress_an_odd_reading_is_looked_at_twice_on_the_sheet() {
    let (folder, address) = site("odd");
    asked(address, "job-open", "t.folder=briar&t.arrows=3");
    let raw = "t.folder=briar&t.stage=raw";
    let book = || std::fs::read_to_string(folder.at("briar/arrows.csv")).unwrap();
    assert!(!noted(address, &format!("{raw}&t.1.mass=305.2")).contains("looked twice"));
    let before = book();
    let said = noted(address, &format!("{raw}&t.2.mass=3052"));
    assert!(said.contains("tick in its row that you looked twice"), "{said:.4500}");
    assert!(said.contains("name=\"t.2.sure\"") && !said.contains("correction="), "{said:.4500}");
    assert_eq!(book(), before);
    let said = noted(address, &format!("{raw}&t.2.mass=3052&t.2.sure=sure"));
    assert!(!said.contains("role=\"alert\""), "{said:.4500}");
    assert!(book().contains("2,raw,3052,") && book().contains(",sure,"), "{}", book());
    // What stood before is odd beside those that came later, and is said again.
    let stands = "t.1.mass=305.2&t.was.1.mass=305.2&t.1.sure=sure";
    let said = noted(address, &format!("{raw}&{stands}"));
    assert!(!said.contains("role=\"alert\"") && book().matches(",sure,").count() == 2, "{said}");
}

/// What a shell takes is in no answer and no mistake of a form.
#[test]
fn law_no_form_speaks_of_a_command_line() {
    let (_folder, address) = site("no-shell");
    asked(address, "job-open", "t.folder=fern&t.arrows=3");
    asked(
        address,
        "trial-sheet",
        "from=builds&t.builds=old%0Anew&t.distance=30+yd&t.times=2&t.out=blind",
    );
    let group = encoded("left [in],up [in]\n1,2\n-1,0\n");
    let nothing = encoded("arrow,note\n1,a\n");
    let profile = encoded("shaft,station [in],clock [deg],reading [in],stock [in]\n1,8,0,.02,32\n");
    let raw = "t.folder=fern&t.values=arrow%3D1%0Astage%3Draw%0Amass%3D300+gr";
    assert!(!asked(address, "job-note", raw).0.contains("role=\"alert\""));
    for (tool, form) in [
        ("bench-cut", "from=squaring".to_owned()),
        ("bench-cut", format!("from=squaring&t.readings={profile}")),
        ("bench-cut", format!("from=squaring&t.readings={profile}&t.supports=2")),
        ("bench-cut", format!("from=squaring&t.readings={profile}&t.grade=.003+in")),
        ("bench-cut", "from=squaring&t.stop=x".to_owned()),
        ("bench-cut", "from=squaring&t.grade=.003+in".to_owned()),
        ("bench-sort", "from=squaring".to_owned()),
        ("bench-sort", format!("from=squaring&t.batch={nothing}&t.sets=hunt%3D1")),
        ("bench-sort", format!("from=squaring&t.batch={nothing}&t.sets=hunt")),
        ("bench-index", "from=squaring".to_owned()),
        ("bench-index", format!("from=squaring&t.batch={nothing}&t.positions=0")),
        ("bench-build", format!("from=squaring&t.shafts={nothing}&t.parts={nothing}")),
        ("bench-note", "t.kind=batch&t.values=mass".to_owned()),
        ("bench-note", "t.values=arrow%3D1".to_owned()),
        ("bench-square", "from=squaring&t.share=x".to_owned()),
        ("job-open", "t.folder=fern&t.arrows=3".to_owned()),
        ("job-open", "t.folder=other".to_owned()),
        ("job-note", raw.to_owned()),
        ("job-note", "t.folder=fern&t.values=stage%3Draw".to_owned()),
        ("job-note", "t.folder=fern&t.values=arrow%3D1".to_owned()),
        ("job-note", "t.folder=fern&t.into=job&t.values=arrows%3D4".to_owned()),
        ("job-note", "t.folder=fern".to_owned()),
        ("job-show", String::new()),
        ("verdict", format!("t.files={group}")),
        ("verdict", "t.counts=5%0A6&t.spread=x".to_owned()),
        (
            "trial-sheet",
            "from=builds&t.builds=old%0Anew&t.distance=30+yd&t.times=2&t.out=blind".to_owned(),
        ),
        ("trial-sheet", "from=builds&t.builds=old&t.distance=30+yd&t.times=2&t.out=b2".to_owned()),
        ("trial-sheet", "from=builds&t.builds=old%0Anew&t.distance=30+yd&t.out=b3".to_owned()),
        (
            "trial-sheet",
            "from=builds&t.builds=old%0Anew&t.distance=30+yd&t.apart=2+in&t.spread=x&t.out=b4"
                .to_owned(),
        ),
        ("trial-judge", "t.folder=blind&t.end=6+in%2C+5+in".to_owned()),
        ("trial-judge", "t.folder=blind&t.evidence=yes".to_owned()),
        ("pin", "from=squaring".to_owned()),
        ("marks", "from=squaring".to_owned()),
        ("tape", "from=marks&t.mark=20+yd".to_owned()),
        ("tape", "from=marks&t.mark=20+yd+%3D+12+mm".to_owned()),
        ("fit", "from=marks".to_owned()),
        ("fly", "from=squaring&t.marks=x".to_owned()),
        ("fly", "from=squaring&t.marks=20+yd%2C+10+yd".to_owned()),
    ] {
        let (code, page) = post(address, &format!("/tools/{tool}"), &form).unwrap();
        if code == 400 {
            continue;
        }
        let finding =
            page.split("id=\"finding\"").nth(1).unwrap().split("</section>").next().unwrap();
        let said = finding.replace("&quot;", "\"").replace("&amp;", "&");
        // An arrow of a drawn mistake is no option.
        let option = |at: usize| {
            let after = said[at + 2..].chars().next();
            !said[..at].ends_with('-') && after.is_some_and(|c| c.is_ascii_alphabetic())
        };
        let shell = said.match_indices("--").any(|(at, _)| option(at));
        for word in
            ["clothyard ", "`", "Usage", "correction=void", "[marks]", "[measured]", "[archer]"]
        {
            assert!(!said.contains(word), "{tool} {form}: {word}: {said}");
        }
        assert!(!shell, "{tool} {form}: {said}");
    }
}

/// What was weighed and measured raw is not asked again: not its length before the saw, not
/// its mass behind it.
#[test]
fn law_what_was_read_raw_goes_on_to_the_next_step() {
    let (folder, address) = site("carried");
    asked(address, "job-open", "t.folder=reed&t.arrows=3&t.cut_to=28.5+in");
    let raw = "t.folder=reed&t.stage=raw&t.1-3.length=32&t.1-3.spine=0.34";
    noted(address, &format!("{raw}&t.1.mass=305.2&t.2.mass=306.4&t.3.mass=304.1"));
    // The saw asks for no length.
    for shaft in 1..=3 {
        let values = format!("shaft={shaft}\nmiddle=0.003 in\nmiddle high=3 o'clock");
        let form = format!("t.folder=reed&t.into=three&t.values={}", encoded(&values));
        assert!(!asked(address, "job-note", &form).0.contains("role=\"alert\""));
    }
    let (said, _) = asked(address, "bench-cut", "from=squaring&t.three.kept=reed%2Fthree.csv");
    assert!(!said.contains("role=\"alert\""), "{said:.4500}");
    // Nor the pairing for a mass.
    let said = noted(address, "t.folder=reed&t.stage=cut&t.1-3.length=28.5");
    assert!(!said.contains("role=\"alert\""), "{said:.4500}");
    for (at, mass) in [99.7, 99.0, 100.3].iter().enumerate() {
        let values = format!("part=point\nname=P{at}\nmass={mass} gr");
        let form = format!("t.folder=reed&t.into=parts&t.values={}", encoded(&values));
        assert!(!asked(address, "job-note", &form).0.contains("role=\"alert\""));
    }
    let form = "from=squaring&t.shafts.kept=reed%2Farrows.csv&t.parts.kept=reed%2Fparts.csv";
    let (said, files) = asked(address, "bench-build", form);
    assert!(!said.contains("role=\"alert\""), "{said:.4500}");
    let answer = said.split("</section>").next().unwrap();
    assert!(answer.contains("3 arrows: shafts paired"), "{answer}");
    assert!(files.iter().any(|name| name.ends_with("report.html")), "{files:?}");
    // The same at a command line.
    let [book, parts] = ["reed/arrows.csv", "reed/parts.csv"].map(|name| folder.at(name));
    let scenario = clothyard_tests::program::path("scenarios/bench/bench.toml");
    let out = folder.at("out");
    let ran = clothyard_tests::program::run(&[
        "bench", "build", &scenario, "--shafts", &book, "--parts", &parts, "--out", &out,
    ]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    // A card before all are built says so, and of which scenario it is.
    let (said, files) = asked(address, "job-print", "from=squaring&t.scenario=yes&t.folder=reed");
    assert!(!said.contains("role=\"alert\""), "{said:.4500}");
    let card = files.iter().find(|name| name.ends_with("customer-card.svg")).unwrap();
    let card = get(address, card).unwrap().1;
    assert!(card.contains("job not finished"), "{card:.2500}");
    assert!(card.contains("Is squaring") || card.contains("Scenario:"), "{card:.4500}");
}
