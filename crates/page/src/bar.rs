//! How sure a number is, as a bar.

use maud::{Markup, html};
use target::Estimate;

/// The interval as a bar about its value, the whole value to each side.
pub(crate) fn width(estimate: &Estimate) -> Markup {
    let place = |value: f64| (50.0 * value / estimate.value).clamp(0.0, 100.0);
    if estimate.value <= 0.0 {
        return html! {};
    }
    let (low, high) = (place(estimate.low), place(estimate.high));
    html! {
        svg.width viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true" {
            rect.rail x="0" y="1.5" width="100" height="1" {}
            rect.span x=(format!("{low:.2}")) y="0" width=(format!("{:.2}", high - low)) height="4" {}
            rect.mid x="49.8" y="0" width="0.4" height="4" {}
        }
    }
}
