//! What a terminal shows first of each scenario that comes along.

use clothyard_tests::program::{Folder, path, run};

use super::demos::{DEMOS, few};

/// Lines of a small window.
const LINES: usize = 25;
/// Characters of a wide one.
const WIDTH: usize = 100;

#[test]
fn law_each_short_answer_fits_a_window_and_keeps_every_caution() {
    let mut long = Vec::new();
    for name in DEMOS {
        let folder = Folder::new(&format!("short-{name}"));
        let (file, out) = (path(&format!("scenarios/{name}.toml")), folder.at("out"));
        let ran = run(&["run", &file, "--flights", few(name), "--out", &out]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        let lines: Vec<&str> = ran.out.lines().collect();
        // The last line names a folder, which may be deep.
        let wide = lines[..lines.len() - 1].iter().any(|line| line.chars().count() > WIDTH);
        let json = std::fs::read_to_string(folder.at("out/result.json")).unwrap();
        let json: serde_json::Value = serde_json::from_str(&json).unwrap();
        let cautions = json["cautions"].as_array().unwrap();
        let told = lines.iter().filter(|line| line.starts_with("! ")).count();
        let flat = lines.join(" ");
        let dangers = cautions.iter().filter_map(|caution| {
            let named = caution.as_str().unwrap().split(['(', ':']).next().unwrap();
            (named.starts_with("Too far") || named.starts_with("May be too far")).then_some(named)
        });
        let kept = told == cautions.len() && dangers.into_iter().all(|of| flat.contains(of.trim()));
        if lines.len() > LINES || wide || !kept {
            long.push(format!("{name}: {} lines\n{}", lines.len(), ran.out));
        }
        if let Ok(into) = std::env::var("CLOTHYARD_SHOTS") {
            std::fs::write(format!("{into}/{name}.txt"), &ran.out).unwrap();
        }
    }
    assert!(long.is_empty(), "{}", long.join("\n"));
}
