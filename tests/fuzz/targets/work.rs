//! Asks the question `work` of inputs that the fuzzer makes.

#![no_main]

libfuzzer_sys::fuzz_target!(|input: &[u8]| questions::ask("work", input));
