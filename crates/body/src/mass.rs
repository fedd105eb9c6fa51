use units::{Inertia, Length, Mass};

/// Mass, balance point and principal moments of inertia of an arrow.
///
/// The inertias are about the balance point: `transverse` about any axis
/// across the shaft, `axial` about the shaft. No products of inertia: the
/// tilt of the principal axis is a fault and lives with the faults.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MassProperties {
    mass: Mass,
    balance: Length,
    transverse: Inertia,
    axial: Inertia,
}

/// Why a set of mass properties cannot be a body.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum MassError {
    /// A value is not finite and above zero.
    #[error("{what} is {value}; it must be a finite number above zero")]
    NotPositive {
        /// Which value, with its unit.
        what: &'static str,
        /// The value in SI.
        value: f64,
    },
    /// The balance point is not a finite number.
    #[error("the balance point is {value} m; it must be a finite number")]
    Balance {
        /// The value, m.
        value: f64,
    },
    /// The axial inertia exceeds twice the transverse one, which no mass
    /// distribution allows.
    #[error(
        "axial inertia {axial} kg m2 is more than twice the transverse {transverse} kg m2; \
         no body of positive mass has that"
    )]
    Triangle {
        /// Axial inertia, kg m2.
        axial: f64,
        /// Transverse inertia, kg m2.
        transverse: f64,
    },
}

impl MassProperties {
    /// Builds the properties, refusing what no body can have.
    ///
    /// `balance` is measured from the bottom of the nock groove, forward.
    ///
    /// # Errors
    /// [`MassError`] where a value is not positive and finite, or where the
    /// inertias break the triangle inequality.
    pub fn new(
        mass: Mass,
        balance: Length,
        transverse: Inertia,
        axial: Inertia,
    ) -> Result<Self, MassError> {
        for (what, value) in [
            ("the mass in kg", mass.si()),
            ("the transverse inertia in kg m2", transverse.si()),
            ("the axial inertia in kg m2", axial.si()),
        ] {
            if !(value.is_finite() && value > 0.0) {
                return Err(MassError::NotPositive { what, value });
            }
        }
        if !balance.si().is_finite() {
            return Err(MassError::Balance { value: balance.si() });
        }
        if axial.si() > 2.0 * transverse.si() {
            return Err(MassError::Triangle { axial: axial.si(), transverse: transverse.si() });
        }
        Ok(Self { mass, balance, transverse, axial })
    }

    /// Mass.
    pub fn mass(&self) -> Mass {
        self.mass
    }

    /// Balance point from the bottom of the nock groove, forward.
    pub fn balance(&self) -> Length {
        self.balance
    }

    /// Moment of inertia about any axis across the shaft through the balance
    /// point.
    pub fn transverse(&self) -> Inertia {
        self.transverse
    }

    /// Moment of inertia about the shaft.
    pub fn axial(&self) -> Inertia {
        self.axial
    }
}
