//! How long from a job to its whole solution?

use tautmark::job::model::{Bays, End, Line, Run, Station};
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

/// Sixty parallel strings, a run of posts on each: as many posts as an estate has.
fn estate(runs: usize) -> Job {
    let mut job = opened("coal-yard-return");
    job.lines.clear();
    job.corners.clear();
    job.runs.clear();
    let wall = job.walls[0].id.clone();
    let from = job.walls[0].from.clone();
    for nth in 0..runs {
        let id = format!("L{nth}");
        job.lines.push(Line {
            id: id.as_str().into(),
            wall: Some(wall.clone()),
            offsets: Some(vec![Station {
                at: Some(0.0),
                off: Some(3000.0 * nth as f64),
                ..Station::default()
            }]),
            ..Line::default()
        });
        job.runs.push(Run {
            id: format!("R{nth}").as_str().into(),
            line: id.as_str().into(),
            start: Some(End {
                mark: Some(from.clone()),
                ..End::default()
            }),
            end: Some(End {
                length: Some(28_800.0),
                ..End::default()
            }),
            bays: Some(Bays {
                max: 1800.0,
                ..Bays::default()
            }),
            ..Run::default()
        });
    }
    job
}

#[divan::bench(args = [0, 60])]
fn runs_of_seventeen_posts(bencher: divan::Bencher, runs: usize) {
    let job = estate(runs);
    let posts: usize = solve(&job).runs.values().map(|run| run.posts.len()).sum();
    assert_eq!(posts, 17 * runs);
    bencher.bench(|| solve(divan::black_box(&job)));
}
