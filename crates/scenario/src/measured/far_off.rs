//! Values far off all others of their kind: a slip of the pen, or of the unit.

/// How many times the median of all, or less than its inverse, a value of a set
/// must be to be taken for a slip. Chosen: no parts or arrows that go into one notebook
/// scatter so far, and a slipped decimal point does.
const SLIP: f64 = 1.5;
/// Least others of one kind that say what is usual. Chosen.
const OTHERS: usize = 3;

/// A value far off.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct FarOff {
    /// What was said to be its place.
    pub(super) line: usize,
    /// How many times the middle of the others it is.
    pub(super) times: String,
    /// How many others there are.
    pub(super) others: usize,
}

/// Those of some values, each with its place, that are far off the rest.
pub(super) fn far_off(mut values: Vec<(f64, usize)>) -> Vec<FarOff> {
    let others = values.len().saturating_sub(1);
    if others < OTHERS {
        return Vec::new();
    }
    values.sort_by(|a, b| a.0.total_cmp(&b.0));
    // Of all values: one that is odd hardly moves it, and two kinds in one notebook are
    // both held against what lies between them.
    let median = f64::midpoint(values[others / 2].0, values[values.len() / 2].0);
    let mut found = Vec::new();
    for (rank, (value, line)) in values.iter().enumerate() {
        if *value > SLIP * median || value * SLIP < median {
            // The middle of the rest: of all values without this one.
            let middle = values[others / 2 + usize::from(rank <= others / 2)].0;
            let times = format!("{:.2}", value / middle);
            found.push(FarOff { line: *line, times, others });
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_a_value_is_held_against_the_middle_of_the_rest() {
        let places = |values: &[f64]| -> Vec<usize> {
            let values = values.iter().copied().enumerate().map(|(at, value)| (value, at));
            far_off(values.collect()).into_iter().map(|far| far.line).collect()
        };
        assert_eq!(places(&[100.0, 99.0, 1001.0, 101.0]), [2]);
        assert_eq!(places(&[100.0, 60.0, 99.0, 101.0]), [1]);
        assert!(places(&[100.0, 149.0, 99.0, 101.0]).is_empty());
        // Of three nobody knows which is usual.
        assert!(places(&[100.0, 1001.0, 101.0]).is_empty());
    }
}
