/// Why a numerical task has no answer.
///
/// `at` is a value of the independent variable and `component` an index into
/// the state, from zero.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum SolveError {
    /// There is no mark, so no end to integrate to.
    #[error("there are no marks to integrate to")]
    NoMarks,
    /// A mark is not finite, below zero, or not above the one before.
    #[error("mark {index} is {value}; marks must be finite, not below zero and strictly rising")]
    Marks {
        /// Index of the mark, from zero.
        index: usize,
        /// The mark.
        value: f64,
    },
    /// A setting of the method is not a finite number above zero.
    #[error("{what} is {value}; it must be a finite number above zero")]
    Setting {
        /// Which setting.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// A component of the state, or its derivative, is not a finite number.
    #[error("component {component} of the state or its derivative is not finite at {at}")]
    NotFinite {
        /// Where.
        at: f64,
        /// The first bad component.
        component: usize,
    },
    /// The function whose zero is sought is not a finite number.
    #[error("the function whose zero is sought is not finite at {at}")]
    FunctionNotFinite {
        /// Where.
        at: f64,
    },
    /// No step, however small, meets the tolerance.
    #[error("no step at {at} is small enough for the tolerance")]
    StepUnderflow {
        /// Where.
        at: f64,
    },
    /// The allowed number of steps was used up before the end.
    #[error("{steps} steps were used up at {at}")]
    TooManySteps {
        /// Where.
        at: f64,
        /// Steps tried, rejected ones included.
        steps: u32,
    },
    /// Stability, not accuracy, limits the step: the wrong method for the
    /// equations.
    #[error("the equations are too stiff for an explicit method at {at}")]
    Stiff {
        /// Where.
        at: f64,
    },
    /// The function has the same sign at both ends of the bracket.
    #[error("no sign change between {low} and {high}: the function is {f_low} and {f_high} there")]
    NoBracket {
        /// Lower end.
        low: f64,
        /// Upper end.
        high: f64,
        /// Function at the lower end.
        f_low: f64,
        /// Function at the upper end.
        f_high: f64,
    },
    /// A table has fewer than two rows.
    #[error("a table needs at least two rows, not {rows}")]
    TableShort {
        /// Rows given.
        rows: usize,
    },
    /// A row of a table is not finite, or its x not above the one before.
    #[error("row {index} of the table is ({x}, {y}); rows must be finite and x strictly rising")]
    TableRow {
        /// Index of the row, from zero.
        index: usize,
        /// Its x.
        x: f64,
        /// Its y.
        y: f64,
    },
    /// A value outside the table.
    #[error("{value} is outside the table, which runs from {low} to {high}")]
    OutOfTable {
        /// The value asked for.
        value: f64,
        /// First x of the table.
        low: f64,
        /// Last x of the table.
        high: f64,
    },
    /// Fewer residuals than values sought, or no value sought.
    #[error("{residuals} residuals cannot tell {values} values")]
    FewResiduals {
        /// Residuals.
        residuals: usize,
        /// Values sought.
        values: usize,
    },
    /// The residuals have no finite size where the search starts.
    #[error("the residuals are not finite where the fit starts")]
    NoResiduals,
    /// The search for the least sum of squares did not settle.
    #[error("the fit did not settle in {evaluations} evaluations")]
    NotFitted {
        /// Evaluations made.
        evaluations: usize,
    },
}
