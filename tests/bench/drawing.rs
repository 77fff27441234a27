//! How long from a solution to its plan on paper, by how many posts it has?

use tautmark::drawing::{
    Bundled, Detail, Hand, LayoutDesk, PlanShow, Seen, Turn, fitted, lay_out, plan,
};
use tautmark::export::{Paper, dxf, pages, svg_plan};
use tautmark::job::model::{Bays, End, Run};
use tautmark::job::{self, Job};
use tautmark::sheet::Sheet;
use tautmark::solve;

fn main() {
    divan::main();
}

/// A long fence along two fields: so many posts in two runs that meet nowhere.
fn long_fence(posts: usize) -> Job {
    let text = include_str!("../cases/coal-yard-return.job.json");
    let mut job = job::read(text).expect("the case opens").job;
    job.corners.clear();
    let each = posts / 2 - 1;
    job.runs = (0..2)
        .map(|nth| Run {
            id: format!("R{nth}").as_str().into(),
            line: job.lines[nth].id.clone(),
            start: Some(End {
                mark: Some(job.marks[2 * nth].id.clone()),
                ..End::default()
            }),
            end: Some(End {
                length: Some(each as f64 * 600.0),
                ..End::default()
            }),
            bays: Some(Bays {
                max: 600.0,
                ..Bays::default()
            }),
            ..Run::default()
        })
        .collect();
    job
}

const POSTS: [usize; 4] = [20, 300, 1000, 3000];

#[divan::bench(args = POSTS, max_time = 20, sample_count = 5, sample_size = 1)]
fn plan_on_paper(bencher: divan::Bencher, posts: usize) {
    let job = long_fence(posts);
    let solution = solve(&job);
    let many: usize = solution.runs.values().map(|run| run.posts.len()).sum();
    assert_eq!(many, posts);
    bencher.bench(|| svg_plan(divan::black_box(&job), &solution));
}

#[divan::bench(args = POSTS, max_time = 20, sample_count = 5, sample_size = 1)]
fn plan_at_its_scale(bencher: divan::Bencher, posts: usize) {
    let job = long_fence(posts);
    let solution = solve(&job);
    bencher.bench(|| dxf(divan::black_box(&job), &solution));
}

#[divan::bench(args = POSTS, max_time = 20, sample_count = 5, sample_size = 1)]
fn plan_on_a_screen(bencher: divan::Bencher, posts: usize) {
    let job = long_fence(posts);
    let solution = solve(&job);
    let show = PlanShow {
        turn: Turn::Site,
        detail: Detail::Screen,
        readings: Seen::Shown,
        ..PlanShow::default()
    };
    let hand = Hand::screen(1.0);
    let desk = LayoutDesk {
        hand: &hand,
        measure: &Bundled,
    };
    bencher.bench_local(|| {
        let drawing = plan(divan::black_box(&job), &solution, &show);
        let room = [412.0, 500.0];
        lay_out(&drawing, &fitted(&drawing, room, desk), Some(room), desk)
    });
}

#[divan::bench(args = POSTS, max_time = 20, sample_count = 3, sample_size = 1)]
fn sheet_on_pages(bencher: divan::Bencher, posts: usize) {
    let job = long_fence(posts);
    let solution = solve(&job);
    bencher.bench(|| pages(&Sheet::new(divan::black_box(&job), &solution), Paper::A4));
}
