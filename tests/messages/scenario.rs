//! What a user reads when a scenario file is wrong.

use std::collections::BTreeMap;
use std::io;
use std::path::Path;

use scenario::{Report, ScenarioError, read};

/// A scenario with nothing wrong.
const GOOD: &str = r#"title = "Test"
[bow]
draw_weight = "60 lbf"
draw_length = "29 in"
speed = "276 ft/s"
speed_mass = "425 gr"
[arrow.shaft]
outside = "0.246 in"
density = "9.5 gr/in"
spine = "0.340 in"
length = "28.5 in"
[arrow.point]
mass = "100 gr"
[arrow.vanes]
mass = "6 gr"
"#;

fn report(files: &[(&str, &str)]) -> Report {
    let files: BTreeMap<&str, &str> = files.iter().copied().collect();
    let open = |path: &Path| {
        let text = path.to_str().and_then(|path| files.get(path));
        text.map(|text| (*text).to_owned()).ok_or_else(|| io::ErrorKind::NotFound.into())
    };
    match read(Path::new("a/scenario.toml"), &open) {
        Ok(_) => panic!("the scenario should be refused"),
        Err(report) => report,
    }
}

/// The message for the good scenario with one text replaced.
fn changed(from: &str, to: &str) -> String {
    assert!(GOOD.contains(from), "{from}");
    alone(&GOOD.replacen(from, to, 1))
}

/// The message for the good scenario with lines added at the end.
fn added(lines: &str) -> String {
    alone(&format!("{GOOD}{lines}\n"))
}

/// The message with these lines in place of the chronograph reading.
fn bow(lines: &str) -> String {
    changed("speed = \"276 ft/s\"\nspeed_mass = \"425 gr\"", lines)
}

/// The message with these lines in place of the draw weight.
fn curve(lines: &str) -> String {
    let text = GOOD.replacen("draw_weight = \"60 lbf\"\n", "", 1);
    alone(&text.replacen(
        "speed_mass = \"425 gr\"",
        &format!("speed_mass = \"425 gr\"\n{lines}"),
        1,
    ))
}

fn alone(text: &str) -> String {
    report(&[("a/scenario.toml", text)]).render(false)
}

shows! {
    regress_message_unreadable: report(&[]).render(false);
    regress_message_syntax: changed("speed = \"276 ft/s\"", "speed = \"276 ft/s");
    regress_message_twice: changed("speed_mass = \"425 gr\"", "speed = \"280 ft/s\"");
    regress_message_two_slips_of_syntax: alone("title = \"x\nseed 4\n[bow\n");
    regress_message_unknown_key_near: changed("draw_weight", "draw_wieght");
    regress_message_unknown_key_elsewhere: changed("mass = \"6 gr\"", "humidity = 0.4");
    regress_message_unknown_key_far: changed("mass = \"6 gr\"", "colour = \"red\"");
    regress_message_unknown_table: added("[bows]\nkind = \"compound\"");
    regress_message_table_without_its_room: added("[shaft]\nspine = \"0.4 in\"");
    regress_message_not_in_build: added("[[build]]\nname = \"a\"\nseed = 3\n[build.question]\nends = true");
    regress_message_wrong_type: changed("title = \"Test\"", "title = 3");
    regress_message_wrong_type_table: added("[arrow]\nnock = \"light\"");
    regress_message_wrong_type_optional: added("[arrow]\nwrap = \"no\"");
    regress_message_bare_number: changed("\"28.5 in\"", "28.5");
    regress_message_number_without_unit: changed("\"28.5 in\"", "\"28.5\"");
    regress_message_trade_spelling: changed("\"60 lbf\"", "\"60 punds\"");
    regress_message_unknown_unit: changed("\"28.5 in\"", "\"28.5 cubits\"");
    regress_message_no_number: changed("\"28.5 in\"", "\"long\"");
    regress_message_number_clear_to_nobody: changed("\"28.5 in\"", "\"1,285 in\"");
    regress_message_range_in_place_of_a_number: changed("\"60 lbf\"", "\"60-65 lb\"");
    regress_message_grams_for_grains: changed("\"100 gr\"", "\"750 g\"");
    regress_message_let_off_in_per_cent: changed("[arrow.shaft]", "let_off = 80\n[arrow.shaft]");
    regress_message_spine_of_wood: changed("\"0.340 in\"", "\"60 lbs\"");
    regress_message_spine_of_no_shaft: changed("\"0.340 in\"", "34");
    regress_message_infinite: changed("\"28.5 in\"", "\"1e999 in\"");
    regress_message_ratio_infinite: added("[aero]\nnock_drag = inf");
    regress_message_out_of_range_in_its_unit: changed("\"28.5 in\"", "\"2.85 m\"");
    regress_message_out_of_range_count: added("count = 9");
    regress_message_count_with_fraction: added("count = 2.5");
    regress_message_seed_too_large: changed("[bow]", "seed = 99999999999999999999\n[bow]");
    regress_message_unknown_choice_near: changed("[arrow.shaft]", "kind = \"compund\"\n[arrow.shaft]");
    regress_message_unknown_choice_far: changed("[arrow.shaft]", "kind = \"sling\"\n[arrow.shaft]");
    regress_message_missing: changed("spine = \"0.340 in\"\n", "");
    regress_message_missing_with_its_table: changed("[arrow.point]\nmass = \"100 gr\"\n", "");
    regress_message_missing_in_build: changed("[arrow.point]\nmass = \"100 gr\"",
        "[[build]]\nname = \"a\"\narrow.point.mass = \"100 gr\"\n[[build]]\nname = \"b\"\n[arrow.point]");
    regress_message_no_speed: changed("speed = \"276 ft/s\"\nspeed_mass = \"425 gr\"\n", "");
    regress_message_no_measure: added("[faults.bend]\nreading = \"0.003 in\"");
    regress_message_conflict: added("[bow.rating]\nspeed = \"335 ft/s\"");
    regress_message_conflict_air: added("[air]\npressure = \"1000 hPa\"\naltitude = \"300 m\"");
    regress_message_conflict_tip: added("[faults]\ntip_runout.reading = \"0.1 mm\"\npoint_cant.angle = \"0.1 deg\"");
    regress_message_needs: added("[wind]\nroughness = \"0.1 m\"");
    regress_message_rigid_body_unused: added("[rigid_body]\nduration = \"3 s\"");
    regress_message_rigid_body_missing: added("[flight]\nmodel = \"rigid-body\"");
    regress_message_not_for_kind: added("[question]\nkey = \"arrow.point.mass\"");
    regress_message_no_blades: added("[arrow.point.blades]\ncount = 3");
    regress_message_empty_list: added("[question]\ndistances = []");
    regress_message_not_rising: added("[question]\ndistances = [\"20 yd\", \"40 yd\", \"30 m\"]");
    regress_message_ceiling_below_first_batch: added("[question]\nr90_within = \"3 %\"\nat_most = 500");
    regress_message_not_a_law: added("[faults.nock_cant]\nangle = { mean = \"0 deg\" }");
    regress_message_unknown_law_key: added("[faults.nock_cant]\nangle = { mean = \"0 deg\", sigma = \"1 deg\" }");
    regress_message_no_spread: added("[archer]\naim_left = { mean = \"0 deg\", sd = \"-0.1 deg\" }");
    regress_message_low_not_below: added("[archer]\naim_left = { low = \"1 deg\", high = \"-1 deg\" }");
    regress_message_outside_doubt: added("[aero]\nnock_drag = { value = 0.9, low = 0.3, high = 0.6 }");
    regress_message_mean_out_of_range: added("[archer]\naim_left = { mean = \"40 deg\", sd = \"1 deg\" }");
    regress_message_unknown_per: added("[archer]\naim_left = { mean = \"0 deg\", sd = \"1 deg\", per = \"shots\" }");
    regress_message_not_drawn: added("[question]\nzone = { low = \"6 in\", high = \"8 in\" }");
    regress_message_count_not_drawn: added("count = { low = 3, high = 4 }");
    regress_message_not_a_size: added("[archer]\naim_left = { rayleigh = \"0.1 deg\" }");
    regress_message_readings_not_a_list: bow("readings = \"many\"");
    regress_message_readings_of_numbers: bow("readings = [276, 280]");
    regress_message_readings_one: bow("readings = [{ mass = \"425 gr\", speed = \"276 ft/s\" }]");
    regress_message_readings_one_mass: bow("readings = [{ mass = \"425 gr\", speed = \"276 ft/s\" }, { mass = \"425 gr\", speed = \"277 ft/s\" }]");
    regress_message_readings_not_slower: bow("readings = [\n  { mass = \"425 gr\", speed = \"276 ft/s\" },\n  { mass = \"500 gr\", speed = \"280 ft/s\" },\n]");
    regress_message_readings_no_virtual_mass: bow("readings = [{ mass = \"425 gr\", speed = \"276 ft/s\" }, { mass = \"500 gr\", speed = \"240 ft/s\" }]");
    regress_message_readings_every_slip: bow("readings = [\n  { mass = \"425 lbs\", speed = \"276 ft/s\" },\n  { mass = \"5 gr\", sped = \"280 ft/s\" },\n  { speed = 270 },\n  { mass = { low = 1, high = 2 }, speed = \"270 ft/s\" },\n]");
    regress_message_curve_not_rising: curve("curve = [\n  { draw = \"8.25 in\", force = \"0 lbf\" },\n  { draw = \"20 in\", force = \"61 lbf\" },\n  { draw = \"18 in\", force = \"60 lbf\" },\n  { draw = \"18 in\", force = \"1600 lbf\" },\n]");
    regress_message_curve_falls_back_twice: curve("curve = [\n  { draw = \"20 in\", force = \"0 lbf\" },\n  { draw = \"18 in\", force = \"61 lbf\" },\n  { draw = \"18 in\", force = \"60 lbf\" },\n]");
    regress_message_curve_of_two: curve("curve = [{ draw = \"8 in\", force = \"0 lbf\" }, { draw = \"29 in\", force = \"60 lbf\" }]");
    regress_message_curve_short: curve("curve = [{ draw = \"8 in\", force = \"0 lbf\" }, { draw = \"20 in\", force = \"60 lbf\" }, { draw = \"27 in\", force = \"60 lbf\" }]");
    regress_message_conflict_curve: changed("draw_weight", "curve = [{ draw = \"8 in\", force = \"0 lbf\" }, { draw = \"20 in\", force = \"60 lbf\" }, { draw = \"29 in\", force = \"20 lbf\" }]\ndraw_weight");
    regress_message_conflict_readings: changed("speed_mass", "readings = [{ mass = \"425 gr\", speed = \"276 ft/s\" }, { mass = \"500 gr\", speed = \"258 ft/s\" }]\nvirtual_mass = \"5 g\"\nspeed_mass");
    regress_message_conflict_stored: changed("speed_mass", "speed_from = \"stored\"\nspeed_mass");
    regress_message_preload_without_side_point: added("[bow.rest]\npreload = \"2 N\"");
    regress_message_preload_with_another_rest: added("[bow.rest]\nkind = \"shelf\"\npreload = \"2 N\"");
    regress_message_impulse_in_another_unit: added("[bow.release]\nleft = \"10 mN\"");
    regress_message_rest_misspelled: added("[bow.rest]\nkind = \"sidepoint\"");
    regress_message_sweep_of_curve_weight: curve("curve = [{ draw = \"8 in\", force = \"0 lbf\" }, { draw = \"20 in\", force = \"60 lbf\" }, { draw = \"29 in\", force = \"20 lbf\" }]\n[question]\nkind = \"tune\"\ntrends = [\"bow.draw_weight\", \"arrow.point.mas\", \"bow.kind\"]");
    regress_message_tune_not_for_kind: added("[question]\npaper = [\"2 yd\"]\nkind = \"sweep\"\nkey = \"arrow.point.mass\"\nvalues = [\"100 gr\"]\nends = true");
    regress_message_trends_empty: added("[question]\nkind = \"tune\"\ntrends = []");
    regress_message_trends_not_texts: added("[question]\nkind = \"tune\"\ntrends = [3, \"arrow.shaft.spine\"]");
    regress_message_trends_without_a_share: added("[question]\nkind = \"tune\"\ntrends = [\"wind.speed\", \"arrow.vanes.count\"]");
    regress_message_measured_without_change: added("[measured]\ndistance = \"20 yd\"\nleft = \"2 in\"\nup = \"0 in\"\nbare = false");
    regress_message_measured_twice: added("[measured]\ndistance = \"20 yd\"\nleft = \"2 in\"\nup = \"0 in\"\nbare = true\nnock_turn = \"120 deg\"");
    regress_message_measured_incomplete: added("[measured]\nnock_turn = \"120 deg\"");
    regress_message_measured_bare_without_vanes: changed("[arrow.vanes]\nmass = \"6 gr\"\n", "[measured]\ndistance = \"20 yd\"\nleft = \"2 in\"\nup = \"0 in\"\nbare = true\n");
    regress_message_marks_backwards: added("[marks]\nfrom = \"60 yd\"\nto = \"20 yd\"");
    regress_message_marks_too_many: added("[marks]\nfrom = \"5 m\"\nto = \"150 m\"\nstep = \"1 ft\"");
    regress_message_marks_in_wrong_unit: added("[sight]\nradius = \"33 yd\"\npins = [\"20 lb\", \"30 yd\"]\n[marks]\nto = \"60\"\nsteepest = \"80 deg\"");
    regress_message_marks_crossing_pins: added("[sight]\nzero = \"1.5 yd\"\npins = [\"20 yd\", \"40 yd\", \"30 yd\"]\n[marks]");
    regress_message_marks_changes: added("[marks]\nchanges = [\"air.temperatur\", \"bow.kind\", \"arrow.insert.mass\"]\ntwigs = [{ distance = \"12 yd\" }]");
    regress_message_sweep_unknown: added("[question]\nkind = \"sweep\"\nkey = \"arrow.point.mas\"\nvalues = [\"1 gr\"]");
    regress_message_sweep_text: added("[question]\nkind = \"sweep\"\nkey = \"bow.kind\"\nvalues = [\"longbow\"]");
    regress_message_sweep_drawn: added("[archer]\naim_up = { mean = \"0 deg\", sd = \"1 deg\" }\n[question]\nkind = \"sweep\"\nkey = \"archer.aim_up\"\nvalues = [\"1 deg\"]");
    regress_message_sweep_unused: added("[question]\nkind = \"sweep\"\nkey = \"arrow.insert.mass\"\nvalues = [\"10 gr\"]");
    regress_message_sweep_rival: added("[question]\nkind = \"sweep\"\nkey = \"bow.rating.speed\"\nvalues = [\"300 ft/s\"]");
    regress_message_sweep_carrier: added("[question]\nkind = \"sweep\"\nkey = \"wind.profile_height\"\nvalues = [\"10 m\"]");
    regress_message_sweep_out_of_range: added("[question]\nkind = \"sweep\"\nkey = \"arrow.point.mass\"\nvalues = [\"100 gr\", \"5 gr\", \"100 in\", 3]");
    regress_message_sweep_without_key: added("[question]\nkind = \"sweep\"");
    regress_message_sweep_without_values: added("[question]\nkind = \"sweep\"\nkey = \"arrow.point.mass\"\nfrom = \"75 gr\"");
    regress_message_sweep_both: added("[question]\nkind = \"sweep\"\nkey = \"arrow.point.mass\"\nfrom = \"75 gr\"\nvalues = [\"75 gr\"]");
    regress_message_seven_builds: added("[[build]]\nname = \"a\"\n[[build]]\nname = \"b\"\n[[build]]\nname = \"c\"\n[[build]]\nname = \"d\"\n[[build]]\nname = \"e\"\n[[build]]\nname = \"f\"\n[[build]]\nname = \"g\"\n[build.arrow.nock]\nmass = \"9 gr\"");
    regress_message_range_error_too_large: added("[question]\nrange_error = \"10 yd\"");
    regress_message_round_without_face: added("[question]\nround = 60");
    regress_message_worth_without_steps: added("[question]\nkind = \"worth\"");
    regress_message_step_for_another_kind: added("[[step]]\nname = \"a\"\n[step.faults.point_end]\nangle = \"0 deg\"");
    regress_message_steps_amiss: added("[question]\nkind = \"worth\"\nr90_within = \"3 %\"\n[[step]]\nname = \"a\"\n[[step]]\nname = \"a\"\ntime = 20\ncost = \"3 min\"\nminutes = 5\n[step.sight]\nzero = \"30 yd\"\n[[step]]\ntime = \"0 min\"\n[step.seed]\nx = 1");
    regress_message_step_not_a_list: added("[question]\nkind = \"worth\"\n[step]\nname = \"a\"");
    regress_message_evidence_amiss: added("[[evidence]]\nkind = \"nock-turnt\"\n[[evidence]]\nkind = \"nock-turned\"\nnock_turn = \"2 turn\"\ndrop = \"1 in\"\n[[evidence]]\nkind = \"value\"\nkey = \"bow.restraint.left\"\nvalue = \"1 in\"\n[[evidence]]\nspeed = 3\n[[evidence]]\nkind = \"tear\"\ndistance = \"2 m\"\nleft = \"1 in\"\nshots = 1.5\nerror = \"9 m\"\nat = \"brace\"");
    regress_message_evidence_that_cannot_be: added("[[evidence]]\nkind = \"value\"\nkey = \"bow.draw_weight\"\nvalue = \"60 lbf\"\nerror = \"1 lbf\"\n[[evidence]]\nkind = \"spin\"\nbuild = \"other\"\ndistance = \"20 yd\"\nrate = \"30 turn/s\"\n[[evidence]]\nkind = \"drop\"\ndistance = \"40 yd\"\nfar = \"20 yd\"\ndrop = \"1 ft\"");
    regress_message_evidence_impossible: added("[[evidence]]\nkind = \"chronograph\"\nname = \"a straw\"\nspeed = \"300 ft/s\"\narrow.shaft.inside = \"0.3 in\"\n[[evidence]]\nkind = \"chronograph\"\nspeed = \"300 ft/s\"\nmass = \"60 gr\"");
    regress_message_evidence_elsewhere: report(&[
        ("a/scenario.toml", &format!("evidence = \"mine.toml\"\n{GOOD}")),
        ("a/mine.toml", "note = \"mine\"\n[[evidence]]\nkind = \"spin\"\n"),
    ]).render(false);
    regress_message_step_no_arrow: added("[question]\nkind = \"worth\"\n[[step]]\nname = \"cut\"\n[step.arrow.shaft]\nlength = \"20 in\"");
    regress_message_step_clash: added("[question]\nkind = \"worth\"\n[[step]]\nname = \"spin\"\n[step.faults]\ntip_runout.reading = \"0.002 in\"\npoint_cant.angle = \"0.1 deg\"");
    regress_message_matters_not_for_kind: added("[question]\nkind = \"matters\"\narrows = 12\nwithin = \"50 %\"\nends = true");
    regress_message_sorted_laws: added("[faults.point_end]\nangle = { rayleigh = \"0.2 deg\", at_most = \"0 deg\" }\n[archer]\naim_up = { low = \"0 deg\", high = \"1 deg\", within = \"1 deg\" }");
    regress_message_same_name: added("[[build]]\nname = \"a\"\n[[build]]\nname = \"a\"");
    regress_message_no_name: added("[[build]]\n[build.air]\nhumidity = 0.3");
    regress_message_build_not_a_list: added("[build]\nname = \"a\"");
    regress_message_not_an_arrow: changed("mass = \"100 gr\"", "mass = \"100 gr\"
balance = \"3 in\"");
    regress_message_no_wall: changed("density", "inside = \"0.3 in\"\ndensity");
    regress_message_no_departure: changed("\"28.5 in\"", "\"20 in\"");
    regress_message_all_at_once: alone("seed = -1\n[bow]\ndraw_wieght = \"60 lbf\"\n[arrow.shaft]\noutside = 0.246\nlength = \"28.5\"\n");
    regress_message_part_missing: changed("[arrow.point]\nmass = \"100 gr\"", "[arrow.point]\npart = \"parts/none.toml\"");
    regress_message_part_not_a_path: changed("[arrow.point]\nmass = \"100 gr\"", "[arrow.point]\npart = 3");
    regress_message_in_part: report(&[
        ("a/scenario.toml", &GOOD.replace("[arrow.point]\nmass = \"100 gr\"", "[arrow.point]\npart = \"parts/point.toml\"")),
        ("a/parts/point.toml", "# A point.\nmass = \"100 in\"\n"),
    ]).render(false);
    regress_message_too_many_tables: report(&[
        ("a/scenario.toml", &("[[step]]\nname = \"a\"\n".repeat(25) + GOOD)),
    ]).render(false).split("\n\n").next().unwrap_or_default();
    regress_message_part_loop: report(&[
        ("a/scenario.toml", &GOOD.replace("[arrow.point]\nmass = \"100 gr\"", "[arrow.point]\npart = \"b.toml\"")),
        ("a/b.toml", "mass = \"100 gr\"\npart = \"b.toml\"\n"),
    ]).render(false);
    // A table where a scenario belongs was seven mistakes of syntax.
    regress_message_table_for_a_scenario: report(&[
        ("a/scenario.toml", "\u{feff}arrow;mass [gr]\r\n1;425,3\r\n2;424,8\r\n"),
    ]).render(false);
    regress_message_part_too_deep: report(&[
        ("a/scenario.toml", &GOOD.replace("[arrow.point]\nmass = \"100 gr\"", "[arrow.point]\npart = \"b.toml\"")),
        ("a/b.toml", "part = \"c.toml\""),
        ("a/c.toml", "part = \"d.toml\""),
        ("a/d.toml", "part = \"e.toml\""),
        ("a/e.toml", "mass = \"100 gr\""),
    ]).render(false);
}

#[test]
fn regress_message_unknown_build_and_command_line() {
    let text = format!("{GOOD}[[build]]\nname = \"a\"\n[[build]]\nname = \"b\"\n");
    let mut scenario = read(Path::new("s.toml"), &|_| Ok(text.clone())).unwrap();
    let error = scenario.recipe(Some("c")).err().unwrap();
    assert!(matches!(error, ScenarioError::UnknownBuild { .. }));
    insta::assert_snapshot!(error);
    insta::assert_snapshot!(scenario.override_question(None, Some(3)).unwrap_err());
}

#[test]
fn exact_position_counts_lines_and_characters_from_one() {
    let text = format!("# a\u{e9}\u{4e2d} comment\n{}", GOOD.replace("\"60 lbf\"", "  \"60 kg\""));
    let report = report(&[("a/scenario.toml", &text)]);
    let problem = &report.problems()[0];
    assert_eq!(report.position(problem), Some(("a/scenario.toml".to_owned(), 4, 17)));
}
