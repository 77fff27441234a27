//! What must hold of the boards whatever the ground.

mod fences;

use fences::{cornered, level_ground, straight};
use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use serde_json::json;
use tautmark::boards::{HeightMark, PaleStretch, UpOrDown, height_marks};
use tautmark::job::model::{BoardFit, Foot};
use tautmark::{Solution, solve};

const FENCES: u64 = 400;
const CLOSE: f64 = 1e-6;

/// Every gravel board's bottom, over all runs.
fn bottoms(solution: &Solution) -> Vec<f64> {
    let boards = solution.boards.values().flat_map(|run| &run.gravel);
    boards
        .map(|b| b.bottom.expect("the ground is known"))
        .collect()
}

#[test]
fn clearance_less_digging_holds_in_every_bay() {
    for seed in 0..FENCES {
        let fence = cornered(seed);
        let solution = solve(&fence.job);
        let gravel = fence.job.boards.gravel.as_ref().expect("gravel boards");
        let heights = &solution.levels.as_ref().expect("levels").points;
        for (run, prefix) in [("R1", "front"), ("R2", "side")] {
            let truth = &fence.ground[usize::from(run == "R2")];
            let mut ground: Vec<(f64, f64)> = truth
                .iter()
                .enumerate()
                .map(|(i, (at, _))| (*at, heights[format!("{prefix}{i}").as_str()].height))
                .collect();
            ground.sort_by(|a, b| a.0.total_cmp(&b.0));
            let posts = &solution.runs[run].posts;
            for board in &solution.boards[run].gravel {
                let (start, end) = (posts[board.from - 1].centre, posts[board.to - 1].centre);
                let bottom = board.bottom.expect("a bottom");
                let dig = board.dig.expect("a depth");
                // Walked in short steps, apart from how the boards look for the highest ground.
                for walked in 0..=200 {
                    let at = start + (end - start) * f64::from(walked) / 200.0;
                    let height = along(&ground, at);
                    assert!(
                        bottom >= height + gravel.clearance - gravel.dig - 1e-3,
                        "fence {seed}: {run} bay {} at {at}",
                        board.from
                    );
                    assert!(bottom >= height + gravel.clearance - dig - 1e-3);
                    assert!(bottom - height <= board.max_gap.expect("a gap") + CLOSE);
                }
                assert!(dig <= gravel.dig.max(0.0) + 1e-3, "fence {seed}");
            }
        }
    }
}

fn along(ground: &[(f64, f64)], at: f64) -> f64 {
    let first = ground[0];
    let last = ground[ground.len() - 1];
    if at <= first.0 {
        return first.1;
    }
    for pair in ground.windows(2) {
        let [(a, low), (b, high)] = [pair[0], pair[1]];
        if (a..b).contains(&at) {
            return low + (high - low) * (at - a) / (b - a);
        }
    }
    last.1
}

#[test]
fn steps_are_whole_and_level_is_level() {
    let mut stepped = 0;
    for seed in 0..FENCES {
        let fence = cornered(seed);
        let gravel = fence.job.boards.gravel.clone().expect("gravel boards");
        let bottoms = bottoms(&solve(&fence.job));
        let highest = bottoms.iter().copied().fold(f64::MIN, f64::max);
        for bottom in bottoms {
            let below = highest - bottom;
            match (gravel.fit, gravel.step.filter(|step| *step > 0.0)) {
                (BoardFit::Level, _) => assert!(below < CLOSE, "fence {seed}"),
                (BoardFit::Stepped, Some(step)) => {
                    let steps = below / step;
                    assert!((steps - steps.round()).abs() < CLOSE, "fence {seed}");
                    stepped += usize::from(steps > 0.5);
                }
                (BoardFit::Stepped, None) => {}
            }
        }
    }
    assert!(stepped > 100, "too few fences had a step: {stepped}");
}

#[test]
fn a_given_top_is_the_top_and_too_much_digging_is_said() {
    let ground = level_ground(&[(0.0, -100.0), (5000.0, -300.0)]);
    let boards = json!({ "gravel": { "height": 150, "clearance": 10, "dig": 20, "top": -50 } });
    let solution = solve(&straight(5000.0, json!([]), ground, boards));
    let gravel = &solution.boards["R"].gravel;
    assert!(
        gravel
            .iter()
            .all(|board| board.top == Some(-50.0) && board.bottom == Some(-200.0))
    );
    // Ground −100 and clearance 10 over a bottom of −200.
    assert!((gravel[0].dig.expect("a depth") - 110.0).abs() < CLOSE);
    assert!(fences::says(&solution, "boards.gravel.top", "110"));
}

/// A height as the mark puts it, from a laser line.
fn height(mark: &HeightMark, line: f64) -> f64 {
    match mark.way {
        UpOrDown::Up => line + mark.by,
        UpOrDown::Down => line - mark.by,
    }
}

#[test]
fn either_set_up_puts_a_board_at_one_height_to_the_closure() {
    for seed in 0..FENCES {
        let solution = solve(&cornered(seed).job);
        let levels = solution.levels.as_ref().expect("levels");
        let (first, second) = (levels.setups["S1"].line, levels.setups["S2"].line);
        let steps: Vec<f64> = levels.changes.iter().map(|change| change.step).collect();
        let most = steps.iter().copied().fold(f64::MIN, f64::max);
        let least = steps.iter().copied().fold(f64::MAX, f64::min);
        for post in solution.boards.values().flat_map(|run| &run.posts) {
            let from_first = height_marks(post, first);
            let from_second = height_marks(post, second);
            assert_eq!(from_first.len(), from_second.len());
            for (a, b) in from_first.iter().zip(&from_second) {
                assert_eq!((a.what, a.side), (b.what, b.side));
                assert!((height(a, first) - height(b, second)).abs() < CLOSE);
                // On site only the change points tell where one line is from the other.
                for step in &steps {
                    let on_site = height(b, second) - second + first + step - height(a, first);
                    assert!(on_site.abs() <= most - least + CLOSE, "fence {seed}");
                }
            }
        }
        for (run, boards) in &solution.boards {
            let setup = boards.setup.as_ref().expect("a set-up");
            for board in &boards.gravel {
                let down = board.down.expect("known");
                let again = levels.down_from(setup, board.top.expect("known"));
                assert!((down - again.expect("known")).abs() < CLOSE, "{run}");
            }
        }
    }
}

#[test]
fn rails_are_even_and_sit_in_their_posts() {
    for seed in 0..FENCES {
        let fence = cornered(seed);
        let rails = fence.job.boards.rails.clone().expect("rails");
        let solution = solve(&fence.job);
        for run in solution.boards.values() {
            for (bay, board) in run.rails.iter().zip(&run.gravel) {
                // Where a post is turned, a rail and a board meet it at other depths.
                if bay.ends.is_empty() {
                    assert!((bay.length - board.length - 2.0 * rails.seat).abs() < CLOSE);
                }
                assert!(bay.short <= bay.length && board.short <= board.length);
                let top = board.top.expect("a top");
                assert_eq!(bay.heights.len(), rails.count as usize);
                assert!((bay.heights[0] - top - rails.low).abs() < CLOSE);
                let even: Vec<f64> = bay.heights.windows(2).map(|w| w[1] - w[0]).collect();
                assert!(even.windows(2).all(|w| (w[0] - w[1]).abs() < CLOSE));
                if rails.count > 1 {
                    let last = bay.heights[bay.heights.len() - 1];
                    assert!((last - top - rails.high).abs() < CLOSE);
                }
            }
        }
    }
}

#[test]
fn pales_finish_whole_with_no_lap_under_the_least_and_none_too_many() {
    let mut rng = StdRng::seed_from_u64(7);
    for _ in 0..FENCES {
        let length = rng.random_range(300.0..9000.0);
        let width = rng.random_range(60.0..200.0);
        let least = rng.random_range(0.0..width * 0.4);
        let boards = json!({ "pales": { "width": width, "lap": least } });
        let gates = if length > 4000.0 {
            json!([{ "at": 1500, "clear": 1000 }])
        } else {
            json!([])
        };
        let solution = solve(&straight(length, gates, json!({}), boards));
        let run = &solution.runs["R"];
        for stretch in &solution.boards["R"].pales {
            let (first, last) = (&run.posts[stretch.from - 1], &run.posts[stretch.to - 1]);
            assert!((stretch.cover - (last.far - first.near)).abs() < CLOSE);
            whole(stretch, width, least);
        }
    }
}

fn whole(stretch: &PaleStretch, width: f64, least: f64) {
    let count = stretch.count as f64;
    if stretch.count == 1 {
        assert!(stretch.cover <= width);
        return;
    }
    let covered = count * width - (count - 1.0) * stretch.lap;
    assert!((covered - stretch.cover).abs() < CLOSE);
    assert!(stretch.lap >= least - CLOSE);
    let with_one_less = (count - 1.0) * width - (count - 2.0) * least;
    assert!(with_one_less < stretch.cover + CLOSE, "one pale too many");
    let marks: Vec<f64> = stretch.marks().collect();
    assert_eq!(marks.len(), stretch.count);
    assert!((marks[0] - stretch.start).abs() < CLOSE);
    let end = marks[marks.len() - 1] + width;
    assert!((end - stretch.start - stretch.cover).abs() < 1e-3);
}

#[test]
fn lengths_sum_up_from_bays_to_cuts_to_bars() {
    let mut rng = StdRng::seed_from_u64(11);
    for seed in 0..FENCES {
        let mut job = cornered(seed).job;
        let count = job
            .boards
            .rails
            .as_ref()
            .map_or(0, |rails| rails.count as usize);
        let mut lengths = |least: f64| -> Vec<f64> {
            (0..rng.random_range(0..4))
                .map(|_| rng.random_range(least..5000.0))
                .collect()
        };
        job.stock.rails = lengths(800.0);
        job.stock.gravel = lengths(800.0);
        job.stock.posts = lengths(1800.0);
        let solution = solve(&job);
        let runs = || solution.boards.values();
        let gravel: f64 = runs().flat_map(|run| &run.gravel).map(|b| b.length).sum();
        let rails: f64 = runs()
            .flat_map(|run| &run.rails)
            .map(|b| b.length * count as f64)
            .sum();
        let pales: usize = runs().flat_map(|run| &run.pales).map(|s| s.count).sum();
        let buy = &solution.buy;
        // Pieces within 0.05 mm of each other are cut alike.
        assert!((buy.gravel.length - gravel).abs() <= 0.05 * buy.gravel.pieces as f64);
        assert!((buy.rails.length - rails).abs() <= 0.05 * buy.rails.pieces as f64);
        assert_eq!(buy.pales.pieces, pales);
        let posts: usize = runs().map(|run| run.posts.len()).sum();
        assert_eq!(buy.post_count, posts - 1, "the corner post counts once");
        assert_eq!(buy.posts.pieces, posts - 1);
        let kinds = [
            (&buy.gravel, &job.stock.gravel),
            (&buy.rails, &job.stock.rails),
            (&buy.posts, &job.stock.posts),
        ];
        for (bought, stock) in kinds {
            let packed: usize = bought.bars.iter().map(|bar| bar.pieces.len()).sum();
            let bars: usize = bought.stock.iter().map(|(_, count)| count).sum();
            assert_eq!(bars, bought.bars.len());
            if !stock.is_empty() {
                assert_eq!(packed + bought.too_long.len(), bought.pieces);
            }
            for bar in &bought.bars {
                assert!(stock.contains(&bar.stock));
                let cuts = (bar.pieces.len() - 1) as f64 * job.stock.kerf;
                let used = bar.pieces.iter().sum::<f64>() + cuts;
                assert!((bar.stock - used - bar.left).abs() < CLOSE && bar.left >= 0.0);
            }
        }
    }
}

#[test]
fn posts_reach_from_the_hole_to_the_top() {
    for seed in 0..FENCES {
        let job = cornered(seed).job;
        let solution = solve(&job);
        for (id, run) in &solution.boards {
            for (post, stands) in run.posts.iter().zip(&solution.runs[id].posts) {
                let (Some(top), Some(ground)) = (post.top, post.ground) else {
                    panic!("fence {seed}: a post without heights");
                };
                let sides = [&post.before, &post.after].into_iter().flatten();
                let higher = sides.map(|bay| bay.top).fold(f64::MIN, f64::max);
                assert!((top - higher - 1600.0).abs() < CLOSE);
                let length = post.length.expect("a length");
                if stands.foot == Foot::Wall {
                    assert!((length - (top - ground) + 20.0).abs() < CLOSE);
                    continue;
                }
                assert!((length - (top - ground) - job.hole.depth).abs() < CLOSE);
                let share = post.in_ground.expect("a share");
                assert!((share * length - job.hole.depth).abs() < CLOSE);
            }
        }
        // Two runs share one corner post, whichever asks.
        let first = solution.boards["R1"].posts.last().expect("posts");
        let second = solution.boards["R2"].posts.first().expect("posts");
        assert_eq!((first.top, first.step), (second.top, second.step));
    }
}
