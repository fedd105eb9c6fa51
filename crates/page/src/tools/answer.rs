//! Requests for commands.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::HeaderName;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use study::Watch;

use super::folder;
use super::order::{order, split};
use super::tool::{REPORT, Tool, ToolAnswer};
use super::view;
use super::words::WORDS;
use crate::PageError;
use crate::app::{App, Link, Outcome, Sent, Shared, file, html, link, sent};
use crate::jobs::Flag;
use crate::scene::Scene;
use crate::state::{PageRequest, PageState};

/// A report holds its own style and pictures, and runs nothing.
const READ_ONLY: (HeaderName, &str) = (
    header::CONTENT_SECURITY_POLICY,
    "sandbox; default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; \
     form-action 'none'; frame-ancestors 'none'",
);

/// Every command that has words.
pub(crate) async fn all(State(app): Shared, query: Link) -> Outcome {
    let state = PageRequest::of(link(query)?, &[])?.state;
    Ok(html(view::index(&app.settings.tools.list(), &state)))
}

/// The empty form of a command.
pub(crate) async fn blank(State(app): Shared, Path(name): Path<String>, query: Link) -> Outcome {
    let tool = named(&app, &name)?;
    // A link may bring what is to stand in the form.
    let (fields, own) = split(link(query)?);
    let state = PageRequest::of(fields, &[])?.state;
    let worker = Arc::clone(&app);
    let drawn = move || Ok(drawn(&worker, &tool, &state, &own, None));
    app.jobs.aside(drawn).await
}

/// What a command says to what was sent.
pub(crate) async fn run(
    State(app): Shared,
    Path(name): Path<String>,
    query: Link,
    form: Sent,
) -> Outcome {
    let tool = named(&app, &name)?;
    let (mut from, mut own) = split(sent(form)?);
    let ticket = ticket(&own);
    own.retain(|(name, _)| name != TICKET);
    let (mut fields, _) = split(link(query)?);
    // Which scenario it is was chosen on the form; what was changed in it came with the link.
    fields.retain(|(name, _)| from.is_empty() || name != "from");
    // The arrow on the page has no name.
    from.retain(|(name, value)| name != "from" || !value.is_empty());
    fields.extend(from);
    let state = PageRequest::of(fields, &[])?.state;
    let worker = Arc::clone(&app);
    // What flies nothing waits for nobody who does.
    let flies = tool.of_scenario().is_some();
    let work = move |flag: &Flag| {
        let scenario = match tool.of_scenario() {
            Some(_) => Scene::of(&state, &worker.settings)?.text,
            None => String::new(),
        };
        let kept = |name: &str| folder::read(&worker.settings, name);
        let asked = order(&tool, &own, scenario, &kept)?;
        let cause = |cause: std::io::Error| PageError::Write {
            name: tool.name.clone(),
            cause: cause.kind(),
        };
        let answer = worker.settings.tools.run(&asked, &|| flag.cancelled()).map_err(cause)?;
        let kept = worker.results.keep(answer.files.clone());
        Ok(drawn(&worker, &tool, &state, &own, Some((&answer, &kept))))
    };
    if flies {
        app.jobs.long(ticket, work).await
    } else {
        app.jobs.aside(move || work(&Flag::default())).await
    }
}

/// The field by which whoever waits for a command is known.
const TICKET: &str = "ticket";
/// Longest of what a ticket says. Chosen: a random number.
const TICKET_LENGTH: usize = 40;

fn ticket(own: &[(String, String)]) -> String {
    let found = own.iter().find(|(name, _)| name == TICKET);
    found.map_or_else(String::new, |(_, value)| value.chars().take(TICKET_LENGTH).collect())
}

/// What comes before a command that waits, in words; nothing where none waits.
pub(crate) async fn queue(State(app): Shared, query: Link) -> Outcome {
    let (_, own) = split(link(query)?);
    let told = match app.jobs.ahead(&ticket(&own)) {
        Some(1) => "One other that flies arrows comes first.".to_owned(),
        Some(ahead @ 2..) => format!("{ahead} others that fly arrows come first."),
        Some(0) => "It is at work.".to_owned(),
        None => String::new(),
    };
    Ok(told.into_response())
}

/// A file that a command wrote.
pub(crate) async fn written(
    State(app): Shared,
    Path((answer, name)): Path<(String, String)>,
) -> Outcome {
    let path = || format!("/tools/files/{answer}/{name}");
    let found = app.results.of(&answer, &name);
    let found = found.ok_or_else(|| PageError::NoPage { path: path() })?;
    if name == REPORT {
        let open = [(header::CONTENT_TYPE, "text/html; charset=utf-8"), READ_ONLY];
        return Ok((open, found).into_response());
    }
    Ok(file(&name, found))
}

/// The command of an address, which has words.
fn named(app: &App, path: &str) -> Result<Tool, PageError> {
    let found = app.settings.tools.list().into_iter().find(|tool| tool.path() == path);
    found
        .filter(|tool| WORDS.iter().any(|words| words.name == tool.name))
        .ok_or_else(|| PageError::NoPage { path: format!("/tools/{path:.60}") })
}

fn drawn(
    app: &App,
    tool: &Tool,
    state: &PageState,
    sent: &[(String, String)],
    answer: Option<(&ToolAnswer, &str)>,
) -> Response {
    let files = app.settings.shelf.list();
    let tables = app.settings.tools.tables();
    let opened = app.settings.start.as_ref().map(|(name, _)| name.as_str());
    html(view::sheet(&view::Sheet {
        tool,
        state,
        opened,
        files: &files,
        tables: &tables,
        sent,
        answer,
    }))
}
