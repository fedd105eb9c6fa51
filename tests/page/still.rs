//! What a change leaves where it is, at a desk and under a thumb; and what fits a phone.

use std::net::SocketAddr;

use clothyard_tests::browser::{Browser, get};

use crate::site;

const REST: &str =
    "document.documentElement.dataset.sharp && !document.getElementById('status').textContent";

fn open(browser: &mut Browser, address: SocketAddr, query: &str) {
    browser.open(&format!("http://{address}/?{query}"));
    browser.until(REST);
}

/// Nothing moves while a slider is dragged, however long the sentence gets that answers it.
#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_a_dragged_slider_moves_nothing_but_the_answer() {
    const WATCH: &str = "(() => { window.moved = 0;
        new PerformanceObserver((list) => { for (const one of list.getEntries())
          if (!one.hadRecentInput) window.moved += one.value; }).observe({ type: 'layout-shift' }); })()";
    const DRAG: &str = "(() => { const s = document.querySelector('.slide[data-for=point]');
        s.scrollIntoView({ block: 'center' }); let at = 0;
        const turn = () => { s.value = Number(s.min) + (Number(s.max) - Number(s.min)) * at / 20;
          s.dispatchEvent(new Event('input', { bubbles: true })); at += 1;
          if (at <= 20) setTimeout(turn, 80); else {
            delete document.documentElement.dataset.sharp;
            s.dispatchEvent(new Event('change', { bubbles: true })); } };
        turn(); })()";
    let mut browser = Browser::start("still");
    let (_folder, address) = site("still");
    for (width, height) in [(1280, 900), (390, 844)] {
        browser.screen(width, height, false);
        for from in ["marks", "broadheads", "builds", "score"] {
            open(&mut browser, address, &format!("from={from}"));
            browser.value(WATCH);
            browser.value(DRAG);
            std::thread::sleep(std::time::Duration::from_secs(2));
            browser.until(REST);
            let moved = browser.value("window.moved").as_f64().unwrap();
            assert!(moved < 0.01, "{from} at {width} px: {moved}");
        }
    }
}

/// The arrow is whole on a phone, its parts are told in words that a thumb can hit, and the
/// film is no taller than a phone that is held sideways.
#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_a_phone_shows_all_of_the_arrow_and_of_the_film() {
    let mut browser = Browser::start("whole");
    let (_folder, address) = site("whole");
    browser.screen(390, 844, false);
    open(&mut browser, address, "from=squaring");
    let wide = browser.value("document.querySelector('svg.side').getBoundingClientRect().right");
    assert!(wide.as_f64().unwrap() <= 390.0, "{wide}");
    let low = browser.value(
        "Math.min(...[...document.querySelectorAll('.parts a')].map((a) => a.getBoundingClientRect().height))",
    );
    assert!((44.0..100.0).contains(&low.as_f64().unwrap()), "{low}");
    browser.screen(844, 390, false);
    open(&mut browser, address, "from=builds");
    let high = browser.value("document.getElementById('stage').getBoundingClientRect().height");
    assert!(high.as_f64().unwrap() < 390.0, "{high}");
}

/// Undo goes back over a build that was copied, and the heading says that something changed.
#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_undo_goes_back_over_a_copied_build() {
    let mut browser = Browser::start("undo-copy");
    let (_folder, address) = site("undo-copy");
    browser.screen(1280, 900, false);
    open(&mut browser, address, "");
    let changed = "!document.getElementById('changed').hidden";
    assert_eq!(browser.value("document.getElementById('undo').disabled"), true);
    assert_eq!(browser.value(changed), false);
    browser.value("document.querySelector('button[formaction=\"/copy\"]').click()");
    browser.until("location.search.includes('copy') && document.getElementById('which')");
    browser.until(REST);
    assert_eq!(browser.value(changed), true);
    assert_eq!(browser.value("document.getElementById('undo').disabled"), false);
    browser.value("document.getElementById('undo').click()");
    browser.until("!location.search.includes('copy') && !document.getElementById('which')");
    browser.until(REST);
    assert_eq!(browser.value(changed), false);
}

/// Tape and cards are there for every build, each by its name, and what may hurt with one of
/// them is told with that name.
#[test]
fn law_every_build_has_its_prints_and_its_cautions() {
    let (_folder, address) = site("prints");
    let page =
        get(address, "/?from=builds&2.point=50+gr&2.arrow.shaft.density=4+gr%2Fin").unwrap().1;
    let prints: Vec<&str> = page.split("data-path=\"/take/card.pdf\"").skip(1).collect();
    assert_eq!(prints.len(), 3, "{page:.900}");
    for (at, rest) in prints.iter().enumerate() {
        let link = rest.split("href=\"").nth(1).unwrap().split('"').next().unwrap();
        let link = link.replace("&amp;", "&");
        assert!(link.contains(&format!("build={}", at + 1)), "{link}");
        assert_eq!(get(address, &link).unwrap().0, 200, "{link}");
    }
    let mind = page.split("id=\"mind\"").nth(1).unwrap().split("</section>").next().unwrap();
    let name = page.split("data-build=\"2\"").nth(1).unwrap();
    let name = name.split('>').nth(1).unwrap().split('<').next().unwrap();
    assert!(mind.contains("Too light") && mind.contains(name), "{name}: {mind}");
}

/// The heading keeps a scenario's title only for that scenario, and its marks have controls.
#[test]
fn law_a_changed_scenario_says_that_it_was_changed() {
    let (_folder, address) = site("changed");
    let page = |query: &str| get(address, &format!("/?{query}")).unwrap().1;
    let changed = |page: &str| !page.contains("<span id=\"changed\" hidden>");
    assert!(!changed(&page("from=marks")) && !changed(&page("from=marks&at=30+yd")));
    let shown = page("from=marks&marks.to=40+yd");
    assert!(changed(&shown) && shown.contains("name=\"marks.to\" value=\"40 yd\""));
    let file = get(address, "/scenario.toml?from=marks&marks.to=40+yd").unwrap().1;
    assert!(file.contains("to = \"40 yd\""), "{file}");
}
