//! What was measured, and what it leaves.

use std::sync::Arc;

use clothyard_tests::recipe::{Simple, Value, compare};
use launch::hold_at;
use study::{
    Evidence, Found, Held, Measured, MeasuredShift, Moved, OuterPoint, Plan, Quiet, Recipe, Said,
    pin, run,
};
use units::{Force, Length, Speed, Style};

/// Force of a push, N.
const PUSH: f64 = 20.0;

fn doubted() -> Simple {
    let simple = Simple::new().sawn(0.004).doubted(Value::NockDrag, 0.3, 0.6);
    simple.doubted(Value::Restraint, 0.4, 1.6)
}

/// How far the nock gives way sideways at a restraint, m.
fn give(restraint: f64) -> f64 {
    let setup = doubted().setup(&[(Value::Restraint.slot(), restraint)]).unwrap();
    PUSH / hold_at(&setup.bow, 0.0).unwrap()[0]
}

fn evidence(what: Measured, error: f64) -> Evidence {
    let recipe = Arc::new(doubted());
    let (name, sides) = (format!("{what:?}"), [true, false]);
    Evidence { name, recipe, what, sides, shots: 1, error: Some(error) }
}

fn push(give: f64, error: f64) -> Evidence {
    let force = Force::from_si(PUSH);
    evidence(Measured::Push { force, give: [give, 0.0], drawn: false }, error)
}

fn drop() -> Evidence {
    let [near, far, drop] = [20.0, 50.0, 0.9].map(Length::from_si);
    evidence(Measured::Drop { near, far, drop }, 0.05)
}

fn speed(speed: f64) -> Evidence {
    let (distance, speed) = (Length::from_si(40.0), Speed::from_si(speed));
    evidence(Measured::Speed { distance, speed }, 0.3)
}

fn plan(evidence: Vec<Evidence>) -> Plan {
    Plan { evidence, points: 32, ..compare(vec![doubted().build("one")], 200) }
}

/// Whatever was measured first, every number of the answer is the same to the bit.
#[test]
fn law_evidence_in_either_order_gives_the_same_answer() {
    let all = [push(give(1.2), 1e-3 * give(1.2)), drop(), speed(72.0)];
    let few = |all: Vec<Evidence>| run(&Plan { points: 16, ..plan(all) }, &Quiet).unwrap();
    let one = few(all.to_vec());
    let other = few(all.iter().rev().cloned().collect());
    assert_eq!(one.found, other.found);
    let (one, other) = (one.unknown.unwrap(), other.unknown.unwrap());
    assert_eq!(one.points, other.points);
    let mut told = other.told.unwrap();
    told.found.reverse();
    assert_eq!(one.told.unwrap(), told);
}

/// A sharp push on the nock tells the restraint: the points left lie about the truth as
/// near as the error allows, the answer is computed there, and what the push says
/// nothing of is as it was.
#[test]
fn law_a_sharp_reading_narrows_what_it_tells_of_alone() {
    let truth = 1.2;
    let error = 0.02 * give(truth);
    let answer = run(&plan(vec![push(give(truth), error)]), &Quiet).unwrap();
    let joint = answer.unknown.unwrap();
    let place = |key: &str| joint.inputs.iter().position(|input| input.key == key).unwrap();
    let (held, drag) = (place("Restraint"), place("NockDrag"));
    let value = |chances: &[f64]| joint.inputs[held].at(chances[held]);
    let kept: Vec<_> = joint.points.iter().filter(|point| point.weight > 0.0).collect();
    assert!(kept.len() > 16 && joint.points.len() > kept.len());
    // The give goes with one over the restraint, so both are off by 2 %.
    assert!(kept.iter().all(|point| (value(&point.chances) / truth - 1.0).abs() < 0.08));
    let whole: f64 = kept.iter().map(|point| point.weight).sum();
    let mean = kept.iter().map(|p| p.weight * p.chances[drag]).sum::<f64>() / whole;
    assert!((mean - 0.5).abs() < 0.2, "{mean}");
    assert!((joint.effective() - 32.0).abs() < 16.0, "{}", joint.effective());
    // What is told: the reading before and after.
    let told = joint.told.as_ref().unwrap();
    assert_eq!(told.found[0].said, Said::Counts);
    let reading = told.found[0].readings[0];
    let width = |band: Option<study::Band>| band.map(|band| band.high - band.low).unwrap();
    assert!(width(reading.after) < 0.2 * width(reading.before));
    // The answer itself is where the reading is: its own number in the band.
    let hits = answer.found.compared().unwrap().builds[0].marks[0].machine.stats.r50.value;
    let read =
        |found: &study::Found| Some(found.compared()?.builds[0].marks[0].machine.stats.r50.value);
    assert!(joint.band(hits, read).unwrap().holds(hits));
    let (before, now) = (joint.band_before(hits, read), joint.band(hits, read));
    assert!(width(now) < 0.5 * width(before), "{before:?} {now:?}");
}

/// `pin` turns one measured thing round, evidence weighs every value by it: where the
/// reading is sharp against what was assumed, both say the same restraint, to a third of
/// its error, with ranges as wide. Points left know their spread to a seventh, six sets of
/// them to a sixteenth.
#[test]
fn law_pin_and_evidence_say_the_same_restraint() {
    let (truth, error) = (1.1, 0.02);
    let noise = error * give(truth);
    let setup = doubted().setup(&[(Value::Restraint.slot(), truth)]).unwrap();
    let shift = hold_at(&setup.bow, 0.0).unwrap().map(|hold| PUSH / hold);
    let (distance, how) = (Length::ZERO, Moved::Pushed(PUSH));
    let measured = MeasuredShift { distance, shift, how, error: Some(noise) };
    let Held::Found { restraint, .. } = pin(&doubted(), &[measured], &Quiet).unwrap().left else {
        panic!("it is explained")
    };
    assert!((restraint.value / truth - 1.0).abs() < 1e-3);
    let (mut middle, mut spread) = (0.0, 0.0);
    for seed in 1..=6 {
        let plan = Plan { seed, points: 64, ..plan(vec![push(give(truth), noise)]) };
        let joint = run(&plan, &Quiet).unwrap().unknown.unwrap();
        let held = joint.inputs.iter().position(|input| input.key == "Restraint").unwrap();
        let log = |point: &OuterPoint<Found>| joint.inputs[held].at(point.chances[held]).ln();
        let whole: f64 = joint.points.iter().map(|point| point.weight).sum();
        let mean = |of: &dyn Fn(f64) -> f64| {
            joint.points.iter().map(|point| point.weight * of(log(point))).sum::<f64>() / whole
        };
        let own = mean(&|log| log);
        middle += own / 6.0;
        spread += mean(&|log| (log - own).powi(2)).sqrt() / 6.0;
    }
    assert!((middle - restraint.value.ln()).abs() < error / 3.0, "{middle} {restraint:?}");
    // 95 % of a normal law lie within 1.96 deviations.
    let pinned = (restraint.high / restraint.low).ln() / (2.0 * 1.96);
    assert!((spread / pinned - 1.0).abs() < 0.18, "{spread} {pinned}");
}

/// A reading that no value gives is named in the report and left out; one that cannot
/// be anything else is told to say nothing.
#[test]
fn law_what_says_nothing_or_contradicts_everything_is_named() {
    // The drag of a nock does not move how a nock gives way; no speed is that high.
    let calm = Evidence { error: Some(1.0), ..push(give(0.8), 1.0) };
    let answer = run(&plan(vec![calm, speed(150.0)]), &Quiet).unwrap();
    let told = answer.unknown.as_ref().unwrap().told.as_ref().unwrap();
    assert_eq!([told.found[0].said, told.found[1].said], [Said::Nothing, Said::Beyond]);
    // All points weigh much the same, as if nothing had been measured.
    assert!(answer.unknown.as_ref().unwrap().effective() > 31.0);
    let document = report::answer(&answer, &report::Provenance::default(), Style::Metric).unwrap();
    let text = document.terminal(80).replace('\n', " ");
    for said in ["says nothing here", "contradicts every possible value", "left out"] {
        assert!(text.contains(said), "{said}: {text}");
    }
    let json: serde_json::Value = serde_json::from_str(&document.json().unwrap()).unwrap();
    assert!(json["tables"]["weights"][0]["effective_number"]["value"].as_f64().unwrap() > 1.0);
}
