//! The numbers of one setup, by key.

use units::Quantity;

use crate::schema::{COUNT, Id};

/// Every number of a setup, SI, in the order of the schema table.
pub(crate) struct Numbers<'a> {
    pub(crate) values: [f64; COUNT],
    /// The same before any change.
    pub(crate) unchanged: &'a [f64; COUNT],
    /// Which are in use.
    pub(crate) used: [bool; COUNT],
}

impl Numbers<'_> {
    pub(crate) fn has(&self, id: Id) -> bool {
        self.used[id as usize]
    }

    /// The number of a key that is in use.
    pub(crate) fn at<Q: Quantity>(&self, id: Id) -> Q {
        debug_assert_eq!(id.number().map(|n| n.dimension), Some(Q::DIMENSION), "{}", id.path());
        debug_assert!(self.has(id), "{} is not in use", id.path());
        Q::from_si(self.values[id as usize])
    }

    pub(crate) fn maybe<Q: Quantity>(&self, id: Id) -> Option<Q> {
        self.has(id).then(|| self.at(id))
    }

    /// A number that is nothing where its key has no say.
    pub(crate) fn or_zero<Q: Quantity>(&self, id: Id) -> Q {
        self.maybe(id).unwrap_or(Q::from_si(0.0))
    }

    /// A whole number; the range check has seen that it is small.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    pub(crate) fn count(&self, id: Id) -> u8 {
        debug_assert!(self.has(id), "{} is not in use", id.path());
        self.values[id as usize] as u8
    }
}
