//! Asks the question `car_file` of inputs that the fuzzer makes.

#![no_main]

libfuzzer_sys::fuzz_target!(|input: &[u8]| questions::ask("car_file", input));
