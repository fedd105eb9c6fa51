use units::{Length, Pressure, Temperature};

use crate::{FlightError, Weather};

/// Air as the arrow meets it, SI.
///
/// Density follows CIPM-2007 for moist air \[cipm2007\]; viscosity and the speed
/// of sound follow the US Standard Atmosphere 1976 \[ussa1976\] for dry air at
/// the same temperature. See `docs/model/air.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Density, kg/m3.
    pub density: f64,
    /// Dynamic viscosity, Pa s.
    pub viscosity: f64,
    /// Speed of sound, m/s.
    pub sound: f64,
}

/// Zero of the Celsius scale, K. Defined.
const CELSIUS: f64 = 273.15;

/// Range of temperature, K: -40 to +50 degC, where people shoot. Chosen.
/// CIPM-2007 is stated for 15 to 27 degC; beyond that its error grows but stays
/// below 1e-3 in density.
const TEMPERATURE: (f64, f64) = (233.15, 323.15);
/// Range of pressure, Pa: 5000 m altitude to a strong high. Chosen.
const PRESSURE: (f64, f64) = (5.0e4, 1.1e5);
/// Range of altitude for [`standard_pressure`], m. Chosen: the lowest shore to
/// the highest camp.
const ALTITUDE: (f64, f64) = (-430.0, 5600.0);

impl Air {
    /// The air for some weather.
    ///
    /// # Errors
    /// [`FlightError::OutOfRange`] outside -40 to 50 degC, 500 to 1100 hPa, or
    /// a humidity outside 0 to 1.
    pub fn of(weather: &Weather) -> Result<Self, FlightError> {
        let kelvin = within("the air temperature", weather.temperature.si(), TEMPERATURE, " K")?;
        let pressure = within("the air pressure", weather.pressure.si(), PRESSURE, " Pa")?;
        let humidity = within("the humidity", weather.humidity.si(), (0.0, 1.0), "")?;
        Ok(Self {
            density: moist_density(kelvin, pressure, humidity),
            viscosity: viscosity(kelvin),
            sound: (GAMMA * GAS_CONSTANT_1976 * kelvin / MOLAR_MASS_1976).sqrt(),
        })
    }
}

pub(crate) fn within(
    what: &'static str,
    value: f64,
    (low, high): (f64, f64),
    unit: &'static str,
) -> Result<f64, FlightError> {
    if value >= low && value <= high {
        Ok(value)
    } else {
        Err(FlightError::OutOfRange { what, value, low, high, unit })
    }
}

/// Saturation vapour pressure over water, Pa \[cipm2007\].
fn saturation_pressure(kelvin: f64) -> f64 {
    (1.237_884_7e-5 * kelvin * kelvin - 1.912_131_6e-2 * kelvin + 33.937_110_47
        - 6.343_164_5e3 / kelvin)
        .exp()
}

/// Density of moist air with 400 ppm carbon dioxide, kg/m3 \[cipm2007\].
fn moist_density(kelvin: f64, pressure: f64, humidity: f64) -> f64 {
    const R: f64 = 8.314_472;
    const MOLAR_MASS_DRY: f64 = 28.965_46e-3;
    const VAPOUR_DEFICIT: f64 = 0.3780;
    let t = kelvin - CELSIUS;
    let enhancement = 1.000_62 + 3.14e-8 * pressure + 5.6e-7 * t * t;
    let vapour = humidity * enhancement * saturation_pressure(kelvin) / pressure;
    let compressibility = 1.0
        - pressure / kelvin
            * (1.581_23e-6 - 2.933_1e-8 * t
                + 1.104_3e-10 * t * t
                + (5.707e-6 - 2.051e-8 * t) * vapour
                + (1.989_8e-4 - 2.376e-6 * t) * vapour * vapour)
        + (pressure / kelvin).powi(2) * (1.83e-11 - 0.765e-8 * vapour * vapour);
    pressure * MOLAR_MASS_DRY / (compressibility * R * kelvin) * (1.0 - VAPOUR_DEFICIT * vapour)
}

/// Ratio of specific heats of air \[ussa1976\].
const GAMMA: f64 = 1.4;
/// Gas constant, J/(kmol K) \[ussa1976\].
const GAS_CONSTANT_1976: f64 = 8314.32;
/// Mean molar mass at sea level, kg/kmol \[ussa1976\].
const MOLAR_MASS_1976: f64 = 28.9644;

/// Dynamic viscosity of air, Pa s: Sutherland's law \[ussa1976\].
fn viscosity(kelvin: f64) -> f64 {
    const BETA: f64 = 1.458e-6;
    const SUTHERLAND: f64 = 110.4;
    BETA * kelvin.powf(1.5) / (kelvin + SUTHERLAND)
}

/// Sea-level temperature, K, and its fall with height, K/m \[ussa1976\].
const SEA_LEVEL_TEMPERATURE: f64 = 288.15;
const LAPSE: f64 = 6.5e-3;

/// Radius of the Earth, m \[ussa1976\].
const EARTH_RADIUS: f64 = 6_356_766.0;

/// Geopotential height of a geometric altitude, m \[ussa1976\].
fn geopotential(altitude: Length) -> Result<f64, FlightError> {
    let z = within("the altitude", altitude.si(), ALTITUDE, " m")?;
    Ok(EARTH_RADIUS * z / (EARTH_RADIUS + z))
}

/// Temperature of the US Standard Atmosphere 1976 at a geometric altitude.
///
/// # Errors
/// [`FlightError::OutOfRange`] outside -430 to 5600 m.
pub fn standard_temperature(altitude: Length) -> Result<Temperature, FlightError> {
    Ok(Temperature::from_si(SEA_LEVEL_TEMPERATURE - LAPSE * geopotential(altitude)?))
}

/// Pressure of the US Standard Atmosphere 1976 at a geometric altitude
/// \[ussa1976\].
///
/// # Errors
/// [`FlightError::OutOfRange`] outside -430 to 5600 m.
pub fn standard_pressure(altitude: Length) -> Result<Pressure, FlightError> {
    const SEA_LEVEL_PRESSURE: f64 = 101_325.0;
    let exponent = units::STANDARD_GRAVITY * MOLAR_MASS_1976 / (GAS_CONSTANT_1976 * LAPSE);
    let ratio = standard_temperature(altitude)?.si() / SEA_LEVEL_TEMPERATURE;
    Ok(Pressure::from_si(SEA_LEVEL_PRESSURE * ratio.powf(exponent)))
}

/// Density of the US Standard Atmosphere 1976 below 11 km, kg/m3, at a geometric
/// altitude in m \[ussa1976\]; beyond it the same formula goes on.
pub(crate) fn standard_density(altitude: f64) -> f64 {
    const SEA_LEVEL_PRESSURE: f64 = 101_325.0;
    let height = EARTH_RADIUS * altitude / (EARTH_RADIUS + altitude);
    let kelvin = SEA_LEVEL_TEMPERATURE - LAPSE * height;
    let per_gas = MOLAR_MASS_1976 / GAS_CONSTANT_1976;
    let pressure = SEA_LEVEL_PRESSURE
        * (kelvin / SEA_LEVEL_TEMPERATURE).powf(units::STANDARD_GRAVITY * per_gas / LAPSE);
    pressure * per_gas / kelvin
}

#[cfg(test)]
mod tests {
    use super::{moist_density, viscosity};

    /// Water weighs less than the air it takes the place of: at 30 degC and full
    /// humidity a good per cent.
    #[test]
    fn law_moist_air_is_lighter() {
        let share = moist_density(303.15, 101_325.0, 1.0) / moist_density(303.15, 101_325.0, 0.0);
        assert!((0.97..0.99).contains(&share), "{share}");
    }

    /// Density goes with pressure over temperature but for the gas's own
    /// compressibility, which is below a thousandth here.
    #[test]
    fn law_dry_air_is_nearly_an_ideal_gas() {
        let of =
            |kelvin: f64, pressure: f64| moist_density(kelvin, pressure, 0.0) * kelvin / pressure;
        assert!((of(303.15, 80_000.0) / of(273.15, 100_000.0) - 1.0).abs() < 1e-3);
        assert!(viscosity(303.15) > viscosity(273.15));
    }
}
