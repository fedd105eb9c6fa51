use arrow::Parts;

use super::fins::FinSet;

/// The two sets of fins an arrow can have.
pub(super) struct Sets {
    /// Vanes on the shaft.
    pub(super) vanes: Option<FinSet>,
    /// Blades on the ferrule.
    pub(super) blades: Option<FinSet>,
}

impl Sets {
    pub(super) fn of(parts: &Parts) -> Self {
        let vanes = parts.vanes.as_ref().map(|vanes| FinSet {
            count: f64::from(vanes.count),
            span: vanes.span.si(),
            root: vanes.root.si(),
            tip: vanes.tip.si(),
            sweep: vanes.sweep.si(),
            radius: 0.5 * parts.shaft.outside.si(),
        });
        let blades = parts.point.blades.as_ref().map(|blades| FinSet {
            count: f64::from(blades.count),
            span: blades.span.si(),
            root: blades.root.si(),
            tip: blades.tip.si(),
            sweep: blades.sweep.si(),
            radius: 0.5 * parts.point.diameter.si(),
        });
        Self { vanes, blades }
    }
}
