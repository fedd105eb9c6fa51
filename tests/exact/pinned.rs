//! The part file of a pinned restraint.

use scenario::{Restrained, restraint_part};

#[expect(clippy::unnecessary_wraps, reason = "as the part file takes it")]
fn found(value: f64, low: f64, high: f64) -> Option<Restrained> {
    Some(Restrained { value, low, high })
}

#[test]
fn exact_part_file_says_value_and_range() {
    let part = restraint_part("how", [found(0.75, 0.5, 1.25), None]);
    assert_eq!(part, "# how\n[restraint]\nleft = { value = 0.75, low = 0.5, high = 1.25 }\n");
}

#[test]
fn exact_part_file_without_a_range_says_the_value() {
    let part = restraint_part("how", [None, found(0.75, 0.75, 0.75)]);
    assert_eq!(part, "# how\n[restraint]\nup = 0.75\n");
}

#[test]
fn exact_part_file_tells_where_its_range_was_cut() {
    let part = restraint_part("how", [found(8.0, 4.0, 60.0), None]);
    let want = "# how\n[restraint]\n# The range left is wider; a scenario may say 0 to 20.\n\
        left = { value = 8, low = 4, high = 20 }\n";
    assert_eq!(part, want);
}
