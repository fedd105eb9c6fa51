//! One arrow of a build from full draw to the target: numbers for the picture that the
//! script draws, and the same instants in words.

mod numbers;
mod shot;
mod words;

use maud::{DOCTYPE, Markup, html};
use serde_json::{Value, json};
use study::MOST_BUILDS;

use crate::PageError;
use crate::head::head;
use crate::scene::Scene;
use shot::{Factors, Shot};

/// Builds in step. Chosen: two can be told apart by a glance.
const MOST: usize = 2;
/// Views to choose from.
const VIEWS: [(&str, &str); 3] = [("side", "side"), ("above", "above"), ("behind", "behind")];
/// How slow, in push and flight; the second is usual. Chosen: the usual push takes some six
/// seconds and a flight to 40 yards some ten.
const SLOW: [[u32; 2]; 4] = [[100, 5], [400, 20], [1000, 60], [1, 1]];
/// Steps of the push that the table without a script leaves out between two it has, and
/// of the flight.
const EVERY: [usize; 2] = [8, 10];

/// The build that the controls show, and the one it is compared with; each with its place
/// among all.
fn shots(scene: &Scene) -> Result<Vec<Shot>, PageError> {
    let plan = scene.plan()?;
    let beside = usize::from(scene.shown == 0);
    let mut wanted = vec![scene.shown, beside];
    wanted.retain(|&at| at < plan.builds.len().min(MOST_BUILDS));
    wanted.truncate(MOST);
    wanted.sort_unstable();
    let Some(distance) = plan.distances.get(scene.at) else {
        return Err(PageError::NotHere { reason: "this scenario has no distance" });
    };
    let shot = |at: usize| Shot::of(scene, &plan.builds[at].name, at, distance.si());
    wanted.into_iter().map(shot).collect()
}

/// The picture's numbers.
pub(crate) fn film(scene: &Scene) -> Result<Value, PageError> {
    let shots = shots(scene)?;
    let factors = Factors::of(&shots);
    let builds: Result<Vec<Value>, PageError> =
        shots.iter().map(|shot| numbers::of(shot, scene.style)).collect();
    let [unit, range] = words::bars(scene.style);
    Ok(json!({
        "bend": factors.bend,
        "lean": factors.lean,
        "unit": unit,
        "range": range,
        "seen": words::seen(&shots, &factors, scene.style),
        "shown": shots.iter().position(|shot| shot.at == scene.shown),
        "builds": builds?,
    }))
}

/// The same in a strip under the builds, for a desk.
pub(crate) fn strip() -> Markup {
    html! {
        div #w-bar {
            button #w-go type="button" { "Watch" }
            canvas #w-strip aria-hidden="true" {}
            a href="#watch" { "Larger, step by step, in words" }
        }
    }
}

/// The stage and what plays on it, all of it the script's; without one the same in words.
pub(crate) fn section(link: &str, several: bool) -> Markup {
    html! {
        h2 { "Watch one arrow" }
        p { "From full draw to the target, slowed down. "
            a.export data-path="/watch" href=(format!("/watch?{link}")) { "The same in words" } }
        div #film hidden {
            canvas #stage.two[several] role="img" aria-label="One arrow from full draw to the target" {}
            input #w-time type="range" min="0" max="1000" step="any" value="0"
                aria-label="Time since release";
            div.bar {
                button #w-play type="button" aria-pressed="false" { "Play" }
                button #w-back type="button" { "Step back" }
                button #w-on type="button" { "Step on" }
                fieldset {
                    legend { "Seen from" }
                    @for (at, (view, text)) in VIEWS.iter().enumerate() {
                        label {
                            input type="radio" name="view" value=(view) checked[at == 0];
                            (text)
                        }
                    }
                }
                span {
                    label for="w-slow" { "Slowed " }
                    select #w-slow {
                        @for (at, [push, flight]) in SLOW.iter().enumerate() {
                            option value=(format!("{push} {flight}")) selected[at == 1] {
                                "push 1:" (push) ", flight 1:" (flight)
                            }
                        }
                    }
                }
                span #w-pace {}
            }
            p #w-now {}
            p #w-calm hidden { "Your system asks for no motion: go through it step by step." }
            p #w-wrong role="status" {}
            div #w-told {}
        }
    }
}

/// The same in words, for a browser without a script.
pub(crate) fn sheet(scene: &Scene, link: &str) -> Result<Markup, PageError> {
    let shots = shots(scene)?;
    let title = "One arrow from full draw to the target";
    let every = |of: Vec<String>, step: usize| {
        let last = of.len().saturating_sub(1);
        let kept = of.into_iter().enumerate().filter(move |(at, _)| at % step == 0 || *at == last);
        kept.map(|(_, text)| text)
    };
    Ok(html! {
        (DOCTYPE)
        html lang="en" {
            head { (head(&format!("Clothyard: {title}"))) }
            body { main {
                h1 { (title) }
                p { a href=(format!("/?{link}")) { "Back to the build" } }
                @for shot in &shots {
                    h2 { (shot.name) }
                    @for line in words::told(shot, scene.style) { p { (line) } }
                    @let [push, flight] = words::instants(shot, scene.style);
                    ol.instants {
                        @for text in every(push, EVERY[0]).chain(every(flight, EVERY[1])) { li { (text) } }
                    }
                }
                p { (words::TYPICAL) " " (words::SWINGS) }
            } }
        }
    })
}
