//! Bending modes against closed forms.

use launch::{Beam, Lump};

/// Elements with which the closed forms are met to 1e-6; the fewer in everyday
/// use are held to these by a test.
const FINE: usize = 64;

fn bare(stiffness: f64, density: f64, length: f64) -> Beam {
    Beam { rear: 0.0, front: length, stiffness, density, gyration2: 0.0, lumps: Vec::new() }
}

fn with_ends(rear: f64, front: f64) -> Beam {
    let lump = |mass: f64, station: f64| Lump { mass, station, inertia: 0.0 };
    Beam { lumps: vec![lump(rear, 0.0), lump(front, 1.0)], ..bare(1.0, 1.0, 1.0) }
}

/// beta L of the k-th mode: omega = (beta L)^2 sqrt(EI/(m L^4)).
fn beta(beam: &Beam, mode: usize) -> f64 {
    let length = beam.front - beam.rear;
    let omega = beam.modes_with::<3>(FINE).unwrap().frequency[mode];
    (omega * (beam.density * length.powi(4) / beam.stiffness).sqrt()).sqrt()
}

fn close(got: f64, want: f64, within: f64) {
    assert!((got / want - 1.0).abs() < within, "got {got}, want {want} within {within}");
}

/// Uniform free-free beam: beta L 4.730040745, 7.853204624, 10.995607838;
/// node .224157523 L (Thomson, Theory of Vibration, App. D; C).
#[test]
fn published_free_free_beam() {
    let beam = bare(1.0, 1.0, 1.0);
    close(beta(&beam, 0), 4.730_040_745, 1e-6);
    close(beta(&beam, 1), 7.853_204_624, 1e-6);
    close(beta(&beam, 2), 10.995_607_838, 1e-6);
    let nodes = beam.modes_with::<1>(FINE).unwrap().nodes(0);
    assert_eq!(nodes.len(), 2);
    close(nodes[0], 0.224_157_523, 1e-5);
    close(nodes[1], 1.0 - 0.224_157_523, 1e-5);
}

/// One end mass over beam mass .25 / 1: beta1 4.248966929 / 4.041832136; end
/// masses .4 and .05: 4.004889356; both 1: 3.398799335 (determinant, C).
#[test]
fn exact_end_masses() {
    for (rear, front, want) in [
        (0.0, 0.25, 4.248_966_929),
        (0.0, 1.0, 4.041_832_136),
        (0.05, 0.4, 4.004_889_356),
        (1.0, 1.0, 3.398_799_335),
    ] {
        close(beta(&with_ends(rear, front), 0), want, 1e-6);
    }
}

/// EI 6.36566, .0204091 kg/m, .73 m: 118.00867 Hz bare, 84.59899 Hz with end
/// masses of .4 and .05 of the beam (C).
#[test]
fn exact_arrow_like_frequencies() {
    let beam = bare(6.365_66, 0.020_409_1, 0.73);
    let hertz =
        |beam: &Beam| beam.modes_with::<1>(FINE).unwrap().frequency[0] / std::f64::consts::TAU;
    close(hertz(&beam), 118.008_67, 2e-6);
    let shaft = beam.mass();
    let lump = |share: f64, station: f64| Lump { mass: share * shaft, station, inertia: 0.0 };
    let loaded = Beam { lumps: vec![lump(0.05, 0.0), lump(0.4, 0.73)], ..beam };
    close(hertz(&loaded), 84.598_99, 2e-6);
}

/// A heavy point on a nearly massless shaft is an Euler column held at both
/// ends: thrust pi^2 EI / L^2.
#[test]
fn exact_euler_column() {
    let beam = Beam {
        lumps: vec![Lump { mass: 1.0, station: 0.7, inertia: 0.0 }],
        ..bare(6.0, 1e-9, 0.7)
    };
    let thrust = beam.buckling_acceleration().unwrap() * 1.0;
    close(thrust, std::f64::consts::PI.powi(2) * 6.0 / 0.49, 1e-6);
}

/// More elements move the first four frequencies by less than 4e-4.
#[test]
fn law_modes_are_converged_in_elements() {
    let beam = Beam {
        rear: 0.01,
        front: 0.73,
        lumps: vec![
            Lump { mass: 0.0095, station: 0.735, inertia: 1e-7 },
            Lump { mass: 0.0013, station: 0.07, inertia: 1e-7 },
            Lump { mass: 0.0006, station: 0.004, inertia: 1e-8 },
        ],
        ..bare(7.0, 0.0204, 0.72)
    };
    let coarse = beam.modes::<4>().unwrap().frequency;
    let fine = beam.modes_with::<4>(32).unwrap().frequency;
    for (a, b) in coarse.iter().zip(fine) {
        close(*a, b, 4e-4);
    }
}
