use crate::SolveError;

/// A function given at points, linear between them.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    rows: Vec<(f64, f64)>,
}

impl Table {
    /// A table from rows `(x, y)` with x strictly rising.
    ///
    /// # Errors
    /// [`SolveError::TableShort`] below two rows; [`SolveError::TableRow`]
    /// names the first row that is not finite or does not rise.
    pub fn new(rows: Vec<(f64, f64)>) -> Result<Self, SolveError> {
        if rows.len() < 2 {
            return Err(SolveError::TableShort { rows: rows.len() });
        }
        let mut before = f64::NEG_INFINITY;
        for (index, &(x, y)) in rows.iter().enumerate() {
            if !(x.is_finite() && y.is_finite() && x > before) {
                return Err(SolveError::TableRow { index, x, y });
            }
            before = x;
        }
        Ok(Self { rows })
    }

    /// The first and the last x.
    pub fn range(&self) -> (f64, f64) {
        (self.rows[0].0, self.rows[self.rows.len() - 1].0)
    }

    /// The value at `x`.
    ///
    /// # Errors
    /// [`SolveError::OutOfTable`] outside [`range`](Self::range), and for a
    /// value that is not a number.
    pub fn at(&self, x: f64) -> Result<f64, SolveError> {
        let (low, high) = self.range();
        if !(low..=high).contains(&x) {
            return Err(SolveError::OutOfTable { value: x, low, high });
        }
        let next = self.rows.partition_point(|row| row.0 <= x).min(self.rows.len() - 1);
        let ((x0, y0), (x1, y1)) = (self.rows[next - 1], self.rows[next]);
        let share = (x - x0) / (x1 - x0);
        Ok(y0 * (1.0 - share) + y1 * share)
    }
}

#[cfg(test)]
mod tests {
    use super::Table;
    use crate::SolveError;

    #[test]
    fn exact_a_table_is_linear_between_and_refuses_beyond() -> Result<(), SolveError> {
        let table = Table::new(vec![(0.0, 1.0), (2.0, 5.0), (3.0, 4.0)])?;
        for (x, y) in [(0.0, 1.0), (1.0, 3.0), (2.0, 5.0), (2.5, 4.5), (3.0, 4.0)] {
            assert!((table.at(x)? - y).abs() < 1e-15, "{x}");
        }
        assert!(table.at(3.1).is_err() && table.at(f64::NAN).is_err());
        Ok(())
    }
}
