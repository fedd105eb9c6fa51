//! Polynomials in several variables through values at nested points.

use crate::Number;

/// Places of one variable, each next one where the product of the distances to
/// those before is greatest (Leja's points on -1 to 1): a polynomial of a higher
/// degree keeps the values at hand.
const PLACES: [f64; 9] = [
    0.0,
    1.0,
    -1.0,
    -0.577_350_270_954,
    0.658_706_592_700,
    -0.839_254_174_390,
    0.870_007_148_552,
    0.305_613_328_542,
    -0.321_707_616_347,
];

/// Highest degree.
pub const DEGREE_MAX: usize = PLACES.len() - 1;

/// A polynomial in some variables, each from -1 to 1, by Newton's products: term
/// a is the product over the variables of (x - p0)(x - p1).. to the power of the
/// variable's own index, one at its own point. Points and terms are as many, and a
/// term is nothing at the points before its own, so the coefficients follow one
/// after the other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Polynomial {
    variables: usize,
    /// Index of each variable in each term, terms of lower degree first.
    terms: Vec<Vec<usize>>,
}

impl Polynomial {
    /// All terms up to a degree in all, at most [`DEGREE_MAX`], and to a degree in
    /// each variable.
    pub fn new(most: &[usize], degree: usize) -> Self {
        let degree = degree.min(DEGREE_MAX);
        let mut terms = vec![vec![0; most.len()]];
        let mut last = terms.clone();
        for _ in 0..degree {
            let mut next: Vec<Vec<usize>> = Vec::new();
            for term in &last {
                for variable in 0..most.len() {
                    let mut higher = term.clone();
                    higher[variable] += 1;
                    if higher[variable] <= most[variable] && !next.contains(&higher) {
                        next.push(higher);
                    }
                }
            }
            terms.extend(next.iter().cloned());
            last = next;
        }
        Self { variables: most.len(), terms }
    }

    /// Number of terms, and of points.
    pub fn terms(&self) -> usize {
        self.terms.len()
    }

    /// Number of variables.
    pub fn variables(&self) -> usize {
        self.variables
    }

    /// Where the value that belongs to a term is wanted.
    pub fn point(&self, term: usize) -> Vec<f64> {
        self.terms[term].iter().map(|&index| PLACES[index]).collect()
    }

    /// Each term at a place, into the first of `out`.
    #[inline(always)]
    pub fn at<T: Number>(&self, one: T, place: &[T], out: &mut [T]) {
        let one = one.same(1.0);
        for (out, term) in out.iter_mut().zip(&self.terms) {
            *out = one;
            for (&index, x) in term.iter().zip(place) {
                for &before in &PLACES[..index] {
                    let scale = 1.0 / (PLACES[index] - before);
                    *out = *out * ((*x - one.same(before)) * one.same(scale));
                }
            }
        }
    }

    /// Coefficients from the values at every point, one row for each, in place.
    /// Rows at hand already, the first `done`, are coefficients.
    pub fn fit(&self, rows: &mut [Vec<f64>], done: usize) {
        let mut weights = vec![0.0; self.terms()];
        for term in done..self.terms().min(rows.len()) {
            self.at(1.0, &self.point(term), &mut weights);
            let (before, from) = rows.split_at_mut(term);
            for (row, weight) in before.iter().zip(&weights) {
                if *weight != 0.0 {
                    for (value, coefficient) in from[0].iter_mut().zip(row) {
                        *value -= weight * coefficient;
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Polynomial;

    /// A cubic in three variables comes back exactly, also when the degree is raised
    /// with the rows at hand.
    #[test]
    fn exact_a_cubic_comes_back() {
        let f = |x: &[f64]| {
            1.0 + x[0] - 2.0 * x[1] * x[2] + 0.5 * x[0] * x[0] * x[1] + 3.0 * x[2].powi(3)
        };
        let mut rows: Vec<Vec<f64>> = Vec::new();
        for degree in 1..=3 {
            let set = Polynomial::new(&[3; 3], degree);
            let done = rows.len();
            rows.extend((done..set.terms()).map(|term| vec![f(&set.point(term))]));
            set.fit(&mut rows, done);
        }
        assert_eq!(rows.len(), 20);
        let (set, place) = (Polynomial::new(&[3; 3], 3), [0.3, -0.8, 0.45]);
        let mut weights = [0.0; 20];
        set.at(1.0, &place, &mut weights);
        let sum: f64 = weights.iter().zip(&rows).map(|(w, row)| w * row[0]).sum();
        assert!((sum - f(&place)).abs() < 1e-13, "{sum}");
    }

    #[test]
    fn exact_no_variable_is_one_term() {
        let set = Polynomial::new(&[], 3);
        assert_eq!((set.terms(), set.point(0).len()), (1, 0));
    }
}
