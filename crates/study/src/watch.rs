/// Follows a run and may end it early.
///
/// Called from several threads at once.
pub trait Watch: Sync {
    /// This many more flights are planned. With a stopping rule it is called
    /// again for each further batch.
    fn planned(&self, flights: u64);
    /// This many more flights will be planned at the end, whatever else is: told
    /// before anything is flown.
    fn at_the_end(&self, _flights: u64) {}
    /// The flights told of by [`Watch::at_the_end`] come next, and are planned now.
    fn the_end_begins(&self) {}
    /// This many more flights are done.
    fn done(&self, flights: u64);
    /// Whether a run that is ended early gives what it knows, if that is a whole answer
    /// but for its bands.
    fn wants_part(&self) -> bool {
        false
    }
    /// Whether the run should end; asked between batches of flights.
    fn cancelled(&self) -> bool {
        false
    }
}

/// Follows nothing.
#[derive(Debug, Clone, Copy, Default)]
pub struct Quiet;

impl Watch for Quiet {
    fn planned(&self, _flights: u64) {}
    fn done(&self, _flights: u64) {}
}

/// Follows a run within another: it may be ended, and tells no flights of its
/// own.
pub(crate) struct Inner<'a>(pub(crate) &'a dyn Watch);

impl Watch for Inner<'_> {
    fn planned(&self, _flights: u64) {}
    fn done(&self, _flights: u64) {}
    fn cancelled(&self) -> bool {
        self.0.cancelled()
    }
}
