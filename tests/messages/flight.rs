use arrow::Effects;
use body::State;
use clothyard_tests::{built, choice, hunter, site, start};
use flight::{
    Air, FlightEnd, FlightError, GivenAero, Shortfall, Site, Tolerance, Weather, WindProfile, fly,
    model, standard_pressure,
};
use insta::assert_snapshot;
use nalgebra::Vector3;
use units::{Length, PerLength, Pressure, Ratio, Speed, Temperature};

fn weather(change: impl Fn(&mut Weather)) -> FlightError {
    let mut weather = site().weather;
    change(&mut weather);
    Air::of(&weather).unwrap_err()
}

#[test]
fn regress_messages_about_the_air() {
    let humid = |w: &mut Weather| w.humidity = Ratio::from_si(1.2);
    assert_snapshot!(weather(|w| w.temperature = Temperature::from_si(350.0)), @"the air temperature is 350 K; it must lie between 233.15 and 323.15 K");
    assert_snapshot!(weather(|w| w.pressure = Pressure::from_si(f64::NAN)), @"the air pressure is NaN Pa; it must lie between 50000 and 110000 Pa");
    assert_snapshot!(weather(humid), @"the humidity is 1.2; it must lie between 0 and 1");
    assert_snapshot!(standard_pressure(Length::from_si(20_000.0)).unwrap_err(), @"the altitude is 20000 m; it must lie between -430 and 5600 m");
}

fn at(site: &Site, given: GivenAero, speed: f64) -> FlightError {
    let mut choice = choice();
    choice.given = given;
    let arrow = built(Effects::default());
    model(&hunter(), &arrow, &choice, site, Speed::from_si(speed)).unwrap_err()
}

#[test]
fn regress_messages_about_an_arrow_in_the_air() {
    assert_snapshot!(at(&site(), GivenAero::default(), 0.0), @"the departure speed is 0 m/s; drag needs a speed above zero");
    let drag = GivenAero { drag: Some(Ratio::from_si(f64::NAN)), ..GivenAero::default() };
    assert_snapshot!(at(&site(), drag, 80.0), @"the drag area comes out as NaN; check the sizes it is made from");
    let mut windy = site();
    windy.wind.profile =
        Some(WindProfile { height: Length::from_si(10.0), roughness: Length::ZERO });
    assert_snapshot!(at(&windy, GivenAero::default(), 80.0), @"the roughness length is 0 m; it must lie between 0.0002 and 0.4 m");
}

fn from(change: impl Fn(&mut State), marks: &[f64]) -> FlightError {
    let arrow = built(Effects::default());
    let model = model(&hunter(), &arrow, &choice(), &site(), Speed::from_si(80.0)).unwrap();
    let mut state = start(80.0);
    change(&mut state);
    fly(&model, &state, marks, &Tolerance::default()).unwrap_err()
}

#[test]
fn regress_messages_about_a_start() {
    assert_snapshot!(from(|s| s.spin = f64::INFINITY, &[20.0]), @"the starting state cannot fly: a component is not a finite number");
    assert_snapshot!(from(|s| s.velocity.x = -80.0, &[20.0]), @"the starting state cannot fly: it does not move toward the target");
    assert_snapshot!(from(|s| s.axis = Vector3::zeros(), &[20.0]), @"the starting state cannot fly: its axis is not a unit vector");
    assert_snapshot!(from(|_| {}, &[20.0, 10.0]), @"mark 1 is 10; marks must be finite, not below zero and strictly rising");
}

#[test]
fn regress_messages_about_a_flight_that_ends_short() {
    let mut choice = choice();
    choice.given.deceleration = Some(PerLength::from_si(0.1));
    let arrow = built(Effects::default());
    let stuck = model(&hunter(), &arrow, &choice, &site(), Speed::from_si(80.0)).unwrap();
    let flown = fly(&stuck, &start(80.0), &[60.0], &Tolerance::default()).unwrap();
    let FlightEnd::Short { why, .. } = flown.end else { panic!("it arrived") };
    assert_snapshot!(why, @"it no longer moves toward the target");
    assert_snapshot!(Shortfall::Tumbled, @"it turned more than 45 degrees from its path");
}
