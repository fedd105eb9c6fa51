use crate::document::Part;

/// What one of them tells, in order.
pub(super) struct Story {
    /// The answer in a sentence or two.
    pub(super) headline: String,
    pub(super) parts: Vec<Part>,
    /// The short answer; empty where the headline and the first table are it.
    pub(super) short: Vec<Part>,
    /// What the numbers rest on.
    pub(super) sure: Vec<&'static str>,
    /// Whether carbon is cut or sanded for it.
    pub(super) saws: bool,
}
