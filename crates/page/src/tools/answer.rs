//! Requests for commands.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::response::Response;

use super::order::{order, split};
use super::tool::{Tool, ToolAnswer};
use super::view;
use super::words::WORDS;
use crate::PageError;
use crate::app::{App, Link, Outcome, Sent, Shared, file, html, link, sent};
use crate::scene::Scene;
use crate::state::{PageRequest, PageState};

/// Every command that has words.
pub(crate) async fn all(State(app): Shared) -> Outcome {
    Ok(html(view::index(&app.settings.tools.list())))
}

/// The empty form of a command.
pub(crate) async fn blank(State(app): Shared, Path(name): Path<String>, query: Link) -> Outcome {
    let tool = named(&app, &name)?;
    let state = PageRequest::of(link(query)?, &[])?.state;
    let worker = Arc::clone(&app);
    let drawn = move || Ok(drawn(&worker, &tool, &state, &[], None));
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
    let (from, own) = split(sent(form)?);
    let mut fields = link(query)?;
    // Which scenario it is was chosen on the form; what was changed in it came with the link.
    fields.retain(|(name, _)| from.is_empty() || name != "from");
    fields.extend(from);
    let state = PageRequest::of(fields, &[])?.state;
    let worker = Arc::clone(&app);
    let work = move |_: &crate::jobs::Flag| {
        let scenario = match tool.of_scenario() {
            Some(_) => Scene::of(&state, &worker.settings)?.text,
            None => String::new(),
        };
        let asked = order(&tool, &own, scenario)?;
        let cause = |cause: std::io::Error| PageError::Write {
            name: tool.name.clone(),
            cause: cause.kind(),
        };
        let answer = worker.settings.tools.run(&asked).map_err(cause)?;
        let kept = worker.results.keep(answer.files.clone());
        Ok(drawn(&worker, &tool, &state, &own, Some((&answer, &kept))))
    };
    app.jobs.run("", None, work).await
}

/// A file that a command wrote.
pub(crate) async fn written(
    State(app): Shared,
    Path((answer, name)): Path<(String, String)>,
) -> Outcome {
    let path = || format!("/tools/files/{answer}/{name}");
    let found = app.results.of(&answer, &name);
    Ok(file(&name, found.ok_or_else(|| PageError::NoPage { path: path() })?))
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
    html(view::sheet(&view::Sheet { tool, state, files: &files, sent, answer }))
}
