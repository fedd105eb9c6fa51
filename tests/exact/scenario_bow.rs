//! A bow from its file: readings, curve, release, rest, and the tuning
//! question about it.
#![expect(clippy::float_cmp, reason = "these must be equal to the last bit")]

use std::path::Path;

use launch::{RestKind, Side, SpeedSource, own_speed};
use scenario::{Scenario, read};
use study::{Moved, Owner, Per, Question, Setup, Slot, Tune};
use units::{Mass, Momentum};

/// The least scenario with these lines about the bow, and lines after it.
fn shot(bow: &str, lines: &str) -> Scenario {
    let text = format!(
        "[bow]\ndraw_length = \"29 in\"\n{bow}\n[arrow.shaft]\noutside = \"0.246 in\"\n\
         density = \"9.5 gr/in\"\nspine = \"0.340 in\"\nlength = \"28.5 in\"\n\
         [arrow.point]\nmass = \"100 gr\"\n[arrow.vanes]\n{lines}\n"
    );
    match read(Path::new("test.toml"), &|_| Ok(text.clone())) {
        Ok(scenario) => scenario,
        Err(report) => panic!("{report}"),
    }
}

const CHRONOGRAPH: &str = "draw_weight = \"60 lbf\"\nspeed = \"276 ft/s\"\nspeed_mass = \"425 gr\"";

fn setup(scenario: &Scenario) -> Setup {
    scenario.recipe(None).unwrap().setup(&[]).unwrap()
}

fn of_doubt(scenario: &Scenario, key: &str) -> Option<(Slot, f64, f64)> {
    let recipe = scenario.recipe(None).unwrap();
    let doubt = recipe.uncertain().iter().find(|doubt| doubt.key == key);
    doubt.map(|doubt| (doubt.slot, doubt.low, doubt.high))
}

/// Readings of a bow that gives 100 J to arrow and 6 g together.
fn readings(masses: &[f64]) -> String {
    let row = |m: &f64| format!("{{ mass = \"{m} kg\", speed = \"{} m/s\" }}", speed(*m));
    let rows: Vec<String> = masses.iter().map(row).collect();
    format!("draw_weight = \"60 lbf\"\nreadings = [{}]", rows.join(", "))
}

fn speed(mass: f64) -> f64 {
    (200.0 / (mass + 0.006)).sqrt()
}

/// A reading without a mass is of the arrow at hand, whatever that weighs: its speed was
/// doubted with the shaft, though it had been read.
#[test]
fn exact_the_arrow_that_was_read_weighs_what_it_may() {
    let six = |more: &str| {
        let text = format!(
            "draw_weight = \"65 lb\"\ndraw_length = \"28 1/2 in\"\nspeed = \"270 fps\"\n\
             arrow_length = \"28 1/2 in\"\nspine = 340\npoint = \"125 grains\"\n{more}"
        );
        read(Path::new("six.toml"), &|_| Ok(text.clone())).unwrap_or_else(|why| panic!("{why}"))
    };
    let at = |scenario: &Scenario, build: Option<&str>, changes: &[(Slot, f64)]| {
        let setup = scenario.recipe(build).unwrap().setup(changes).unwrap();
        let SpeedSource::Chronograph { mass, .. } = setup.bow.speed else { panic!("no reading") };
        let built = arrow::build(&setup.parts, &setup.faults).unwrap();
        let leaves = own_speed(&setup.bow, built.mass.mass()).unwrap().si();
        (mass.si(), built.mass.mass().si(), leaves)
    };
    let scenario = six("");
    let (density, low, high) = of_doubt(&scenario, "arrow.shaft.density").unwrap();
    let speed = 270.0 * 0.3048;
    for held in [low, 0.5 * (low + high), high] {
        let (read, weighs, leaves) = at(&scenario, None, &[(density, held)]);
        assert_eq!(read, weighs);
        assert!((leaves / speed - 1.0).abs() < 1e-14, "{leaves}");
    }
    // A heavier build leaves slower than the first, which was read, and the more so the
    // lighter that is.
    let two = six("[[build]]\nname = \"one\"\n[[build]]\nname = \"other\"\n\
                   arrow.point.mass = \"200 gr\"\n");
    let of = |held: f64| at(&two, Some("other"), &[(density, held)]);
    let (light, heavy) = (of(low), of(high));
    assert!(light.0 < light.1 && light.2 < heavy.2 && heavy.2 < speed, "{light:?} {heavy:?}");
    // A mass that is written is what was read.
    let said = six("bow.speed_mass = \"400 gr\"\n");
    let (read, ..) = at(&said, None, &[(density, high)]);
    // 1e-15: the product is rounded twice.
    assert!((read / (400.0 * 64.798_91e-6) - 1.0).abs() < 1e-15, "{read}");
}

#[test]
fn exact_two_readings_give_virtual_mass_and_speed_of_every_arrow() {
    let scenario = shot(&readings(&[0.022, 0.035]), "");
    let bow = setup(&scenario).bow;
    // 1e-15 kg: a difference of numbers near 0.03.
    assert!((bow.virtual_mass.unwrap().si() - 0.006).abs() < 1e-15, "{:?}", bow.virtual_mass);
    for mass in [0.022, 0.028, 0.035, 0.05] {
        let own = own_speed(&bow, Mass::from_si(mass)).unwrap().si();
        assert!((own / speed(mass) - 1.0).abs() < 1e-14, "{own}");
    }
    assert_eq!(of_doubt(&scenario, "bow.virtual_mass"), None);
}

/// Three readings leave one degree of freedom: t 12.706204736 (C, scipy).
#[test]
fn exact_three_readings_leave_a_doubt_that_turns_about_their_middle() {
    let rows = [(0.022, 84.6), (0.028, 76.4), (0.035, 70.0)];
    let row = |(m, v): &(f64, f64)| format!("{{ mass = \"{m} kg\", speed = \"{v} m/s\" }}");
    let list: Vec<String> = rows.iter().map(row).collect();
    let bow = format!("draw_weight = \"60 lbf\"\nreadings = [{}]", list.join(", "));
    let scenario = shot(&bow, "");
    let pairs = rows.map(|(m, v)| (Mass::from_si(m), units::Speed::from_si(v)));
    let fit = launch::fit_virtual_mass(&pairs).unwrap();
    let half = 12.706_204_736 * fit.error.unwrap();
    let (slot, low, high) = of_doubt(&scenario, "bow.virtual_mass").unwrap();
    assert!((fit.virtual_mass - half) < 0.0 && low == 0.0, "{fit:?} {low}");
    assert!((high - fit.virtual_mass - half).abs() < 1e-9 * half, "{high}");
    // At the mean mass the speed is that of the mean of 1/v^2, whatever the
    // virtual mass.
    let middle = Mass::from_si((0.022 + 0.028 + 0.035) / 3.0);
    let slowness = rows.iter().map(|(_, v)| v.powi(-2)).sum::<f64>() / 3.0;
    let recipe = scenario.recipe(None).unwrap();
    for virtual_mass in [low, fit.virtual_mass, high] {
        let bow = recipe.setup(&[(slot, virtual_mass)]).unwrap().bow;
        let own = own_speed(&bow, middle).unwrap().si();
        assert!((own * slowness.sqrt() - 1.0).abs() < 1e-15, "{own}");
    }
}

#[test]
fn exact_a_curve_brings_its_own_draw_weight() {
    let rows = [(8.25, 0.0), (12.0, 40.0), (18.0, 61.5), (25.0, 58.0), (29.0, 14.0)];
    let row = |(d, f): &(f64, f64)| format!("{{ draw = \"{d} in\", force = \"{f} lbf\" }}");
    let list: Vec<String> = rows.iter().map(row).collect();
    let scenario = shot(&format!("speed_from = \"stored\"\ncurve = [{}]", list.join(", ")), "");
    let bow = setup(&scenario).bow;
    let pound = 0.453_592_37 * units::STANDARD_GRAVITY;
    let curve = bow.curve.unwrap();
    assert_eq!(bow.draw_weight.si(), 61.5 * pound);
    assert_eq!(curve.peak(), bow.draw_weight.si());
    assert_eq!(curve.points().len(), 5);
    assert_eq!(curve.points()[1], (12.0 * 0.0254, 40.0 * pound));
    assert_eq!(bow.speed, SpeedSource::Stored);
    // Only here does hysteresis move the speed.
    assert!(of_doubt(&scenario, "bow.hysteresis").is_some());
    assert!(of_doubt(&shot(CHRONOGRAPH, ""), "bow.hysteresis").is_none());
}

/// Stored energy goes with force times stroke, speed with its square root.
#[test]
fn exact_a_changed_draw_weight_carries_a_chronograph_reading_over() {
    let sweep = "[question]\nkind = \"sweep\"\nkey = \"bow.draw_weight\"\nvalues = [\"66 lbf\"]";
    for bow in [CHRONOGRAPH, &readings(&[0.022, 0.035])] {
        let scenario = shot(bow, sweep);
        let Question::Sweep(swept) = scenario.plan().unwrap().question else { panic!("no sweep") };
        let recipe = scenario.recipe(None).unwrap();
        let mass = Mass::from_si(0.03);
        let own = |changes: &[(Slot, f64)]| {
            own_speed(&recipe.setup(changes).unwrap().bow, mass).unwrap().si()
        };
        let ratio = own(&[(swept.slot, swept.values[0])]) / own(&[]);
        // Another arrow than the one read gets its share from the bow's own run.
        assert!((ratio - 1.1_f64.sqrt()).abs() < 1e-3, "{ratio}");
    }
}

#[test]
fn exact_fingers_push_the_nock_away_from_the_riser() {
    let left = |bow: &str| {
        let scenario = shot(&format!("{CHRONOGRAPH}\n{bow}"), "");
        let range = of_doubt(&scenario, "bow.release.left").map(|(_, low, high)| (low, high));
        (setup(&scenario).bow.release.left, range)
    };
    assert_eq!(left(""), (Momentum::ZERO, None));
    assert_eq!(left("kind = \"recurve\"\nrelease_by = \"aid\"").0, Momentum::ZERO);
    assert_eq!(left("kind = \"recurve\"\nrelease_by = \"aid\"\nrest.side = \"right\"").1, None);
    let (right_hand, range) = left("kind = \"recurve\"");
    assert_eq!((right_hand.si(), range), (0.01, Some((0.003, 0.02))));
    let (left_hand, range) = left("release_by = \"fingers\"\nrest.side = \"right\"");
    assert_eq!((left_hand.si(), range), (-0.01, Some((-0.02, -0.003))));
}

#[test]
fn exact_a_drawn_release_is_the_archers_and_new_on_each_shot() {
    let lines = "[bow.release]\nleft = { mean = \"10 mN s\", sd = \"2 mN s\" }";
    let scenario = shot(&format!("{CHRONOGRAPH}\nkind = \"recurve\""), lines);
    let recipe = scenario.recipe(None).unwrap();
    let draw = &recipe.draws()[0];
    assert_eq!((draw.owner, draw.per, draw.off), (Owner::Archer, Per::Shot, 0.01));
}

#[test]
fn exact_the_rest_follows_the_bow() {
    for (bow, kind, half) in [
        ("compound", RestKind::DropAway, 0.41),
        ("recurve", RestKind::SidePoint, 0.83),
        ("longbow", RestKind::Shelf, 0.86),
    ] {
        let scenario = shot(&format!("{CHRONOGRAPH}\nkind = \"{bow}\""), "");
        let bow = setup(&scenario).bow;
        assert_eq!((bow.rest.kind, bow.rest.side, bow.half_string.si()), (kind, Side::Left, half));
        assert_eq!(bow.rest.preload.si(), if kind == RestKind::SidePoint { 2.0 } else { 0.0 });
        // Only a drop-away goes out of reach on its own.
        let let_go = of_doubt(&scenario, "bow.rest.share").is_some();
        assert_eq!(let_go, kind == RestKind::DropAway);
        assert!(let_go || bow.rest.share.si() == 1.0);
    }
}

#[test]
fn exact_a_build_replaces_the_readings_and_what_a_rest_has() {
    let scenario = shot(
        &format!("{}\nkind = \"recurve\"\nrest.preload = \"3 N\"", readings(&[0.02, 0.03])),
        "[[build]]\nname = \"read\"\n[[build]]\nname = \"given\"\n[build.bow]\n\
         virtual_mass = \"7 g\"\nspeed = \"180 ft/s\"\nspeed_mass = \"400 gr\"\n\
         [build.bow.rest]\nkind = \"containment\"",
    );
    let of = |name| scenario.recipe(Some(name)).unwrap().setup(&[]).unwrap().bow;
    assert_eq!(of("given").virtual_mass.unwrap().si(), 0.007);
    assert_eq!(of("given").rest.preload.si(), 0.0);
    assert_eq!(of("read").rest.preload.si(), 3.0);
    assert!((of("read").virtual_mass.unwrap().si() - 0.006).abs() < 1e-15);
}

fn tuned(lines: &str) -> (Scenario, Tune) {
    let scenario = shot(CHRONOGRAPH, lines);
    let Question::Tune(tune) = scenario.plan().unwrap().question else { panic!("not tuned") };
    (scenario, tune)
}

/// Nine values, 15 % to either side, of a spine 35 %, its own in the middle.
#[test]
fn exact_tuning_varies_each_value_about_its_own() {
    let (_, tune) = tuned("[question]\nkind = \"tune\"");
    let keys: Vec<&str> = tune.trends.iter().map(|sweep| sweep.key.as_str()).collect();
    let usual = ["arrow.shaft.spine", "arrow.point.mass", "arrow.shaft.length", "bow.draw_weight"];
    assert_eq!(keys, usual);
    let spine = &tune.trends[0];
    assert_eq!(spine.values.len(), 9);
    assert_eq!(spine.values[4], 0.340 * 0.0254);
    for (value, step) in spine.values.iter().zip(-4_i32..=4) {
        let share = 1.0 + 0.35 * f64::from(step) / 4.0;
        assert!((value / (0.340 * 0.0254) - share).abs() < 1e-15, "{value}");
    }
    assert_eq!(spine.labels[0], "0.221 in");
    let paper: Vec<f64> = tune.paper.iter().map(|at| at.si()).collect();
    assert_eq!(paper, [2.0, 4.0, 8.0].map(|yards| yards * 0.9144));
}

#[test]
fn exact_tuning_leaves_out_what_it_cannot_vary_unless_asked() {
    let lines = "[question]\nkind = \"tune\"\n[[build]]\nname = \"a\"\n[build.arrow.shaft]\n\
                 spine = { mean = \"0.34 in\", sd = \"0.003 in\" }";
    let (scenario, tune) = tuned(lines);
    assert!(tune.trends.iter().all(|sweep| sweep.key != "arrow.shaft.spine"));
    assert_eq!(tune.trends.len(), 3);
    let again = read(Path::new("again.toml"), &|_| Ok(scenario.resolved())).unwrap();
    assert_eq!(again.plan().unwrap().question, Question::Tune(tune));
    let (_, own) = tuned("[question]\nkind = \"tune\"\ntrends = [\"arrow.point.diameter\"]");
    assert_eq!(own.trends[0].values[4], 0.246 * 0.0254);
}

#[test]
fn exact_a_measured_shift_is_read_as_written() {
    let measured = |change: &str| {
        let lines =
            format!("[measured]\ndistance = \"20 m\"\nleft = \"-3 cm\"\nup = \"1 cm\"\n{change}");
        shot(CHRONOGRAPH, &lines).measured().unwrap()
    };
    let turned = measured("nock_turn = \"0.25 turn\"");
    assert_eq!((turned.distance.si(), turned.shift), (20.0, [-0.03, 0.01]));
    assert_eq!(turned.how, Moved::NockTurn(std::f64::consts::FRAC_PI_2));
    assert_eq!(measured("bare = true").how, Moved::Bare);
    assert_eq!(shot(CHRONOGRAPH, "").measured(), None);
}
