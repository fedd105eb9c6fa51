//! Trials shot by chance: how often they tell what is not so, and what is.

use study::{Claim, EndShot, RandomStream, ReadBy, Trial, TrialAsk, TrialNext, TrialSize};
use study::{TrialPlan, normal_quantile};
use target::{Impact, LookRule, PowerTest, extreme_spread};
use units::Length;

/// Trials shot. Chosen: a chance of 5 % is then known to 0.5 points, one of 80 % to 0.9.
const TRIALS: u64 = 2_000;

fn plan(claim: Claim, by: ReadBy, rule: LookRule) -> TrialPlan {
    let ask = TrialAsk {
        builds: ["one", "other"].map(str::to_owned),
        distance: Length::from_si(30.0),
        claim,
        by,
        arrows: 3,
        looks: 3,
        rule,
        test: PowerTest::default(),
        seed: 1,
    };
    match ask.size().expect("a test with looks") {
        TrialSize::Sane(plan) => plan,
        TrialSize::Mad { each, .. } => panic!("{each:?}"),
    }
}

/// The share of trials that tell, with the second build's sigma and centre as they are.
fn told(plan: &TrialPlan, sigma: f64, shift: f64, key: &str) -> f64 {
    let trial = Trial::new(plan.clone()).expect("looks");
    let mut stream = RandomStream::new(11, key);
    let mut next = 0;
    let mut normal = || {
        next += 1;
        normal_quantile(stream.chance(next))
    };
    let mut stopped = 0.0;
    for _ in 0..TRIALS {
        let mut end = || {
            let mut group = |sigma: f64, shift: f64| -> Vec<Impact> {
                let mut hit = || Impact { left: shift + sigma * normal(), up: sigma * normal() };
                (0..plan.ask.arrows).map(|_| hit()).collect()
            };
            let both = [group(1.0, 0.0), group(sigma, shift)];
            match plan.ask.by {
                ReadBy::Places => EndShot::Places(both),
                ReadBy::Spreads => {
                    EndShot::Spreads(both.map(|group| extreme_spread(&group).unwrap()))
                }
            }
        };
        let ends: Vec<EndShot> = (0..plan.ends).map(|_| end()).collect();
        let judged = trial.judge(&ends).expect("groups");
        stopped += f64::from(u8::from(judged.next == TrialNext::Stop));
    }
    stopped / TRIALS as f64
}

/// Size 5 % and power 80 % of both questions and both ways to read them: within three
/// standard errors of the simulation and what the card allows for few shots. The number of
/// ends is rounded up, so power may be more, never less.
#[test]
fn stat_a_trial_keeps_its_error_and_its_power() {
    let width = Claim::Width { ratio: 1.5 };
    let centre = Claim::Centre { sigmas: 1.0 };
    for (claim, by, rule, most) in [
        (width, ReadBy::Places, LookRule::OBrienFleming, 0.91),
        (width, ReadBy::Places, LookRule::Pocock, 0.91),
        (width, ReadBy::Spreads, LookRule::OBrienFleming, 0.91),
        (centre, ReadBy::Places, LookRule::OBrienFleming, 0.91),
        (centre, ReadBy::Places, LookRule::Pocock, 0.91),
    ] {
        let plan = plan(claim, by, rule);
        let (sigma, shift) = match claim {
            Claim::Width { ratio } => (ratio, 0.0),
            Claim::Centre { sigmas } => (1.0, sigmas),
        };
        let wrong = told(&plan, 1.0, 0.0, "size");
        let right = told(&plan, sigma, shift, "power");
        assert!((0.035..=0.065).contains(&wrong), "{claim:?} {by:?} {rule:?}: wrong {wrong}");
        assert!((0.77..=most).contains(&right), "{claim:?} {by:?} {rule:?}: shown {right}");
    }
}
