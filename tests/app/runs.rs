//! Setting up a run as a person does it, with the posts that the core makes of it.

use slint::{Global, Model};
use tautmark::job::model::{Against, BayFit, Foot, Hung, Opens, PostSet, PostSize, Run};
use tautmark::job::{self, Job, Severity};
use tautmark::solve;
use tautmark_app_tests::Hand;
use tautmark_ui::FormVm;

/// The example with its runs still to be set up.
fn without_runs() -> Job {
    let mut job = job::example();
    job.runs.clear();
    job.levels.points.clear();
    job.levels.setups.clear();
    job.levels.datum = None;
    job
}

/// With every post in a hole, as it is where nothing else is said.
fn all_in_holes(mut job: Job) -> Job {
    for end in job.runs.iter_mut().filter_map(|run| run.start.as_mut()) {
        end.foot = None;
    }
    job
}

#[test]
fn a_run_set_up_by_hand_is_the_run_of_the_example() {
    let hand = Hand::on(without_runs());
    hand.press("Posts");
    hand.press("Run details");
    assert_eq!(hand.saved().runs.len(), 1);
    hand.press("Starts at");
    hand.picture("live-starts-at");
    hand.press("The Potting shed end wall");
    hand.press("In a hole");
    hand.press("Ends at");
    hand.press("Corner X");
    for (part, figure) in [("String to post face", "75"), ("Longest bay", "1900")] {
        hand.press(part);
        hand.keys(figure);
        hand.press("Next");
    }
    hand.press("Post, along the string");
    for figure in ["100", "100"] {
        hand.keys(figure);
        hand.press("Next");
    }
    hand.press("Add a gate");
    hand.press("At a running reading");
    for figure in ["900", "1040"] {
        hand.keys(figure);
        hand.press("Next");
    }
    hand.picture("live-run");
    let made = solve(&hand.saved());
    let wanted = solve(&all_in_holes(job::example()));
    assert_eq!(made.runs["R1"].posts, wanted.runs["R1"].posts);
    assert_eq!(made.runs["R1"].gates, wanted.runs["R1"].gates);

    hand.press("See the posts");
    assert!(hand.sees("Mark out post 1"));
    hand.press("Run details");
    hand.press("Next: another run");
    let second = hand.saved().runs[1].clone();
    assert_eq!((second.id.as_str(), second.line.as_str()), ("R2", "side"));
    assert_eq!(second.gap, 75.0, "as the run before it");
}

#[test]
fn a_run_waits_for_its_string() {
    let hand = Hand::on(Job::new("Nothing yet"));
    hand.press("Posts");
    assert!(hand.labels().iter().any(|l| l.starts_with("No run yet.")));
    hand.press("Run details");
    assert!(hand.sees("A run follows a string"));
    assert_eq!(hand.saved().runs, []);
}

/// What an end is at, as its page says.
fn ends(hand: &Hand) -> [String; 2] {
    ["Starts at", "Ends at"].map(|row| hand.value(row))
}

#[test]
fn a_new_run_goes_where_a_fence_usually_goes_and_on_to_the_next() {
    let hand = Hand::on(without_runs());
    hand.press("Posts");
    assert!(hand.reaches("Run details"));
    hand.press("Run details");
    assert_eq!(ends(&hand), ["Potting shed end wall", "corner X"]);
    hand.press("Next: the post on the wall");
    hand.must_say("How does the post at the wall stand?");
    hand.press("Fixed to the wall");
    hand.press("Next: another run");
    assert_eq!(ends(&hand), ["corner X", "Garden wall end"]);
    hand.press("Next: the post on the wall");
    hand.press("On a plate");
    let made = hand.saved().runs;
    let wanted = job::example().runs;
    for (made, wanted) in made.iter().zip(&wanted) {
        let at = |run: &Run| {
            let ends = [&run.start, &run.end].map(|end| end.clone().expect("an end"));
            ends.map(|end| (end.wall, end.corner, end.mark))
        };
        assert_eq!((at(made), made.side), (at(wanted), wanted.side));
    }
    assert!(hand.reaches("See the posts"));
    hand.press("See the posts");
    assert!(hand.reaches("Mark out post 1"));
    // One step takes a whole run back.
    for _ in 0..4 {
        hand.press("Undo");
    }
    assert_eq!(hand.saved().runs, []);
}

#[test]
fn a_run_without_ends_asks_for_its_start_then_its_end_and_then_shows_its_posts() {
    let mut job = job::example();
    job.runs.truncate(1);
    (job.runs[0].start, job.runs[0].end) = (None, None);
    let hand = Hand::on(job);
    hand.press("Posts");
    hand.press("Run details");
    assert!(hand.says("Where does the run start?"));
    hand.press("Next: its start");
    hand.press("The Potting shed end wall");
    hand.must_say("How does the post at the wall stand?");
    hand.press("Fixed to the wall");
    assert!(hand.says("Where does the run end?"));
    hand.press("Next: its end");
    hand.press("Corner X");
    assert!(!hand.says("Where does the run"));
    let posts = solve(&hand.saved()).runs["R1"].posts.len();
    assert!(posts > 1);
    assert!(hand.reaches("See the posts"));
    hand.press("See the posts");
    assert!(hand.reaches("Mark out post 1"));
}

#[test]
fn what_is_wrong_is_said_where_it_is() {
    let mut job = job::example();
    job.runs[0].gates[0].at = Some(5000.0);
    let hand = Hand::on(job);
    hand.press("Posts");
    hand.press("Run details");
    let told = |hand: &Hand| {
        let problems = solve(&hand.saved()).problems;
        let own = problems.iter().filter(|p| p.place.starts_with("runs[0]"));
        let own = own.filter(|problem| problem.severity == Severity::Error);
        let texts: Vec<String> = own.map(|problem| problem.text.clone()).collect();
        assert!(!texts.is_empty());
        let labels = hand.labels();
        texts
            .iter()
            .all(|text| labels.iter().any(|label| label.contains(text.as_str())))
    };
    assert!(told(&hand), "{:?}", hand.labels());
    hand.press("Run R1");
    assert!(told(&hand), "{:?}", hand.labels());
}

#[test]
fn bays_corner_and_gates_change_as_they_are_pressed() {
    let hand = Hand::on(job::example());
    hand.press("Posts");
    hand.press("Run details");
    hand.press("Longest bay");
    hand.keys("1200");
    let mut shorter = job::example();
    shorter.runs[0].bays.as_mut().expect("bays").max = 1200.0;
    let posts = solve(&shorter).runs["R1"].posts.len();
    assert!(posts > 5);
    assert!(
        hand.labels()
            .iter()
            .any(|label| label.starts_with("Six posts, bays up to")),
        "the posts follow while the figure is typed: {:?}",
        hand.labels()
    );
    assert_eq!(posts, 6);
    hand.press("Next");
    assert_eq!(solve(&hand.saved()).runs["R1"].posts.len(), posts);

    hand.press("Full, one short");
    hand.press("Square to front");
    hand.press("Gate 1 has a leaf");
    hand.press("End");
    hand.press("Pin a post");
    hand.keys("3000");
    hand.press("Next");
    let job = hand.saved();
    let run = &job.runs[0];
    assert_eq!(run.bays.as_ref().expect("bays").fit, BayFit::Full);
    let post = job.corners[0].post.as_ref().expect("a corner post");
    assert_eq!(post.set, PostSet::First);
    let leaf = run.gates[0].leaf.as_ref().expect("its leaf");
    assert_eq!(leaf.hung, Hung::End);
    assert_eq!(run.pins[0].at, Some(3000.0));
    let posts = &solve(&job).runs["R1"].posts;
    assert!(posts.iter().any(|post| post.centre == 3000.0));

    hand.press("Delete pinned post 1");
    hand.press("Delete gate 1");
    let run = hand.saved().runs[0].clone();
    assert!(run.pins.is_empty() && run.gates.is_empty());
    hand.press("Delete this run");
    hand.press("Delete all of it");
    assert_eq!(hand.saved().runs.len(), 1);
}

#[test]
fn each_way_to_turn_the_corner_post_is_drawn() {
    let hand = Hand::on(job::example());
    hand.press("Posts");
    hand.press("Run details");
    let fields = FormVm::get(&hand.app).get_fields();
    let turned = fields
        .iter()
        .find(|field| field.label == "The corner post stands");
    let pictures = turned.expect("the run ends at a corner").pictures;
    let told: Vec<_> = pictures.iter().map(|one| one.description).collect();
    assert_eq!(told.len(), 3);
    assert!(told[0] != told[1] && told[1] != told[2] && told[0] != told[2]);
    for picture in pictures.iter() {
        assert!(picture.strokes.row_count() >= 3, "two strings and a post");
    }
    hand.press("Square to front");
    hand.picture("live-corner-post");
}

#[test]
fn a_run_may_end_at_a_length() {
    let hand = Hand::on(job::example());
    hand.press("Posts");
    hand.press("Run details");
    hand.press("Ends at");
    hand.press("At a length from the start");
    hand.keys("4000");
    hand.press("Next");
    let end = hand.saved().runs[0].end.clone().expect("an end");
    assert_eq!((end.length, end.corner), (Some(4000.0), None));
    assert_eq!(hand.value("Length from the start"), "4\u{a0}000");
    hand.press("Ends at");
    hand.press("Mark C");
    let end = hand.saved().runs[0].end.clone().expect("an end");
    assert_eq!((end.length, end.mark), (None, Some("C".into())));
}

#[test]
fn a_long_run_under_a_long_name_keeps_its_place() {
    let mut job = job::example();
    let name = "Along the lane behind the potting shed, from the old pear tree to the gate";
    job.runs[0].name = name.to_owned();
    job.runs[0].post = Some(PostSize {
        width: 40.0,
        depth: 40.0,
        ..PostSize::default()
    });
    job.runs[0].bays.as_mut().expect("bays").max = 120.0;
    job.hole.diameter = 60.0;
    let posts = solve(&job).runs["R1"].posts.len();
    assert!(posts > 30);
    let hand = Hand::on_screen(job, 360.0, 640.0);
    hand.press("Posts");
    hand.picture("live-posts-many");
    let last = format!("{posts} corner post, on the bisector");
    assert_eq!(hand.note(&last), "to mark");
    hand.press(&last);
    hand.press("Close");
    assert!(hand.reaches("Marked") && hand.reaches("As built…"));
    hand.picture("live-mark-out-small");
    hand.press("Marked");
    assert!(hand.reaches("Mark out post 1"), "the others are still open");
    hand.press("Run details");
    hand.picture("live-run-small");
}

#[test]
fn a_gate_is_put_against_a_post_and_its_lock_is_given() {
    let mut job = job::example();
    job.runs[0].gates.clear();
    let hand = Hand::on(job);
    hand.press("Posts");
    hand.press("Run details");
    hand.press("Add a gate");
    hand.press("Hard against the first post");
    hand.enter("957");
    let gate = hand.saved().runs[0].gates[0].clone();
    assert_eq!(gate.against, Some(Against::Start));
    assert_eq!((gate.at, gate.clear), (None, Some(957.0)));
    let run = hand.shown().runs["R1"].clone();
    assert!((run.gates[0].near - run.posts[0].far).abs() < 1e-6);
    hand.press("Gate 1 has a leaf");
    hand.press("Behind");
    hand.press("Gate 1 has a lock");
    hand.press("Gate 1 lock, width of its case");
    hand.enter("95");
    let gate = hand.saved().runs[0].gates[0].clone();
    assert_eq!(gate.leaf.expect("a leaf").opens, Some(Opens::Behind));
    assert_eq!(gate.lock.expect("a lock").case, 95.0);
    hand.picture("live-gate-rows");
}

#[test]
fn how_each_post_stands_is_chosen_with_a_picture() {
    let hand = Hand::on(job::example());
    hand.press("Posts");
    hand.press("Run details");
    let fields = FormVm::get(&hand.app).get_fields();
    for (label, pictures) in [("The first post stands", 3), ("The posts stand", 2)] {
        let field = fields.iter().find(|field| field.label == label);
        let field = field.unwrap_or_else(|| panic!("{label} is asked"));
        assert_eq!(field.pictures.row_count(), pictures, "{label}");
    }
    hand.press("In a hole");
    let posts = &hand.shown().runs["R1"].posts;
    assert_eq!(posts[0].foot, Foot::Hole);
}

#[test]
fn a_usual_size_that_next_is_pressed_on_is_the_jobs_own() {
    let mut job = job::example();
    for run in &mut job.runs {
        (run.post, run.bays) = (None, None);
    }
    let hand = Hand::on(job);
    let missing = |hand: &Hand| {
        let problems = hand.shown().problems;
        problems
            .iter()
            .filter(|one| one.text.contains("is taken"))
            .count()
    };
    assert_eq!(missing(&hand), 4);
    hand.press("Posts");
    hand.press("Run details");
    for figure in ["Post, along the string", "Longest bay"] {
        hand.press(figure);
        hand.press("Next");
        if hand.sees("Leave this figure") {
            hand.press("Leave this figure");
        }
    }
    assert_eq!(missing(&hand), 2, "only the other run’s are left");
    assert_eq!(hand.saved().runs[0].post, Some(PostSize::default()));
}
