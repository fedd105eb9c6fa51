use units::Mass;

/// A kind of part of which each is weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PartKind {
    /// Point.
    Point,
    /// Insert.
    Insert,
    /// Nock.
    Nock,
}

/// Every kind, in the order of the work.
pub const PART_KINDS: [PartKind; 3] = [PartKind::Point, PartKind::Insert, PartKind::Nock];

/// A part that is on the bench and in no arrow yet.
#[derive(Debug, Clone, PartialEq)]
pub struct LoosePart {
    /// What it is.
    pub kind: PartKind,
    /// Its name or number.
    pub name: String,
    /// Its mass; none where it was not weighed.
    pub mass: Option<Mass>,
}
