//! Flight: air, wind, aerodynamics, point mass and six degrees of freedom.

mod site;

pub use site::{AeroChoice, GivenAero, Site, Weather, Wind, WindProfile};
