//! Heights marked on posts from a laser that tilts, against what is really level.

mod fences;
mod lasers;

use lasers::{Plane, eye};
use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use serde_json::json;
use tautmark::laser::LaserWorth;
use tautmark::solve;

const LENGTH: f64 = 20_000.0;

/// A 20 m run levelled from one set-up beside it; the errors of a height marked on each post by
/// hand, mm, with the ± that is said of it.
fn marked(seed: u64) -> Vec<(f64, f64)> {
    let mut rng = StdRng::seed_from_u64(seed);
    let laser = LaserWorth::default();
    let plane = Plane::random(&mut rng, laser);
    let stand = [
        rng.random_range(0.0..LENGTH),
        rng.random_range(-5000.0..-1000.0),
    ];
    let away = |at: [f64; 2]| [at[0] - stand[0], at[1] - stand[1]];
    let far = |at: [f64; 2]| away(at)[0].hypot(away(at)[1]);
    let datum = [
        rng.random_range(0.0..LENGTH),
        rng.random_range(-9000.0..3000.0),
    ];
    let line = 500.0;
    let datum_down = line + plane.climbs(away(datum)) + eye(&mut rng);
    let ground = [0.0, 0.5, 1.0].map(|share| {
        let at = [share * LENGTH, 0.0];
        let down = line + 300.0 + plane.climbs(away(at)) + eye(&mut rng);
        (at[0], down, far(at))
    });
    let points = [0, 1, 2].map(|i| json!({ "id": format!("g{i}"), "run": "R", "at": ground[i].0 }));
    let mut sights = vec![json!({ "point": "nail", "down": datum_down, "dist": far(datum) })];
    sights
        .extend([0, 1, 2].map(
            |i| json!({ "point": format!("g{i}"), "down": ground[i].1, "dist": ground[i].2 }),
        ));
    let job = fences::straight(
        LENGTH,
        json!([]),
        json!({
            "datum": { "point": "nail", "height": 0 },
            "points": points,
            "setups": [{ "id": "S", "sights": sights }]
        }),
        json!({ "gravel": {}, "pales": {} }),
    );
    let solution = solve(&job);
    let found = solution.levels.as_ref().expect("levels").setups["S"].line;
    let posts = solution.runs["R"]
        .posts
        .iter()
        .zip(&solution.boards["R"].posts);
    posts
        .map(|(post, heights)| {
            let here = line + plane.climbs(away([post.centre, 0.0]));
            let error = here - found + eye(&mut rng);
            (error, heights.pm.expect("the set-up is known"))
        })
        .collect()
}

#[test]
fn plus_or_minus_of_marked_heights_holds_the_truth() {
    let all: Vec<(f64, f64)> = (0..500).flat_map(marked).collect();
    let held = all.iter().filter(|(error, pm)| error.abs() <= *pm).count();
    let share = held as f64 / all.len() as f64;
    assert!((0.93..=0.97).contains(&share), "{held} of {}", all.len());
}

/// By hand, for a laser of 0.3 mm per m read to 1 mm. The datum 4 m off gives the line a variance of
/// 1 + 0.3² · 4²/3 = 1.48 mm². The last post is 10 m off: 1.48 + 1 + 0.3² · 10²/3 = 5.48, ± 4.59;
/// the first 3 m off: 1.48 + 1 + 0.3² · 3²/3 = 2.75, ± 3.25.
#[test]
fn a_far_post_is_less_sure_than_a_near_one() {
    let job = fences::straight(
        9000.0,
        json!([]),
        json!({
            "datum": { "point": "nail", "height": 0 },
            "points": [{ "id": "a", "run": "R", "at": 0 }, { "id": "b", "run": "R", "at": 9000 }],
            "setups": [{ "id": "S", "sights": [
                { "point": "nail", "down": 400, "dist": 4000 },
                { "point": "a", "down": 700, "dist": 3000 },
                { "point": "b", "down": 720, "dist": 10_000 }
            ] }]
        }),
        json!({ "gravel": {}, "pales": {} }),
    );
    let boards = &solve(&job).boards["R"];
    let pms: Vec<f64> = boards.posts.iter().filter_map(|post| post.pm).collect();
    assert!((pms[0] - 3.25).abs() < 0.005, "{pms:?}");
    assert!(
        (pms.last().expect("posts") - 4.588).abs() < 0.005,
        "{pms:?}"
    );
    assert!(pms.is_sorted());
}
