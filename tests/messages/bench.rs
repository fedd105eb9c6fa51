//! What is said when shares or bench steps cannot be worked out.

use clothyard_tests::bench::{Worked, matters, worth};
use clothyard_tests::recipe::{Simple, compare};
use study::{Plan, Question, Quiet, StudyError, Worth, run};

fn refused(plan: &Plan) -> String {
    run(plan, &Quiet).unwrap_err().to_string()
}

#[test]
fn regress_share_and_step_messages() {
    let sawn = || Simple::new().sawn(0.002);
    let worked = |steps| Worked { simple: sawn(), steps };
    let many = vec![("nothing", 0.5); 13];
    let unknown = Plan {
        question: worth(worked(vec![("nothing", 0.5)]), &[5.0], 100).question,
        ..compare(vec![sawn().build("sawn")], 100)
    };
    let none = Question::Worth(Worth { steps: Vec::new() });
    let errors = [
        refused(&matters(Simple::new().build("perfect"), 0.03, 100_000)),
        refused(&matters(sawn().build("sawn"), 0.03, 100)),
        refused(&matters(sawn().build("sawn"), 0.0, 100_000)),
        refused(&matters(sawn().build("sawn"), f64::NAN, 100_000)),
        StudyError::ManyDraws { draws: 130, most: 128 }.to_string(),
        StudyError::ManyUnknown { values: 300, most: 256 }.to_string(),
        StudyError::Correlations { pairs: 3 }.to_string(),
        refused(&Plan { question: none, ..plain(&sawn()) }),
        refused(&worth(worked(many.clone()), &[5.0; 13], 100)),
        refused(&worth(worked(vec![("nothing", 0.5)]), &[0.0], 100)),
        refused(&worth(worked(vec![("nothing", 0.5)]), &[5.0], 20)),
        refused(&unknown),
    ];
    insta::assert_snapshot!(errors.join("\n"));
}

fn plain(simple: &Simple) -> Plan {
    compare(vec![simple.clone().build("sawn")], 100)
}
