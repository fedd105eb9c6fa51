//! What a control says, in the reader's units.

use scenario::Control;
use units::Style;

/// A quantity in the unit of its slider; anything else as it is.
pub(crate) fn in_style(control: &Control, text: &str, style: Style) -> String {
    in_slide(control, text, style).unwrap_or_else(|| text.to_owned())
}

fn in_slide(control: &Control, text: &str, style: Style) -> Option<String> {
    let (slide, dimension) = (control.slide(style)?, control.dimension()?);
    let unit = dimension.unit(slide.unit)?;
    let si = units::parse_si(dimension, text).ok()?;
    let places = if slide.step >= 1.0 {
        0
    } else if slide.step >= 0.1 {
        1
    } else {
        3
    };
    let own = text.rsplit(' ').next().unwrap_or_default();
    (own != slide.unit).then(|| format!("{:.places$} {}", unit.of_si(si), slide.unit))
}
