//! How far the wind carries the arrows off the mark.

use maud::{Markup, html};
use study::Compared;
use units::{Role, Style};

/// What is said of it under the face; nothing in still air.
pub(crate) fn told(found: &Compared, at: usize, style: Style) -> Markup {
    let drifts: Vec<f64> = found.sides.builds.iter().map(|side| side.marks[at].carried).collect();
    let place = found.builds.first().map(|build| build.marks[at].distance.si());
    let place = Role::Range.text(place.unwrap_or_default(), style);
    let far = |left: f64| {
        let side = if left < 0.0 { "to the right" } else { "to the left" };
        format!("{} {side}", Role::Impact.text(left.abs(), style))
    };
    let mut each: Vec<String> = drifts.iter().map(|left| far(*left)).collect();
    if each.iter().any(|one| *one != each[0]) {
        let named = each.iter().zip(&found.builds);
        each = named.map(|(far, build)| format!("{}: {far}", build.name)).collect();
    } else {
        each.truncate(1);
    }
    html! {
        @if drifts.iter().any(|left| *left != 0.0) {
            p.drift {
                "Sight held on the mark, wind carries the arrows " strong { (each.join(", ")) }
                " at " (place) ". Hits are counted as if you held off."
            }
        }
    }
}
