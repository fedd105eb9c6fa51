//! Departures of one arrow that is shot again and again, as polynomials of what
//! differs from shot to shot. Model card: docs/model/push.md.

use solve::{DEGREE_MAX, Polynomial};

use crate::flex::MODES;
use crate::kind::Range;
use crate::{Departure, Flex};

/// Numbers of a departure.
const NUMBERS: usize = 12 + 8 * MODES;

/// Departures of one arrow with its faults, for any values in some ranges. Contacts
/// may open: a polynomial through full pushes does not ask what happens in them.
#[derive(Debug, Clone, PartialEq)]
pub struct ArrowAgain {
    ranges: Vec<Range>,
    set: Polynomial,
    /// Coefficients of a departure's numbers, one row for each term.
    rows: Vec<Vec<f64>>,
}

impl ArrowAgain {
    /// Values at which pushes are wanted for a degree, those of each lower one first;
    /// none above the highest degree.
    pub fn wanted(ranges: &[Range], degree: usize) -> Option<Vec<Vec<f64>>> {
        let set = Self::set(ranges.len(), degree)?;
        let values = |term| {
            let place = set.point(term);
            ranges.iter().zip(place).map(|(range, place)| range.at(place)).collect()
        };
        Some((0..set.terms()).map(values).collect())
    }

    fn set(variables: usize, degree: usize) -> Option<Polynomial> {
        (degree <= DEGREE_MAX).then(|| Polynomial::new(&vec![DEGREE_MAX; variables], degree))
    }

    /// Through the pushes at [`ArrowAgain::wanted`] of some degree; none where they are
    /// not as many.
    pub fn through(ranges: &[Range], degree: usize, pushed: &[Departure]) -> Option<Self> {
        let set = Self::set(ranges.len(), degree).filter(|set| set.terms() == pushed.len())?;
        let mut rows: Vec<Vec<f64>> = pushed.iter().map(|one| one.numbers().to_vec()).collect();
        set.fit(&mut rows, 0);
        Some(Self { ranges: ranges.to_vec(), set, rows })
    }

    /// The departure at some values; none outside the ranges.
    pub fn depart(&self, values: &[f64]) -> Option<Departure> {
        let inside = self.ranges.iter().zip(values).all(|(range, value)| range.holds(*value));
        if !inside || values.len() != self.ranges.len() {
            return None;
        }
        let place: Vec<f64> =
            self.ranges.iter().zip(values).map(|(range, value)| range.place(*value)).collect();
        let mut weights = vec![0.0; self.set.terms()];
        self.set.at(1.0, &place, &mut weights);
        let mut numbers = [0.0; NUMBERS];
        for (row, weight) in self.rows.iter().zip(&weights) {
            for (sum, value) in numbers.iter_mut().zip(row) {
                *sum += weight * value;
            }
        }
        Some(Departure::of_numbers(&numbers))
    }
}

impl Departure {
    fn numbers(&self) -> [f64; NUMBERS] {
        let Self { flex, .. } = self;
        let own = [
            self.speed,
            self.velocity_left,
            self.velocity_up,
            self.yaw,
            self.pitch,
            self.yaw_rate,
            self.pitch_rate,
            self.spin,
            self.roll,
            self.left,
            self.up,
            flex.slowing,
        ];
        let [left, up] = flex.amplitude;
        let [left_rate, up_rate] = flex.rate;
        let shapes =
            [flex.frequency, flex.decay, flex.tip, flex.nock, left, up, left_rate, up_rate];
        let mut numbers = [0.0; NUMBERS];
        let all = own.into_iter().chain(shapes.into_iter().flatten());
        for (number, value) in numbers.iter_mut().zip(all) {
            *number = value;
        }
        numbers
    }

    fn of_numbers(numbers: &[f64; NUMBERS]) -> Self {
        let [
            speed,
            velocity_left,
            velocity_up,
            yaw,
            pitch,
            yaw_rate,
            pitch_rate,
            spin,
            roll,
            left,
            up,
            slowing,
            shapes @ ..,
        ] = numbers;
        let five = |from: usize| std::array::from_fn(|k| shapes[from * MODES + k]);
        Self {
            speed: *speed,
            velocity_left: *velocity_left,
            velocity_up: *velocity_up,
            yaw: *yaw,
            pitch: *pitch,
            yaw_rate: *yaw_rate,
            pitch_rate: *pitch_rate,
            spin: *spin,
            roll: *roll,
            left: *left,
            up: *up,
            flex: Flex {
                frequency: five(0),
                decay: five(1),
                tip: five(2),
                nock: five(3),
                amplitude: [five(4), five(5)],
                rate: [five(6), five(7)],
                slowing: *slowing,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn departure(x: f64, y: f64) -> Departure {
        let mut numbers = [0.0; NUMBERS];
        for (i, number) in (0_u8..).zip(&mut numbers) {
            *number = f64::from(i) + x * f64::from(i % 5) - x * x * y + 2.0 * y * y * y;
        }
        Departure::of_numbers(&numbers)
    }

    #[test]
    fn exact_a_cubic_departure_comes_back() {
        let ranges = [Range { low: -1.0, high: 3.0 }, Range { low: 2.0, high: 2.5 }];
        let wanted = ArrowAgain::wanted(&ranges, 3).unwrap();
        let pushed: Vec<Departure> = wanted.iter().map(|at| departure(at[0], at[1])).collect();
        let again = ArrowAgain::through(&ranges, 3, &pushed).unwrap();
        let (found, own) = (again.depart(&[1.7, 2.1]).unwrap(), departure(1.7, 2.1));
        for (found, own) in found.numbers().iter().zip(own.numbers()) {
            assert!((found - own).abs() < 1e-12 * own.abs().max(1.0), "{found} {own}");
        }
        assert_eq!(again.depart(&[3.1, 2.1]), None);
        assert_eq!(ArrowAgain::through(&ranges, 2, &pushed), None);
    }
}
