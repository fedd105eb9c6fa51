//! What no sound part reads on a gauge: the one gate for every table and plan.

use crate::{Gauged, WorkbenchError};

impl Gauged {
    /// Refuses a total reading, m, that no sound part gives.
    ///
    /// # Errors
    /// [`WorkbenchError::Unsound`].
    pub fn sound(self, reading: f64) -> Result<f64, WorkbenchError> {
        let most = self.most();
        // A limit itself passes, whatever its rounding.
        if reading <= most * (1.0 + 1e-9) {
            Ok(reading)
        } else {
            Err(WorkbenchError::Unsound { of: self, reading })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_a_limit_passes_and_what_lies_above_is_asked_about() {
        for of in [Gauged::Middle, Gauged::End, Gauged::Face, Gauged::Wobble] {
            assert_eq!(of.sound(of.most()), Ok(of.most()));
            assert!(of.sound(1.001 * of.most()).is_err());
        }
        // A shaft that reads .060 in got a cut plan.
        let bent = Gauged::Middle.sound(0.06 * 0.0254).expect_err("bent").to_string();
        assert!(bent.contains("0.0600 in") && bent.contains("decimal point"), "{bent}");
    }
}
