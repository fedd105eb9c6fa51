//! Air against standards, and wind with height.

use clothyard_tests::{built, choice, hunter, site, start};
use flight::{Air, Weather, WindProfile, standard_pressure, standard_temperature};
use units::{Angle, Length, Pressure, Ratio, Speed, Temperature};

fn air(kelvin: f64, pascal: f64, humidity: f64) -> Air {
    Air::of(&Weather {
        temperature: Temperature::from_si(kelvin),
        pressure: Pressure::from_si(pascal),
        humidity: Ratio::from_si(humidity),
    })
    .unwrap()
}

fn relative(got: f64, want: f64, within: f64) {
    assert!((got / want - 1.0).abs() <= within, "got {got}, want {want} within {within}");
}

/// US Standard Atmosphere 1976 (same as ISO 2533 here), geometric height:
/// temperature, pressure, density, sound, viscosity (R, C; package fluids 1.3.1).
/// Our dry density is that of CIPM-2007, whose molar mass (400 ppm of carbon
/// dioxide) and compressibility differ from the 1976 ideal gas by 4e-4.
#[test]
fn published_standard_atmosphere() {
    let table = [
        (0.0, 288.15, 101_325.0, 1.224_999_2, 340.294_11, 1.789_380_3e-5),
        (1000.0, 281.651_02, 89_876.285, 1.111_659_0, 336.434_70, 1.757_850_5e-5),
        (3000.0, 268.659_20, 70_121.162, 0.909_253_9, 328.583_67, 1.693_764_6e-5),
    ];
    for (height, kelvin, pascal, density, sound, viscosity) in table {
        let height = Length::from_si(height);
        relative(standard_temperature(height).unwrap().si(), kelvin, 2e-8);
        relative(standard_pressure(height).unwrap().si(), pascal, 1e-6);
        let dry = air(kelvin, pascal, 0.0);
        relative(dry.density, density, 5e-4);
        relative(dry.sound, sound, 1e-7);
        relative(dry.viscosity, viscosity, 1e-7);
    }
}

/// Moist air, CIPM-2007 (Picard et al., Metrologia 45, 2008, 149), 400 ppm:
/// 20 C, 101325 Pa, 50 %: 1.199314; 25 C, 95000 Pa, 80 %: 1.099188 (C),
/// printed to seven digits, hence 1e-6.
#[test]
fn published_moist_air() {
    relative(air(293.15, 101_325.0, 0.5).density, 1.199_314, 1e-6);
    relative(air(298.15, 95_000.0, 0.8).density, 1.099_188, 1e-6);
}

/// Log profile, U10 5 m/s, z0 .03 m, height 2 m: 3.61474 m/s (Davenport
/// roughness table). Read off the drift of a shot whose height hardly changes.
#[test]
fn published_log_wind_profile() {
    let mut windy = site();
    windy.release_height = Length::from_si(2.0);
    windy.gravity = units::Acceleration::ZERO;
    windy.wind.speed = Speed::from_si(5.0);
    windy.wind.from = Angle::from_si(std::f64::consts::FRAC_PI_2);
    windy.wind.profile =
        Some(WindProfile { height: Length::from_si(10.0), roughness: Length::from_si(0.03) });
    let model = flight::model(
        &hunter(),
        &built(arrow::Effects::default()),
        &choice(),
        &windy,
        Speed::from_si(80.0),
    )
    .unwrap();
    let tight = flight::Tolerance { relative: 1e-12, per_turn: 8.0 };
    let end = flight::fly_point(&model, &start(80.0), &[40.0], &tight).unwrap().marks[0];
    // The lag rule holds for any drag law as long as the drag is along the
    // air speed and that hardly turns: 1e-3 for 3.6 in 80 m/s.
    relative(end.position.y / (end.time - 40.0 / 80.0), 3.614_74, 2e-3);
}
