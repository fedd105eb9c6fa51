//! Every page and state under axe-core, for whoever reads with other means than a mouse and
//! a large bright screen.

use std::net::SocketAddr;

use clothyard_tests::browser::Browser;
use clothyard_tests::program::path;

use crate::site;

/// Rules of WCAG 2 at levels A and AA, and axe-core's own best practice; what it finds, a
/// line each: the rule, the place, and what is wrong there.
const RULES: &str =
    "axe.run(document, { resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa',
  'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }).then((found) => found.violations.flatMap(
  (rule) => rule.nodes.map((node) => rule.id + ' at ' + node.target.join(' ') + ': '
    + node.failureSummary.replace(/\\s+/g, ' '))).join('\\n'))";

const SHARP: &str = "document.documentElement.dataset.sharp";
const OPEN: &str = "document.readyState === 'complete'";

const FILL: &str = "[...document.querySelectorAll('.tabled button')].find((one) => one.textContent.startsWith('Fill')).click()";

/// A state of the page: its address, what is done there, and what is then waited for.
struct State(&'static str, &'static str, &'static str);

const STATES: [State; 19] = [
    State("/questions", "", OPEN),
    State("/?", "", SHARP),
    State("/?point=150+gr&pinned=1", "", SHARP),
    State("/?from=builds", "", SHARP),
    State("/?from=marks", "", "document.documentElement.dataset.asked"),
    // A mistake: told beside its field, and the rest marked as of before.
    State(
        "/?",
        "const f = document.getElementById('f-point'); f.value = '100 yd';
         f.dispatchEvent(new Event('change', { bubbles: true }))",
        "document.querySelector('[aria-invalid]') && document.querySelector('.stale')",
    ),
    State("/?point=1+gr", "", OPEN),
    // A danger is told before the answer.
    State("/?spine=1.0+in", "", SHARP),
    State("/groups", "", OPEN),
    State("/tools", "", OPEN),
    State("/tools/bench-cut", "", OPEN),
    // A grid that is filled, and a sheet whose columns are being matched.
    State("/tools/bench-sort", FILL, "document.querySelectorAll('.tabled .cells input').length > 12"),
    State(
        "/tools/bench-sort",
        "const to = document.querySelector('.tabled .cells input, .tabled textarea'); to.focus();
         const data = new DataTransfer(); data.setData('text/plain', 'No;Wt (gn)\\n1;424,3\\n2;425,1');
         to.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))",
        "document.querySelector('.tabled .match')",
    ),
    State("/tools/pin?point=150+gr", "", OPEN),
    State("/tools/readings", "", OPEN),
    State("/watch?point=150+gr", "", OPEN),
    State(
        "/?p.point=150+gr&pinned=1",
        "document.getElementById('stage').scrollIntoView()",
        "document.documentElement.dataset.film",
    ),
    State("/nowhere", "", OPEN),
    State(
        "/?",
        "document.querySelector('#gauge button').click()",
        "document.querySelector('#verdict strong')",
    ),
];

fn checked(browser: &mut Browser, address: SocketAddr, state: &State, axe: &str) -> String {
    let State(at, act, rest) = state;
    browser.open(&format!("http://{address}{at}"));
    if rest != &OPEN && !at.starts_with("/tools") {
        browser.until(SHARP);
    }
    if !act.is_empty() {
        browser.value(&format!("(() => {{ {act} }})()"));
    }
    browser.until(rest);
    browser.value(axe);
    browser.text(RULES)
}

#[test]
#[ignore = "needs a Chromium and axe-core: cargo screen"]
fn law_no_page_keeps_anyone_out() {
    let file = path("tests/page/axe/node_modules/axe-core/axe.min.js");
    let axe = std::fs::read_to_string(&file)
        .unwrap_or_else(|cause| panic!("{file}: {cause}; get it: npm ci --prefix tests/page/axe"));
    let mut browser = Browser::start("access");
    let (_folder, address) = site("access");
    let mut found = Vec::new();
    for (width, height, dark) in [(1440, 900, false), (390, 844, false), (390, 844, true)] {
        browser.screen(width, height, dark);
        for state in &STATES {
            let told = checked(&mut browser, address, state, &axe);
            let place = format!("{width} px{}, {}: ", if dark { ", dark" } else { "" }, state.0);
            found.extend(told.lines().map(|line| place.clone() + line));
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}
