//! A job file, set out as far as it goes.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let Ok(opened) = tautmark::job::read(text) else {
        return;
    };
    let solution = tautmark::solve(&opened.job);
    for problem in &solution.problems {
        assert!(!problem.text.is_empty() && !problem.remedy.is_empty());
    }
    serde_json::to_string(&solution).expect("a solution can be written");
});
