//! The moving picture of one arrow: its numbers are those of push and flight, and in a
//! browser it plays, holds and steps.

use std::net::SocketAddr;
use std::path::Path;

use clothyard_tests::browser::{Browser, get, post};
use serde_json::Value;
use study::{OneFlight, Reel, film_push, fly_one, trace_push};

use crate::site;

/// What the page sends is rounded to so much, m, rad or s; half of it, and a bit for the
/// rounding itself.
const SENT: f64 = 0.51e-7;

fn film(address: SocketAddr, form: &str) -> Value {
    let (code, said) = post(address, "/motion", form).unwrap();
    assert_eq!(code, 200, "{said}");
    serde_json::from_str(&said).unwrap()
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

fn rows(value: &Value) -> Vec<Vec<f64>> {
    value.as_array().unwrap().iter().map(numbers).collect()
}

/// Push and flight of the arrow that a form names, from its scenario and not by the page.
fn shot(address: SocketAddr, form: &str, film: &Value) -> (Reel, OneFlight) {
    let (_, text) = get(address, &format!("/scenario.toml?{form}")).unwrap();
    let scenario = scenario::read(Path::new("page.toml"), &|_| Ok(text.clone()));
    let recipe = scenario.ok().unwrap().typical(None).unwrap();
    let ways: Vec<f64> = rows(&film["flight"]["place"]).iter().map(|place| place[0]).collect();
    // Its instants are even along the way to the face.
    let face = film["distance"].as_f64().unwrap();
    let reel = film_push(recipe.as_ref()).unwrap();
    let built = &reel.story.built;
    let way = face - (built.layout.tip.si() - built.mass.balance().si());
    let count = u32::try_from(ways.len() - 1).unwrap();
    let marks: Vec<f64> =
        (1..=count).map(|mark| f64::from(mark) * (way / f64::from(count))).collect();
    for (sent, mark) in ways[1..].iter().zip(&marks) {
        assert!((sent - mark).abs() < SENT, "{sent} {mark}");
    }
    let flown = fly_one(recipe.as_ref(), &marks, false).unwrap();
    assert_eq!(trace_push(recipe.as_ref()).unwrap(), reel.story);
    (reel, flown)
}

const FORM: &str = "at=30+yd&rear=1+deg";

#[test]
fn exact_the_film_is_the_push_and_the_flight() {
    let (_folder, address) = site("film");
    let film = film(address, FORM)["builds"][0].clone();
    let (reel, flown) = shot(address, FORM, &film);
    let (push, flight) = (&film["push"], &film["flight"]);
    // Every moment of the push, whole: the demo's push has fewer than are sent at most.
    let off = rows(&push["off"]);
    let limbs = rows(&push["limb"]);
    assert_eq!(off.len(), reel.steps.len());
    let near = |sent: f64, own: f64| assert!((sent - own).abs() < SENT, "{sent} {own}");
    for (at, moment) in reel.story.moments.iter().enumerate() {
        near(push["time"][at].as_f64().unwrap(), moment.time);
        near(push["travel"][at].as_f64().unwrap(), moment.travel);
        near(push["speed"][at].as_f64().unwrap(), moment.speed);
        let half = &reel.bow[at];
        let limb = [half.tip, half.string].concat();
        limbs[at].iter().zip(&limb).for_each(|(sent, own)| near(*sent, *own));
        let own: Vec<f64> = reel.steps[at].iter().flatten().copied().collect();
        assert_eq!(off[at].len(), own.len());
        off[at].iter().zip(&own).for_each(|(sent, own)| near(*sent, *own));
        // And groove and tip are where the told push has them.
        for plane in 0..2 {
            near(off[at][plane], moment.nock[plane]);
            near(off[at][own.len() - 2 + plane], moment.tip[plane]);
        }
    }
    let states: Vec<&body::State> = std::iter::once(&flown.start).chain(&flown.states).collect();
    for (at, state) in states.iter().enumerate() {
        near(flight["time"][at].as_f64().unwrap(), state.time);
        near(flight["speed"][at].as_f64().unwrap(), state.velocity.norm());
        near(flight["roll"][at].as_f64().unwrap(), state.roll);
        let place = numbers(&flight["place"][at]);
        (0..3).for_each(|axis| near(place[axis], state.position[axis]));
        let path = body::Attitude::of(&state.velocity);
        near(flight["lean"][at][0].as_f64().unwrap(), state.attitude().yaw - path.yaw);
        near(flight["lean"][at][1].as_f64().unwrap(), state.attitude().pitch - path.pitch);
    }
}

/// The swings as they are sent, at any time, are the flex of the departure.
#[test]
fn exact_the_film_swings_as_the_arrow_left() {
    let (_folder, address) = site("swings");
    let film = film(address, FORM)["builds"][0].clone();
    let (reel, flown) = shot(address, FORM, &film);
    let number = |value: &Value| value.as_f64().unwrap();
    let mut most: f64 = 0.0;
    for time in [0.0, 0.000_7, 0.003, 0.011, 0.05, 0.3] {
        let swing = flown.departure.flex.swing(time);
        for (at, shape) in reel.swings.iter().enumerate() {
            for plane in 0..2 {
                let own: f64 = shape.iter().zip(&swing[plane]).map(|(w, q)| w * q).sum();
                let wave = |swing: &Value| {
                    let angle = number(&swing["turn"]) * time;
                    let wave = number(&swing["cos"][plane]) * angle.cos()
                        + number(&swing["sin"][plane]) * angle.sin();
                    (-number(&swing["decay"]) * time).exp() * wave * number(&swing["shape"][at])
                };
                let sent: f64 = film["swings"].as_array().unwrap().iter().map(wave).sum();
                // Five waves, two amplitudes and a shape of each rounded.
                assert!((sent - own).abs() < 10.0 * SENT, "{time} {at}: {sent} {own}");
                most = most.max(own.abs());
            }
        }
    }
    assert!(most > 1e-4, "an end a degree out of square bends the shaft: {most}");
}

#[test]
fn law_the_film_starts_at_full_draw_and_ends_at_the_face() {
    let (_folder, address) = site("ends");
    for form in [FORM, "from=fingers", "from=broadheads"] {
        let film = film(address, form);
        for build in film["builds"].as_array().unwrap() {
            let (push, flight) = (&build["push"], &build["flight"]);
            for what in ["time", "travel", "speed"] {
                assert_eq!(push[what][0].as_f64(), Some(0.0), "{form}: {what}");
            }
            // At full draw the string runs straight from the nock to its end.
            let nock = numbers(&push["off"][0]);
            assert!(nock[0].abs() < SENT && nock[1].abs() < SENT, "{form}");
            let last = flight["place"].as_array().unwrap().last().unwrap();
            let arrow = &build["arrow"];
            let tip = *numbers(&arrow["stations"]).last().unwrap();
            let front = tip - arrow["balance"].as_f64().unwrap();
            let ends = last[0].as_f64().unwrap() + front;
            assert!((ends - build["distance"].as_f64().unwrap()).abs() < 3.0 * SENT, "{form}");
            for (part, instants) in [(push, "off"), (flight, "place")] {
                let count = part["time"].as_array().unwrap().len();
                assert_eq!(part["says"].as_array().unwrap().len(), count);
                assert_eq!(part[instants].as_array().unwrap().len(), count);
                let times = numbers(&part["time"]);
                assert!(times.windows(2).all(|pair| pair[0] < pair[1]), "{form}");
            }
        }
    }
}

/// The last shape of the push is the first one of the flight: lean, swing, crookedness and
/// how the path leaves the line of the push. The flight's first lean is that of a direction,
/// the push's a slope; their difference is of the third order.
#[test]
fn law_the_flight_begins_where_the_push_ends() {
    let (_folder, address) = site("join");
    let number = |value: &Value| value.as_f64().unwrap();
    // Where the rest touches after the string, what it does then is the gap; else there is none.
    for (form, most) in [(FORM, 1e-6), ("from=fingers", 3e-3)] {
        let film = film(address, form)["builds"][0].clone();
        let last = rows(&film["push"]["off"]).pop().unwrap();
        let stations = numbers(&film["arrow"]["stations"]);
        let (crooked, gap) = (numbers(&film["crooked"]), numbers(&film["passes"]["gap"]));
        for (at, station) in stations.iter().enumerate() {
            for plane in 0..2 {
                let swings = film["swings"].as_array().unwrap().iter();
                let wave = |s: &Value| number(&s["cos"][plane]) * number(&s["shape"][at]);
                let bent: f64 = swings.map(wave).sum();
                let turned = number(&film["leaves"]["path"][plane])
                    + number(&film["flight"]["lean"][0][plane]);
                let place = number(&film["leaves"]["place"][plane])
                    + (station - number(&film["arrow"]["balance"])) * turned
                    + bent
                    + crooked[2 * at + plane];
                let (off, gap) = (last[2 * at + plane], gap[2 * at + plane]);
                assert!((place + gap - off).abs() < 1e-6, "{station} {plane}: {place} {off}");
                assert!(gap.abs() < most, "{form}, {station}: {gap}");
            }
        }
        assert!((0.0..0.01).contains(&number(&film["passes"]["time"])));
    }
}

/// A point with blades shows them, front of all; another has none.
#[test]
fn law_the_film_holds_the_blades_of_a_point() {
    let (_folder, address) = site("blades");
    let film = film(address, "from=broadheads&build=3");
    let arrows: Vec<&Value> =
        film["builds"].as_array().unwrap().iter().map(|build| &build["arrow"]).collect();
    let none = serde_json::json!([]);
    // The first build has a field point.
    assert_eq!(arrows[0]["blades"], none);
    let bladed = arrows.iter().find(|arrow| arrow["blades"] != none).unwrap();
    let blades = numbers(&bladed["blades"]);
    let [rear, front, outer_rear, outer, span] = blades[..] else { panic!("{blades:?}") };
    assert!(rear < front && outer_rear <= outer && outer <= front && span > 0.0, "{blades:?}");
    assert!(bladed["bladed"].as_u64().unwrap() >= 2, "{bladed}");
    let stations = numbers(&bladed["stations"]);
    assert!(front <= *stations.last().unwrap() + 1e-9 && front > numbers(&bladed["vanes"])[1]);
}

#[test]
fn law_the_film_is_finite_and_the_same_twice() {
    let (_folder, address) = site("twice");
    for form in ["", "at=30+yd&rear=1+deg&pinned=1&p.point=150+gr", "from=fingers", "from=tuned"] {
        let (code, first) = post(address, "/motion", form).unwrap();
        assert_eq!(code, 200, "{form}: {first}");
        assert_eq!(post(address, "/motion", form).unwrap().1, first, "{form}");
        // What is not a number would be written as null.
        assert!(!first.contains("null"), "{form}");
        let film: Value = serde_json::from_str(&first).unwrap();
        let builds = film["builds"].as_array().unwrap().len();
        assert!((1..=2).contains(&builds) && (!form.contains("pinned") || builds == 2), "{form}");
        assert_eq!(film["seen"].as_array().unwrap().len(), builds + 1);
    }
}

#[test]
fn law_a_browser_without_a_script_reads_the_same_instants() {
    let (_folder, address) = site("words");
    let (_, page) = get(address, "/?at=30+yd").unwrap();
    assert!(page.contains("href=\"/watch?at=30+yd\""), "{page}");
    let (code, said) = get(address, &format!("/watch?{FORM}")).unwrap();
    assert_eq!(code, 200, "{said}");
    let film = film(address, FORM)["builds"][0].clone();
    for part in ["push", "flight"] {
        let says = film[part]["says"].as_array().unwrap();
        for text in [&says[0], says.last().unwrap()] {
            assert!(said.contains(text.as_str().unwrap()), "{text}");
        }
    }
    assert!(said.matches("<li>").count() > 20);
    assert_eq!(get(address, "/watch?from=none.toml").unwrap().0, 404);
}

const SHOWN: &str = "document.documentElement.dataset.film";
const TIME: &str = "Number(document.getElementById('w-time').dataset.time)";
const PICTURE: &str = "document.getElementById('stage').toDataURL()";

/// Opens the page and brings the stage into sight.
fn watched(browser: &mut Browser, address: SocketAddr, query: &str) {
    browser.open(&format!("http://{address}/?{query}"));
    browser.until("document.documentElement.dataset.settled");
    browser.value("document.getElementById('stage').scrollIntoView({ block: 'center' })");
    browser.until(SHOWN);
}

fn press(browser: &mut Browser, id: &str) {
    browser.value(&format!("document.getElementById('{id}').click()"));
}

#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_the_film_plays_holds_and_steps() {
    let mut browser = Browser::start("film");
    let (_folder, address) = site("film-plays");
    browser.screen(1440, 900, false);
    watched(&mut browser, address, "pinned=1&p.point=150+gr");
    let first = browser.text(PICTURE);
    assert_eq!(browser.value(TIME).as_f64(), Some(0.0));

    // It plays, and the picture moves.
    press(&mut browser, "w-play");
    browser.until(&format!("{TIME} > 0.002"));
    assert_ne!(browser.text(PICTURE), first);
    // Held, it stands still: two pictures of the screen later nothing has moved.
    press(&mut browser, "w-play");
    let (time, held) = (browser.value(TIME), browser.text(PICTURE));
    browser
        .value("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))");
    assert_eq!((browser.value(TIME), browser.text(PICTURE)), (time.clone(), held.clone()));
    // A step goes on, one back comes behind.
    press(&mut browser, "w-on");
    assert!(browser.value(TIME).as_f64() > time.as_f64());
    assert_ne!(browser.text(PICTURE), held);
    press(&mut browser, "w-back");
    assert!(browser.value(TIME).as_f64() <= time.as_f64());

    // The views differ; the slider says when and where, for each build.
    let mut views = vec![browser.text(PICTURE)];
    for view in ["above", "behind"] {
        browser.value(&format!("document.querySelector('#film input[value={view}]').click()"));
        views.push(browser.text(PICTURE));
    }
    assert!(views[0] != views[1] && views[1] != views[2] && views[0] != views[2]);
    let said = browser.text("document.getElementById('w-time').getAttribute('aria-valuetext')");
    assert_eq!(said.matches("ms after release, the nock has come").count(), 2, "{said}");
    let label = browser.text("document.getElementById('stage').getAttribute('aria-label')");
    assert!(label.contains("leaves the string") && label.contains("off its path"), "{label}");

    // Dragged to its end, it is at the face.
    browser.value(
        "(() => { const s = document.getElementById('w-time'); s.value = 1000;
         s.dispatchEvent(new Event('input', { bubbles: true })); })()",
    );
    let said = browser.text("document.getElementById('w-time').getAttribute('aria-valuetext')");
    assert!(said.contains("40 yd out"), "{said}");
}

/// On a desk a strip under the builds plays the same, without the stage in sight.
#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_the_film_plays_in_the_strip_of_a_desk() {
    let mut browser = Browser::start("strip");
    let (_folder, address) = site("film-strip");
    browser.screen(1440, 900, false);
    browser.open(&format!("http://{address}/?"));
    browser.until("document.documentElement.dataset.settled");
    let strip = "document.getElementById('w-strip').toDataURL()";
    let empty = browser.text(strip);
    // Nothing is asked for before it is wanted.
    assert!(browser.value(SHOWN).is_null());
    press(&mut browser, "w-go");
    browser.until(&format!("{TIME} > 0.002"));
    assert_ne!(browser.text(strip), empty);
    press(&mut browser, "w-go");
    let held = browser.text(strip);
    browser
        .value("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))");
    assert_eq!(browser.text(strip), held);
    // A phone has no room for it.
    browser.screen(390, 844, false);
    assert_eq!(browser.value("document.getElementById('w-bar').offsetHeight"), 0);
}

#[test]
#[ignore = "needs a Chromium: cargo screen"]
fn law_the_film_does_not_play_where_motion_is_not_wanted() {
    let mut browser = Browser::start("calm");
    let (_folder, address) = site("film-calm");
    browser.screen(390, 844, false);
    let calm = serde_json::json!([{ "name": "prefers-reduced-motion", "value": "reduce" }]);
    browser.call("Emulation.setEmulatedMedia", &serde_json::json!({ "features": calm }));
    watched(&mut browser, address, "");
    assert_eq!(browser.value("document.getElementById('w-play').hidden"), true);
    press(&mut browser, "w-play");
    browser.value("new Promise((done) => setTimeout(done, 200))");
    assert_eq!(browser.value(TIME).as_f64(), Some(0.0));
    press(&mut browser, "w-on");
    assert!(browser.value(TIME).as_f64() > Some(0.0));
}
