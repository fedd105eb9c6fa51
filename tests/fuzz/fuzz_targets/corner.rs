#![no_main]

use clothyard_tests::hammer::{Corners, corner};

// Eight bytes name a corner of the allowed ranges.
libfuzzer_sys::fuzz_target!(|number: u64| {
    corner(&Corners::new().text(number), false);
});
