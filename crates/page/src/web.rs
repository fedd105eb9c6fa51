//! What a browser is sent beside the pages: one style sheet and one script, each joined
//! from a file for each part of the page.

use axum::http::header;
use axum::response::{IntoResponse, Response};

/// In this order: what the later ones ask the earlier for hangs on `clothyard`.
const SCRIPTS: [&str; 2] = [include_str!("web/glide.js"), include_str!("web/live.js")];
const STYLES: [&str; 1] = [include_str!("web/page.css")];

pub(crate) async fn style() -> Response {
    let text = format!("{}\n{}", report::style_sheet(), STYLES.join("\n"));
    ([(header::CONTENT_TYPE, "text/css; charset=utf-8")], text).into_response()
}

pub(crate) async fn script() -> Response {
    ([(header::CONTENT_TYPE, "text/javascript; charset=utf-8")], SCRIPTS.join("\n")).into_response()
}
