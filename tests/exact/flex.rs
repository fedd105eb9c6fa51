use arrow::Faults;
use clothyard_tests::push::{arrow, recurve};
use launch::{Departure, Flex, Form, GivenDeparture, MODES, beam, depart};
use units::Acceleration;
use units::Angle;

/// An arrow off the fingers, swinging to the left and right alone.
fn loosed() -> Departure {
    let (parts, built) = arrow(&Faults::default());
    let (form, given) = (Form::default(), GivenDeparture::default());
    let bow = launch::Bow { gravity: Acceleration::ZERO, ..recurve() };
    let end = depart(&bow, &parts, &built, Angle::ZERO, &form, &given).unwrap();
    assert!(end.flex.amplitude[1].iter().all(|q| *q == 0.0));
    end
}

/// q'' + 2 zeta omega q' + omega^2 q = 0 from the amplitude and rate at
/// departure, by central differences.
#[test]
fn exact_swing_after_departure() {
    let flex = loosed().flex;
    let at = |time: f64| flex.swing(time)[0];
    for k in 0..MODES {
        let (omega, decay) = (flex.frequency[k], flex.decay[k]);
        assert!((decay / omega - 0.02).abs() < 1e-12);
        assert!((at(0.0)[k] - flex.amplitude[0][k]).abs() < 1e-18);
        let step = 1e-4 / omega;
        let size = flex.amplitude[0][k].hypot(flex.rate[0][k] / omega);
        for time in [0.0, 0.7 / omega, 20.0 / omega] {
            let [before, here, after] = [time - step, time, time + step].map(|t| at(t)[k]);
            let rate = (after - before) / (2.0 * step);
            let bend = (after - 2.0 * here + before) / (step * step);
            let rest = (bend + 2.0 * decay * rate) / (omega * omega) + here;
            // Rounding, over the square of the step.
            assert!(rest.abs() < 1e-6 * size, "{k}: {rest} of {size}");
            if time == 0.0 {
                assert!((rate - flex.rate[0][k]).abs() < 1e-6 * size * omega);
            }
        }
    }
    let tip: f64 = at(0.003).iter().zip(&flex.tip).map(|(q, w)| q * w).sum();
    assert!((flex.tip_at(0.003)[0] - tip).abs() < 1e-18);
    assert!(flex.tip_at(1.0)[0].abs() < 1e-4 * flex.tip_at(0.0)[0].abs().max(1e-3));
}

/// The pull of the cross-flow on the swinging shaft, |u| u w' along it and over
/// its whole swing, `u = V w' - w_t`, added up in time; the mean of swings that
/// start at four phases, since the card's formula knows the amplitude alone.
#[test]
fn exact_speed_lost_to_the_swing() {
    let (parts, built) = arrow(&Faults::default());
    let end = loosed();
    let beam = beam(&parts, &built);
    let modes = beam.modes::<1>().unwrap();
    let omega = end.flex.frequency[0];
    let amplitude = end.flex.amplitude[0][0].hypot(end.flex.rate[0][0] / omega);
    let places = 60_u32;
    let length = (beam.front - beam.rear) / f64::from(places);
    let shape: Vec<(f64, f64)> = (0..places)
        .map(|i| modes.at(beam.rear + (f64::from(i) + 0.5) * length))
        .map(|(value, slope)| (value[0], slope[0]))
        .collect();
    let step = 0.04 / omega;
    let mut impulse = 0.0;
    for phase in 0..4 {
        let (sin, cos) = (f64::from(phase) * std::f64::consts::FRAC_PI_4).sin_cos();
        let mut swing = Flex { amplitude: [[0.0; MODES]; 2], rate: [[0.0; MODES]; 2], ..end.flex };
        swing.amplitude[0][0] = amplitude * cos;
        swing.rate[0][0] = amplitude * omega * sin;
        // Until the cube of the amplitude is down to e^-15.
        for i in 0..6_250 {
            let time = (f64::from(i) + 0.5) * step;
            let q = swing.swing(time)[0][0];
            let rate = (swing.swing(time + 0.001 * step)[0][0] - q) / (0.001 * step);
            for (value, slope) in &shape {
                let across = end.speed * slope * q - value * rate;
                impulse += 0.5 * across.abs() * across * slope * q * length * step / 4.0;
            }
        }
    }
    let lost = impulse / built.mass.mass().si();
    // The sum over 24 places and phases is good to a per cent.
    assert!((end.flex.slowing / lost - 1.0).abs() < 0.01, "{} {lost}", end.flex.slowing);
}
