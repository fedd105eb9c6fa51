//! Requests in, answers out.

use core::time::Duration;
use std::io;
use std::sync::Arc;

use axum::Router;
use axum::extract::{DefaultBodyLimit, Path, State};
use axum::http::{StatusCode, Uri, header};
use axum::middleware::from_fn_with_state;
use axum::response::{IntoResponse, Redirect};
use axum::routing::{get, post};
use maud::{Markup, html};
use tower_http::compression::CompressionLayer;
use tower_http::compression::predicate::SizeAbove;

use crate::answer::{Found, find};
use crate::app::{App, Link, Outcome, Sent, Shared, file, html, link, sent};
use crate::base::Base;
use crate::builds::Ground;
use crate::guard::{LONGEST, LONGEST_TABLE, guard};
use crate::jobs::{Flag, Jobs, NOBODY};
use crate::kept::Kept;
use crate::results::Results;
use crate::scene::{Scene, grouped, stages};
use crate::state::{LONGEST_NAME, PageRequest, PageState as Page, file_name, fits, free_name};
use crate::view::Fragment;
use crate::{
    PageError, Settings, asked, copies, door, effect, groups, live, square, tape, tools, watch, web,
};

/// How long the page waits for its quick answer before it opens without. Chosen:
/// a blank window is not yet taken for a fault.
const PATIENCE: Duration = Duration::from_secs(2);

/// The page as a service.
pub fn router(settings: Settings) -> Router {
    let port = settings.port;
    let tool = get(tools::blank).post(tools::run).layer(DefaultBodyLimit::max(LONGEST_TABLE));
    let readings =
        get(tools::readings).post(tools::noted).layer(DefaultBodyLimit::max(LONGEST_TABLE));
    let app = Arc::new(App {
        settings,
        jobs: Arc::new(Jobs::new()),
        kept: Kept::default(),
        results: Results::default(),
    });
    Router::new()
        .route("/", get(page))
        .route("/questions", get(questions))
        .route("/effect", post(effect))
        .route("/copy", get(copy))
        .route("/remove", get(remove))
        .route("/page.css", get(web::style))
        .route("/page.js", get(web::script))
        .route("/live", post(live::live))
        .route("/groups", get(groups).post(judge))
        .route("/gauge", post(gauge))
        .route("/motion", post(motion))
        .route("/watch", get(watched))
        .route("/tools", get(tools::all))
        .route("/tools/queue", get(tools::queue))
        .route("/tools/readings", readings)
        .route("/tools/{name}", tool)
        .route("/tools/files/{answer}/{name}", get(tools::written))
        .route("/save", post(save))
        .route("/scenario.toml", get(scenario))
        .route("/take/{name}", get(take))
        .fallback(nothing)
        .with_state(app)
        .layer(DefaultBodyLimit::max(LONGEST))
        .layer(CompressionLayer::new().compress_when(SizeAbove::default()))
        .layer(from_fn_with_state(port, guard))
}

async fn nothing(uri: Uri) -> PageError {
    PageError::NoPage { path: uri.path().chars().take(80).collect() }
}

/// The front door.
async fn questions(State(app): Shared) -> Outcome {
    let worker = Arc::clone(&app);
    let work = move || Ok(door::door(&worker.settings.shelf.list()));
    Ok(html(app.jobs.aside(work).await?))
}

/// The whole page, with a quick answer in it; the front door for a visitor who asks
/// nothing of a page without a scenario.
async fn page(State(app): Shared, uri: Uri, query: Link) -> Outcome {
    if uri.query().is_none() && app.settings.start.is_none() {
        return questions(State(app)).await;
    }
    let mut fields = link(query)?;
    // The list of files names the scenario of the start by nothing.
    fields.retain(|(name, value)| !(name == "from" && value.is_empty()));
    let state = PageRequest::of(fields, &[])?.state;
    let (worker, wanted) = (Arc::clone(&app), state.clone());
    // The page opens with values that are wrong, and says so.
    let quick = move |flag: &Flag| {
        let found = Scene::of(&wanted, &worker.settings).and_then(|scene| {
            let first = stages(&scene.plan()?)[0];
            find(&scene, first, None, &worker.kept, flag)
        });
        let code = match &found {
            Err(wrong @ (PageError::Wrong(_) | PageError::Barred(_))) => wrong.status(),
            _ => StatusCode::OK,
        };
        Ok((code, sheet(&worker.settings, &wanted, found.as_ref())?))
    };
    let (code, markup) = match app.jobs.run(NOBODY, Some(PATIENCE), quick).await {
        // And without an answer where others are first: its script asks for one.
        Err(queue @ PageError::Queue { .. }) => {
            let worker = Arc::clone(&app);
            let waiting = move || sheet(&worker.settings, &state, Err(&queue));
            (StatusCode::OK, app.jobs.aside(waiting).await?)
        }
        done => done?,
    };
    Ok((code, html(markup)).into_response())
}

fn sheet(
    settings: &Settings,
    state: &Page,
    found: Result<&Found, &PageError>,
) -> Result<Markup, PageError> {
    let base = Base::open(state, settings)?;
    let style = base.style(state);
    let ground = Ground::of(&base.scenario, state, style)?;
    // What is asked may have been changed here, too.
    let scene = Scene::of(state, settings).ok();
    let scenario = scene.as_ref().map_or(&base.scenario, |scene| &scene.scenario);
    let plan = scenario.plan();
    let files = settings.shelf.list();
    let sheet = Fragment {
        state,
        style,
        start: settings.start.as_ref().map_or("the built-in demo (invented)", |(name, _)| name),
        base: &base,
        ground: &ground,
        files: &files,
        grouped: plan.as_ref().is_some_and(grouped),
        asks: plan.as_ref().is_some_and(|plan| asked::asks(scenario, plan, style)),
        found,
    };
    Ok(sheet.page())
}

/// What a control does here.
async fn effect(State(app): Shared, form: Sent) -> Outcome {
    let asked = PageRequest::of(sent(form)?, &["control", "visit"])?;
    let visitor = live::visitor(asked.extra("visit"))?;
    let name: String = asked.extra("control").chars().take(80).collect();
    let control = scenario::control(&name).ok_or(PageError::Field { field: name })?;
    let worker = Arc::clone(&app);
    let work = move |flag: &Flag| {
        effect::effect(&Scene::of(&asked.state, &worker.settings)?, control, flag)
    };
    Ok(html(app.jobs.run((&visitor, app.jobs.turn()), None, work).await?))
}

/// The page with one build more, a copy of the one it shows.
async fn copy(State(app): Shared, query: Link) -> Outcome {
    let asked = PageRequest::of(link(query)?, &["copy"])?;
    let name = fits(asked.extra("copy"), LONGEST_NAME)?;
    let worker = Arc::clone(&app);
    let work = move || copies::copied(&asked.state, &name, &worker.settings);
    Ok(Redirect::to(&format!("/?{}", app.jobs.aside(work).await?.link())).into_response())
}

/// The page without the build it shows.
async fn remove(State(app): Shared, query: Link) -> Outcome {
    let state = PageRequest::of(link(query)?, &["copy"])?.state;
    let worker = Arc::clone(&app);
    let work = move || copies::removed(&state, &worker.settings);
    Ok(Redirect::to(&format!("/?{}", app.jobs.aside(work).await?.link())).into_response())
}

/// The form for two groups.
async fn groups() -> Outcome {
    Ok(html(groups::sheet(Vec::new())?))
}

/// Two groups that were shot.
async fn judge(State(app): Shared, form: Sent) -> Outcome {
    let fields = sent(form)?;
    Ok(html(app.jobs.aside(move || groups::sheet(fields)).await?))
}

async fn gauge(form: Sent) -> Outcome {
    let asked = PageRequest::of(sent(form)?, &square::FIELDS)?;
    Ok(html(square::verdict(&asked)?))
}

/// The arrow through push and flight, in numbers.
async fn motion(State(app): Shared, form: Sent) -> Outcome {
    let asked = PageRequest::of(sent(form)?, &[])?;
    let worker = Arc::clone(&app);
    let work = move |_: &Flag| watch::film(&Scene::of(&asked.state, &worker.settings)?);
    let film = app.jobs.run(NOBODY, None, work).await?;
    Ok(([(header::CONTENT_TYPE, "application/json")], film.to_string()).into_response())
}

/// The same in words.
async fn watched(State(app): Shared, query: Link) -> Outcome {
    let asked = PageRequest::of(link(query)?, &[])?;
    let worker = Arc::clone(&app);
    let work = move |_: &Flag| {
        watch::sheet(&Scene::of(&asked.state, &worker.settings)?, &asked.state.link())
    };
    Ok(html(app.jobs.run(NOBODY, None, work).await?))
}

async fn save(State(app): Shared, form: Sent) -> Outcome {
    let asked = PageRequest::of(sent(form)?, &["name"])?;
    let mut name = asked.extra("name").trim().to_owned();
    if !name.is_empty() && std::path::Path::new(&name).extension().is_none() {
        name.push_str(".toml");
    }
    let name = file_name(&name)?.to_owned();
    let worker = Arc::clone(&app);
    let work = move || {
        let scene = Scene::of(&asked.state, &worker.settings)?;
        match worker.settings.shelf.save(&name, &scene.text) {
            Ok(()) => Ok(name),
            Err(cause) if cause.kind() == io::ErrorKind::AlreadyExists => {
                let free = free_name(&name, worker.settings.shelf.as_ref());
                Err(PageError::Taken { name, free })
            }
            Err(cause) => Err(PageError::Write { name, cause: cause.kind() }),
        }
    };
    let name = app.jobs.aside(work).await?;
    let said = html! {
        p data-saved=(name) { "Saved as " (name) ". Run it with: " code { "clothyard run \"" (name) "\"" } }
    };
    Ok((StatusCode::CREATED, html(said)).into_response())
}

async fn scenario(State(app): Shared, query: Link) -> Outcome {
    let asked = PageRequest::of(link(query)?, &[])?;
    let worker = Arc::clone(&app);
    let work = move || Ok(Scene::of(&asked.state, &worker.settings)?.text);
    Ok(file("scenario.toml", app.jobs.aside(work).await?.into_bytes()))
}

/// Files that `clothyard tape` would write.
const TO_PRINT: [&str; 4] = ["tape.pdf", "tape.svg", "card.pdf", "card.svg"];

/// A file of the report that `clothyard run` would write, or of the tape.
async fn take(State(app): Shared, Path(name): Path<String>, query: Link) -> Outcome {
    let asked = PageRequest::of(link(query)?, &[])?;
    // What cannot be a file of an answer is not worth an answer.
    let ending = name.rsplit('.').next().unwrap_or_default();
    if !["html", "csv", "json", "svg", "pdf", "toml"].contains(&ending) {
        return Err(PageError::NoPage { path: format!("/take/{name}") });
    }
    let worker = Arc::clone(&app);
    let wanted = name.clone();
    let work = move |flag: &Flag| {
        let scene = Scene::of(&asked.state, &worker.settings)?;
        if TO_PRINT.contains(&wanted.as_str()) {
            return tape::files(&scene);
        }
        let answer = study::run(&scene.plan()?, flag)?;
        let provenance = scene.provenance(answer.seed);
        Ok(report::answer(&answer, &provenance, scene.style)?.files()?)
    };
    let files = app.jobs.run(NOBODY, None, work).await?;
    let wanted = files.into_iter().find(|file| file.name == name);
    let wanted = wanted.ok_or_else(|| PageError::NoPage { path: format!("/take/{name}") })?;
    Ok(file(&wanted.name, wanted.bytes))
}
