/// Why coefficients cannot be built up.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum AeroError {
    /// The reference speed for drag is not above zero.
    #[error("the departure speed is {speed} m/s; drag needs a speed above zero")]
    Speed {
        /// The speed, m/s.
        speed: f64,
    },
    /// A built-up or given coefficient is not finite.
    #[error("the {what} comes out as {value}; check the sizes it is made from")]
    NotFinite {
        /// Which coefficient.
        what: &'static str,
        /// Its value.
        value: f64,
    },
}
