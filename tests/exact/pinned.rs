//! The part file of a pinned restraint.

use scenario::restraint_part;

#[test]
fn exact_part_file_says_value_and_range() {
    let part = restraint_part("how", 0.75, (0.5, 1.25));
    assert_eq!(part, "# how\nrestraint = { value = 0.75, low = 0.5, high = 1.25 }\n");
}

#[test]
fn exact_part_file_without_a_range_says_the_value() {
    assert_eq!(restraint_part("how", 0.75, (0.75, 0.75)), "# how\nrestraint = 0.75\n");
}

#[test]
fn exact_part_file_tells_where_its_range_was_cut() {
    let part = restraint_part("how", 8.0, (4.0, 60.0));
    let want = "# how\n# The range left is wider; a scenario may say 0 to 20.\n\
        restraint = { value = 8, low = 4, high = 20 }\n";
    assert_eq!(part, want);
}
