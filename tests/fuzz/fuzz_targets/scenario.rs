#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    clothyard_tests::hammer::scenario(bytes);
});
