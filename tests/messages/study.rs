use clothyard_tests::recipe::{Simple, Value, compare};
use flight::Shortfall;
use launch::LaunchError;
use solve::SolveError;
use study::{
    Distribution, Owner, Per, Plan, Question, Quiet, StopRule, StudyError, Sweep, Watch, Who,
    fly_one, run,
};
use target::TargetError;
use units::{Dimension, Length, Mass, Ratio, Speed};

fn plan() -> Plan {
    compare(vec![Simple::new().sawn(0.002).build("sawn")], 100)
}

fn changed(change: impl Fn(&mut Plan)) -> StudyError {
    let mut plan = plan();
    change(&mut plan);
    run(&plan, &Quiet).unwrap_err()
}

fn rebuilt(change: impl Fn(&mut Simple)) -> StudyError {
    let mut simple = Simple::new().sawn(0.002);
    change(&mut simple);
    run(&compare(vec![simple.build("sawn")], 100), &Quiet).unwrap_err()
}

/// Ends a run at once.
struct Never;

impl Watch for Never {
    fn planned(&self, _: u64) {}
    fn done(&self, _: u64) {}
    fn cancelled(&self) -> bool {
        true
    }
}

#[test]
fn regress_study_messages() {
    let who = || Who { build: "sawn".to_owned(), flight: Some(12) };
    let sweep = Sweep {
        key: "wind.speed".to_owned(),
        dimension: Dimension::Speed,
        slot: Value::Wind.slot(),
        values: vec![1.0],
        labels: Vec::new(),
    };
    let light = Distribution::Uniform { low: 0.0, high: 2e-3 };
    let errors = [
        changed(|plan| plan.builds.clear()),
        changed(|plan| plan.distances.clear()),
        changed(|plan| plan.distances.swap(0, 1)),
        changed(|plan| plan.flights = 50),
        changed(|plan| plan.arrows = Some(0)),
        changed(|plan| {
            let build = |name: &&str| Simple::new().build(name);
            plan.builds = ["a", "b", "c", "d", "e", "f", "g"].iter().map(build).collect();
        }),
        changed(|plan| plan.stated.range_error = Some(Length::from_si(10.0))),
        changed(|plan| plan.stop = Some(StopRule { r90_within: 0.0, at_most: 1000 })),
        changed(|plan| plan.question = Question::Sweep(sweep.clone())),
        changed(|plan| plan.distances[0] = Length::from_si(0.2)),
        run(&plan(), &Never).unwrap_err(),
        rebuilt(|simple| simple.base.sight.zero = Length::from_si(-20.0)),
        rebuilt(|simple| {
            simple.base.departure.speed = Some(Speed::from_si(10.0));
            simple.base.sight.zero = Length::from_si(60.0);
        }),
        rebuilt(|simple| {
            *simple = simple.clone().drawn(Value::PointMass, Owner::Weights, light, Per::Shot);
        }),
        StudyError::Short { who: who(), reached: 31.5, distance: 40.0, why: Shortfall::Tumbled },
        StudyError::Short { who: who(), reached: 31.5, distance: 40.0, why: Shortfall::Spent },
        StudyError::SightIn { who: who(), source: SolveError::FunctionNotFinite { at: 0.1 } },
        StudyError::Launch { who: who(), source: LaunchError::LetOffWithoutCams { let_off: 0.7 } },
        StudyError::Target(TargetError::NoSpread),
        StudyError::NothingWeighed,
        StudyError::AllBuilt,
    ];
    let text: Vec<String> = errors.iter().map(ToString::to_string).collect();
    insta::assert_snapshot!(text.join("\n"));
}

/// What another room refuses is passed on in its words, after who it was.
#[test]
fn regress_study_passes_on_refusals() {
    let long = rebuilt(|simple| simple.base.parts.shaft.length = Length::from_si(-1.0));
    let StudyError::Arrow { who, source } = &long else { panic!("{long}") };
    assert_eq!((who.build.as_str(), who.flight), ("sawn", None));
    assert_eq!(long.to_string(), format!("{who}: {source}"));

    let soft = rebuilt(|simple| simple.base.bow.let_off = Ratio::from_si(2.0));
    let StudyError::Launch { who, source } = &soft else { panic!("{soft}") };
    assert_eq!(soft.to_string(), format!("{who}: {source}"));

    let wet = rebuilt(|simple| simple.base.site.weather.humidity = Ratio::from_si(2.0));
    let StudyError::Flight { who, source } = &wet else { panic!("{wet}") };
    assert_eq!(wet.to_string(), format!("{who}: {source}"));

    let mut alone = Simple::new();
    alone.base.parts.point.mass = Mass::from_si(-1.0);
    let light = fly_one(&alone, &[10.0], false).unwrap_err();
    let StudyError::Arrow { source, .. } = &light else { panic!("{light}") };
    assert_eq!(light.to_string(), format!("the arrow without drawn faults: {source}"));
}
