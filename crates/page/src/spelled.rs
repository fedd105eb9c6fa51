//! What a control says, in the reader's units.

use scenario::Control;
use units::Style;

/// A quantity in the unit of its slider.
pub(crate) fn in_style(control: &Control, text: &str, style: Style) -> String {
    let slide = control.slide(style);
    let own = text.rsplit(' ').next().unwrap_or_default();
    let Some(unit) = control.dimension.unit(slide.unit) else { return text.to_owned() };
    match units::parse_si(control.dimension, text) {
        Ok(si) if own != slide.unit => {
            let places = if slide.step >= 1.0 {
                0
            } else if slide.step >= 0.1 {
                1
            } else {
                3
            };
            format!("{:.places$} {}", unit.of_si(si), slide.unit)
        }
        _ => text.to_owned(),
    }
}
