use body::{MassError, MassProperties};
use insta::assert_snapshot;
use units::{Inertia, Length, Mass};

fn fails(mass: f64, balance: f64, transverse: f64, axial: f64) -> MassError {
    MassProperties::new(
        Mass::from_si(mass),
        Length::from_si(balance),
        Inertia::from_si(transverse),
        Inertia::from_si(axial),
    )
    .unwrap_err()
}

#[test]
fn regress_messages_about_mass_properties() {
    assert_snapshot!(fails(0.0, 0.4, 1.9e-3, 2e-7), @"the mass in kg is 0; it must be a finite number above zero");
    assert_snapshot!(fails(f64::NAN, 0.4, 1.9e-3, 2e-7), @"the mass in kg is NaN; it must be a finite number above zero");
    assert_snapshot!(fails(0.028, f64::INFINITY, 1.9e-3, 2e-7), @"the balance point is inf m; it must be a finite number");
    assert_snapshot!(fails(0.028, 0.4, -1.9e-3, 2e-7), @"the transverse inertia in kg m2 is -0.0019; it must be a finite number above zero");
    assert_snapshot!(fails(0.028, 0.4, 1.9e-3, 0.0), @"the axial inertia in kg m2 is 0; it must be a finite number above zero");
    assert_snapshot!(fails(0.028, 0.4, 1e-3, 2.5e-3), @"axial inertia 0.0025 kg m2 is more than twice the transverse 0.001 kg m2; no body of positive mass has that");
}
