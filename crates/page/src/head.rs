//! What every page begins with.

use maud::{Markup, html};

/// The inside of a page's head.
pub(crate) fn head(title: &str) -> Markup {
    html! {
        meta charset="utf-8";
        meta name="viewport" content="width=device-width, initial-scale=1";
        meta name="color-scheme" content="light dark";
        title { (title) }
        link rel="icon" href="data:,";
        link rel="stylesheet" href="/page.css";
        script src="/page.js" defer {}
    }
}
