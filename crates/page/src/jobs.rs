//! Heavy work: one job a visitor, a few at a time, each of which can be ended.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use study::{StudyError, Watch};
use tokio::sync::Semaphore;

use crate::PageError;

/// Jobs that run at once; each uses every core in its time. Chosen: a quick
/// answer does not wait for the end of one sharp one.
const SEATS: usize = 2;
/// Jobs that wait or run. Chosen: several times the visitors of a club night.
const MOST: usize = 256;

/// All jobs.
pub(crate) struct Jobs {
    seats: Semaphore,
    running: Mutex<Vec<(String, Flag)>>,
}

/// Ends a job.
#[derive(Clone, Default)]
pub(crate) struct Flag(Arc<AtomicBool>);

impl Watch for Flag {
    fn planned(&self, _flights: u64) {}
    fn done(&self, _flights: u64) {}
    fn cancelled(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

impl Flag {
    fn end(&self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// A job on the list; off it, and ended, when nobody waits for it any more.
struct Listed {
    jobs: Arc<Jobs>,
    flag: Flag,
}

impl Drop for Listed {
    fn drop(&mut self) {
        self.flag.end();
        self.jobs.list(|list| list.retain(|(_, flag)| !Arc::ptr_eq(&flag.0, &self.flag.0)));
    }
}

impl Jobs {
    pub(crate) fn new() -> Self {
        Self { seats: Semaphore::new(SEATS), running: Mutex::default() }
    }

    fn list<T>(&self, work: impl FnOnce(&mut Vec<(String, Flag)>) -> T) -> T {
        work(&mut self.running.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// Does work for a visitor, in place of whatever runs for the same one. An
    /// empty name is nobody's, and replaces nothing.
    pub(crate) async fn run<T: Send + 'static>(
        self: &Arc<Self>,
        visitor: &str,
        work: impl FnOnce(&Flag) -> Result<T, PageError> + Send + 'static,
    ) -> Result<T, PageError> {
        let flag = Flag::default();
        let room = self.list(|list| {
            for (_, old) in list.iter().filter(|(name, _)| !name.is_empty() && name == visitor) {
                old.end();
            }
            let room = list.len() < MOST;
            if room {
                list.push((visitor.to_owned(), flag.clone()));
            }
            room
        });
        if !room {
            return Err(PageError::Busy);
        }
        let listed = Listed { jobs: Arc::clone(self), flag: flag.clone() };
        let seat = self.seats.acquire().await.map_err(|_| PageError::Lost)?;
        if flag.cancelled() {
            return Err(PageError::Overtaken);
        }
        let done = tokio::task::spawn_blocking(move || work(&flag)).await;
        drop(seat);
        drop(listed);
        match done {
            Ok(Err(PageError::Study(StudyError::Cancelled))) => Err(PageError::Overtaken),
            Ok(done) => done,
            Err(_) => Err(PageError::Lost),
        }
    }
}
