//! Tables of the page as grids: typed by keys, pasted from a spreadsheet.

use clothyard_tests::browser::Browser;
use page::Table;
use serde_json::json;

use crate::site;

/// Widths and heights of a phone and a desk.
const SCREENS: [(u32, u32); 2] = [(390, 844), (1440, 900)];
/// The field and its grid.
const TEXT: &str = "document.querySelector('textarea[name=shots1]').value";
const GRID: &str = "document.querySelector('.tabled')";

/// Types into the field that has the focus, then a key.
fn typed(browser: &mut Browser, text: &str, key: &str) {
    if !text.is_empty() {
        browser.call("Input.insertText", &json!({ "text": text }));
    }
    for kind in ["keyDown", "keyUp"] {
        let code = if key == "Enter" { 13 } else { 0 };
        let mut pressed =
            json!({ "type": kind, "key": key, "code": key, "windowsVirtualKeyCode": code });
        if key == "Enter" && kind == "keyDown" {
            pressed["text"] = json!("\r");
        }
        browser.call("Input.dispatchKeyEvent", &pressed);
    }
}

/// Pastes into what `place` selects below the first grid.
fn paste(browser: &mut Browser, place: &str, text: &str) {
    browser.value(&format!(
        "(() => {{ const to = {GRID}.querySelector({}); to.focus();
         const data = new DataTransfer(); data.setData('text/plain', {});
         to.dispatchEvent(new ClipboardEvent('paste', {{ clipboardData: data, bubbles: true, cancelable: true }})); }})()",
        json!(place),
        json!(text)
    ));
}

/// Clicks the button of these words below the first grid.
fn click(browser: &mut Browser, words: &str) {
    browser.value(&format!(
        "[...{GRID}.querySelectorAll('button')].find((one) => one.textContent.startsWith({})).click()",
        json!(words)
    ));
}

/// Chooses in the field of this label.
fn choose(browser: &mut Browser, label: &str, words: &str) {
    browser.value(&format!(
        "(() => {{ const to = {GRID}.querySelector('select[aria-label={}]');
         to.value = [...to.options].find((one) => one.text === {}).value;
         to.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()",
        json!(label),
        json!(words)
    ));
}

/// A picture, where one is asked for.
fn picture(browser: &mut Browser, name: &str) {
    if let Some(folder) = std::env::var_os("CLOTHYARD_SHOTS") {
        let to = std::path::Path::new(&folder).join(format!("{name}.png.b64"));
        std::fs::write(to, browser.picture()).unwrap();
    }
}

/// What keeps a thumb or an eye out: a target below 44 px, a field without a name, a page
/// wider than its screen.
fn fits(browser: &mut Browser, width: u32) {
    let small = browser.text(
        "[...document.querySelectorAll('.tabled button, .tabled input:not([type=radio]):not([type=checkbox]), .tabled select')]
         .filter((one) => one.offsetParent && (one.offsetHeight < 44 || one.offsetWidth < 44))
         .map((one) => one.outerHTML).join('\\n')",
    );
    assert_eq!(small, "", "{width} px");
    let nameless = browser.text(
        "[...document.querySelectorAll('.tabled input, .tabled select')]
         .filter((one) => !one.labels.length && !one.getAttribute('aria-label'))
         .map((one) => one.outerHTML).join('\\n')",
    );
    assert_eq!(nameless, "", "{width} px");
    let wide = browser.value("document.documentElement.scrollWidth").as_u64().unwrap();
    assert!(wide <= u64::from(width), "{wide} px on a screen of {width}");
    assert_eq!(browser.value("document.querySelectorAll('.tabled [style]').length"), 0);
}

/// A dozen is typed without a mouse: down the columns at a desk, through a shot on a phone.
#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_a_dozen_is_typed_by_keys_and_the_text_keeps_step() {
    let mut browser = Browser::start("grid-keys");
    let (_folder, address) = site("grid-keys");
    let shots: Vec<(String, String)> =
        (1..=12).map(|at| (format!("{at}.5"), format!("-0.{at}"))).collect();
    for (width, height) in SCREENS {
        browser.screen(width, height, false);
        browser.open(&format!("http://{address}/groups"));
        browser.until(&format!("{GRID}.querySelector('.cells input')"));
        browser.value(&format!("{GRID}.querySelector('.cells input').focus()"));
        assert_eq!(
            browser.text("document.activeElement.getAttribute('aria-label')"),
            "shot 1, left, in"
        );
        if width < 600 {
            for (left, up) in &shots {
                typed(&mut browser, left, "Enter");
                typed(&mut browser, up, "Enter");
            }
            let rows = format!(
                "[...{GRID}.querySelectorAll('tbody tr')].filter((one) => one.offsetParent).length"
            );
            assert_eq!(browser.value(&rows), 1);
            click(&mut browser, "Back");
            let step = format!("{GRID}.querySelector('.step strong').textContent");
            assert_eq!(browser.text(&step), "shot 12 of 12");
        } else {
            for (left, _) in &shots {
                typed(&mut browser, left, "Enter");
            }
            // A blank last row sends on to the top of the next column.
            typed(&mut browser, "", "Enter");
            for (_, up) in &shots {
                typed(&mut browser, up, "Enter");
            }
            typed(&mut browser, "", "ArrowUp");
            assert_eq!(
                browser.text("document.activeElement.getAttribute('aria-label')"),
                "shot 12, up, in"
            );
        }
        let rows: Vec<String> = shots.iter().map(|(left, up)| format!("{left},{up}\n")).collect();
        let rows = rows.concat();
        assert_eq!(browser.text(TEXT), format!("left [in],up [in]\n{rows}"), "{width} px");
        fits(&mut browser, width);
        picture(&mut browser, &format!("grid-{width}"));

        // A slipped point is told beside its cell and stays as it is.
        let cell = format!("{GRID}.querySelector('[data-row=\"3\"][data-column=\"0\"]')");
        let back = if width < 600 { 8 } else { 0 };
        for _ in 0..back {
            click(&mut browser, "Back");
        }
        browser.value(&format!("{cell}.focus()"));
        browser.value(&format!("{cell}.select()"));
        typed(&mut browser, "65.0", "Tab");
        let told = format!("{cell}.closest('td').querySelector('.far').textContent");
        assert!(browser.text(&told).contains("times the others"), "{}", browser.text(&told));
        assert!(browser.text(TEXT).contains("\n65.0,-0.4\n"), "{}", browser.text(TEXT));

        // Loaded anew, it stands as it was left; taken out and put back, too.
        let before = browser.text(TEXT);
        browser.value("location.reload()");
        browser.until(&format!("{GRID} && {TEXT}.includes('65.0')"));
        browser.until(&format!("{GRID}.querySelectorAll('tbody tr').length === 13"));
        browser.value(&format!("{GRID}.querySelectorAll('.out')[3].click()"));
        assert!(!browser.text(TEXT).contains("65.0"));
        click(&mut browser, "Put it back");
        assert_eq!(browser.text(TEXT), before);
        browser.value("sessionStorage.clear()");
    }
}

/// A sheet under heads of another language, with a title, decimal commas and a sum, is
/// matched before any of it is used; what stands in the grid is lost only when it is said so.
#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_a_spreadsheet_is_matched_before_it_is_used() {
    const SHEET: &str = "Gruppe vom Samstag;;\nPfeil;Rechts (cm);Hoehe (cm)\n1;1,5;2,5\n\
        2;-0,5;1,5\n3;0,25;-1\nSumme;1,25;3\n";
    let mut browser = Browser::start("grid-paste");
    let (_folder, address) = site("grid-paste");
    let note = format!("{GRID}.querySelector('.match .hint').textContent");
    let done = format!(
        "[...{GRID}.querySelectorAll('.match button')].find((one) => one.textContent.startsWith('Use'))"
    );
    for (width, height) in SCREENS {
        browser.screen(width, height, true);
        browser.open(&format!("http://{address}/groups"));
        browser.until(&format!("{GRID}.querySelector('.cells input')"));
        paste(&mut browser, ".cells input", SHEET);
        assert_eq!(browser.value(&format!("{done}.disabled")), true);
        choose(&mut browser, "pasted Rechts (cm) is", "right");
        choose(&mut browser, "pasted Hoehe (cm) is", "up");
        // The heads say centimetres, whatever they call the column.
        assert_eq!(
            browser.text(&format!(
                "{GRID}.querySelector('[aria-label=\"unit of pasted Hoehe (cm)\"]').value"
            )),
            "cm"
        );
        let told = browser.text(&note);
        for part in ["3 rows.", "Not used: Pfeil.", "line 1 (a title)", "Summe"] {
            assert!(told.contains(part), "{part}: {told}");
        }
        fits(&mut browser, width);
        picture(&mut browser, &format!("match-{width}"));
        assert_eq!(browser.text(TEXT), "");
        click(&mut browser, "Use these");
        let first = "right [cm],up [cm]\n\"1,5\",\"2,5\"\n\"-0,5\",\"1,5\"\n\"0,25\",-1\n";
        assert_eq!(browser.text(TEXT), first);

        // Heads that the reader knows are matched at once; leaving changes nothing.
        paste(&mut browser, ".cells input", "Up (in)\tRight\n1\t2\n3\t4\n");
        assert_eq!(browser.value(&format!("{done}.disabled")), true);
        click(&mut browser, "Leave");
        assert_eq!(browser.text(TEXT), first);
        // Pasted into what is open it is not lost to a table where it does not belong.
        paste(&mut browser, ".cells input", "Up (in)\tRight (in)\n1\t2\n");
        paste(&mut browser, ".match h2", "Up (in)\tRight (in)\n5\t6\n");
        let told = format!("{GRID}.querySelector('.match .wrong').textContent");
        assert!(browser.text(&told).starts_with("Use these or leave them first"));
        assert_eq!(browser.text(&format!("{done}.textContent")), "Use these 1 row");
        // Pasted into the second table it is the second table's.
        browser.value(
            "(() => { const two = document.querySelectorAll('.tabled')[1], to = two.querySelector('.cells input');
             to.focus(); const data = new DataTransfer(); data.setData('text/plain', 'left (in)\\tup (in)\\n5\\t6\\n');
             to.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
             [...two.querySelectorAll('.match button')].find((one) => one.textContent.startsWith('Use')).click(); })()",
        );
        let second = "document.querySelector('textarea[name=shots2]').value";
        assert_eq!(browser.text(second), "left [in],up [in]\n5,6\n");
        assert_eq!(browser.text(TEXT), first);
        click(&mut browser, "Leave");
        assert_eq!(browser.text(TEXT), first);
        // Another unit is said in the cells; another direction is not mixed in.
        paste(&mut browser, ".cells input", "Up (in)\tRight (in)\n1\t2\n");
        click(&mut browser, "Use these");
        assert_eq!(browser.text(TEXT), format!("{first}2 in,1 in\n"));
        paste(&mut browser, ".cells input", "left (cm)\tup (cm)\n1\t2\n");
        assert_eq!(browser.value(&format!("{done}.disabled")), true);
        browser.value(&format!("{GRID}.querySelector('.match [value=instead]').click()"));
        assert_eq!(
            browser.text(&format!("{done}.textContent")),
            "Use these 1 row and replace 4 rows"
        );
        click(&mut browser, "Use these");
        assert_eq!(browser.text(TEXT), "left [cm],up [cm]\n1,2\n");
        browser.value("sessionStorage.clear()");
    }
}

/// What every grid begins with is a column that the reader of that table knows.
#[test]
fn law_every_grid_begins_with_columns_of_its_reader() {
    for table in Table::ALL {
        for name in table.begins() {
            let known = table.columns().iter().any(|column| column.name == *name);
            assert!(known, "{table:?}: {name}");
        }
    }
}
