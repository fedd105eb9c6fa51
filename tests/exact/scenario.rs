//! From file to plan and back.
#![expect(clippy::float_cmp, reason = "these must be equal to the last bit")]

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use scenario::{Model, Scenario, read};
use study::{Per, Question, Recipe, Setup, Slot, TargetChoice};

/// The top folder of the project.
fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn shipped(name: &str) -> Scenario {
    let path = top().join("scenarios").join(name);
    match read(&path, &|path| std::fs::read_to_string(path)) {
        Ok(scenario) => scenario,
        Err(report) => panic!("{report}"),
    }
}

fn of_text(text: &str) -> Scenario {
    match read(Path::new("test.toml"), &|_| Ok(text.to_owned())) {
        Ok(scenario) => scenario,
        Err(report) => panic!("{report}"),
    }
}

/// The least scenario, with lines after it.
fn least(lines: &str) -> Scenario {
    of_text(&format!(
        "[bow]\ndraw_weight = \"60 lbf\"\ndraw_length = \"29 in\"\nspeed = \"276 ft/s\"\n\
         speed_mass = \"425 gr\"\n[arrow.shaft]\noutside = \"0.246 in\"\n\
         density = \"9.5 gr/in\"\nspine = \"0.340 in\"\nlength = \"28.5 in\"\n\
         [arrow.point]\nmass = \"100 gr\"\n{lines}\n"
    ))
}

fn setup(scenario: &Scenario) -> Setup {
    scenario.recipe(None).unwrap().setup(&[]).unwrap()
}

fn slot(recipe: &dyn Recipe, key: &str) -> Slot {
    recipe.draws().iter().find(|draw| draw.key == key).unwrap().slot
}

/// Everything a plan says, floats by their shortest exact text.
fn told(scenario: &Scenario) -> String {
    let plan = scenario.plan().unwrap();
    let mut text = format!(
        "{:?}",
        (
            &plan.title,
            &plan.question,
            &plan.distances,
            plan.flights,
            &plan.stop,
            plan.arrows,
            &plan.target,
            plan.seed
        )
    );
    for build in &plan.builds {
        // A change to every drawn value shows that slots and followers agree.
        let changes: Vec<_> = build.recipe.draws().iter().map(|d| (d.slot, d.off)).collect();
        let setups = [build.recipe.setup(&[]), build.recipe.setup(&changes)];
        let recipe = (build.recipe.draws(), build.recipe.uncertain(), setups);
        write!(text, "\n{} {recipe:?}", build.name).unwrap();
    }
    text
}

#[test]
fn exact_resolved_scenario_reads_back_to_the_same_plan() {
    for name in [
        "square-ends.toml",
        "foc-sweep.toml",
        "three-builds.toml",
        "tune-hunter.toml",
        "finger-recurve.toml",
        "sight-marks.toml",
    ] {
        let first = shipped(name);
        let again = of_text(&first.resolved());
        assert_eq!(told(&first), told(&again), "{name}");
    }
    let odd = least(
        "shape = \"streamlined\"\n[aero.given]\ndrag = 1.6\n[departure]\nspeed = \"90 m/s\"\n\
         [faults.tip_runout]\nreading = \"0.1 mm\"\n[air]\naltitude = \"1000 m\"\n\
         temperature = { mean = \"50 degF\", sd = \"3 degF\" }\n[wind]\nprofile_height = \"10 m\"\n\
         [question]\nface = \"122 cm\"\ninner_ten = true\nr90_within = \"3 %\"\n\
         [[build]]\nname = \"a\"\n[build.bow.rating]\nspeed = \"335 ft/s\"\n\
         [[build]]\nname = \"b\"\n[build.faults.point_cant]\nangle = { rayleigh = \"0.1 deg\", per = \"shot\" }\n\
         [build.arrow.wrap]\n",
    );
    assert_eq!(told(&odd), told(&of_text(&odd.resolved())));
    let bow = least(
        "[bow.release]\nleft = { mean = \"-8 mN s\", sd = \"2 mN s\" }\n[bow.rest]\n\
         side = \"right\"\n[[build]]\nname = \"a\"\n[build.bow]\nrelease_by = \"fingers\"\n\
         curve = [{ draw = \"8 in\", force = \"0 lbf\" }, { draw = \"20 in\", force = \"55 lbf\" }, \
         { draw = \"29 in\", force = \"12.3 lbf\" }]\n[[build]]\nname = \"b\"\n[build.bow]\n\
         kind = \"recurve\"\nspeed_from = \"stored\"\n[build.bow.rest]\nkind = \"shelf\"\n",
    );
    assert_eq!(told(&bow), told(&of_text(&bow.resolved())));
}

/// The same bits, not only the same text, after a round trip through units.
#[test]
fn exact_resolved_scenario_keeps_every_bit() {
    let first = setup(&shipped("square-ends.toml"));
    let again = setup(&of_text(&shipped("square-ends.toml").resolved()));
    assert_eq!(first, again);
    let bits = |s: &Setup| s.parts.shaft.spine.si().to_bits();
    assert_eq!(bits(&first), bits(&again));
}

#[test]
fn exact_overlay_wins_and_leaves_the_rest() {
    let scenario = least(
        "[arrow.vanes]\ncount = 4\n[[build]]\nname = \"bare\"\n[build.arrow]\nvanes = \"none\"\n\
         [[build]]\nname = \"heavy\"\n[build.arrow.point]\nmass = \"200 gr\"",
    );
    let of = |name| scenario.recipe(Some(name)).unwrap().setup(&[]).unwrap();
    assert_eq!(of("bare").parts.vanes, None);
    assert_eq!(of("heavy").parts.vanes.unwrap().count, 4);
    assert_eq!(of("bare").parts.point.mass, "100 gr".parse().unwrap());
    assert_eq!(of("heavy").parts.point.mass, "200 gr".parse().unwrap());
    assert_eq!(scenario.plan().unwrap().builds[0].name, "bare");
}

#[test]
fn exact_own_keys_win_over_those_of_the_part() {
    let text = "[bow]\ndraw_weight = \"60 lbf\"\ndraw_length = \"29 in\"\n\
                [bow.rating]\nspeed = \"335 ft/s\"\n\
                [arrow]\npart = \"parts/arrow.toml\"\n[arrow.point]\nmass = \"125 gr\"";
    let arrow = "index = \"10 deg\"\n[shaft]\npart = \"shaft.toml\"\nlength = \"29 in\"\n\
                 [point]\nmass = \"100 gr\"\nshape = \"bullet\"";
    let shaft = "outside = \"0.246 in\"\ndensity = \"9.5 gr/in\"\nspine = \"0.340 in\"\n\
                 length = \"28.5 in\"";
    let scenario = read(Path::new("here/s.toml"), &|path| {
        Ok(match path.to_str() {
            Some("here/s.toml") => text,
            Some("here/parts/arrow.toml") => arrow,
            Some("here/parts/shaft.toml") => shaft,
            _ => return Err(std::io::ErrorKind::NotFound.into()),
        }
        .to_owned())
    });
    let parts = setup(&scenario.unwrap()).parts;
    assert_eq!(parts.point.mass, "125 gr".parse().unwrap());
    assert_eq!(parts.point.shape, arrow::PointShape::Bullet);
    assert_eq!(parts.shaft.length, "29 in".parse().unwrap());
    assert_eq!(parts.shaft.spine, "0.340 in".parse().unwrap());
}

#[test]
fn exact_straightness_is_halved_only_when_total() {
    let bow = |measure: &str| {
        let lines = format!("[faults.bend]\nreading = \"0.006 in\"\nmeasure = \"{measure}\"");
        setup(&least(&lines)).faults.bend.unwrap().bow.si()
    };
    assert_eq!(bow("total"), 0.003 * 0.0254);
    assert_eq!(bow("plus-minus"), 0.006 * 0.0254);
}

/// Cant is half the reading over the length from seat to tip.
#[test]
fn exact_tip_run_out_becomes_a_cant() {
    let scenario =
        least("length = \"30 mm\"\n[faults.tip_runout]\nreading = \"0.2 mm\"\nclock = \"90 deg\"");
    let cant = setup(&scenario).faults.point_cant;
    // 1e-16: one rounding of a tangent near 3e-3.
    assert!((cant.angle.si().tan() - 0.1 / 30.0).abs() < 1e-16);
    assert_eq!(cant.clock, "90 deg".parse().unwrap());
}

#[test]
fn exact_altitude_gives_the_standard_pressure() {
    let site = setup(&least("[air]\naltitude = \"1000 m\"")).site;
    assert_eq!(Ok(site.weather.pressure), flight::standard_pressure("1000 m".parse().unwrap()));
}

#[test]
fn exact_spread_of_a_temperature_has_no_zero() {
    let scenario = least("[air]\ntemperature = { mean = \"59 degF\", sd = \"9 degF\" }");
    let recipe = scenario.recipe(None).unwrap();
    let study::Distribution::Normal { mean, sd } = recipe.draws()[0].law else {
        panic!("not normal")
    };
    // 1e-12: a sum near 500 and its difference lose three digits.
    assert!((mean - 288.15).abs() < 1e-12 && (sd - 5.0).abs() < 1e-12, "{mean} {sd}");
    assert_eq!(recipe.draws()[0].per, Per::Shot);
}

#[test]
fn exact_rayleigh_size_may_lie_anywhere_round_the_clock() {
    let scenario = least("[faults.nock_cant]\nangle = { rayleigh = \"0.1 deg\", per = \"shot\" }");
    let recipe = scenario.recipe(None).unwrap();
    let keys: Vec<&str> = recipe.draws().iter().map(|draw| draw.key.as_str()).collect();
    assert_eq!(keys, ["faults.nock_cant.angle", "faults.nock_cant.clock"]);
    assert!(recipe.draws().iter().all(|draw| draw.per == Per::Shot && draw.off == 0.0));
    let held = least("[faults.nock_cant]\nangle = { rayleigh = \"0.1 deg\" }\nclock = \"5 deg\"");
    assert_eq!(held.recipe(None).unwrap().draws().len(), 1);
}

#[test]
fn exact_followers_follow_a_changed_value_unless_changed_themselves() {
    let scenario = least(
        "[question]\nkind = \"sweep\"\nkey = \"arrow.shaft.outside\"\nvalues = [\"5 mm\", \"9 mm\"]",
    );
    let plan = scenario.plan().unwrap();
    let Question::Sweep(sweep) = &plan.question else { panic!("not a sweep") };
    assert_eq!(sweep.labels, ["5 mm", "9 mm"]);
    let wide = plan.builds[0].recipe.setup(&[(sweep.slot, 0.009)]).unwrap();
    assert_eq!(wide.parts.point.diameter.si(), 0.009);
    assert_eq!(wide.parts.shaft.inside.si(), 0.009 * 0.8);
}

#[test]
fn exact_doubts_are_the_poorly_known_defaults_left_alone() {
    let keys = |scenario: &Scenario| -> Vec<String> {
        scenario.recipe(None).unwrap().uncertain().iter().map(|d| d.key.clone()).collect()
    };
    let all = keys(&least(""));
    assert!(
        all.contains(&"aero.turbulence".to_owned())
            && all.contains(&"bow.restraint.left".to_owned())
    );
    let given = keys(&least("[aero]\nnock_drag = 0.4"));
    assert!(!given.contains(&"aero.nock_drag".to_owned()));
    let drag = keys(&least("[aero.given]\ndrag = 1.5"));
    assert!(!drag.iter().any(|key| key == "aero.turbulence" || key == "aero.nock_drag"));
    let own =
        keys(&least("[sight]\nheight = { value = \"5 in\", low = \"4 in\", high = \"6 in\" }"));
    assert!(own.contains(&"sight.height".to_owned()));
}

/// A fit is in doubt where a face out of square leans on it.
#[test]
fn exact_fits_are_in_doubt_where_they_matter() {
    let fits = |lines: &str| -> Vec<String> {
        let uncertain = least(lines).recipe(None).unwrap().uncertain().to_vec();
        uncertain.into_iter().map(|d| d.key).filter(|key| key.ends_with("clearance")).collect()
    };
    let (front, face) = ("[faults.point_end]\nangle = ", "[faults.insert_face]\nangle = ");
    assert_eq!(fits("[arrow.insert]"), [""; 0]);
    let drawn = "{ rayleigh = \"0.1 deg\" }";
    assert_eq!(fits(&format!("{front}{drawn}")), ["arrow.point.clearance"]);
    let insert = |fault: &str| fits(&format!("[arrow.insert]\n{fault}"));
    assert_eq!(insert(&format!("{front}{drawn}")), ["arrow.insert.clearance"]);
    assert_eq!(insert(&format!("{face}\"0.1 deg\"")), ["arrow.point.clearance"]);
    assert_eq!(fits(&format!("[arrow.outsert]\n{front}{drawn}")), ["arrow.outsert.clearance"]);
    let nock = "[faults.nock_end]\nangle = \"0.1 deg\"";
    assert_eq!(fits(nock), ["arrow.nock.clearance"]);
    let given = format!("{nock}\n[arrow.nock]\nclearance = \"0.03 mm\"");
    assert_eq!(fits(&given), [""; 0]);
    // A swept face leans.
    let swept = "[question]\nkind = \"sweep\"\nkey = \"faults.nock_end.angle\"\n\
                 values = [\"0 deg\", \"0.2 deg\"]";
    assert_eq!(fits(swept), ["arrow.nock.clearance"]);
}

#[test]
fn exact_setup_refuses_what_the_file_would() {
    let scenario = least("[archer]\naim_left = { mean = \"0 deg\", sd = \"0.1 deg\" }");
    let recipe = scenario.recipe(None).unwrap();
    let slot = slot(recipe.as_ref(), "archer.aim_left");
    for bad in [1.0, -1.0, f64::NAN, f64::INFINITY] {
        let refused = recipe.setup(&[(slot, bad)]).unwrap_err();
        assert_eq!(refused.key, "archer.aim_left");
        assert_eq!(refused.allowed, "-10 deg to 10 deg");
    }
    assert!(recipe.setup(&[(Slot(usize::MAX), 0.0)]).is_err());
    // Slot 0 is the title.
    assert!(recipe.setup(&[(Slot(0), 0.0)]).is_err());
    let later = recipe.setup(&[(slot, 0.1), (slot, 0.05)]).unwrap();
    assert_eq!(later.form.aim_left.si(), 0.05);
}

#[test]
fn exact_question_is_read_as_written() {
    let plan = shipped("square-ends.toml").plan().unwrap();
    assert_eq!(plan.question, Question::Compare { ends: true });
    assert_eq!(plan.distances.len(), 5);
    assert_eq!(plan.flights, 10_000);
    assert_eq!(plan.target, TargetChoice::Zone { diameter: "8 in".parse().unwrap() });
    let mut scenario = shipped("square-ends.toml");
    scenario.override_question(Some(5), Some(100)).unwrap();
    let plan = scenario.plan().unwrap();
    assert_eq!((plan.seed, plan.flights), (5, 100));
    assert!(scenario.resolved().contains("seed = 5 # command line"));
}

#[test]
fn exact_a_rigid_body_needs_no_arrow() {
    let scenario = of_text(
        "[flight]\nmodel = \"rigid-body\"\n[rigid_body]\ninertia_roll = \"2 kg m2\"\n\
         inertia_pitch = \"3 kg m2\"\ninertia_yaw = \"4 kg m2\"\nyaw_rate = \"1 rad/s\"",
    );
    assert_eq!(scenario.model(), Model::RigidBody);
    assert!(scenario.plan().is_none() && scenario.recipe(None).is_err());
    let body = scenario.rigid_body().unwrap();
    assert_eq!((body.inertia[2].si(), body.rates[2].si(), body.steps), (4.0, 1.0, 30));
    assert_eq!(of_text(&scenario.resolved()).rigid_body(), Some(body));
}

/// The first example of the guide is whole; others stand in place of its bow,
/// bench steps stand alone beside it, and the rest go with it.
#[test]
fn exact_the_examples_of_the_guide_are_accepted() {
    let guide = std::fs::read_to_string(top().join("docs/scenario.md")).unwrap();
    let blocks: Vec<&str> =
        guide.split("```toml\n").skip(1).map(|rest| rest.split("```").next().unwrap()).collect();
    let (steps, blocks): (Vec<&str>, Vec<&str>) =
        blocks.iter().partition(|block| block.contains("[[step]]"));
    let (bows, others): (Vec<&str>, Vec<&str>) =
        blocks.iter().partition(|block| block.starts_with("[bow]\n"));
    assert_eq!((bows.len(), others.len()), (2, 6));
    of_text(others[0]);
    for steps in steps {
        of_text(&format!("{}{steps}", others[0]));
    }
    let whole = of_text(&others.concat());
    assert_eq!(whole.plan().unwrap().builds.len(), 2);
    assert!(whole.measured().is_some());
    let (before, rest) = others[0].split_once("[bow]\n").unwrap();
    let (_, after) = rest.split_once("\n[").unwrap();
    for bow in bows {
        setup(&of_text(&format!("{before}{bow}\n[{after}")));
    }
}
