/// How closely, and with how much effort, to integrate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Control<const N: usize> {
    /// Relative tolerance on each component, per step.
    pub relative: f64,
    /// The size of each component below which its tolerance is absolute, in
    /// its own unit: the absolute tolerance is `relative * scale`.
    pub scale: [f64; N],
    /// Longest step. The last one may be 1 % longer.
    pub step_max: f64,
    /// Most steps to try, rejected ones included.
    pub steps_max: u32,
}

/// What an integration cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Effort {
    /// Evaluations of the derivative.
    pub evaluations: u32,
    /// Steps accepted.
    pub accepted: u32,
    /// Steps rejected after the first accepted one.
    pub rejected: u32,
}
