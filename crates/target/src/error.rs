/// Why there is no answer about impacts, faces or groups.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum TargetError {
    /// Too few things to take statistics of.
    #[error("too few {what}: {count} given, at least {needed} needed")]
    TooFew {
        /// What is counted.
        what: &'static str,
        /// How many were given.
        count: usize,
        /// How many are needed.
        needed: usize,
    },
    /// More shots than a table holds.
    #[error("{count} shots are more than the {most} whose extreme spread is tabled")]
    ManyShots {
        /// How many were given.
        count: usize,
        /// The most.
        most: usize,
    },
    /// A score that no group, or any, would shoot.
    #[error(
        "{points} points with {arrows} arrows say nothing of sigma; above 0 and below {full} do"
    )]
    NoSigma {
        /// Points of the round.
        points: u32,
        /// Its arrows.
        arrows: u32,
        /// Points of tens alone.
        full: u32,
    },
    /// A look at a test that is none of its looks.
    #[error("look {look} is none of {looks} looks; a test has 1 to {most}")]
    Look {
        /// The look.
        look: u32,
        /// The looks there are.
        looks: u32,
        /// The most there may be.
        most: u32,
    },
    /// An impact is not finite, or too far for its square to be finite.
    #[error("impact {index} is {left} m left, {up} m up; both must be finite, at most {limit:e} m")]
    Impact {
        /// Index of the impact, from zero.
        index: usize,
        /// Its place to the left, m.
        left: f64,
        /// Its place upward, m.
        up: f64,
        /// The largest distance taken, m.
        limit: f64,
    },
    /// A value is not finite, or too large for its square to be finite.
    #[error("value {index} is {value}; it must be finite, at most {limit:e}")]
    Value {
        /// Index of the value, from zero.
        index: usize,
        /// The value.
        value: f64,
        /// The largest size taken.
        limit: f64,
    },
    /// More hits than shots.
    #[error("{hits} hits out of {of} shots; hits cannot exceed shots")]
    Hits {
        /// Hits given.
        hits: usize,
        /// Shots given.
        of: usize,
    },
    /// A size that must be above zero is not.
    #[error("{what} is {value} m; it must be a finite number above zero")]
    NotPositive {
        /// Which size.
        what: &'static str,
        /// The value, m.
        value: f64,
    },
    /// A size that may be zero is negative or not finite.
    #[error("{what} is {value} m; it must be a finite number, zero or above")]
    Negative {
        /// Which size.
        what: &'static str,
        /// The value, m.
        value: f64,
    },
    /// A share that must lie between none and all does not.
    #[error("{what} is {value}; it must lie between 0 and 1")]
    Share {
        /// Which share.
        what: &'static str,
        /// The value.
        value: f64,
    },
    /// A score that no ring gives.
    #[error("score {index} is {score}; an arrow scores 0 to 10")]
    Score {
        /// Index of the score, from zero.
        index: usize,
        /// The score.
        score: u8,
    },
    /// All impacts of the second group are at one point.
    #[error("the second group has no spread, so there is no ratio of spreads")]
    NoSpread,
}

/// Refuses a size that is not a finite number above zero.
pub(crate) fn positive(what: &'static str, value: f64) -> Result<f64, TargetError> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(TargetError::NotPositive { what, value })
    }
}

/// Refuses a size that is not a finite number, zero or above.
pub(crate) fn not_negative(what: &'static str, value: f64) -> Result<f64, TargetError> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(TargetError::Negative { what, value })
    }
}
