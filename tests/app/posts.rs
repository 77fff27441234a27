//! Posts and Mark out as a person goes through them, with the figures of the core.

use slint::{Global, Model};
use tautmark::job::model::{End, Marked};
use tautmark::job::{self, Job};
use tautmark::length::{Unit, show, show_pm_with_unit};
use tautmark::setout::{Post, PostKind, RunFix, front_corner, pins_as_built};
use tautmark::{Solution, solve};
use tautmark_app_tests::Hand;
use tautmark_ui::{Page, Place, PostsVm};

/// What the large figure is of, in each of the two runs.
const FRONT: &str = "Tape from the Potting shed end wall, along the front string, to the near face";
const SIDE: &str = "Tape from corner X, along the side string, to the near face";

fn figure(mm: f64, post: &Post, unit: Unit) -> String {
    format!("{} {}", show(mm, unit), show_pm_with_unit(post.pm, unit))
}

fn run<'a>(solution: &'a Solution, id: &str) -> &'a RunFix {
    solution.runs.get(id).expect("the run is settled")
}

#[test]
fn every_post_of_a_run_is_marked_out_with_one_tap_each() {
    let hand = Hand::on(job::example());
    let solution = solve(&hand.saved());
    let posts = &run(&solution, "R1").posts;
    hand.press("Posts");
    hand.picture("live-posts");
    assert_eq!(
        hand.value("4 line post"),
        figure(posts[3].near, &posts[3], Unit::Mm)
    );
    assert_eq!(hand.note("4 line post"), "to mark");
    hand.press("Mark out post 1");
    assert!(hand.sees("Before you drill"), "the caution comes first");
    hand.picture("live-caution");
    hand.press("Close");
    assert!(!hand.sees("Before you drill"));
    for post in posts {
        if post.n == 2 {
            assert!(hand.sees("Before you dig"), "at the first hole");
            hand.press("Close");
            assert!(!hand.sees("Before you dig"));
        }
        assert!(hand.sees(&format!("Post {} of 5 · Run R1", post.n)));
        let (face, near) = match post.kind {
            PostKind::Corner => ("front corner", front_corner(run(&solution, "R1"), post)[0]),
            _ => ("near face", post.near),
        };
        let how = FRONT.replace("near face", face);
        assert_eq!(hand.value(&how), figure(near, post, Unit::Mm));
        assert_eq!(
            hand.value("Hole centre, on the tape"),
            show(post.centre, Unit::Mm)
        );
        assert_eq!(
            hand.value("Behind the string"),
            format!("{} to the left", show(post.off, Unit::Mm))
        );
        if post.n == 4 {
            assert_eq!(hand.value("Bay from post 3"), bay(post));
            hand.picture("live-mark-out");
        }
        let tick = match post.n {
            5 => "Marked".to_owned(),
            n => format!("Marked · {}", n + 1),
        };
        assert!(hand.reaches(&tick), "{tick} is under the thumb");
        hand.press(&tick);
    }
    let told = hand.labels();
    assert!(
        told.iter()
            .any(|label| label.starts_with("Five posts marked out.")),
        "{told:?}"
    );
    assert_eq!(hand.note("4 line post"), "marked");
    let ticked: Vec<(String, u32)> = hand
        .saved()
        .marked
        .iter()
        .filter(|one| one.done)
        .map(|one| (one.run.to_string(), one.post))
        .collect();
    let all = [
        ("R1", 1),
        ("R1", 2),
        ("R1", 3),
        ("R1", 4),
        ("R1", 5),
        ("R2", 1),
    ];
    let all: Vec<(String, u32)> = all.iter().map(|&(run, n)| (run.to_owned(), n)).collect();
    assert_eq!(ticked, all, "the corner post stands in both runs");

    hand.press("Run R2");
    hand.press("Mark out post 2");
    assert!(!hand.sees("Before you dig"), "in full only once");
    let second = &run(&solution, "R2").posts[1];
    assert_eq!(hand.value(SIDE), figure(second.near, second, Unit::Mm));
}

fn bay(post: &Post) -> String {
    let of = |mm: Option<f64>| show(mm.expect("a post before it"), Unit::Mm);
    format!("{} clear {}", of(post.bay), of(post.clear))
}

/// The example, with the first post of its side run ticked so that no caution lies over the page.
fn begun() -> Job {
    let mut job = job::example();
    job.marked.push(Marked {
        run: "R2".into(),
        post: 1,
        done: true,
        ..Marked::default()
    });
    job
}

#[test]
fn a_face_once_chosen_stays_chosen() {
    let hand = Hand::on(begun());
    let solution = solve(&hand.saved());
    let posts = &run(&solution, "R2").posts;
    hand.press("Posts");
    hand.press("Run R2");
    hand.press("2 line post");
    hand.press("Far face");
    let far = SIDE.replace("near face", "far face");
    assert_eq!(hand.value(&far), figure(posts[1].far, &posts[1], Unit::Mm));
    hand.press("Marked · 3");
    assert_eq!(hand.value(&far), figure(posts[2].far, &posts[2], Unit::Mm));
    hand.press("Centre");
    hand.press("Post 2 before");
    let centre = SIDE.replace("near face", "centre");
    assert_eq!(
        hand.value(&centre),
        figure(posts[1].centre, &posts[1], Unit::Mm)
    );
    let [(a, from_a), (b, from_b)] = posts[1].arcs.clone().expect("two marks see it");
    assert_eq!(
        hand.value(&format!("Two tapes: {a}, {b}")),
        format!("{} · {}", show(from_a, Unit::Mm), show(from_b, Unit::Mm))
    );
}

#[test]
fn a_post_out_of_place_says_which_way_it_must_move() {
    let hand = Hand::on(begun());
    hand.press("Posts");
    hand.press("4 line post");
    hand.press("Centre");
    hand.press("As built…");
    let planned = run(&solve(&hand.saved()), "R1").posts[3].centre;
    hand.keys("3648");
    let by = show((3648.0 - planned).abs(), Unit::Mm);
    let words = format!(
        "Out of tolerance (±\u{a0}5\u{a0}mm). It stands {by}\u{a0}mm too far along: move it {by}\u{a0}mm back towards the Potting shed end wall."
    );
    assert!(hand.sees(&words), "while it is typed: {:?}", hand.labels());
    hand.picture("live-as-built");
    hand.press("Next");
    hand.keys("121");
    hand.press("Next");
    let words = format!(
        "{words} It is 4\u{a0}mm too near the string: move it 4\u{a0}mm away from the string."
    );
    assert!(hand.sees(&words), "on the page: {:?}", hand.labels());
    hand.picture("live-out");
    let known = hand.saved().marked[1].clone();
    assert_eq!((known.measured, known.off), (Some(3648.0), Some(121.0)));
    assert!(known.done, "a post that is measured is there");

    hand.press("As built…");
    hand.press("Delete the last figure");
    hand.keys("3641");
    hand.press("Next");
    hand.press("Next");
    assert!(
        hand.labels()
            .iter()
            .any(|l| l
                .starts_with("In tolerance (±\u{a0}5\u{a0}mm). It stands 1\u{a0}mm too far along")),
        "{:?}",
        hand.labels()
    );
    hand.press("Post 3 before");
    assert!(!hand.labels().iter().any(|l| l.starts_with("In tolerance")));
}

#[test]
fn a_tape_held_to_the_wrong_face_is_noticed() {
    let hand = Hand::on(begun());
    hand.press("Posts");
    hand.press("4 line post");
    hand.press("Centre");
    hand.press("As built…");
    hand.keys("3590");
    assert!(
        hand.sees("Half a post off its place: was it taped to another face, or to the centre?")
    );
}

#[test]
fn the_bays_to_come_are_spaced_from_the_posts_that_stand() {
    let hand = Hand::on(begun());
    let before = solve(&hand.saved());
    hand.press("Posts");
    hand.press("Run R2");
    hand.press("2 line post");
    assert!(!hand.sees("Re-space the bays to come"));
    hand.press("Centre");
    hand.press("As built…");
    hand.keys("1520");
    hand.press("Next");
    hand.press("Next");
    assert!(hand.reaches("Re-space the bays to come"));
    hand.picture("live-respace");
    hand.press("Re-space the bays to come");
    assert!(!hand.sees("Re-space the bays to come"), "once is enough");

    let mut job = begun();
    let standing = Marked {
        run: "R2".into(),
        post: 2,
        done: true,
        measured: Some(1520.0),
        ..Marked::default()
    };
    job.runs[1].pins = pins_as_built(run(&before, "R2"), &[], &[&standing]);
    let after = solve(&job);
    let posts = &run(&after, "R2").posts;
    assert_eq!(posts[1].centre, 1520.0);
    hand.press("Near face");
    hand.press("Marked · 3");
    assert_eq!(hand.value(SIDE), figure(posts[2].near, &posts[2], Unit::Mm));
    assert_ne!(
        show(posts[2].near, Unit::Mm),
        show(run(&before, "R2").posts[2].near, Unit::Mm)
    );
    hand.press("Undo");
    hand.press("Undo");
    let old = &run(&before, "R2").posts[2];
    assert_eq!(hand.value(SIDE), figure(old.near, old, Unit::Mm));
}

#[test]
fn a_peg_too_many_is_spoken_of_under_the_posts() {
    let look = |post: u32| {
        let mut job = begun();
        job.marked[0].post = post;
        let hand = Hand::on(job);
        hand.press("Posts");
        hand.press("Run R2");
        hand
    };
    assert!(!look(1).sees("One thing to look at under the posts."));
    assert!(look(9).sees("One thing to look at under the posts."));
}

#[test]
fn a_figure_says_where_it_comes_from() {
    let hand = Hand::on(begun());
    hand.press("Posts");
    hand.press("4 line post");
    for (what, words) in [
        (
            FRONT,
            "Posts 3 to 5 are 2 equal bays apart, the fewest not longer than 1\u{a0}900\u{a0}mm.",
        ),
        (
            "Hole centre, on the tape",
            "The hole is dug round the post’s centre, 3\u{a0}640 on the tape",
        ),
        (
            "Behind the string",
            "the gap of 75 from string to post and half of the post’s depth of 100 make 125",
        ),
        (
            "Bay from post 3",
            "From centre to centre of the post before: 1\u{a0}650",
        ),
        ("Two tapes: E, F", "from mark E and"),
        (
            "Before you dig: find the buried cables and pipes.",
            "dig trial holes by hand",
        ),
    ] {
        hand.press(what);
        assert!(
            hand.labels().iter().any(|label| label.contains(words)),
            "{what}: {:?}",
            hand.labels()
        );
        hand.press("Close");
        assert!(!hand.labels().iter().any(|label| label.contains(words)));
    }
}

#[test]
fn the_diagonal_across_the_corner_is_told() {
    let hand = Hand::on(begun());
    let solution = solve(&hand.saved());
    let (before, after) = (
        &run(&solution, "R1").posts[3],
        &run(&solution, "R2").posts[1],
    );
    let words = format!(
        "Across the corner, to the centre of post 2 of Run R2: {}",
        show((before.x - after.x).hypot(before.y - after.y), Unit::Mm)
    );
    hand.press("Posts");
    hand.press("4 line post");
    hand.press("Bay from post 3");
    let told = hand.labels();
    assert!(told.iter().any(|l| l.contains(&words)), "{told:?}");
}

#[test]
fn feet_and_inches_go_through() {
    let mut job = begun();
    job.show.lengths = Unit::FEET;
    let hand = Hand::on(job);
    let solution = solve(&hand.saved());
    let post = &run(&solution, "R1").posts[3];
    hand.press("Posts");
    assert_eq!(
        hand.value("4 line post"),
        figure(post.near, post, Unit::FEET)
    );
    hand.press("4 line post");
    assert_eq!(hand.value(FRONT), figure(post.near, post, Unit::FEET));
    assert_eq!(
        hand.value("Hole centre, on the tape"),
        show(post.centre, Unit::FEET)
    );
    hand.picture("live-mark-out-feet");
}

#[test]
fn where_no_post_is_settled_there_is_one_thing_to_do() {
    let mut job = job::example();
    job.runs[0].end = None;
    let hand = Hand::on(job);
    hand.go(Place::Posts, Page::MarkOut);
    assert!(hand.says("The posts of this run are not settled yet."));
    assert!(!hand.sees("Near face") && !hand.sees("Hole centre, on the tape"));
    assert!(hand.reaches("Run details"));
    assert!(!hand.sees("More"), "no caution without words");
    hand.press("Run details");
    assert_eq!(hand.here(), (Place::Posts, Page::Run));
}

#[test]
fn what_is_told_over_the_posts_is_not_told_again_under_them() {
    let mut job = job::example();
    job.runs[0].name = "Along the lane".to_owned();
    job.runs[0].bays = None;
    let warning = "Run “Along the lane” has no longest bay";
    let hand = Hand::on(job.clone());
    hand.press("Posts");
    hand.must_say("to look at under the posts");
    let rows = |hand: &Hand, words: &str| {
        let rows = PostsVm::get(&hand.app).get_posts();
        rows.iter().filter(|row| row.note.contains(words)).count()
    };
    assert_eq!(rows(&hand, warning), 1, "the run is called by its name");

    // An error stands over the posts, alone; the rest stays under them.
    job.runs[0].end = job.runs[0].start.clone();
    let hand = Hand::on(job);
    hand.press("Posts");
    let error = "Run “Along the lane” starts and ends at the same place.";
    assert_eq!((rows(&hand, error), rows(&hand, warning)), (0, 1));
    let status = PostsVm::get(&hand.app).get_status();
    assert!(status.plain.contains(error) && !status.plain.contains(warning));
}

#[test]
fn a_reading_before_the_zero_is_taped_the_other_way() {
    let mut job = job::example();
    job.runs[0].start = Some(End {
        mark: Some("A".into()),
        ..End::default()
    });
    let hand = Hand::on(job);
    let post = run(&solve(&hand.saved()), "R1").posts[0].clone();
    assert!(post.near < -0.5 && post.far > 0.5, "{post:?}");
    hand.press("Posts");
    hand.press("Mark out post 1");
    hand.press("Close");
    hand.must_say("Tape from mark A, the other way along the front string, to the near face");
    hand.press("Far face");
    hand.must_say("Tape from mark A, along the front string, to the far face");
}

#[test]
fn a_post_that_has_set_is_kept_and_everything_else_is_fitted_to_it() {
    let hand = Hand::on(begun());
    let planned = hand.shown().runs["R1"].posts[2].clone();
    hand.press("Posts");
    hand.press("3 gate post");
    // Taped to the face it is marked by: seven too far along.
    hand.press("As built…");
    hand.enter(&format!("{:.0}", planned.near + 7.0));
    hand.press("Next");
    hand.must_say("It stands 7\u{a0}mm too far along");
    hand.picture("live-has-set");
    hand.press("It has set: keep it");
    // What follows is said before it is done.
    hand.must_say("opening 1\u{a0}047\u{a0}mm (was 1\u{a0}040\u{a0}mm)");
    assert!(!hand.saved().marked.iter().any(|one| one.keep));
    hand.press("Keep it");
    let kept = hand.shown().runs["R1"].posts[2].clone();
    assert!(
        (kept.centre - planned.centre - 7.0).abs() < 0.5,
        "{}",
        kept.centre
    );
    hand.press("Kept: plan it anew");
    let anew = hand.shown().runs["R1"].posts[2].clone();
    assert!((anew.centre - planned.centre).abs() < 1e-6);
}

/// A wide gate has room for its name on the strip and a wicket has not: then neither is named.
#[test]
fn the_strip_names_both_gates_or_neither() {
    let text = r#"{"format":"tautmark-job","version":1,"title":"Two gates",
      "marks":[{"id":"P","rough":[0,0]},{"id":"Q","rough":[16000,0]}],
      "readings":[{"kind":"tape","from":"P","to":"Q","length":16000}],
      "lines":[{"id":"string","marks":["P","Q"]}],
      "runs":[{"id":"R1","line":"string","side":"left","gap":0,
        "start":{"mark":"P"},"end":{"mark":"Q"},"bays":{"max":1800,"fit":"equal"},
        "gates":[{"at":3000,"clear":800},{"at":9000,"clear":3600}]}]}"#;
    let hand = Hand::on(job::read(text).expect("a job").job);
    hand.press("Posts");
    let bays = PostsVm::get(&hand.app).get_bays();
    let gates: Vec<f32> = bays
        .iter()
        .filter(|bay| bay.text == "gate")
        .map(|bay| bay.share)
        .collect();
    assert_eq!(gates.len(), 2);
    assert_eq!(
        gates[0], gates[1],
        "both have room for their name, or neither"
    );
}
