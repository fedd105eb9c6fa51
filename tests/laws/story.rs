//! The told push agrees with the push itself.

use clothyard_tests::push::{bow, faults, level, recurve};
use clothyard_tests::recipe::Simple;
use launch::Bow;
use study::{INSTANTS, PushTrace, Reel, film_push, trace_push};

fn shot(bow: Bow, by: f64) -> Simple {
    let mut recipe = Simple::new();
    recipe.base.bow = bow;
    recipe.base.faults = faults(by);
    recipe.base.index = units::Angle::from_si(0.4);
    recipe
}

fn told(bow: Bow, by: f64) -> PushTrace {
    trace_push(&shot(bow, by)).unwrap()
}

/// The recurve with a rest that falls before the string lets go: one that stays
/// may touch after, which the departure counts and the steps do not.
fn passed() -> Bow {
    let mut bow = recurve();
    bow.rest.share = units::Ratio::from_si(0.99);
    bow
}

/// The last step is the departure, the first one stands still at full draw.
#[test]
fn law_story_ends_in_the_departure() {
    for bow in [bow(), passed()] {
        let story = told(bow, 1.0);
        let (first, last) = (story.moments[0], *story.moments.last().unwrap());
        let d = &story.departure;
        assert_eq!(last.balance, [d.left, d.up]);
        assert_eq!(last.angle, [d.yaw, d.pitch]);
        assert!((last.speed - d.speed).abs() < 1e-9 * d.speed);
        // It lets go past brace.
        assert!((1.0..1.1).contains(&(last.travel / story.stroke)), "{}", last.travel);
        assert!(first.time == 0.0 && first.travel == 0.0 && first.speed == 0.0);
        assert!(first.nock.iter().all(|n| n.abs() < 1e-12), "the nock starts on its path");
    }
}

/// Tip and nock are where the straight arrow has them, plus the bending that
/// the departure tells.
#[test]
fn law_story_tip_is_on_the_bent_arrow() {
    let story = told(passed(), 0.0);
    let last = story.moments.last().unwrap();
    let built = &story.built;
    let (tip, balance) = (built.layout.tip.si(), built.mass.balance().si());
    let bent = [story.departure.flex.tip_at(0.0), story.departure.flex.nock_at(0.0)];
    for plane in 0..2 {
        let at = |station: f64| last.balance[plane] + (station - balance) * last.angle[plane];
        assert!((last.tip[plane] - at(tip) - bent[0][plane]).abs() < 1e-12);
        assert!((last.nock[plane] - at(0.0) - bent[1][plane]).abs() < 1e-12);
    }
    assert!(last.nock[0].abs() > 1e-6, "the release moved it");
}

/// Without a fault, a release, or a path, nothing moves sideways, and the story
/// says so.
#[test]
fn law_story_without_cause_stays_straight() {
    let story = told(level(), 0.0);
    assert!(!story.sideways);
    let off = story.shapes.iter().flat_map(|shape| &shape.places).flat_map(|place| place.off);
    assert!(off.into_iter().all(|v| v == 0.0));
    assert!(told(level(), 1.0).sideways);
}

/// The areas under the two curves are the stored energy and the arrow's, to
/// what 60 straight pieces make of a smooth curve.
#[test]
fn law_story_forces_do_the_work_of_the_budget() {
    for bow in [bow(), recurve()] {
        let story = told(bow, 0.0);
        let area = |read: fn(&study::StrokePoint) -> f64| -> f64 {
            let pairs = story.forces.windows(2);
            pairs.map(|p| 0.5 * (read(&p[0]) + read(&p[1])) * (p[1].travel - p[0].travel)).sum()
        };
        let near = |a: f64, b: f64| (a - b).abs() < 1e-3 * b;
        assert!(near(area(|p| p.draw), story.budget.stored));
        // What it gets past brace is not in the area.
        assert!((area(|p| p.push) / story.budget.arrow - 1.0).abs() < 1e-2);
    }
}

/// Ten instants, the first at release and the last at departure, spread over
/// time to within a step.
#[test]
fn law_story_instants_are_even() {
    let story = told(recurve(), 1.0);
    let end = story.moments.last().unwrap().time;
    let step = story.moments.windows(2).map(|p| p[1].time - p[0].time).fold(0.0, f64::max);
    assert_eq!(story.shapes.len(), INSTANTS);
    for (at, shape) in story.shapes.iter().enumerate() {
        let wanted = end * at as f64 / (INSTANTS - 1) as f64;
        assert!((shape.time - wanted).abs() <= 0.5 * step + 1e-15, "{at}");
    }
    assert!(story.shapes[0].time == 0.0 && story.shapes[INSTANTS - 1].time == end);
}

/// A rest that holds works to the end of its share; one that only pushes until
/// its last contact, and a force is seen no later.
#[test]
fn law_story_tells_where_the_rest_lets_go() {
    let story = told(bow(), 1.0);
    let share = bow().rest.share.si() * story.stroke;
    for touch in story.rest {
        let touch = touch.unwrap();
        assert!((touch.travel - share).abs() < 1e-6);
        assert_eq!(touch.times, 1);
    }
    let story = told(recurve(), 1.0);
    let end = story.moments.last().unwrap().time;
    for (plane, touch) in story.rest.iter().enumerate() {
        let Some(touch) = touch else { continue };
        let pressed = |m: &&study::Moment| m.rest[plane] != 0.0;
        let last = story.moments.iter().rfind(pressed).unwrap();
        assert!(touch.until >= last.time && touch.until <= end);
        assert!(touch.times >= 1);
    }
    assert!(story.rest[0].is_some(), "the release presses the shaft to its side point");
}

/// Modes rise, and each has one node more than the one before; along the shaft
/// a node changes the sign of the shape.
#[test]
fn law_story_modes_rise_with_their_nodes() {
    let story = told(bow(), 0.0);
    for (at, mode) in story.modes.iter().enumerate() {
        assert_eq!(mode.nodes.len(), at + 2);
        assert!(at == 0 || mode.frequency > story.modes[at - 1].frequency);
        let most = mode.shape.iter().map(|p| p.1.abs()).fold(0.0, f64::max);
        assert!((most - 1.0).abs() < 1e-12);
        let changes = mode.shape.windows(2).filter(|p| p[0].1 * p[1].1 < 0.0).count();
        assert_eq!(changes, at + 2);
    }
}

/// The reel tells the same push, and its groove and tip are where the story has them.
#[test]
fn law_the_reel_is_the_push_that_is_told() {
    for bow in [bow(), recurve(), passed()] {
        let reel = film_push(&shot(bow, 1.0)).unwrap();
        assert_eq!(reel.story, told(bow, 1.0));
        assert_eq!(reel.steps.len(), reel.story.moments.len());
        assert_eq!(reel.bow.len(), reel.steps.len());
        for (step, moment) in reel.steps.iter().zip(&reel.story.moments) {
            for plane in 0..2 {
                assert!((step[0][plane] - moment.nock[plane]).abs() < 1e-14);
                assert!((step[step.len() - 1][plane] - moment.tip[plane]).abs() < 1e-14);
            }
        }
        // Between them the shaft is that of the story's instants.
        let last = reel.story.shapes.last().unwrap();
        let step = reel.steps.last().unwrap();
        for (place, off) in last.places.iter().zip(&step[1..]) {
            for plane in 0..2 {
                assert!((place.off[plane] - off[plane]).abs() < 1e-14);
            }
        }
    }
}

/// From nock to limb tip the string of a recurve is as long as it is at brace, but for its
/// stretch, here below 2 %; that of a compound stands square on the cam's radius where it
/// touches the track.
#[test]
fn exact_the_string_in_the_reel_is_taut_and_touches_its_track() {
    let reel: Reel = film_push(&shot(recurve(), 1.0)).unwrap();
    let half = recurve().half_string.si();
    for (pose, moment) in reel.bow.iter().zip(&reel.story.moments) {
        assert_eq!(pose.tip, pose.string);
        let long = (pose.tip[0] - moment.travel).hypot(pose.tip[1]);
        assert!((long / half - 1.0).abs() < 0.02, "{long} {half}");
        let [ahead, up] = pose.hinge.unwrap();
        let [first, ..] = reel.bow[..] else { panic!("no pose") };
        let limb = |tip: [f64; 2]| (tip[0] - ahead).hypot(tip[1] - up);
        assert!((limb(pose.tip) - limb(first.tip)).abs() < 1e-12);
    }
    let reel = film_push(&shot(bow(), 1.0)).unwrap();
    for (pose, moment) in reel.bow.iter().zip(&reel.story.moments) {
        let radius = [pose.string[0] - pose.tip[0], pose.string[1] - pose.tip[1]];
        let string = [pose.string[0] - moment.travel, pose.string[1]];
        assert!((radius[0].hypot(radius[1]) - pose.track).abs() < 1e-12);
        let across = radius[0] * string[0] + radius[1] * string[1];
        // The nock of the told push is on its course to what course and run differ by.
        assert!(across.abs() < 1e-6, "{across}");
    }
    // At brace the string is straight.
    let near = reel.story.moments.iter().zip(&reel.bow);
    let at = near.min_by(|a, b| {
        let off = |m: &study::Moment| (m.travel - reel.story.stroke).abs();
        off(a.0).total_cmp(&off(b.0))
    });
    let (moment, pose) = at.unwrap();
    assert!((pose.string[0] - moment.travel).abs() < 0.02, "{}", pose.string[0]);
}
