//! Levels and Mark heights as a person goes through them, with the figures of the core.

use slint::{Global, Model};
use tautmark::boards::{UpOrDown, height_marks};
use tautmark::drawing::from_laser;
use tautmark::job::model::{Setup, Show, Sight};
use tautmark::job::{self, Job};
use tautmark::length::{Unit, show, show_pm_with_unit, show_with_unit};
use tautmark::levels::LevelsFix;
use tautmark::{Solution, solve};
use tautmark_app_tests::Hand;
use tautmark_ui::{DrawingVm, EntryVm, Verdict};

fn levels(job: &Job) -> LevelsFix {
    solve(job).levels.expect("the job has levels")
}

fn drawn(hand: &Hand) -> Vec<String> {
    let labels = DrawingVm::get(&hand.app).get_drawing().labels;
    labels.iter().map(|label| label.text.to_string()).collect()
}

/// How many triangles of the drawing point up, and how many down.
fn signs(hand: &Hand) -> (usize, usize) {
    let strokes = DrawingVm::get(&hand.app).get_drawing().strokes;
    let corners = strokes.iter().filter_map(|stroke| {
        let path = stroke.commands.strip_prefix('M')?.strip_suffix('Z')?;
        let heights = path.split('L').map(|at| at.split_once(' ')?.1.parse().ok());
        let heights: Vec<f64> = heights.collect::<Option<_>>()?;
        <[f64; 3]>::try_from(heights).ok()
    });
    let (up, down): (Vec<_>, Vec<_>) = corners.partition(|[tip, foot, _]| tip < foot);
    (up.len(), down.len())
}

/// How well a job's sights close, as the status says it.
fn closing(job: &Job) -> String {
    let closure = levels(job).closure.expect("sights that are checked");
    format!(
        "closes to {}; up to {} is within the laser’s accuracy.",
        show_with_unit(closure.closes, Unit::Mm),
        show_with_unit(closure.explained, Unit::Mm)
    )
}

#[test]
fn levels_show_what_the_core_finds() {
    let hand = Hand::on(job::example());
    let job = job::example();
    let fix = levels(&job);
    hand.press("Levels");
    hand.picture("live-levels");
    let step = show(fix.setups["S2"].step, Unit::Mm);
    assert_eq!(step, "62");
    hand.must_say("S2’s laser line is 62 mm higher than S1’s.");
    hand.must_say(&closing(&job));
    for (id, setup) in &fix.setups {
        let value = format!(
            "{} {}",
            show(setup.line, Unit::Mm),
            show_pm_with_unit(setup.pm, Unit::Mm)
        );
        assert_eq!(hand.value(&format!("Set-up {id}")), value);
    }
    let note = hand.note("Set-up S2");
    assert_eq!(note, "six sights · by peg, g4 and nail");
    assert_eq!(hand.value("Sight of nail"), "413 down");
    let ground = &fix.points["g4"];
    let value = format!(
        "{} {}",
        show(ground.height, Unit::Mm),
        show_pm_with_unit(ground.pm, Unit::Mm)
    );
    assert_eq!(hand.value("g4 ground at 5\u{a0}390 on Run R1"), value);
    hand.press("Set-up S2");
    assert_eq!(hand.value("Sight of coping"), "180 up");
    let drawing = drawn(&hand);
    assert!(drawing.contains(&"set-up S2".to_owned()), "{drawing:?}");
}

#[test]
fn a_sight_typed_again_changes_how_the_loop_closes() {
    let hand = Hand::on(job::example());
    hand.press("Levels");
    let before = closing(&job::example());
    hand.must_say(&before);
    hand.press("Sight of nail");
    hand.press("Sight it again");
    hand.keys("415");
    hand.must_say("It fits the other sights");
    hand.press("Next");
    let changed = hand.saved();
    assert_eq!(changed.levels.setups[0].sights[0].down, Some(415.0));
    let after = closing(&changed);
    assert_ne!(after, before);
    hand.must_say(&after);
    hand.press("Undo");
    assert_eq!(hand.saved(), job::example());
    hand.must_say(&before);
}

/// The example with a third set-up that sees the datum and both change points.
fn three_setups() -> Job {
    let mut job = job::example();
    let sights = [("nail", 475.0), ("peg", 869.0), ("g4", 895.0)];
    let sights = sights.map(|(point, down)| Sight {
        point: point.into(),
        down: Some(down),
        dist: Some(4000.0),
        ..Sight::default()
    });
    job.levels.setups.push(Setup {
        id: "S3".into(),
        sights: sights.to_vec(),
        ..Setup::default()
    });
    job
}

#[test]
fn a_misread_sight_is_named_and_cured() {
    let right = three_setups();
    let mut job = right.clone();
    job.levels.setups[1].sights[5].down = Some(575.0);
    let hand = Hand::on(job);
    hand.press("Levels");
    hand.picture("live-levels-misread");
    hand.must_say("The sight of nail from set-up S2 does not fit. You have 575 down");
    hand.press("Leave it out");
    assert!(!hand.saved().levels.setups[1].sights[5].used);
    hand.press("Undo");
    hand.press("It was 475 down");
    assert_eq!(hand.saved(), right);
}

#[test]
fn of_two_sights_that_cannot_be_told_apart_neither_is_accused() {
    let mut job = job::example();
    job.levels.setups[1].sights[5].down = Some(575.0);
    let hand = Hand::on(job);
    hand.press("Levels");
    hand.must_say("One of these sights does not fit");
    hand.must_say("nail from set-up S1, nail from set-up S2");
    assert!(!hand.labels().contains(&"Leave it out".to_owned()));
    assert!(hand.note("Sight of nail").starts_with("may be"));
    hand.press("Sight of nail");
    hand.press("Sight it again");
    hand.keys("413");
    hand.must_say("One of these sights does not fit");
    assert!(!hand.says("The other sights make this"));
}

#[test]
fn no_sight_is_called_good_while_another_does_not_fit() {
    let mut job = three_setups();
    job.levels.setups[1].sights[5].down = Some(575.0);
    let hand = Hand::on(job);
    hand.press("Levels");
    hand.press("Set-up S1");
    hand.press("Set-up S1");
    assert_eq!(
        hand.note("Sight of nail"),
        "not judged while one does not fit"
    );
    hand.press("Sight of nail");
    hand.press("Sight it again");
    hand.keys("413");
    hand.must_say("It cannot be judged yet: the sight of nail from set-up S2 does not fit.");
    let status = EntryVm::get(&hand.app).get_status();
    assert_eq!(status.verdict, Verdict::Attention);
    hand.press("Leave this figure");
    hand.press("Carry round a corner");
    hand.press("Close");
    hand.must_say("but the sights do not agree");
}

#[test]
fn left_out_sights_are_used_again() {
    let mut job = job::example();
    job.levels.setups[0].sights[5].used = false;
    let hand = Hand::on(job);
    hand.press("Levels");
    assert_eq!(hand.note("Sight of peg"), "left out");
    hand.press("Sight of peg");
    hand.press("Use it again");
    assert_eq!(hand.saved(), job::example());
}

fn walked(hand: &Hand, run: &str, setup: &str, solution: &Solution, unit: Unit) {
    let line = solution.levels.as_ref().expect("levels").setups[setup].line;
    let posts = &solution.boards[run].posts;
    for post in posts {
        let drawing = drawn(hand);
        let marks = height_marks(post, line);
        let ups = marks.iter().filter(|mark| mark.way == UpOrDown::Up).count();
        assert_eq!(signs(hand), (ups, marks.len() - ups), "post {}", post.n);
        for mark in marks {
            let height = match mark.way {
                UpOrDown::Up => line + mark.by,
                UpOrDown::Down => line - mark.by,
            };
            let text = from_laser(height, line, unit);
            let there = drawing.iter().any(|label| label.starts_with(&text));
            assert!(there, "post {}: {text:?} is not in {drawing:?}", post.n);
        }
        let tick = if post.n == posts.len() {
            "Marked".to_owned()
        } else {
            format!("Marked · {}", post.n + 1)
        };
        assert!(hand.reaches(&tick), "{tick} is under the thumb");
        hand.press(&tick);
    }
}

#[test]
fn heights_are_marked_post_by_post_with_one_tap_each() {
    let hand = Hand::on(job::example());
    let solution = solve(&job::example());
    hand.press("Levels");
    hand.press("Mark heights");
    assert!(
        hand.sees("The laser beam"),
        "the caution comes first in full"
    );
    hand.press("Close");
    assert!(!hand.sees("The laser beam"));
    hand.picture("live-heights-1");
    walked(&hand, "R1", "S1", &solution, Unit::Mm);
    hand.must_say("Run R1: the last post is marked.");
    let marked = hand.saved().marked;
    let marked: Vec<u32> = marked
        .iter()
        .filter(|one| one.heights)
        .map(|one| one.post)
        .collect();
    assert_eq!(marked, [1, 2, 3, 4, 5]);
    hand.press("Mark heights");
    assert!(!hand.sees("The laser beam"), "once is enough");
    walked(&hand, "R2", "S2", &solution, Unit::Mm);
    assert_eq!(
        hand.saved().marked.len(),
        5 + solution.boards["R2"].posts.len()
    );
}

#[test]
fn a_post_tells_its_step_its_digging_and_how_sure_it_is() {
    let hand = Hand::on(job::example());
    let solution = solve(&job::example());
    hand.press("Levels");
    hand.press("Mark heights");
    hand.press("Close");
    for n in 2..=4 {
        hand.press(&format!("Marked · {n}"));
    }
    hand.picture("live-heights");
    let post = &solution.boards["R1"].posts[3];
    hand.must_say("Step here: 30 down towards corner X.");
    let pm = post.pm.expect("a known line");
    hand.must_say(&format!("Sure to {}.", show_pm_with_unit(pm, Unit::Mm)));
    let dig = |bay: &Option<tautmark::boards::BayAt>| bay.as_ref().and_then(|bay| bay.dig);
    let most = dig(&post.before).max_by_total(dig(&post.after));
    let label = hand
        .labels()
        .into_iter()
        .find(|one| one.starts_with("Dig out"));
    let label = label.expect("the digging is there");
    assert_eq!(hand.value(&label), show(most, Unit::Mm));
    hand.press(&label);
    hand.must_say("straight between the ground points");
    hand.press("Close");
    hand.press("Set-up S1");
    let line = solution.levels.as_ref().expect("levels").setups["S2"].line;
    let top = from_laser(post.top.expect("a top"), line, Unit::Mm);
    let drawing = drawn(&hand);
    assert!(
        drawing.iter().any(|label| label.starts_with(&top)),
        "{top} in {drawing:?}"
    );
    hand.press("Set-up S2");
    assert!(hand.sees("Set-up S1"), "round to the first again");
}

trait Larger {
    fn max_by_total(self, other: Self) -> f64;
}

impl Larger for Option<f64> {
    fn max_by_total(self, other: Self) -> f64 {
        [self, other].into_iter().flatten().fold(f64::MIN, f64::max)
    }
}

#[test]
fn heights_are_in_feet_and_inches_where_the_job_is() {
    let mut job = job::example();
    job.show = Show {
        lengths: Unit::FEET,
        ..Show::default()
    };
    let solution = solve(&job);
    let hand = Hand::on(job);
    hand.press("Levels");
    hand.picture("live-levels-feet");
    hand.press("Mark heights");
    hand.press("Close");
    hand.picture("live-heights-feet");
    walked(&hand, "R1", "S1", &solution, Unit::FEET);
}

/// The example with its heights taken away.
fn unlevelled() -> Job {
    let mut job = job::example();
    job.levels.datum = None;
    job.levels.setups.clear();
    job.levels.points.clear();
    job
}

#[test]
fn a_level_is_carried_round_a_corner_from_nothing() {
    let hand = Hand::on(unlevelled());
    hand.press("Levels");
    hand.must_say("Nothing levelled yet.");
    hand.press("Carry round a corner");
    hand.press("Close");
    hand.picture("live-carry-empty");
    hand.press("Choose the datum");
    hand.press("Mark A");
    hand.press("The laser is set up");
    hand.press("Sight A");
    hand.enter("413");
    hand.enter("3100");
    hand.press("Choose a point");
    hand.press("New fixed point");
    hand.enter("807");
    hand.enter("5100");
    hand.must_say("Move the laser round the corner");
    hand.press("The laser is moved");
    hand.press("Sight peg1 again");
    hand.enter("869");
    hand.enter("2600");
    hand.picture("live-carry");
    let job = hand.saved();
    let sight = |point: &str, down, dist| Sight {
        point: point.into(),
        down: Some(down),
        dist: Some(dist),
        ..Sight::default()
    };
    let setup = |id: &str, sights| Setup {
        id: id.into(),
        sights,
        ..Setup::default()
    };
    let expected = [
        setup(
            "S1",
            vec![sight("A", 413.0, 3100.0), sight("peg1", 807.0, 5100.0)],
        ),
        setup("S2", vec![sight("peg1", 869.0, 2600.0)]),
    ];
    assert_eq!(job.levels.setups, expected);
    let fix = &levels(&job).setups["S2"];
    assert_eq!(show(fix.step, Unit::Mm), "62");
    let value = format!("62 higher {}", show_pm_with_unit(fix.step_pm, Unit::Mm));
    assert_eq!(hand.value("Set-up S2 against set-up S1"), value);
    hand.must_say("S2’s laser line is 62 mm higher than S1’s.");
}

#[test]
fn the_first_sight_offers_the_datum() {
    let hand = Hand::on(unlevelled());
    hand.press("Levels");
    hand.press("Add a sight");
    hand.press("The datum");
    hand.press("Mark A");
    hand.must_say("Measure from the laser line to A");
    hand.enter("413");
    hand.enter("3100");
    let levels = &hand.saved().levels;
    assert_eq!(
        levels.datum.as_ref().map(|datum| datum.point.as_str()),
        Some("A")
    );
    assert_eq!(levels.setups[0].sights[0].down, Some(413.0));
    hand.press("Add a sight");
    assert!(!hand.sees("The datum"), "it is chosen");
}

#[test]
fn a_ground_point_is_added_and_sighted_in_one_go() {
    let hand = Hand::on(job::example());
    hand.press("Levels");
    hand.press("Set-up S2");
    hand.press("Add a sight");
    hand.picture("live-add-sight");
    hand.press("New ground point on Run R2");
    hand.enter("3000");
    hand.must_say("Measure from the laser line to g7");
    hand.enter("915");
    hand.enter("2500");
    let job = hand.saved();
    let fix = &levels(&job).points["g7"];
    let value = format!(
        "{} {}",
        show(fix.height, Unit::Mm),
        show_pm_with_unit(fix.pm, Unit::Mm)
    );
    assert_eq!(hand.value("g7 ground at 3\u{a0}000 on Run R2"), value);
}

#[test]
fn a_laser_that_is_out_is_found_with_two_pegs() {
    let hand = Hand::on(job::example());
    hand.press("Levels");
    assert_eq!(hand.note("Is the laser true?"), "not checked here yet");
    hand.press("Is the laser true?");
    hand.press("Close");
    hand.press("Next: Between the pegs");
    for figure in ["50000", "1283", "860", "55000", "5000", "1612", "1219"] {
        hand.enter(figure);
    }
    hand.picture("live-laser");
    hand.must_say("The laser is out by more than stated.");
    let what = "The line dips away from the laser by";
    assert_eq!(hand.value(what), "0.60 ±\u{a0}0.08 mm per m");
    assert_eq!(hand.value("Peg A, second place, true"), "1\u{a0}645");
    assert_eq!(hand.value("Peg B, second place, true"), "1\u{a0}222");
    hand.press("Use 0.6 mm per m");
    assert_eq!(hand.saved().level.accuracy, 0.6);
}
