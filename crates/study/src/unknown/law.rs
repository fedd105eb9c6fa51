//! How a poorly known value may lie in its stated range.

use crate::UncertainParameter;

/// Share of the draws in which a choice between models is the scenario's own.
/// Chosen: whoever chose it is right three times in four.
const OWN: f64 = 0.75;

impl UncertainParameter {
    /// The value of a choice between models: its own or the other end of the range.
    pub fn chosen(&self, chance: f64) -> f64 {
        let other = if self.value > self.low { self.low } else { self.high };
        if chance < OWN { self.value } else { other }
    }

    /// Whether its range is a scale, of which ratios count: all of it lies
    /// above zero.
    pub fn is_scale(&self) -> bool {
        self.low > 0.0
    }

    /// Whether its own value lies inside its range, not at an end.
    pub fn is_inside(&self) -> bool {
        self.low < self.value && self.value < self.high
    }

    /// The value below which a share `chance` (0 to 1) of all draws lies, SI.
    /// Its own value is the median.
    ///
    /// Inside the range: even between the lower end and the value, and even
    /// between the value and the upper end, a half of the draws each; of a
    /// scale, its logarithm. At an end of the range half of all draws are the
    /// value itself, the others even over the range: whoever chose an end
    /// thought it the likeliest.
    pub fn at(&self, chance: f64) -> f64 {
        let between = |low: f64, high: f64, share: f64| {
            if self.is_scale() {
                low * (high / low).powf(share)
            } else {
                low + share * (high - low)
            }
        };
        if chance < 0.5 {
            between(self.low, self.value, 2.0 * chance)
        } else {
            between(self.value, self.high, 2.0 * chance - 1.0)
        }
    }
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "exact halves and ends")]
mod tests {
    use super::*;
    use crate::Slot;

    fn of(value: f64, low: f64, high: f64) -> UncertainParameter {
        let (key, dimension) = (String::new(), units::Dimension::Ratio);
        UncertainParameter { slot: Slot(0), key, dimension, value, low, high }
    }

    #[test]
    fn exact_half_of_all_draws_lie_below_the_own_value() {
        for one in [of(1.0, -3.0, 2.0), of(0.4, 0.1, 0.8)] {
            assert_eq!(one.at(0.5), one.value);
            assert!((one.at(0.0) - one.low).abs() < 1e-15);
            assert!((one.at(1.0) - one.high).abs() < 1e-15);
        }
        assert_eq!(of(1.0, -3.0, 2.0).at(0.25), -1.0);
        // Of a scale the logarithm is even: the root of low times own value.
        assert!((of(0.4, 0.1, 0.9).at(0.25) - 0.2).abs() < 1e-15);
        assert!((of(0.4, 0.1, 0.9).at(0.75) - 0.6).abs() < 1e-15);
    }

    #[test]
    fn exact_a_choice_is_one_end_or_the_other() {
        let [laminar, turbulent] = [of(0.0, 0.0, 1.0), of(1.0, 0.0, 1.0)];
        assert_eq!(
            [0.1, 0.74, 0.76, 1.0].map(|chance| laminar.chosen(chance)),
            [0.0, 0.0, 1.0, 1.0]
        );
        assert_eq!([0.1, 0.74, 0.76].map(|chance| turbulent.chosen(chance)), [1.0, 1.0, 0.0]);
    }

    #[test]
    fn exact_half_of_all_draws_are_a_value_at_an_end() {
        let laminar = of(0.0, 0.0, 1.0);
        assert!(!laminar.is_inside());
        assert_eq!([0.1, 0.5, 0.75, 1.0].map(|chance| laminar.at(chance)), [0.0, 0.0, 0.5, 1.0]);
        assert_eq!([0.0, 0.25, 0.6].map(|chance| of(1.0, 0.0, 1.0).at(chance)), [0.0, 0.5, 1.0]);
    }
}
