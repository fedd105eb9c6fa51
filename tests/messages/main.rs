//! Every error message, word for word.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

/// A snapshot for each text. Above the modules, which use it.
macro_rules! shows {
    ($($name:ident: $text:expr;)*) => {$(
        #[test]
        fn $name() {
            insta::assert_snapshot!($text);
        }
    )*};
}

mod arrow;
mod bench;
mod body;
mod flight;
mod launch;
mod marks;
mod page;
mod report;
mod scenario;
mod shots;
mod slips;
mod solve;
mod study;
mod tables;
mod target;
mod tune;
mod units;
mod workbench;
