//! Drawings: what is on them, how they are turned, and that no words cover each other or a post.

use std::fs;
use tautmark::drawing::{
    Bundled, Detail, Drawing, ElevationShow, Figures, Hand, Laid, LayoutDesk, PlanShow, PostShow,
    Role, Seen, Shape, Target, Tile, Turn, Vec2, View, corner, corner_detail, elevation, fitted,
    hit, lay_out, levels, plan, post_heights,
};
use tautmark::job::{self, Job, MarkId, RunId};
use tautmark::length::Unit;
use tautmark::{Solution, solve};

fn cases() -> Vec<Job> {
    let mut names: Vec<_> = fs::read_dir("tests/cases")
        .expect("cases")
        .map(|entry| entry.expect("a case").path())
        .filter(|path| path.to_string_lossy().ends_with(".job.json"))
        .collect();
    names.sort();
    let read = |path| {
        job::read(&fs::read_to_string(path).expect("text"))
            .expect("a job")
            .job
    };
    names.into_iter().map(read).collect()
}

/// Forty posts on one string with two gates and long names.
fn long_job() -> Job {
    let text = r#"{"format":"tautmark-job","version":1,"title":"Forty posts",
    "marks":[{"id":"Old barn corner","rough":[0,0]},{"id":"Second nail","rough":[6000,0]},
             {"id":"P","rough":[6100,700]},{"id":"The peg by the lane","rough":[76000,2600]}],
    "walls":[{"id":"gable","name":"The long north gable of the old threshing barn","from":"Old barn corner","to":"Second nail"}],
    "readings":[{"kind":"tape","from":"Old barn corner","to":"Second nail","length":6000},
      {"kind":"tape","from":"Old barn corner","to":"P","length":6140},{"kind":"tape","from":"Second nail","to":"P","length":707},
      {"kind":"tape","from":"P","to":"The peg by the lane","length":69926},{"kind":"tape","from":"Second nail","to":"The peg by the lane","length":70048}],
    "lines":[{"id":"meadow","name":"the lower meadow side","marks":["P","The peg by the lane"]}],
    "runs":[{"id":"R1","name":"Meadow fence, lower side","line":"meadow","side":"left","gap":10,"start":{"mark":"P"},"end":{"mark":"The peg by the lane"},
      "bays":{"max":1850,"fit":"equal"},"gates":[{"at":3000,"clear":960},{"at":40000,"clear":3000}],"pins":[{"at":20150}]}]}"#;
    job::read(text).expect("a job").job
}

fn jobs() -> Vec<Job> {
    let mut jobs = cases();
    jobs.push(long_job());
    let mut feet = job::example();
    feet.show.lengths = Unit::FEET;
    for wall in &mut feet.walls {
        wall.name = format!("{} with a very long name indeed", wall.name);
    }
    jobs.push(feet);
    jobs
}

/// Every drawing of a job.
fn drawings(job: &Job, solution: &Solution) -> Vec<Drawing> {
    let mut all = Vec::new();
    for detail in [Detail::Small, Detail::Screen, Detail::Sheet] {
        for readings in [Seen::Shown, Seen::Hidden] {
            let show = PlanShow {
                detail,
                readings,
                ..PlanShow::default()
            };
            all.push(plan(job, solution, &show));
        }
    }
    for (run, fix) in &solution.runs {
        let show = PlanShow {
            run: Some(run.clone()),
            post: fix.posts.last().map(|post| PostShow {
                n: post.n,
                face: tautmark::drawing::Face::Near,
            }),
            ..PlanShow::default()
        };
        all.push(plan(job, solution, &show));
        for figures in [Figures::Boards, Figures::All] {
            let show = ElevationShow {
                figures,
                ..ElevationShow::default()
            };
            all.extend(elevation(job, solution, run, &show));
        }
        for post in &fix.posts {
            all.extend(post_heights(job, solution, (run, post.n), None, 0.9));
        }
    }
    for id in solution.corners.keys() {
        all.extend(corner(job, solution, id, 1500.0));
        all.extend(corner_detail(job, solution, id));
    }
    all.extend(levels(job, solution, 1.5));
    all
}

fn laid(drawing: &Drawing, room: [f64; 2], hand: &Hand) -> (View, Laid) {
    let desk = LayoutDesk {
        hand,
        measure: &Bundled,
    };
    let view = fitted(drawing, room, desk);
    (view, lay_out(drawing, &view, Some(room), desk))
}

/// The outlines of the posts as they are painted.
fn posts(drawing: &Drawing, laid: &Laid) -> Vec<Tile> {
    let strokes = laid.strokes.iter().filter(|stroke| {
        matches!(drawing.items[stroke.item].role, Role::Post | Role::DonePost)
            && stroke.closed
            && stroke.points.len() == 4
    });
    strokes
        .map(|stroke| {
            let [a, b, d] = [stroke.points[0], stroke.points[1], stroke.points[3]];
            let turn = (b - a).y.atan2((b - a).x).to_degrees();
            let half = [(b - a).norm() / 2.0, (d - a).norm() / 2.0];
            Tile::turned((b + d) / 2.0, half, turn)
        })
        .collect()
}

fn words_are_apart(drawing: &Drawing, room: [f64; 2], hand: &Hand) {
    let (_, laid) = laid(drawing, room, hand);
    for (i, one) in laid.labels.iter().enumerate() {
        for other in &laid.labels[i + 1..] {
            assert!(
                !one.tile().covers(&other.tile()),
                "{}: “{}” covers “{}”",
                drawing.description,
                one.text,
                other.text
            );
        }
        for post in posts(drawing, &laid) {
            assert!(
                !one.tile().covers(&post),
                "{}: “{}” covers a post",
                drawing.description,
                one.text
            );
        }
        for at in one.tile().corners() {
            assert!(
                (-0.01..=room[0] + 0.01).contains(&at.x)
                    && (-0.01..=room[1] + 0.01).contains(&at.y),
                "{}: “{}” is cut",
                drawing.description,
                one.text
            );
        }
    }
}

#[test]
fn no_words_cover_each_other_or_a_post_or_are_cut() {
    for job in jobs() {
        let solution = solve(&job);
        for drawing in drawings(&job, &solution) {
            words_are_apart(&drawing, [360.0, 300.0], &Hand::screen(1.0));
            words_are_apart(&drawing, [760.0, 740.0], &Hand::screen(1.3));
            words_are_apart(&drawing, [511.0, 320.0], &Hand::paper());
        }
    }
}

/// A job with its marks moved about and its readings taken anew.
fn shaken(job: &Job, seed: u64) -> Job {
    let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1;
    let mut next = move || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 11) as f64 / (1u64 << 53) as f64 - 0.5
    };
    let mut job = job.clone();
    for mark in &mut job.marks {
        if let Some([x, y]) = &mut mark.rough {
            *x += 2500.0 * next();
            *y += 2500.0 * next();
        }
    }
    let at: Vec<(MarkId, [f64; 2])> = job
        .marks
        .iter()
        .filter_map(|mark| Some((mark.id.clone(), mark.rough?)))
        .collect();
    let place = |id: &MarkId| at.iter().find(|(one, _)| one == id).map(|(_, at)| *at);
    for reading in &mut job.readings {
        if let job::reading::Measure::Tape {
            from, to, length, ..
        } = &mut reading.what
            && let (Some(a), Some(b)) = (place(from), place(to))
        {
            *length = Some((a[0] - b[0]).hypot(a[1] - b[1]).max(50.0).round());
        }
    }
    job
}

#[test]
fn words_stay_apart_whatever_the_site() {
    for seed in 1..25 {
        let job = shaken(&job::example(), seed);
        let solution = solve(&job);
        for drawing in drawings(&job, &solution) {
            words_are_apart(&drawing, [412.0, 330.0], &Hand::screen(1.0));
        }
    }
}

#[test]
fn names_and_running_readings_of_the_example_all_find_a_place() {
    let job = job::example();
    let solution = solve(&job);
    let show = PlanShow {
        detail: Detail::Sheet,
        readings: Seen::Hidden,
        ..PlanShow::default()
    };
    let drawing = plan(&job, &solution, &show);
    let (_, laid) = laid(&drawing, [511.0, 350.0], &Hand::paper());
    let texts: Vec<&str> = laid
        .labels
        .iter()
        .map(|label| label.text.as_str())
        .collect();
    for mark in &job.marks {
        assert!(texts.contains(&mark.id.as_str()), "{}", mark.id);
    }
    for fix in solution.runs.values() {
        for post in &fix.posts {
            let text = tautmark::length::show(post.centre, Unit::Mm);
            assert!(texts.contains(&text.as_str()), "{text}");
        }
    }
}

#[test]
fn the_longest_run_lies_along_the_longer_side() {
    for job in jobs() {
        let solution = solve(&job);
        let longest = solution
            .runs
            .values()
            .max_by(|a, b| a.length.total_cmp(&b.length))
            .expect("a run");
        for (room, wanted) in [([400.0, 300.0], 0.0_f64), ([300.0, 400.0], 90.0)] {
            let show = PlanShow {
                turn: Turn::Along(room),
                ..PlanShow::default()
            };
            let drawing = plan(&job, &solution, &show);
            let bearing = (longest.bearing + drawing.turn - wanted).to_radians();
            assert!(bearing.cos() > 1.0 - 1e-9);
        }
    }
}

/// Where a post's footprint is drawn.
fn footprint(drawing: &Drawing, run: &str, n: usize) -> Option<Vec2> {
    drawing
        .items
        .iter()
        .find_map(|item| match (&item.shape, &item.of) {
            (Shape::Footprint { centre, .. }, Some(Target::Post { run: on, n: number }))
                if on.as_str() == run && *number == n =>
            {
                Some(*centre)
            }
            _ => None,
        })
}

#[test]
fn a_plan_is_never_mirrored() {
    for job in jobs() {
        let solution = solve(&job);
        for room in [[400.0, 300.0], [300.0, 400.0]] {
            let show = PlanShow {
                turn: Turn::Along(room),
                ..PlanShow::default()
            };
            let drawing = plan(&job, &solution, &show);
            let (view, _) = laid(&drawing, room, &Hand::screen(1.0));
            let at = |id: &MarkId| {
                let fix = solution.marks[id];
                view.place(drawing.from_site(Vec2::new(fix.x, fix.y)))
            };
            let site = |id: &MarkId| Vec2::new(solution.marks[id].x, solution.marks[id].y);
            let ids: Vec<&MarkId> = solution.marks.keys().collect();
            for three in ids.windows(3) {
                let on_site =
                    (site(three[1]) - site(three[0])).perp(&(site(three[2]) - site(three[0])));
                let seen = (at(three[1]) - at(three[0])).perp(&(at(three[2]) - at(three[0])));
                // In the view y goes down, which turns the sign round once.
                assert!(on_site * seen <= 0.0);
            }
        }
    }
}

#[test]
fn every_post_is_drawn_once_where_it_stands() {
    for job in jobs() {
        let solution = solve(&job);
        let drawing = plan(&job, &solution, &PlanShow::default());
        let drawn: Vec<Vec2> = drawing
            .items
            .iter()
            .filter_map(|item| match item.shape {
                Shape::Footprint { centre, .. } => Some(drawing.to_site(centre)),
                _ => None,
            })
            .collect();
        for post in solution.runs.values().flat_map(|fix| &fix.posts) {
            let here = Vec2::new(post.x, post.y);
            let times = drawn.iter().filter(|at| (**at - here).norm() < 1.0).count();
            assert_eq!(times, 1, "post {} at {here:?}", post.n);
        }
    }
}

#[test]
fn the_run_at_hand_has_its_corner_post() {
    let job = job::example();
    let solution = solve(&job);
    let of = |run: &str| {
        let show = PlanShow {
            run: Some(RunId::from(run)),
            ..PlanShow::default()
        };
        plan(&job, &solution, &show)
    };
    assert!(footprint(&of("R1"), "R1", 5).is_some());
    assert!(footprint(&of("R1"), "R2", 1).is_none());
    assert!(footprint(&of("R2"), "R2", 1).is_some());
}

#[test]
fn an_empty_job_gives_an_empty_drawing_that_can_still_be_laid_out() {
    let job = Job::new("Nothing yet");
    let solution = solve(&job);
    for drawing in drawings(&job, &solution) {
        assert!(drawing.is_empty());
        let (_, laid) = laid(&drawing, [300.0, 200.0], &Hand::screen(1.0));
        assert!(laid.strokes.is_empty() && laid.labels.is_empty());
    }
}

#[test]
fn loose_marks_are_drawn_as_a_sketch() {
    let mut job = job::example();
    job.readings.truncate(3);
    let solution = solve(&job);
    let drawing = plan(&job, &solution, &PlanShow::default());
    for mark in &job.marks {
        let target = Some(Target::Mark(mark.id.clone()));
        let cross = drawing
            .items
            .iter()
            .find(|item| item.of == target && matches!(item.shape, Shape::Cross(_)))
            .expect("drawn");
        let fixed = solution.marks.contains_key(&mark.id);
        assert_eq!(cross.role, if fixed { Role::Mark } else { Role::Sketch });
        assert_eq!(fixed, ["A", "B", "E"].contains(&mark.id.as_str()));
    }
}

#[test]
fn a_suspect_and_an_asked_reading_stand_out() {
    let text = fs::read_to_string("tests/cases/coal-yard-slip.job.json").expect("a case");
    let job = job::read(&text).expect("a job").job;
    let solution = solve(&job);
    assert!(!solution.network.suspects.is_empty());
    let show = PlanShow {
        asked: Some(tautmark::drawing::Asked::Tape([
            MarkId::from("A"),
            MarkId::from("D"),
        ])),
        ..PlanShow::default()
    };
    let drawing = plan(&job, &solution, &show);
    let roles = |role: Role| {
        let found = drawing.items.iter().filter(move |item| item.role == role);
        found.filter_map(|item| item.of.clone()).collect::<Vec<_>>()
    };
    let suspects = solution
        .network
        .suspects
        .iter()
        .map(|&at| Target::Reading(at));
    assert_eq!(roles(Role::SuspectTape), suspects.collect::<Vec<_>>());
    assert_eq!(
        drawing
            .items
            .iter()
            .filter(|item| item.role == Role::AskedTape)
            .count(),
        1
    );
}

#[test]
fn walls_are_hatched_away_from_their_strings() {
    use tautmark::drawing::Hatched;
    let job = job::example();
    let drawing = plan(&job, &solve(&job), &PlanShow::default());
    let side = |id: &str| {
        let target = Some(Target::Wall(id.into()));
        drawing.items.iter().find_map(|item| match item.shape {
            Shape::Wall { hatched, .. } if item.of == target => Some(hatched),
            _ => None,
        })
    };
    assert_eq!(side("shed"), Some(Hatched::Left));
    assert_eq!(side("garden"), Some(Hatched::Left));
    assert_eq!(side("shed-end"), Some(Hatched::Left));
}

#[test]
fn a_press_finds_the_mark_the_post_or_the_wall_under_it() {
    let job = job::example();
    let solution = solve(&job);
    let drawing = plan(&job, &solution, &PlanShow::default());
    let (view, _) = laid(&drawing, [412.0, 330.0], &Hand::screen(1.0));
    let press = |at: Vec2| hit(&drawing, &view, view.place(drawing.from_site(at)), 24.0);
    let mark = |id: &str| {
        let fix = solution.marks[&MarkId::from(id)];
        Vec2::new(fix.x, fix.y)
    };
    assert_eq!(press(mark("D")), Some(&Target::Mark("D".into())));
    let post = &solution.runs[&RunId::from("R1")].posts[3];
    let target = Target::Post {
        run: "R1".into(),
        n: 4,
    };
    assert_eq!(press(Vec2::new(post.x, post.y)), Some(&target));
    let on_wall = (mark("A") + mark("B")) / 2.0 + Vec2::new(0.0, 300.0);
    assert_eq!(press(on_wall), Some(&Target::Wall("shed".into())));
    assert_eq!(press(Vec2::new(1000.0, 7000.0)), None);
}

#[test]
fn an_elevation_stands_on_its_ground_and_keeps_its_true_shape() {
    let job = job::example();
    let solution = solve(&job);
    for (run, fix) in &solution.runs {
        let drawing = elevation(&job, &solution, run, &ElevationShow::default()).expect("drawn");
        let heights = &solution.boards[run].posts;
        for post in &fix.posts {
            let target = Some(Target::Post {
                run: run.clone(),
                n: post.n,
            });
            let outline = drawing.items.iter().find_map(|item| match &item.shape {
                Shape::Path {
                    points,
                    closed: true,
                    ..
                } if item.of == target => Some(points),
                _ => None,
            });
            let outline = outline.expect("drawn");
            let known = heights.iter().find(|one| one.n == post.n).expect("known");
            let top = outline.iter().map(|at| at.y).fold(f64::MIN, f64::max);
            let foot = outline.iter().map(|at| at.y).fold(f64::MAX, f64::min);
            assert!((outline[0].x - post.near).abs() < 1e-9);
            assert!((outline[1].x - post.far).abs() < 1e-9);
            assert!((top - known.top.expect("a top")).abs() < 1e-9);
            assert!((top - foot - known.length.expect("a length")).abs() < 1.0);
        }
    }
}

#[test]
fn swings_to_a_post_say_their_two_tapes() {
    let job = job::example();
    let solution = solve(&job);
    let run = RunId::from("R1");
    let show = PlanShow {
        readings: Seen::Hidden,
        run: Some(run.clone()),
        post: Some(PostShow {
            n: 4,
            face: tautmark::drawing::Face::Near,
        }),
        swings: Seen::Shown,
        ..PlanShow::default()
    };
    let drawing = plan(&job, &solution, &show);
    words_are_apart(&drawing, [412.0, 330.0], &Hand::screen(1.0));
    let (_, laid) = laid(&drawing, [412.0, 330.0], &Hand::screen(1.0));
    for (mark, length) in solution.runs[&run].posts[3].arcs.as_ref().expect("swings") {
        let text = tautmark::length::show(*length, Unit::Mm);
        assert!(
            laid.labels.iter().any(|label| label.text == text),
            "{mark}: {text}"
        );
    }
}

#[test]
fn a_string_on_one_nail_runs_beside_the_whole_wall() {
    let mut job = job::example();
    job.runs.clear();
    job.corners.clear();
    for line in &mut job.lines {
        line.offsets.as_mut().expect("nails").truncate(1);
    }
    let solution = solve(&job);
    let drawing = plan(&job, &solution, &PlanShow::default());
    for line in &job.lines {
        let target = Target::Line(line.id.clone());
        let own = drawing.items.iter();
        let own = own.filter(|item| item.of.as_ref() == Some(&target));
        let length = own.filter_map(|item| match &item.shape {
            Shape::Path { points, .. } => Some((points[1] - points[0]).norm()),
            _ => None,
        });
        let wall = job
            .walls
            .iter()
            .find(|wall| Some(&wall.id) == line.wall.as_ref());
        let wall = wall.expect("its wall");
        let (from, to) = (&solution.marks[&wall.from], &solution.marks[&wall.to]);
        let face = (to.x - from.x).hypot(to.y - from.y);
        let drawn = length.fold(0.0, f64::max);
        assert!(drawn > face, "{}: {drawn} beside {face}", line.id);
    }
}

/// Two runs of a thousand metres and more: as many labels as posts, and strokes as far as they go.
#[test]
fn a_string_a_kilometre_off_is_drawn() {
    let text = fs::read_to_string("tests/hard_use/far-offset.job.json").expect("text");
    let job = job::read(&text).expect("a job").job;
    let solution = solve(&job);
    let posts: usize = solution.runs.values().map(|run| run.posts.len()).sum();
    assert!(posts > 250, "{posts} posts");
    let drawing = plan(&job, &solution, &PlanShow::default());
    let laid = fitted_and_laid(&drawing, [842.0, 595.0]);
    assert!(!laid.labels.is_empty());
    assert!(!tautmark::export::dxf(&job, &solution).is_empty());
}

fn fitted_and_laid(drawing: &Drawing, room: [f64; 2]) -> Laid {
    let hand = Hand::paper();
    let desk = LayoutDesk {
        hand: &hand,
        measure: &Bundled,
    };
    let view = fitted(drawing, room, desk);
    lay_out(drawing, &view, Some(room), desk)
}

#[test]
fn the_run_at_hand_fills_the_picture() {
    let job = job::example();
    let solution = solve(&job);
    let room = [360.0, 240.0];
    let hand = Hand::screen(1.0);
    let seen = |close: bool, run: &str| {
        let show = PlanShow {
            run: Some(run.into()),
            close,
            ..PlanShow::default()
        };
        let drawing = plan(&job, &solution, &show);
        let (view, _) = laid(&drawing, room, &hand);
        let posts = solution.runs[run].posts.iter();
        let places = posts.map(|post| view.place(drawing.from_site(Vec2::new(post.x, post.y))));
        (places.collect::<Vec<_>>(), view.scale)
    };
    for run in ["R1", "R2"] {
        let (posts, near) = seen(true, run);
        let inside = |at: &Vec2| (0.0..room[0]).contains(&at.x) && (0.0..room[1]).contains(&at.y);
        assert!(posts.iter().all(inside), "{run}: {posts:?}");
        let (_, far) = seen(false, run);
        assert!(near > 1.5 * far, "{run}: {near} px in a mm, whole {far}");
    }
    // A run that is not settled: the whole plan.
    let mut open = job.clone();
    open.readings.clear();
    let show = PlanShow {
        run: Some("R1".into()),
        close: true,
        ..PlanShow::default()
    };
    assert_eq!(plan(&open, &solve(&open), &show).sight, None);
}
