//! A job at the bench: whose arrows, how many, and how far each is.

use units::Length;

use crate::{Stage, Worked};

/// What a job is.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Job {
    /// Customer, or the builder's own name; empty where nobody is named.
    pub customer: String,
    /// The bow, in the user's words.
    pub bow: String,
    /// The batch of shafts.
    pub batch: String,
    /// How many arrows, numbered from 1.
    pub arrows: u32,
    /// The length to which shafts are cut.
    pub length: Option<Length>,
    /// A date, in the user's words.
    pub date: String,
}

/// The stages in order.
pub const STAGES: [Stage; 5] = [Stage::Raw, Stage::Cut, Stage::Squared, Stage::Built, Stage::Shot];

impl Job {
    /// Whether an arrow of this number belongs to it.
    pub fn has(&self, name: &str) -> bool {
        name.parse::<u32>().is_ok_and(|number| (1..=self.arrows).contains(&number))
            && !name.starts_with(['0', '+'])
    }

    /// Every arrow by number: what was entered, or nothing yet. Entries of other
    /// numbers come behind.
    pub fn standing(&self, entered: &[Worked]) -> Vec<Worked> {
        let of = |number: u32| {
            let name = number.to_string();
            let known = entered.iter().find(|arrow| arrow.name == name).cloned();
            known.unwrap_or_else(|| Worked { name, ..Worked::default() })
        };
        let strange = entered.iter().filter(|arrow| !self.has(&arrow.name)).cloned();
        (1..=self.arrows).map(of).chain(strange).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_every_number_of_a_job_stands_once() {
        let job = Job { arrows: 3, ..Job::default() };
        let entered = ["2", "9"].map(|name| Worked { name: name.into(), ..Worked::default() });
        let names: Vec<String> = job.standing(&entered).into_iter().map(|a| a.name).collect();
        assert_eq!(names, ["1", "2", "3", "9"]);
        assert!(job.has("3") && !job.has("0") && !job.has("03") && !job.has("4") && !job.has("x"));
    }
}
