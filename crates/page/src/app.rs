//! What every request shares, and how its form is taken apart.

use std::sync::Arc;

use axum::extract::rejection::{FormRejection, QueryRejection};
use axum::extract::{Form, Query, State};
use axum::http::{StatusCode, header};
use axum::response::{Html, IntoResponse, Response};
use maud::Markup;
use report::gate;

use crate::guard::LONGEST;
use crate::jobs::Jobs;
use crate::kept::Kept;
use crate::results::Results;
use crate::view::refusal;
use crate::{PageError, Settings};

pub(crate) struct App {
    pub(crate) settings: Settings,
    pub(crate) jobs: Arc<Jobs>,
    pub(crate) kept: Kept,
    pub(crate) results: Results,
}

pub(crate) type Shared = State<Arc<App>>;
pub(crate) type Fields = Vec<(String, String)>;
pub(crate) type Link = Result<Query<Fields>, QueryRejection>;
pub(crate) type Sent = Result<Form<Fields>, FormRejection>;
pub(crate) type Outcome = Result<Response, PageError>;

impl IntoResponse for PageError {
    fn into_response(self) -> Response {
        (self.status(), Html(gate::html(&refusal(&self).into_string()))).into_response()
    }
}

/// The fields of a link.
pub(crate) fn link(link: Link) -> Result<Fields, PageError> {
    let Query(fields) =
        link.map_err(|refused| PageError::NotAForm { reason: refused.body_text() })?;
    Ok(fields)
}

/// The fields of a form.
pub(crate) fn sent(sent: Sent) -> Result<Fields, PageError> {
    match sent {
        Ok(Form(fields)) => Ok(fields),
        Err(refused) if refused.status() == StatusCode::PAYLOAD_TOO_LARGE => {
            Err(PageError::TooLong { length: LONGEST + 1, most: LONGEST })
        }
        Err(refused) => Err(PageError::NotAForm { reason: refused.body_text() }),
    }
}

pub(crate) fn html(markup: Markup) -> Response {
    Html(gate::html(&markup.into_string())).into_response()
}

/// A file to keep.
pub(crate) fn file(name: &str, bytes: Vec<u8>) -> Response {
    let kind = match name.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("csv") => "text/csv; charset=utf-8",
        Some("json") => "application/json",
        Some("svg") => "image/svg+xml",
        Some("pdf") => "application/pdf",
        _ => "text/plain; charset=utf-8",
    };
    let keep = format!("attachment; filename=\"{name}\"");
    ([(header::CONTENT_TYPE, kind.to_owned()), (header::CONTENT_DISPOSITION, keep)], bytes)
        .into_response()
}
