//! Aerodynamic coefficients against publications. No constant of ours was
//! chosen by looking at these numbers.

use std::f64::consts::PI;

use arrow::{Built, Effects, Layout, Parts, PointShape};
use clothyard_tests::{built, choice, hunter, site};
use flight::aero::{FinSet, aero, roll_shares, turbulent_plate};
use flight::{AeroChoice, Air};
use units::{Angle, Length, Ratio};

fn close(what: &str, got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{what}: got {got}, want {want} within {within}");
}

fn circle(radius: f64) -> f64 {
    PI * radius * radius
}

/// Four fins, span .1 root .12 tip .04, body radius .0635: `CN_alpha`
/// 5.144746718, 0.055 aft of the root's leading edge (Barrowman; package
/// `rocketpy` 1.13; C). Barrowman's set is the fins alone: what the body carries
/// comes on top of it.
#[test]
fn published_barrowman_four_fins() {
    let fins = FinSet { count: 4.0, span: 0.1, root: 0.12, tip: 0.04, sweep: 0.08, radius: 0.0635 };
    close("slope", 2.0 * fins.lone_slope() / circle(0.0635), 5.144_746_718, 1e-9);
    close("centre", fins.centre(), 0.055, 1e-15);
}

fn arrow_like() -> FinSet {
    FinSet { count: 3.0, span: 0.009, root: 0.05, tip: 0.02, sweep: 0.03, radius: 0.003 }
}

/// Arrow-like: d 6 mm, three vanes span 9 root 50 tip 20 sweep 30 mm: fins
/// 15.935275 (isolated 12.748220, K 1.25), 22.142857 mm aft (C).
#[test]
fn published_barrowman_three_vanes() {
    let fins = arrow_like();
    let area = circle(0.003);
    close("isolated", 1.5 * fins.one_slope() / area, 12.748_220, 1e-6);
    close("interference", fins.lone_slope() / fins.one_slope(), 1.25, 1e-15);
    close("set", 1.5 * fins.lone_slope() / area, 15.935_275, 1e-6);
    close("centre", fins.centre(), 22.142_857e-3, 1e-9);
}

/// Model rocket, 29 mm body, three fins canted 5 deg, 48 to 66 m/s: 16 rev/s
/// measured; a strip-slope simulation gave half that (R). The fins' sizes are
/// not given: assumed between 1 and 1.6 body diameters of span, of root chord
/// 1.5 spans and tip chord half the root: 17 to 32 turns a second. A tenth of
/// slack at the lower end: friction and edges of the fins, left out here, take
/// 2 to 8 %.
#[test]
fn published_canted_fin_rocket() {
    let spin = |span: f64, speed: f64| {
        let root = 1.5 * span;
        let fins =
            FinSet { count: 3.0, span, root, tip: 0.5 * root, sweep: 0.5 * root, radius: 0.0145 };
        let [forcing, damping] = roll_shares(&fins);
        let strip = fins.strip_forcing() / fins.strip_damping();
        strip * forcing / damping * 5.0_f64.to_radians() * speed / (2.0 * PI)
    };
    let (least, most) = (spin(0.0464, 48.0), spin(0.029, 66.0));
    assert!(least / 1.1 < 16.0 && 16.0 < most, "{least} to {most}");
    assert!(least > 8.0, "half the measured spin is the strip-slope error");
}

/// Turbulent plate, Cf = 1/(1.5 ln R - 5.6)^2 (`OpenRocket` technical
/// documentation, R), against the Schlichting mean 0.455/(log10 R)^2.58 within
/// 4 % from 1e6 to 1e7 (value from memory, M).
#[test]
fn published_turbulent_plate() {
    for reynolds in [1e6_f64, 3e6, 1e7] {
        let schlichting = 0.455 / reynolds.log10().powf(2.58);
        close("ratio", turbulent_plate(reynolds) / schlichting, 1.0, 0.04);
    }
}

/// A target arrow such as those studies flew. Assumed: 5.2 mm, 0.64 m shaft,
/// streamlined point, three vanes of 45 x 8 mm.
fn target_arrow(span: f64, root: f64) -> (Parts, Built) {
    let mut parts = hunter();
    parts.shaft.outside = Length::from_si(0.0052);
    parts.point.shape = PointShape::Streamlined;
    let vanes = parts.vanes.as_mut().unwrap();
    vanes.angle = Angle::ZERO;
    vanes.span = Length::from_si(span);
    vanes.root = Length::from_si(root);
    vanes.tip = Length::from_si(0.4 * root);
    vanes.sweep = Length::from_si(0.5 * root);
    vanes.thickness = Length::from_si(0.0005);
    let base = built(Effects::default());
    let layout =
        Layout { shaft_front: Length::from_si(base.layout.shaft_rear.si() + 0.64), ..base.layout };
    (parts, Built { layout, ..base })
}

/// Drag coefficient at a Reynolds number on the diameter, with the nock's
/// drag at an end of its range.
fn drag(span: f64, root: f64, turbulence: f64, nock: f64, reynolds: f64) -> f64 {
    let air = Air::of(&site().weather).unwrap();
    let (parts, arrow) = target_arrow(span, root);
    let speed = reynolds * air.viscosity / air.density / parts.shaft.outside.si();
    let choice = AeroChoice {
        turbulence: Ratio::from_si(turbulence),
        nock_drag: Ratio::from_si(nock),
        ..choice()
    };
    aero(&parts, &arrow, &choice, &air, speed).unwrap().drag_coefficient(speed)
}

/// CD laminar / turbulent near Re 2e4: 1.3 / 2.6 (Miyazaki, research report
/// `18K03943`, 2020; R). The build-up's band (nock drag 0.3 to 0.6) must hold
/// each within 10 % of its ends, the geometry being assumed.
#[test]
fn published_drag_laminar_and_turbulent() {
    for (turbulence, want) in [(0.0, 1.3), (1.0, 2.6)] {
        let low = drag(0.008, 0.045, turbulence, 0.3, 2e4);
        let high = drag(0.008, 0.045, turbulence, 0.6, 2e4);
        assert!(low / 1.1 < want && want < high * 1.1, "{low} to {high} misses {want}");
    }
}

/// CD, arrow with small / large straight vanes, Re 1.2e4, magnetic suspension
/// tunnel: 1.56 / 2.05 (Ortiz et al. 2020, Proceedings 49(1):56; R). Vane sizes
/// are assumed: small 40 x 6 mm, large 75 x 12 mm. At this Reynolds number the
/// shaft is laminar.
#[test]
fn published_drag_small_and_large_vanes() {
    for (span, root, want) in [(0.006, 0.040, 1.56), (0.012, 0.075, 2.05)] {
        let low = drag(span, root, 0.0, 0.3, 1.2e4);
        let high = drag(span, root, 0.0, 0.6, 1.2e4);
        assert!(low / 1.1 < want && want < high * 1.1, "{low} to {high} misses {want}");
    }
}
