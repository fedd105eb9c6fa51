//! Lengths as the stop of a saw shows them.

/// An inch, m.
const INCH: f64 = 0.0254;

/// A length on a scale: sixteenths and their kin as fractions of an inch, other scales
/// in inches or, where the scale is a whole number of tenths of a millimetre, in mm.
pub(super) fn stop(si: f64, scale: f64) -> String {
    let inch = scale / INCH;
    let parts = (1.0 / inch).round();
    let binary = [1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0];
    if binary.contains(&parts) && (parts * inch - 1.0).abs() < 1e-9 {
        return sixteenths(si / INCH, parts);
    }
    let tenths = scale * 1e4;
    if (tenths - tenths.round()).abs() < 1e-6 && (10.0 * inch - (10.0 * inch).round()).abs() > 1e-6
    {
        return format!("{:.1} mm", si * 1e3);
    }
    format!("{:.3} in", si / INCH)
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a length of a shaft")]
fn sixteenths(inches: f64, parts: f64) -> String {
    let units = (inches * parts).round();
    // Off the scale: a length that nobody set by this stop.
    if (inches * parts - units).abs() > 1e-3 {
        return format!("{inches:.3} in");
    }
    let (whole, mut over, mut under) =
        ((units / parts).floor(), (units % parts) as u32, parts as u32);
    while over > 0 && over.is_multiple_of(2) {
        over /= 2;
        under /= 2;
    }
    match over {
        0 => format!("{whole} in"),
        _ if whole == 0.0 => format!("{over}/{under} in"),
        _ => format!("{whole} {over}/{under} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_stops_as_scales_show_them() {
        let sixteenth = INCH / 16.0;
        for (inches, text) in
            [(30.3125, "30 5/16 in"), (28.5, "28 1/2 in"), (29.0, "29 in"), (28.51, "28.510 in")]
        {
            assert_eq!(stop(inches * INCH, sixteenth), text);
        }
        assert_eq!(stop(30.3 * INCH, 0.1 * INCH), "30.300 in");
        assert_eq!(stop(0.7705, 0.0005), "770.5 mm");
    }
}
