//! A job file: refused with a place, or opened, checked, and written again without loss.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tautmark::job::check::check;
use tautmark::job::{read, write};

fuzz_target!(|text: &str| {
    let Ok(opened) = read(text) else {
        return;
    };
    for problem in check(&opened.job).1 {
        assert!(!problem.text.is_empty() && !problem.remedy.is_empty());
    }
    let written = write(&opened.job).expect("what was read can be written");
    let again = read(&written).expect("what was written can be read");
    assert!(again == opened);
});
