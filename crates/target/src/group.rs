/// Where an arrow met the impact plane, from the point of aim, m.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Impact {
    /// To the archer's left.
    pub left: f64,
    /// Up.
    pub up: f64,
}

/// A value with its 95 % interval, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The estimate.
    pub value: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end of the 95 % interval.
    pub high: f64,
}

/// Statistics of a group of impacts, about the group's own centre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Group {
    /// Number of impacts.
    pub count: usize,
    /// Centre of the group.
    pub centre: Impact,
    /// Standard deviation sideways, m.
    pub sigma_left: Estimate,
    /// Standard deviation up-down, m.
    pub sigma_up: Estimate,
    /// Root mean of the two variances, m.
    pub sigma: Estimate,
    /// Mean distance from the centre, m.
    pub mean_radius: Estimate,
    /// Radius that holds half of the impacts, m.
    pub r50: Estimate,
    /// Radius that holds nine tenths of the impacts, m.
    pub r90: Estimate,
    /// Mean largest distance between two impacts of a six-shot group, m.
    pub spread6: Estimate,
}
