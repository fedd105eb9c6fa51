//! Everything the command line does is done on the page.

use std::net::SocketAddr;
use std::path::Path;

use clothyard_tests::browser::{Browser, get, post};

use crate::site;

/// Text as it stands in a form.
pub(crate) fn encoded(text: &str) -> String {
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
pub(crate) fn asked(address: SocketAddr, tool: &str, form: &str) -> (String, Vec<String>) {
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
    for bad in ["..", "%2Fetc", "a%2Fb", "-x", "", "nul", "CON", "prn.csv", "com1"] {
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
    // What was measured on the bow has fields of its own.
    let push = "from=squaring&t.measured.push=10+N&t.measured.left=2.5+mm&t.measured.up=0.3+mm";
    let (said, files) = asked(address, "pin", push);
    assert!(said.contains("restraint") && !said.contains("role=\"alert\""), "{said:.2500}");
    assert!(files.iter().any(|name| name.ends_with("restraints.toml")), "{files:?}");
    // What is missing is told as the command tells it.
    let (said, _) = asked(address, "pin", "from=squaring");
    assert!(said.contains("role=\"alert\"") && said.contains("what you saw"), "{said:.2500}");
    assert_eq!(post(address, "/tools/fly", "t.nothing=1").unwrap().0, 400);
    assert_eq!(get(address, "/tools/files/0/none.csv").unwrap().0, 404);
}

/// A job goes from its opening through readings to sets, and its tables need no pasting.
#[test]
fn law_a_job_goes_on_from_page_to_page() {
    let (folder, address) = site("job");
    let (said, _) = asked(address, "job-open", "t.folder=tansy&t.arrows=6");
    assert!(said.contains("href=\"/tools/job-note?t.folder=tansy\""), "{said:.2500}");
    for (arrow, mass) in [(1, 305.2), (2, 306.1), (3, 304.8), (4, 305.9)] {
        let values = format!("arrow={arrow}\nstage=raw\nmass={mass} gr\nspine=0.340 in");
        let note = format!("t.folder=tansy&t.values={}", encoded(&values));
        assert!(!asked(address, "job-note", &note).0.contains("role=\"alert\""));
    }
    // The job is on the list, and its readings stand in for a table.
    let form = get(address, "/tools/job-show").unwrap().1;
    assert!(form.contains("<option value=\"tansy\""), "{form:.2500}");
    let sort = get(address, "/tools/bench-sort?t.batch.kept=tansy%2Farrows.csv").unwrap().1;
    assert!(sort.contains("value=\"tansy/arrows.csv\" selected"), "{sort:.2500}");
    let form = "from=squaring&t.batch=&t.batch.kept=tansy%2Farrows.csv&t.sets=hunt%3D3";
    let (said, files) = asked(address, "bench-sort", form);
    assert!(said.contains("hunt") && !said.contains("role=\"alert\""), "{said:.2500}");

    // A report opens, with a style and no script of its own.
    let report = files.iter().find(|name| name.ends_with("report.html")).unwrap();
    let request = format!("GET {report} HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n");
    let whole = raw(address, &request);
    assert!(
        whole.contains("content-security-policy: sandbox; default-src 'none';"),
        "{whole:.900}"
    );
    assert!(!whole.contains("content-disposition"), "{whole:.900}");
    // A browser names the origin of a plain form only where a page may name itself.
    assert!(whole.contains("referrer-policy: same-origin"), "{whole:.900}");

    // No table that is not on the list is read, nor what a trial keeps sealed.
    std::fs::write(folder.at("mine.csv"), "arrow,mass [gr]\n1,300\n").unwrap();
    std::fs::create_dir(folder.at("blind")).unwrap();
    for file in ["plan.csv", "key.csv"] {
        std::fs::write(folder.at(&format!("blind/{file}")), "a\n").unwrap();
    }
    for name in ["mine.csv", "blind/key.csv", "../mine.csv", "tansy/../mine.csv", "/etc/passwd"] {
        let form = format!("t.batch.kept={}&t.sets=hunt%3D3", encoded(name));
        assert_eq!(post(address, "/tools/bench-sort", &form).unwrap().0, 404, "{name}");
    }
}

/// The whole answer to a request, with its heads.
fn raw(address: SocketAddr, request: &str) -> String {
    use std::io::{Read, Write};
    let mut stream = std::net::TcpStream::connect(address).unwrap();
    stream.write_all(request.as_bytes()).unwrap();
    let mut bytes = Vec::new();
    stream.read_to_end(&mut bytes).unwrap();
    String::from_utf8_lossy(&bytes).into_owned()
}

/// A folder that is a link out of the one that the page was started in is no folder of it.
#[cfg(unix)]
#[test]
fn law_no_link_leads_out_of_the_folder() {
    let (folder, address) = site("linked");
    let (elsewhere, _) = site("elsewhere");
    std::fs::create_dir(elsewhere.at("job")).unwrap();
    std::fs::write(elsewhere.at("job/job.csv"), "customer,arrows\nBriar,6\n").unwrap();
    std::os::unix::fs::symlink(elsewhere.at("job"), folder.at("briar")).unwrap();
    let (said, _) = asked(address, "job-show", "t.folder=briar");
    assert!(said.contains("leads out of the folder") && !said.contains("Briar"), "{said:.2500}");
    assert!(!get(address, "/tools/job-show").unwrap().1.contains("value=\"briar\""));
}

/// A sheet of readings goes into the job row by row, and stops at the first that is wrong.
#[test]
fn law_readings_go_into_the_job_as_they_were_written() {
    let (folder, address) = site("readings");
    assert!(get(address, "/tools/readings").unwrap().1.contains("href=\"/tools/job-open\""));
    asked(address, "job-open", "t.folder=briar&t.arrows=4");
    let sheet = get(address, "/tools/readings?t.folder=briar&t.stage=raw").unwrap().1;
    assert!(
        sheet.contains("inputmode=\"decimal\"") && sheet.contains("mass [gr]"),
        "{sheet:.2500}"
    );
    assert!(sheet.contains("aria-label=\"mass [gr], arrow 4\""), "{sheet:.2500}");
    let note = |form: &str| {
        let (code, said) = post(address, "/tools/readings", form).unwrap();
        assert_eq!(code, 200, "{said:.900}");
        said
    };
    let rows =
        "t.folder=briar&t.stage=raw&t.1.mass=305.2&t.1.spine=0.341&t.2.mass=306%2C1&t.3.mass=";
    let said = note(rows);
    assert!(said.contains("Where each arrow stands"), "{said:.2500}");
    assert!(said.contains("arrow 1, 2.") && !said.contains("role=\"alert\""), "{said:.2500}");
    let book = || std::fs::read_to_string(folder.at("briar/arrows.csv")).unwrap();
    assert!(
        book().contains("\n1,raw,305.2,,0.341,") && book().contains("\n2,raw,306.1,"),
        "{}",
        book()
    );
    // What is wrong is told, stays on the sheet, and nothing below it is written.
    let said = note("t.folder=briar&t.stage=raw&t.3.mass=heavy&t.4.mass=304.4");
    assert!(
        said.contains("role=\"alert\"") && said.contains("Arrow 3 was not noted"),
        "{said:.2500}"
    );
    assert!(said.contains("value=\"heavy\"") && said.contains("value=\"304.4\""), "{said:.2500}");
    assert!(!book().contains("304.4"));
    // The same of all of them.
    let said = note("t.folder=briar&t.stage=cut&t.1-4.length=28.5");
    assert!(said.contains("arrow 1-4."), "{said:.2500}");
    assert_eq!(book().matches(",cut,").count(), 4, "{}", book());
    for bad in ["..", "%2Fetc", "nobody"] {
        let form = format!("t.folder={bad}&t.stage=raw&t.1.mass=300");
        assert_eq!(post(address, "/tools/readings", &form).unwrap().0, 404, "{bad}");
    }
}

/// With a thumb: number by number, row by row, and what was written is in the job.
#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_a_phone_fills_in_the_readings_of_a_job() {
    let mut browser = Browser::start("thumb");
    let (folder, address) = site("thumb");
    asked(address, "job-open", "t.folder=fern&t.arrows=12");
    browser.screen(390, 844, false);
    browser.open(&format!("http://{address}/tools/readings?t.folder=fern"));
    browser.until("document.readyState === 'complete' && document.querySelector('.rows input')");
    browser.value(
        "(() => { const all = [...document.querySelectorAll('.rows input')]; all[0].focus();
         ['305.2', '32', '0.341', '2', '0.003', '5', '306.1'].forEach((text) => {
           const f = document.activeElement; f.value = text;
           f.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true })); }); })()",
    );
    browser.value("document.querySelector('form.readings button').click()");
    browser.until("document.getElementById('finding').textContent.includes('arrow 1, 2.')");
    let book = std::fs::read_to_string(folder.at("fern/arrows.csv")).unwrap();
    assert!(book.contains("305.2") && book.contains("306.1"), "{book}");
    // And on to the sets, with the job's table in place of an empty grid.
    browser.open(&format!(
        "http://{address}/tools/bench-sort?t.batch.kept=fern%2Farrows.csv&t.sets=hunt%3D1"
    ));
    browser.until("document.readyState === 'complete' && document.querySelector('form.tool')");
    browser.value("document.querySelector('form.tool button[type=submit]').click()");
    browser.until("document.querySelector('#finding .files')");
    let said = browser.text("document.getElementById('finding').textContent");
    assert!(said.contains("hunt") && said.contains("Open the report"), "{said}");
}

/// A form that takes long is stopped with a button, and may be sent again.
#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_a_form_is_stopped_with_a_button() {
    let mut browser = Browser::start("stopped");
    let (_folder, address) = site("stopped");
    let measured = "t.measured.bare=true&t.measured.left=2.5+in&t.measured.up=0.3+in";
    browser.open(&format!(
        "http://{address}/tools/pin?from=squaring&{measured}&t.measured.distance=20+yd"
    ));
    browser.until("document.readyState === 'complete' && document.querySelector('form.tool')");
    let said = "document.querySelector('form.tool [role=status]').textContent";
    // Sent and stopped at once: nothing of it is seen later.
    browser.value(
        "(() => { const form = document.querySelector('form.tool'); form.requestSubmit();
         setTimeout(() => [...form.querySelectorAll('button')]
           .find((b) => b.textContent === 'Stop' && !b.hidden).click(), 200); })()",
    );
    browser.until(&format!("{said}.startsWith('Stopped')"));
    let send = "document.querySelector('form.tool button[type=submit]').disabled";
    assert_eq!(browser.value(send), false);
    // The next that flies does not wait for it.
    assert!(asked(address, "arrow", "from=squaring").0.contains("FOC"));
    assert!(browser.text(said).starts_with("Stopped"));
}

/// The forms fit every screen, each of their fields has a name, and each can be hit.
#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_every_form_fits_every_screen() {
    let mut browser = Browser::start("forms");
    let (_folder, address) = site("forms");
    asked(address, "job-open", "t.folder=fern&t.arrows=12");
    let shots = std::env::var_os("CLOTHYARD_SHOTS");
    let mut pages = vec!["/tools".to_owned(), "/tools/readings?t.folder=fern".to_owned()];
    pages.extend(
        clothyard::on_the_page().iter().map(|name| format!("/tools/{}", name.replace(' ', "-"))),
    );
    for (width, height, dark) in [(320, 844, false), (390, 844, true), (1440, 900, false)] {
        browser.screen(width, height, dark);
        for page in &pages {
            browser.open(&format!("http://{address}{page}"));
            browser.until("document.readyState === 'complete'");
            let wide = browser.value("document.documentElement.scrollWidth").as_u64().unwrap();
            assert!(wide <= u64::from(width), "{page}: {wide} px on a screen of {width}");
            let odd = browser.text(
                "[...document.querySelectorAll('input:not([type=hidden]), select, textarea, button')].filter(
                 (i) => i.checkVisibility() && (i.tagName !== 'BUTTON' && !i.labels.length && !i.getAttribute('aria-label')
                 || i.type !== 'checkbox' && i.getBoundingClientRect().height < 44)).map((i) => i.name).join(' ')",
            );
            assert_eq!(odd, "", "{page} at {width} px");
            if let Some(folder) = &shots {
                let name = page.split(['/', '?']).nth(2).unwrap_or("tools");
                let dark = if dark { "-dark" } else { "" };
                let file = Path::new(folder).join(format!("{name}-{width}{dark}.png.b64"));
                std::fs::write(file, browser.picture()).unwrap();
            }
        }
    }
}
