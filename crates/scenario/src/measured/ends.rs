//! Ranges as they are told, and what may be meant by a number beyond one.

use units::{Dimension, Unit};

use crate::text::quantity;

/// What a bare number of a length may mean that cannot be meant as it stands: a spine
/// without its last digit, thousandths in place of inches or millimetres.
pub(super) fn meant(
    (low, high): (f64, f64),
    spine: bool,
    text: &str,
    unit: &Unit,
) -> Option<String> {
    Dimension::Length.unit(unit.symbol)?;
    let number: f64 = text.replace(',', ".").parse().ok()?;
    let thou = Dimension::Length.unit("thou")?;
    // Half a thousandth is the finest step of a dial.
    let fits = |number: f64| (low..=high).contains(&thou.to_si(number)) && number >= 0.5;
    if spine {
        return fits(10.0 * number).then(|| format!("{}", 10.0 * number));
    }
    (unit.symbol != "thou" && fits(number)).then(|| format!("{number} thou"))
}

/// A range in a unit, its ends rounded inward to two digits: what a person can keep in
/// mind.
pub(super) fn round_ends((low, high): (f64, f64), unit: &Unit) -> String {
    let round = |si: f64, up: bool| {
        let value = unit.of_si(si);
        if value == 0.0 {
            return 0.0;
        }
        let step = 10f64.powf(value.abs().log10().floor() - 1.0);
        // An end that is round already stays.
        let steps = value / step;
        let near = steps.round();
        let whole = if (steps - near).abs() < 1e-6 {
            near
        } else if up {
            steps.ceil()
        } else {
            steps.floor()
        };
        whole * step
    };
    let text = |value: f64| quantity(unit.to_si(value), unit);
    format!("{} to {}", text(round(low, true)), text(round(high, false)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_ends_are_round_in_the_unit_of_the_user() {
        let unit = |dimension: Dimension, symbol| dimension.unit(symbol).expect("a unit");
        let gr = unit(Dimension::Mass, "gr");
        assert_eq!(round_ends((1e-3, 0.5), gr), "16 gr to 7700 gr");
        let inch = unit(Dimension::Length, "in");
        assert_eq!(round_ends((5e-4, 0.25), inch), "0.02 in to 9.8 in");
        assert_eq!(round_ends((-0.05, 0.05), inch), "-1.9 in to 1.9 in");
        assert_eq!(round_ends((0.0, 0.02 * 0.0254), inch), "0 in to 0.02 in");
    }

    #[test]
    fn exact_what_may_be_meant_is_likely_itself() {
        let inch = Dimension::Length.unit("in").expect("a unit");
        let (spine, run_out) = ((0.00254, 0.0635), (0.0, 0.000_508));
        let meant = |ends, of, text: &str| meant(ends, of, text, inch);
        assert_eq!(meant(spine, true, "34").as_deref(), Some("340"));
        assert_eq!(meant(run_out, false, "2").as_deref(), Some("2 thou"));
        assert_eq!(meant(run_out, false, "2,5").as_deref(), Some("2.5 thou"));
        assert_eq!((meant(run_out, false, "0.025"), meant(spine, true, "9000")), (None, None));
    }
}
