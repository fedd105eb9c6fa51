//! The whole chain of a shot, draw to impact: what is asked, by bow, rest and what is drawn.

/// A question for shares, that flies nothing but groups with everything drawn. Chosen:
/// what is worked out beforehand is a small part of so many flights.
const QUESTION: &str = r#"
title = "The whole chain (invented)"
seed = 3
[question]
kind = "matters"
distances = ["60 yd"]
flights = 40000
within = 0.002
[archer]
aim_left = { mean = "0 deg", sd = "0.05 deg" }
speed = { mean = "0 ft/s", sd = "0.5 ft/s" }
[faults.nock_end]
angle = { rayleigh = "0.1 deg" }
[faults.point_end]
angle = { rayleigh = "0.1 deg" }
"#;
const COMPOUND: &str = r#"
[bow]
kind = "compound"
draw_weight = "60 lbf"
draw_length = "29 in"
speed = "276 ft/s"
speed_mass = "425 gr"
"#;
const RECURVE: &str = r#"
[bow]
kind = "recurve"
draw_weight = "42 lbf"
draw_length = "28.5 in"
speed = "190 ft/s"
speed_mass = "425 gr"
"#;
const ARROW: &str = r#"
[arrow.shaft]
outside = "0.246 in"
inside = "0.204 in"
length = "28.5 in"
"#;
const FIXED: &str = r#"
density = "9.5 gr/in"
spine = "0.400 in"
[arrow.point]
mass = "100 gr"
"#;
const DRAWN: &str = r#"
density = { mean = "9.5 gr/in", sd = "0.06 gr/in" }
spine = { mean = "0.400 in", sd = "0.006 in" }
[arrow.point]
mass = { mean = "100 gr", sd = "1 gr" }
"#;

/// A scenario of the whole chain.
pub struct Chain {
    /// Kind of bow.
    pub bow: &'static str,
    /// Kind of rest.
    pub rest: &'static str,
    /// What is drawn.
    pub drawn: &'static str,
    /// The scenario's text.
    pub text: String,
}

/// What is asked of the whole chain: a scenario for each bow, rest and what is drawn.
pub fn chain() -> Vec<Chain> {
    let bows = [("compound", COMPOUND), ("recurve", RECURVE)];
    let rests = ["drop-away", "containment", "side-point", "shelf"];
    let parts = [("faults and form", FIXED), ("these, spine, density and point", DRAWN)];
    let mut all = Vec::new();
    for (bow, bow_text) in bows {
        for rest in rests {
            for (drawn, drawn_text) in parts {
                let rest_text = format!("\n[bow.rest]\nkind = \"{rest}\"\n");
                let text = [QUESTION, bow_text, &rest_text, ARROW, drawn_text].concat();
                all.push(Chain { bow, rest, drawn, text });
            }
        }
    }
    all
}
