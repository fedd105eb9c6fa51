//! Bench steps and shares, from the file to the plan.
#![expect(clippy::float_cmp, reason = "numbers rounded, or as written")]

use std::path::Path;

use scenario::{Scenario, read};
use study::{Distribution, Question, Shares};

const GRAIN: f64 = 6.479_891e-5;
/// The least scenario.
const LEAST: &str = "[bow]\ndraw_weight = \"60 lbf\"\ndraw_length = \"29 in\"\n\
    speed = \"276 ft/s\"\nspeed_mass = \"425 gr\"\n[arrow.shaft]\noutside = \"0.246 in\"\n\
    density = \"9.5 gr/in\"\nspine = \"0.340 in\"\nlength = \"28.5 in\"\n\
    [arrow.point]\nmass = \"100 gr\"\n";

fn of_text(text: &str) -> Scenario {
    match read(Path::new("test.toml"), &|_| Ok(text.to_owned())) {
        Ok(scenario) => scenario,
        Err(report) => panic!("{report}"),
    }
}

/// A step goes over the build as the build goes over the rest; where two steps
/// change one value, the later in the file holds.
#[test]
fn exact_steps_are_laid_over_builds() {
    let text = format!(
        "{LEAST}[question]\nkind = \"worth\"\n\
         [faults.point_end]\nangle = {{ rayleigh = \"0.3 deg\" }}\n\
         [[build]]\nname = \"a\"\n[build.arrow.point]\nmass = \"110 gr\"\n\
         [[step]]\nname = \"square\"\ntime = \"25 min\"\ncost = 2\n\
         [step.faults.point_end]\nangle = {{ rayleigh = \"0.1 deg\", at_most = \"0.2 deg\" }}\n\
         [[step]]\nname = \"true\"\n[step.faults.point_end]\nangle = \"0 deg\"\n\
         [step.arrow.point]\nmass = {{ mean = \"120 gr\", sd = \"1 gr\", within = \"2 gr\" }}\n"
    );
    for text in [text.clone(), of_text(&text).resolved()] {
        let plan = of_text(&text).plan().unwrap();
        let Question::Worth(asked) = &plan.question else { panic!("not worth") };
        let told: Vec<(&str, f64, f64)> =
            asked.steps.iter().map(|s| (s.name.as_str(), s.time.si(), s.cost)).collect();
        // 20 min and no cost are the defaults.
        assert_eq!(told, [("square", 1500.0, 2.0), ("true", 1200.0, 0.0)]);
        let recipe = &plan.builds[0].recipe;
        let laws = |steps: &[usize]| -> Vec<(String, Distribution)> {
            let after = recipe.after(steps).unwrap();
            after.draws().iter().map(|draw| (draw.key.clone(), draw.law)).collect()
        };
        let deg = 1.0_f64.to_radians();
        let square = Distribution::RayleighUpTo { scale: 0.1 * deg, most: 0.2 * deg };
        let alone = laws(&[0]);
        assert_eq!(alone[0], ("faults.point_end.angle".to_owned(), square));
        assert_eq!(alone[1].0, "faults.point_end.clock");
        let mass =
            |steps: &[usize]| recipe.after(steps).unwrap().setup(&[]).unwrap().parts.point.mass;
        assert!((mass(&[0]).si() / GRAIN - 110.0).abs() < 1e-9);
        assert!((mass(&[1]).si() / GRAIN - 120.0).abs() < 1e-9);
        let sorted = laws(&[0, 1]);
        assert_eq!(sorted.len(), 1);
        let Distribution::NormalWithin { mean, sd, within } = sorted[0].1 else { panic!("whole") };
        let grains = [mean, sd, within].map(|si| (si / GRAIN * 1e6).round() / 1e6);
        assert_eq!(grains, [120.0, 1.0, 2.0]);
        assert_eq!(recipe.draws().len(), 2);
    }
}

/// More steps than can be weighed are refused where the first one too many
/// stands.
#[test]
fn exact_at_most_twelve_steps() {
    let steps = |count: usize| {
        let one = |at| format!("[[step]]\nname = \"{at}\"\n[step.arrow]\nindex = \"0 deg\"\n");
        let steps: String = (0..count).map(one).collect();
        let text = format!("{LEAST}[question]\nkind = \"worth\"\n{steps}");
        read(Path::new("s.toml"), &|_| Ok(text.clone())).map_err(|report| {
            report.problems().iter().map(|p| p.error.to_string()).collect::<Vec<_>>()
        })
    };
    assert!(steps(12).is_ok());
    assert_eq!(steps(13).err().unwrap(), ["13 steps are too many to weigh"]);
}

/// A matters question has its own ceiling of flights, and no arrows.
#[test]
fn exact_a_matters_question() {
    let plan = of_text(&format!("{LEAST}[question]\nkind = \"matters\"\n")).plan().unwrap();
    assert_eq!(plan.question, Question::Matters(Shares { within: 0.03 }));
    assert_eq!((plan.flights, plan.arrows), (2_000_000, None));
}
