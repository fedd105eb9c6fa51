//! One stream of events for each change: the quick answer, the better ones, then what the
//! scenario itself asks, and in between how far it is.
//!
//! An event is a line of JSON under one of these names: `answer`, `asked`, `pace` (what
//! the one who waits is told) and `wrong`, which ends it. Who hangs up ends the work.

use core::convert::Infallible;
use core::pin::{Pin, pin};
use core::time::Duration;
use std::collections::VecDeque;
use std::sync::Arc;

use axum::extract::State;
use axum::response::IntoResponse;
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::future::{Either, select};
use futures_util::stream::{StreamExt, unfold};
use maud::Markup;
use report::gate;
use serde_json::{Value, json};

use crate::answer::find;
use crate::app::{App, Outcome, Sent, Shared, sent};
use crate::jobs::Flag;
use crate::scene::{Scene, stages};
use crate::state::PageRequest;
use crate::view::wrong;
use crate::{PageError, asked};

/// How often the one who waits is told. Chosen: a second reads as alive.
const TOLD: Duration = Duration::from_secs(1);

/// What is still to be answered.
#[derive(Clone, Copy)]
enum Stage {
    /// The builds side by side with so many flights; how many answers came before it.
    Flights { flights: usize, before: usize, last: bool },
    /// The scenario's own question.
    Asked,
}

type Work = Pin<Box<dyn Future<Output = Result<(&'static str, Value), PageError>> + Send>>;

/// The answers to one state of the page.
struct Course {
    app: Arc<App>,
    scene: Arc<Scene>,
    link: String,
    visitor: String,
    /// Its place among the requests of all.
    turn: u64,
    /// The scale of the face before.
    held: Option<f64>,
    ahead: VecDeque<Stage>,
    running: Option<Work>,
    told: String,
}

/// The stream for a state.
pub(crate) async fn live(State(app): Shared, form: Sent) -> Outcome {
    let request = PageRequest::of(sent(form)?, &["visit", "scale"])?;
    let (held, visitor) = (held(request.extra("scale"))?, visitor(request.extra("visit"))?);
    let (worker, state) = (Arc::clone(&app), request.state.clone());
    let read = move || {
        let scene = Scene::of(&state, &worker.settings)?;
        let plan = scene.plan()?;
        let flights = stages(&plan);
        let last = flights.len() - 1;
        let each = |(before, flights): (usize, usize)| Stage::Flights {
            flights,
            before,
            last: before == last,
        };
        let mut ahead: VecDeque<Stage> = flights.into_iter().enumerate().map(each).collect();
        if asked::asks(&scene.scenario, &plan, scene.style) {
            ahead.push_back(Stage::Asked);
        }
        Ok((Arc::new(scene), ahead))
    };
    let turn = app.jobs.turn();
    let (scene, ahead) = app.jobs.aside(read).await?;
    let (link, told) = (request.state.link(), String::new());
    let course = Course { app, scene, link, visitor, turn, held, ahead, running: None, told };
    // Whoever compresses it asks again after its end.
    let events = unfold(course, Course::next).fuse();
    Ok(Sse::new(events).keep_alive(KeepAlive::default()).into_response())
}

impl Course {
    async fn next(mut self) -> Option<(Result<Event, Infallible>, Self)> {
        loop {
            let work = if let Some(work) = self.running.take() {
                work
            } else {
                let stage = self.ahead.pop_front()?;
                self.begin(stage)
            };
            match select(work, pin!(tokio::time::sleep(TOLD))).await {
                Either::Left((Ok((name, data)), _)) => return Some((Ok(event(name, &data)), self)),
                Either::Left((Err(error), _)) => {
                    self.ahead.clear();
                    let text = gate::html(&wrong(&error).into_string());
                    return Some((Ok(event("wrong", &json!({ "html": text }))), self));
                }
                Either::Right(((), work)) => {
                    self.running = Some(work);
                    let before = self.app.jobs.before(&self.visitor);
                    let told = before.map(|before| PageError::Queue { before }.to_string());
                    let told = told.or_else(|| self.app.jobs.pace(&self.visitor));
                    if let Some(told) = told.filter(|told| *told != self.told) {
                        self.told.clone_from(&told);
                        return Some((Ok(event("pace", &json!({ "text": told }))), self));
                    }
                }
            }
        }
    }

    fn begin(&self, stage: Stage) -> Work {
        let (app, scene) = (Arc::clone(&self.app), Arc::clone(&self.scene));
        let (link, visitor, held) = (self.link.clone(), self.visitor.clone(), self.held);
        let turn = self.turn;
        let worker = Arc::clone(&self.app);
        let work = move |flag: &Flag| match stage {
            Stage::Flights { flights, before, last } => {
                let found = find(&scene, flights, held, &worker.kept, flag)?;
                let part = |markup: &Markup| gate::html(&markup.clone().into_string());
                // A few flights neither loosen nor tighten what is told of hunting; dangers to
                // the shooter do not hang on flights.
                let minded = last || found.hurts();
                // The quickest answer leaves out what is read at leisure.
                let told = (before > 0 || last).then(|| part(&found.told()));
                let parts = json!({
                    "side": part(found.side()), "mind": minded.then(|| part(&found.mind())),
                    "shown": part(&found.shown()), "finding": part(&found.finding()),
                    "glance": part(&found.glance()),
                    "told": told,
                });
                Ok((
                    "answer",
                    json!({
                        "before": before, "last": last, "link": link, "scale": found.scale(),
                        "numbers": found.numbers_plain(), "parts": parts,
                    }),
                ))
            }
            Stage::Asked => {
                let html = gate::html(&asked::asked(&scene, flag)?.into_string());
                Ok(("asked", json!({ "html": html })))
            }
        };
        Box::pin(async move { app.jobs.run((&visitor, turn), None, work).await })
    }
}

fn event(name: &str, data: &Value) -> Event {
    Event::default().event(name).data(data.to_string())
}

/// The scale of the face before; none where it is not held.
fn held(text: &str) -> Result<Option<f64>, PageError> {
    if text.is_empty() {
        return Ok(None);
    }
    let read = text.parse().ok().filter(|held: &f64| held.is_finite() && *held > 0.0);
    let value = text.chars().take(20).collect();
    let allowed = "a number above 0, or nothing";
    read.map(Some).ok_or(PageError::Value { field: "scale", value, allowed })
}

/// A visitor's name for itself: letters, digits and dashes.
pub(crate) fn visitor(name: &str) -> Result<String, PageError> {
    let plain = name.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
    if plain && name.len() <= 40 {
        return Ok(name.to_owned());
    }
    let value = name.chars().take(40).collect();
    let allowed = "up to 40 letters, digits and dashes";
    Err(PageError::Value { field: "visit", value, allowed })
}
