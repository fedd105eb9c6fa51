//! Who may ask, and what a browser may do with the answer.

use axum::extract::{Request, State};
use axum::http::header::{self, HeaderMap, HeaderName, HeaderValue};
use axum::http::{Method, uri::Authority};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::PageError;

/// Longest link or form taken, in bytes. Chosen: every field of a page without a script
/// is a third of it.
pub(crate) const LONGEST: usize = 32 * 1024;

/// Longest form with tables, in bytes. Chosen: a gross of arrows, each read along its whole
/// length.
pub(crate) const LONGEST_TABLE: usize = 256 * 1024;

/// Longest form taken at an address, in bytes.
pub fn longest(path: &str) -> usize {
    if path.starts_with("/tools/") { LONGEST_TABLE } else { LONGEST }
}

/// Answer headers: nothing from elsewhere, nothing inline, no frame, no trace.
const HEADERS: [(HeaderName, &str); 6] = [
    (
        header::CONTENT_SECURITY_POLICY,
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; \
         connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    ),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::X_FRAME_OPTIONS, "DENY"),
    // Without any referrer a browser sends a plain form as from nowhere, which is refused.
    (header::REFERRER_POLICY, "same-origin"),
    (header::CACHE_CONTROL, "no-store"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// Checks a request before anything else sees it, and signs the answer.
pub(crate) async fn guard(State(port): State<u16>, request: Request, next: Next) -> Response {
    let mut response = match check(&request, port) {
        Ok(()) => next.run(request).await,
        Err(refused) => refused.into_response(),
    };
    // A report brings its own policy.
    let own = response.headers().contains_key(header::CONTENT_SECURITY_POLICY);
    for (name, value) in HEADERS {
        if own && name == header::CONTENT_SECURITY_POLICY {
            continue;
        }
        response.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    response
}

fn check(request: &Request, port: u16) -> Result<(), PageError> {
    let headers = request.headers();
    let host = one(headers, header::HOST).unwrap_or_default();
    if !ours(host, port) {
        return Err(PageError::Host { host: host.chars().take(80).collect() });
    }
    let length = request.uri().path_and_query().map_or(0, |all| all.as_str().len());
    if length > LONGEST {
        return Err(PageError::TooLong { length, most: LONGEST });
    }
    let changes = request.method() != Method::GET && request.method() != Method::HEAD;
    match one(headers, header::ORIGIN) {
        Some(origin) if !origin.eq_ignore_ascii_case(&format!("http://{host}")) => {
            return Err(PageError::Origin);
        }
        None if changes || headers.contains_key(header::ORIGIN) => return Err(PageError::Origin),
        _ => {}
    }
    // A link from elsewhere may open the page, and nothing more.
    let site = one(headers, HeaderName::from_static("sec-fetch-site"));
    let mode = one(headers, HeaderName::from_static("sec-fetch-mode"));
    let elsewhere = matches!(site, Some("cross-site" | "same-site"));
    if elsewhere && (mode != Some("navigate") || request.uri().path() != "/") {
        return Err(PageError::Origin);
    }
    Ok(())
}

fn one(headers: &HeaderMap, name: HeaderName) -> Option<&str> {
    let mut all = headers.get_all(name).iter();
    let first = all.next()?;
    if all.next().is_some() { None } else { first.to_str().ok() }
}

/// Whether a host is this computer by its own name, or an address: a name that
/// somebody else's server hands out is neither.
fn ours(host: &str, port: u16) -> bool {
    let Ok(authority) = host.parse::<Authority>() else { return false };
    if host.contains('@') || authority.port_u16().unwrap_or(80) != port {
        return false;
    }
    let name = authority.host();
    let bare = name.trim_start_matches('[').trim_end_matches(']');
    name.eq_ignore_ascii_case("localhost") || bare.parse::<core::net::IpAddr>().is_ok()
}
