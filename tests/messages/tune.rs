use clothyard_tests::recipe::Simple;
use clothyard_tests::tune;
use study::{MeasuredShift, Moved, Quiet, pin, run};
use units::Length;

#[test]
fn regress_tune_messages() {
    let mut bare = Simple::new();
    bare.base.parts.vanes = None;
    let asked = |simple: Simple| {
        let plan = tune::plan(vec![simple.build("bare")], Vec::new());
        run(&plan, &Quiet).unwrap_err().to_string()
    };
    let mut near = tune::plan(vec![Simple::new().build("one")], Vec::new());
    if let study::Question::Tune(tune) = &mut near.question {
        tune.paper[0] = Length::from_si(0.2);
    }
    let measured = MeasuredShift {
        distance: Length::from_si(20.0),
        shift: [1e-6, 0.0],
        how: Moved::Bare,
        error: None,
    };
    let errors = [
        asked(bare),
        run(&near, &Quiet).unwrap_err().to_string(),
        pin(&Simple::new(), &[measured], &Quiet).unwrap_err().to_string(),
    ];
    insta::assert_snapshot!(errors.join("\n"));
}
