//! Heavy work: one job a visitor, a few at a time, each of which can be ended.

use core::time::Duration;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use study::{StudyError, Watch};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::time::Instant;

use crate::PageError;

/// Jobs that run at once; each uses every core in its time. Chosen: a quick
/// answer does not wait for the end of one sharp one.
const SEATS: usize = 2;
/// Jobs that wait or run. Chosen: several times the visitors of a club night.
const MOST: usize = 256;

/// Seconds after which the pace of a job is told. Chosen: the first flights carry the
/// cost of what is worked out beforehand.
const SETTLED: f64 = 1.0;

/// Who is not replaced, and replaces nobody.
pub(crate) const NOBODY: (&str, u64) = ("", 0);

/// Commands that fly arrows and run at once, of the seats. Chosen: one may take minutes,
/// and whoever moves a slider still finds a seat.
const BENCHES: usize = 1;

/// Light work that runs at once: files read and written, links taken apart.
/// Chosen: a slow disk does not hold up the next visitor.
const DESKS: usize = 4;

/// All jobs.
pub(crate) struct Jobs {
    seats: Arc<Semaphore>,
    desks: Arc<Semaphore>,
    benches: Arc<Semaphore>,
    /// In the order in which they came.
    listed: Mutex<Vec<Entry>>,
    /// Long work that waits or is done, by the tickets of those who asked.
    line: Mutex<Vec<String>>,
    turns: AtomicU64,
}

/// A job that waits or runs.
struct Entry {
    visitor: String,
    /// When its visitor asked, among all who did.
    turn: u64,
    flag: Flag,
    begun: bool,
}

/// Ends a job, and knows how far it is.
#[derive(Clone, Default)]
pub(crate) struct Flag(Arc<State>);

#[derive(Default)]
struct State {
    ended: AtomicBool,
    /// Flights planned so far, those told of for the end, and those flown.
    planned: AtomicU64,
    last: AtomicU64,
    flown: AtomicU64,
    began: OnceLock<Instant>,
}

impl Watch for Flag {
    fn planned(&self, flights: u64) {
        let _ = self.0.began.get_or_init(Instant::now);
        self.0.planned.fetch_add(flights, Ordering::Relaxed);
    }
    fn at_the_end(&self, flights: u64) {
        self.0.last.store(flights, Ordering::Relaxed);
    }
    fn the_end_begins(&self) {
        self.0.last.store(0, Ordering::Relaxed);
    }
    fn done(&self, flights: u64) {
        self.0.flown.fetch_add(flights, Ordering::Relaxed);
    }
    fn cancelled(&self) -> bool {
        self.0.ended.load(Ordering::Relaxed)
    }
}

impl Flag {
    fn is(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }

    fn end(&self) {
        self.0.ended.store(true, Ordering::Relaxed);
    }

    /// How far it is and how long it still takes at its pace so far, in words.
    fn pace(&self) -> Option<String> {
        let [planned, last, flown] =
            [&self.0.planned, &self.0.last, &self.0.flown].map(|all| all.load(Ordering::Relaxed));
        let all = planned.saturating_add(last).max(flown);
        let gone = self.0.began.get()?.elapsed().as_secs_f64();
        if flown == 0 || gone < SETTLED {
            return None;
        }
        let left = (gone * (all - flown) as f64 / flown as f64).ceil();
        Some(format!("{} % of {all} flights; about {left} s more", 100 * flown / all))
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
        self.jobs.list(|list| list.retain(|entry| !entry.flag.is(&self.flag)));
    }
}

/// A place in the line of long work, left when that is done or nobody waits for it.
struct Place {
    jobs: Arc<Jobs>,
    ticket: String,
}

impl Drop for Place {
    fn drop(&mut self) {
        self.jobs.stand(|line| {
            if let Some(at) = line.iter().position(|of| *of == self.ticket) {
                line.remove(at);
            }
        });
    }
}

impl Jobs {
    pub(crate) fn new() -> Self {
        let [seats, desks, benches] =
            [SEATS, DESKS, BENCHES].map(|places| Arc::new(Semaphore::new(places)));
        Self {
            seats,
            desks,
            benches,
            listed: Mutex::default(),
            line: Mutex::default(),
            turns: AtomicU64::new(0),
        }
    }

    fn list<T>(&self, work: impl FnOnce(&mut Vec<Entry>) -> T) -> T {
        work(&mut self.listed.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// How many jobs come before the one that waits for a visitor; none where none
    /// waits.
    pub(crate) fn before(&self, visitor: &str) -> Option<usize> {
        self.list(|list| {
            let own = |entry: &Entry| entry.visitor == visitor && !visitor.is_empty();
            let at = list.iter().rposition(|entry| own(entry) && !entry.flag.cancelled())?;
            let first = list[..at].iter().filter(|entry| !entry.flag.cancelled()).count();
            (!list[at].begun).then_some(first)
        })
    }

    /// How far the job of a visitor is, in words; none where that is not known.
    pub(crate) fn pace(&self, visitor: &str) -> Option<String> {
        let own = |entry: &&Entry| entry.visitor == visitor && !visitor.is_empty();
        self.list(|list| list.iter().rev().filter(own).find_map(|entry| entry.flag.pace()))
    }

    /// Does light work beside the heavy.
    pub(crate) async fn aside<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> Result<T, PageError> + Send + 'static,
    ) -> Result<T, PageError> {
        seated(&self.desks, work).await
    }

    /// Does what may take minutes, in its turn and beside what is quick; a ticket, where its
    /// visitor holds one, asks how many come first.
    pub(crate) async fn long<T: Send + 'static>(
        self: &Arc<Self>,
        ticket: String,
        work: impl FnOnce(&Flag) -> Result<T, PageError> + Send + 'static,
    ) -> Result<T, PageError> {
        self.stand(|line| line.push(ticket.clone()));
        let place = Place { jobs: Arc::clone(self), ticket };
        let bench = Arc::clone(&self.benches).acquire_owned().await.map_err(|_| PageError::Lost)?;
        let work = move |flag: &Flag| {
            let (_bench, _place) = (bench, place);
            work(flag)
        };
        self.run(NOBODY, None, work).await
    }

    fn stand<T>(&self, work: impl FnOnce(&mut Vec<String>) -> T) -> T {
        work(&mut self.line.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// How much long work comes before that of a ticket; none where it is not in line.
    pub(crate) fn ahead(&self, ticket: &str) -> Option<usize> {
        self.stand(|line| line.iter().position(|of| of == ticket && !ticket.is_empty()))
    }

    /// The place of a visitor's request among all; a stream keeps its own for every stage.
    pub(crate) fn turn(&self) -> u64 {
        self.turns.fetch_add(1, Ordering::Relaxed)
    }

    /// Does work for a visitor, in place of what the same one asked for before this turn;
    /// a later turn takes its place. An empty name is nobody's, and replaces nothing. With
    /// patience for so long, work that cannot begin is given up and the queue told.
    pub(crate) async fn run<T: Send + 'static>(
        self: &Arc<Self>,
        (visitor, turn): (&str, u64),
        patience: Option<Duration>,
        work: impl FnOnce(&Flag) -> Result<T, PageError> + Send + 'static,
    ) -> Result<T, PageError> {
        let flag = Flag::default();
        let room = self.list(|list| {
            let same = |entry: &&Entry| !visitor.is_empty() && entry.visitor == visitor;
            if list.iter().filter(same).any(|other| other.turn > turn) {
                return Err(PageError::Overtaken);
            }
            list.iter().filter(same).for_each(|old| old.flag.end());
            if list.len() >= MOST {
                return Err(PageError::Busy);
            }
            let (visitor, flag) = (visitor.to_owned(), flag.clone());
            list.push(Entry { visitor, turn, flag, begun: false });
            Ok(())
        });
        room?;
        let listed = Listed { jobs: Arc::clone(self), flag: flag.clone() };
        let seat = Arc::clone(&self.seats).acquire_owned();
        let seat = match patience {
            None => seat.await,
            Some(patience) => {
                let place = |list: &mut Vec<Entry>| {
                    list.iter().take_while(|entry| !entry.flag.is(&flag)).count()
                };
                let late = |_| PageError::Queue { before: self.list(place) };
                tokio::time::timeout(patience, seat).await.map_err(late)?
            }
        };
        let seat = seat.map_err(|_| PageError::Lost)?;
        if flag.cancelled() {
            return Err(PageError::Overtaken);
        }
        self.list(|list| {
            list.iter_mut().filter(|entry| entry.flag.is(&flag)).for_each(|own| own.begun = true);
        });
        let done = at(seat, move || work(&flag)).await;
        drop(listed);
        match done {
            Err(PageError::Study(StudyError::Cancelled)) => Err(PageError::Overtaken),
            done => done,
        }
    }
}

/// Does work at one of some places, once it is free.
async fn seated<T: Send + 'static>(
    places: &Arc<Semaphore>,
    work: impl FnOnce() -> Result<T, PageError> + Send + 'static,
) -> Result<T, PageError> {
    at(Arc::clone(places).acquire_owned().await.map_err(|_| PageError::Lost)?, work).await
}

/// Does work at a place, which is taken until the work is done: whoever asked for it may be
/// gone long before.
async fn at<T: Send + 'static>(
    place: OwnedSemaphorePermit,
    work: impl FnOnce() -> Result<T, PageError> + Send + 'static,
) -> Result<T, PageError> {
    let work = move || {
        let _place = place;
        work()
    };
    tokio::task::spawn_blocking(work).await.unwrap_or(Err(PageError::Lost))
}

#[cfg(test)]
mod tests {
    use std::sync::mpsc::channel;

    use super::*;

    const SHORT: Duration = Duration::from_millis(50);

    /// Whoever sent a form again and again, and left each time, once had all of them at work
    /// at once: a visitor then waited for minutes.
    #[test]
    fn regress_a_seat_is_taken_until_its_work_is_done() {
        let runtime = tokio::runtime::Builder::new_current_thread().enable_time().build();
        runtime.expect("a runtime").block_on(async {
            let jobs = Arc::new(Jobs::new());
            let mut ends = Vec::new();
            for _ in 0..SEATS {
                let (end, ended) = channel::<()>();
                ends.push(end);
                let work = move |flag: &Flag| {
                    // Work that minds no flag, but is told of it.
                    let _ = ended.recv();
                    assert!(flag.cancelled());
                    Ok(())
                };
                let left = tokio::time::timeout(SHORT, jobs.run(NOBODY, None, work)).await;
                assert!(left.is_err());
            }
            let refused = jobs.run(NOBODY, Some(SHORT), |_| Ok(())).await;
            assert!(matches!(refused, Err(PageError::Queue { .. })), "{refused:?}");
            drop(ends);
            assert!(matches!(jobs.run(NOBODY, None, |_| Ok(7)).await, Ok(7)));
        });
    }

    #[test]
    fn law_long_work_leaves_a_seat() {
        let runtime = tokio::runtime::Builder::new_current_thread().enable_time().build();
        runtime.expect("a runtime").block_on(async {
            let jobs = Arc::new(Jobs::new());
            let mut ends = Vec::new();
            for at in 0..=SEATS {
                let (end, ended) = channel::<()>();
                ends.push(end);
                let work = move |_: &Flag| {
                    let _ = ended.recv();
                    Ok(())
                };
                let ticket = format!("visitor {at}");
                let long = tokio::time::timeout(SHORT, jobs.long(ticket.clone(), work));
                let (left, told) = tokio::join!(long, async { jobs.ahead(&ticket) });
                // The first is at work after its visitor left; who waited and left is gone.
                assert!(left.is_err() && told == Some(usize::from(at > 0)), "{at}: {told:?}");
                assert_eq!(jobs.ahead(&ticket), (at == 0).then_some(0), "{at}");
                assert_eq!(jobs.ahead(""), None);
            }
            assert!(matches!(jobs.run(NOBODY, Some(SHORT), |_| Ok(7)).await, Ok(7)));
        });
    }
}
