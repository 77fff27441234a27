//! How long from a job to its whole solution?

use tautmark::job::{self, Job};
use tautmark::solve;

fn main() {
    divan::main();
}

const CASES: [(&str, &str); 4] = [
    (
        "orchard-corner",
        include_str!("../cases/orchard-corner.job.json"),
    ),
    (
        "coal-yard-return",
        include_str!("../cases/coal-yard-return.job.json"),
    ),
    (
        "coal-yard-slip",
        include_str!("../cases/coal-yard-slip.job.json"),
    ),
    (
        "stepped-side-run",
        include_str!("../cases/stepped-side-run.job.json"),
    ),
];

fn opened(name: &str) -> Job {
    let text = CASES
        .iter()
        .find(|(own, _)| *own == name)
        .map(|(_, text)| *text);
    job::read(text.expect("the case is there"))
        .expect("the case opens")
        .job
}

#[divan::bench(args = ["orchard-corner", "coal-yard-return", "coal-yard-slip", "stepped-side-run"])]
fn whole_job(bencher: divan::Bencher, name: &str) {
    let job = opened(name);
    bencher.bench(|| solve(divan::black_box(&job)));
}
