//! What a browser is sent beside the pages: one style sheet and one script, each joined
//! from a file for each part of the page.

use axum::http::header;
use axum::response::{IntoResponse, Response};

/// In this order: what the later ones ask the earlier for hangs on `clothyard`.
const SCRIPTS: [&str; 10] = [
    include_str!("web/glide.js"),
    include_str!("web/live.js"),
    include_str!("web/rooms.js"),
    include_str!("web/film.js"),
    include_str!("web/paint.js"),
    include_str!("web/watch.js"),
    include_str!("web/tools.js"),
    include_str!("web/sheet.js"),
    include_str!("web/match.js"),
    include_str!("web/grid.js"),
];
const STYLES: [&str; 5] = [
    include_str!("web/page.css"),
    include_str!("web/rooms.css"),
    include_str!("web/watch.css"),
    include_str!("web/tools.css"),
    include_str!("web/grid.css"),
];

pub(crate) async fn style() -> Response {
    let text = format!("{}\n{}", report::style_sheet(), STYLES.join("\n"));
    ([(header::CONTENT_TYPE, "text/css; charset=utf-8")], text).into_response()
}

pub(crate) async fn script() -> Response {
    ([(header::CONTENT_TYPE, "text/javascript; charset=utf-8")], SCRIPTS.join("\n")).into_response()
}
