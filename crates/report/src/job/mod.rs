//! A job at the bench: where each arrow stands, and what is printed for it.

mod card;
mod computed;
mod pages;
mod readings;
mod sheets;
mod show;
mod story;

pub use computed::{ArrowSizes, ComputedArrow};
pub use pages::job_files;
pub use show::job;
pub use story::JobStory;
