//! How a shot cannot be.

/// A shot that cannot be.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ShotFault {
    /// A number that is not finite, or an error that is not above zero.
    #[error("line {line}: {what} is {value}; it must be a finite number{}", if *above { " above zero" } else { "" })]
    Number {
        /// Its line.
        line: usize,
        /// Which number.
        what: &'static str,
        /// The number.
        value: f64,
        /// Whether it must be above zero.
        above: bool,
    },
    /// A reading so far from what is possible that its unit is in doubt.
    #[error(
        "line {line}: this {what} is {times:.3} times what this bow and arrow give; is its unit \
         right?"
    )]
    Unit {
        /// Its line.
        line: usize,
        /// What was read.
        what: &'static str,
        /// The reading over the computed one.
        times: f64,
    },
    /// Two sight marks whose distances and readings run against the others.
    #[error(
        "lines {first} and {second}: these marks lie in the wrong order; on this sight marks \
         {way} with distance"
    )]
    Crossing {
        /// Line of the nearer mark.
        first: usize,
        /// Line of the farther one.
        second: usize,
        /// Whether they rise or fall.
        way: &'static str,
    },
    /// A shot held against itself.
    #[error("line {line}: the pin's distance is the distance shot; nothing is measured")]
    SamePin {
        /// Its line.
        line: usize,
    },
}
