//! A whole job as a person does it: from an empty list of jobs to the last ticked post, every figure
//! typed on the keypad, with the results of a separate program at its end.

#[path = "../agree/mod.rs"]
mod agree;

use agree::compare;
use serde_json::Value;
use slint::{Global, Model};
use std::{fs, path::Path};
use tautmark::boards::cut_together;
use tautmark::job::Job;
use tautmark::job::model::Foot;
use tautmark::job::reading::Measure;
use tautmark::length::{Unit, show};
use tautmark::setout::{PostKind, front_corner};
use tautmark::{Solution, job, solve};
use tautmark_app_tests::Hand;
use tautmark_ui::{CornerVm, DrawingVm, FrameVm, MarkOutVm, Page, Place};

fn text(end: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../cases");
    fs::read_to_string(folder.join(format!("orchard-corner.{end}.json"))).expect("the case")
}

/// Types figures one after the other; `+` adds the tape's case, `u` is Up.
fn type_all(hand: &Hand, figures: &[&str]) {
    for figure in figures {
        for key in figure.chars() {
            match key {
                '+' => hand.press("Plus"),
                'u' => hand.press("Up"),
                key => hand.press(&key.to_string()),
            }
        }
        hand.press("Next");
    }
}

fn figure(hand: &Hand, row: &str, figure: &str) {
    hand.press(row);
    type_all(hand, &[figure]);
}

/// Where a place of the solution is on the plan, px, as the names of its marks tell.
fn on_plan(hand: &Hand, at: [f64; 2]) -> [f32; 2] {
    let labels = DrawingVm::get(&hand.app).get_drawing().labels;
    let name = |name: &str| {
        let label = labels.iter().find(|label| label.text == name);
        let label = label.unwrap_or_else(|| panic!("mark {name} is drawn"));
        [f64::from(label.x), f64::from(label.y)]
    };
    let marks = hand.shown().marks;
    let (a, d) = (&marks["A"], &marks["D"]);
    let (from, to) = (name("A"), name("D"));
    // Turned and enlarged alike; on the plan y goes down.
    let way = [d.x - a.x, -(d.y - a.y)];
    let drawn = [to[0] - from[0], to[1] - from[1]];
    let size = way[0] * way[0] + way[1] * way[1];
    let turn = [
        (way[0] * drawn[0] + way[1] * drawn[1]) / size,
        (way[0] * drawn[1] - way[1] * drawn[0]) / size,
    ];
    let off = [at[0] - a.x, -(at[1] - a.y)];
    [
        (from[0] + turn[0] * off[0] - turn[1] * off[1]) as f32,
        (from[1] + turn[1] * off[0] + turn[0] * off[1]) as f32,
    ]
}

/// Presses a mark on the plan.
fn press_mark(hand: &Hand, id: &str) {
    let marks = hand.shown().marks;
    let at = &marks[id];
    let [x, y] = on_plan(hand, [at.x, at.y]);
    hand.tap_plan(x, y);
}

fn place_mark(hand: &Hand, at: [f64; 2]) {
    hand.press("Add a reading");
    hand.press("A mark");
    let [x, y] = on_plan(hand, at);
    hand.tap_plan(x, y);
}

fn tape(hand: &Hand, [from, to]: [&str; 2], length: &str) {
    hand.press("Add a reading");
    hand.press("A tape");
    hand.press(from);
    hand.press(to);
    type_all(hand, &[length]);
}

/// Tapes the newest mark from others, pressed on the plan: alone while it is loose, then both.
fn tie(hand: &Hand, newest: &str, tapes: &[(&str, &str)]) {
    for (from, length) in tapes {
        if !hand.shown().network.loose.contains(&newest.into()) {
            press_mark(hand, newest);
        }
        press_mark(hand, from);
        type_all(hand, &[length]);
    }
}

fn measure(hand: &Hand) {
    hand.press("New job");
    hand.press("Two walls, a gap between");
    type_all(
        hand,
        &["3649", "3801", "7630", "10805+76", "10730", "13496"],
    );
    hand.must_say("Four marks, all fixed.");
    place_mark(hand, [3700.0, 1900.0]);
    tie(
        hand,
        "E",
        &[("A", "4081"), ("B", "1801"), ("C", "6815"), ("D", "9489")],
    );
    place_mark(hand, [9800.0, 4300.0]);
    tie(hand, "F", &[("B", "7481"), ("D", "3807")]);
    // Too near to each other for a thumb on the plan.
    tape(hand, ["C", "F"], "226");
    for [from, to] in [["B", "E"], ["C", "F"]] {
        hand.press("Add a reading");
        hand.press("A wall");
        hand.press(from);
        hand.press(to);
    }
    hand.picture("whole-1-walls");
    hand.must_say("Six marks, all fixed.");
}

fn stretch(hand: &Hand) {
    hand.press("Next: a string along the First wall");
    hand.press("The other side");
    figure(hand, "Second nail, along the wall", "3650");
    hand.picture("whole-2-string");
    hand.press("Next: a string along the Second wall");
    hand.press("The other side");
    figure(hand, "String off the wall", "45");
    figure(hand, "Second nail, along the wall", "3800");
    hand.press("Next: the corner");
    hand.press("Yes, this is the corner");
    hand.press("Choose other arms");
    type_all(hand, &["1500"]);
    hand.press("Type what it reads");
    type_all(hand, &["2369"]);
    let found = CornerVm::get(&hand.app).get_found().plain;
    assert!(found.contains("within what the tapes can tell"), "{found}");
    hand.picture("whole-2-corner");
}

/// A gate at a running reading.
fn gate_in_the_run(hand: &Hand) {
    hand.press("At a running reading");
    type_all(hand, &["900", "1040"]);
}

/// A gate hard against the wall's post, with its leaf and its lock.
fn gate_on_the_wall(hand: &Hand) {
    hand.press("Hard against the first post");
    type_all(hand, &["957"]);
    hand.press("Gate 1 has a leaf");
    hand.press("Behind");
    hand.press("Gate 1 has a lock");
    figure(hand, "Gate 1 lock, width of its case", "95");
}

/// Bays of at most 1 900 and posts of 100 by 100.
fn as_in_the_case(hand: &Hand) {
    figure(hand, "Longest bay", "1900");
    hand.press("Post, along the string");
    type_all(hand, &["100", "100"]);
}

/// What is usual, seen and taken.
fn as_is_usual(hand: &Hand) {
    hand.press("Longest bay");
    hand.press("Next");
    hand.press("Post, along the string");
    type_all(hand, &["", ""]);
}

fn set_up_runs(hand: &Hand, bays: &dyn Fn(&Hand), place_gate: &dyn Fn(&Hand)) {
    hand.press("Next: the run along string 1");
    hand.press("On the wall");
    figure(hand, "String to post face", "75");
    bays(hand);
    hand.press("Add a gate");
    place_gate(hand);
    hand.press("On the bisector");
    hand.picture("whole-3-run");
    hand.press("Next: another run");
    hand.press("On the wall");
    hand.press("See the posts");
    hand.press("Run R1");
}

/// Ticks every post of the run in sight that is not ticked yet, its figure the core's.
fn mark_out(hand: &Hand, run: &str, from: usize) {
    let posts = hand.shown().runs[run].posts.clone();
    hand.press(&format!("Mark out post {from}"));
    let fix = hand.shown().runs[run].clone();
    for post in &posts[from - 1..] {
        if hand.sees("Close") {
            hand.press("Close");
        }
        let figure = MarkOutVm::get(&hand.app).get_figure();
        let near = match post.kind {
            PostKind::Corner => front_corner(&fix, post)[0],
            _ => post.near,
        };
        assert_eq!(figure, show(near, Unit::Mm), "post {} of {run}", post.n);
        if post.n == posts.len() {
            hand.press("Marked");
        } else {
            hand.press(&format!("Marked · {}", post.n + 1));
        }
    }
}

fn build(hand: &Hand) {
    hand.press("Run R1");
    hand.press("4 line post");
    hand.press("Centre");
    hand.press("As built…");
    let planned = hand.shown().runs["R1"].posts[3].centre;
    type_all(hand, &[&format!("{:.0}", planned + 2.0), "125"]);
    hand.must_say("In tolerance");
    hand.press("Posts");
}

/// The datum and a peg, carried from the first set-up to the second.
fn carry(hand: &Hand) {
    hand.press("Levels");
    hand.press("Carry round a corner");
    hand.press("Close");
    hand.press("Choose the datum");
    hand.press("Mark A");
    hand.press("The laser is set up");
    hand.press("Sight A");
    type_all(hand, &["413", "3100"]);
    hand.press("Choose a point");
    hand.press("New fixed point");
    type_all(hand, &["807", "5100"]);
    hand.press("The laser is moved");
    hand.press("Sight peg1 again");
    type_all(hand, &["869", "2600"]);
    hand.must_say("higher than S1’s.");
    hand.press("Levels");
}

/// The datum once more, from the second set-up.
fn close(hand: &Hand) {
    hand.press("Add a sight");
    hand.press("A");
    type_all(hand, &["475", "8200"]);
    hand.picture("whole-5-levels");
}

fn level(hand: &Hand) {
    carry(hand);
    hand.press("Set-up S1");
    for sight in [
        ["0", "674", "2400"],
        ["1800", "713", "1900"],
        ["3600", "762", "3300"],
        ["5390", "832", "5200"],
    ] {
        hand.press("Add a sight");
        hand.press("New ground point on Run R1");
        type_all(hand, &sight);
    }
    hand.press("Set-up S2");
    hand.press("Add a sight");
    hand.press("g4");
    type_all(hand, &["895", "2500"]);
    for sight in [["2000", "921", "2100"], ["4250", "908", "3400"]] {
        hand.press("Add a sight");
        hand.press("New ground point on Run R2");
        type_all(hand, &sight);
    }
    hand.press("Add a sight");
    hand.press("New fixed point");
    type_all(hand, &["u180", "3900"]);
    close(hand);
}

/// The ground sighted at each post of a run, its distance left to what is usual.
fn sight_each_post(hand: &Hand, run: &str, down: f64) {
    let posts = hand.shown().runs[run].posts.clone();
    hand.press("Add a sight");
    hand.press(&format!("The ground at each post of Run {run}"));
    hand.picture("whole-5-each-post");
    for post in &posts {
        hand.must_say(&format!("Ground at post {}", post.n));
        let fall = down + post.centre / 40.0;
        type_all(hand, &[&format!("{fall:.0}"), ""]);
    }
    let points = hand.saved().levels.points;
    let ours = points.iter().filter(|point| point.run == Some(run.into()));
    let at: Vec<f64> = ours.filter_map(|point| point.at).collect();
    let centres = posts.iter().map(|post| post.centre.round());
    assert_eq!(at, centres.collect::<Vec<_>>());
}

fn level_at_the_posts(hand: &Hand) {
    carry(hand);
    hand.press("Set-up S1");
    sight_each_post(hand, "R1", 674.0);
    hand.press("Set-up S2");
    sight_each_post(hand, "R2", 895.0);
    close(hand);
}

fn choose_boards(hand: &Hand) {
    hand.press("Boards");
    hand.press("Sizes");
    hand.press("Gravel boards");
    hand.press("Stepped");
    for (size, mm) in [
        ("Height of a gravel board", "150"),
        ("Clear of the ground", "10"),
        ("Dig out at most", "40"),
        ("Step of the boards", "30"),
    ] {
        figure(hand, size, mm);
    }
    hand.press("Rails");
    for (size, mm) in [
        ("Rails in a bay", "3"),
        ("Lowest rail", "60"),
        ("Highest rail", "1440"),
        ("Seat in the post", "15"),
    ] {
        figure(hand, size, mm);
    }
    hand.press("Pales");
    figure(hand, "Width of a pale", "150");
    figure(hand, "Least lap", "20");
    hand.press("Boards");
    hand.picture("whole-6-boards");
}

/// Stepped boards, three rails and pales, of what is usual but for the digging and the rails.
fn choose_usual_boards(hand: &Hand) {
    hand.press("Boards");
    hand.press("Sizes");
    hand.press("Gravel boards");
    hand.press("Stepped");
    figure(hand, "Dig out at most", "40");
    figure(hand, "Step of the boards", "30");
    hand.press("Rails");
    figure(hand, "Rails in a bay", "3");
    hand.press("Pales");
    hand.press("Boards");
}

/// Ticks the heights of every post: on from where the work is, then what is left.
fn mark_heights(hand: &Hand) {
    let posts: usize = hand.shown().runs.values().map(|run| run.posts.len()).sum();
    let ticked = |hand: &Hand| hand.saved().marked.iter().filter(|one| one.heights).count();
    let open = |hand: &Hand| {
        let labels = hand.labels();
        let mut labels = labels.into_iter();
        labels.find(|label| label == "Marked" || label.starts_with("Marked · "))
    };
    while ticked(hand) < posts {
        let before = ticked(hand);
        hand.press("Levels");
        hand.press("Mark heights");
        if hand.sees("Close") {
            hand.press("Close");
        }
        hand.picture("whole-7-heights");
        while let Some(tick) = open(hand) {
            hand.press(&tick);
        }
        assert!(
            ticked(hand) > before,
            "there is always a post to go on with"
        );
    }
}

/// The names that the app gives, and those of the case.
const NAMES: [(&str, &str); 6] = [
    ("string 1", "front"),
    ("string 2", "side"),
    ("X1", "X"),
    ("peg1", "peg"),
    ("peg2", "coping"),
    ("A", "nail"),
];

fn renamed(name: &str, from_levels: bool) -> &str {
    let known = NAMES.iter().find(|(app, _)| *app == name);
    match known {
        Some(("A", case)) if from_levels => case,
        Some((app, case)) if *app != "A" => case,
        _ => name,
    }
}

fn in_the_cases_names(value: Value, from_levels: bool) -> Value {
    match value {
        Value::Object(entries) => {
            let entries = entries.into_iter().map(|(key, value)| {
                let levels = from_levels || key == "levels";
                let key = renamed(&key, from_levels).to_owned();
                (key, in_the_cases_names(value, levels))
            });
            Value::Object(entries.collect())
        }
        Value::Array(list) => {
            let list = list.into_iter();
            Value::Array(
                list.map(|one| in_the_cases_names(one, from_levels))
                    .collect(),
            )
        }
        Value::String(text) => Value::String(renamed(&text, from_levels).to_owned()),
        other => other,
    }
}

/// The job with its marks, readings and sights in the order of the case's file.
fn in_the_cases_order(mut typed: Job) -> Job {
    let case = job::read(&text("job")).expect("the case opens").job;
    let ends = |job: &Job, at: usize| match &job.readings[at].what {
        // A tape is the same from either end.
        Measure::Tape { from, to, .. } => {
            let mut ends = [from.clone(), to.clone()];
            ends.sort();
            ends
        }
        other => panic!("only tapes are read here, not {other:?}"),
    };
    let place = |wanted: usize| {
        let known = ends(&case, wanted);
        let found = (0..typed.readings.len()).find(|&at| ends(&typed, at) == known);
        found.unwrap_or_else(|| panic!("the tape {known:?} was typed"))
    };
    let order: Vec<usize> = (0..case.readings.len()).map(place).collect();
    typed.readings = order.iter().map(|&at| typed.readings[at].clone()).collect();
    let rank = |id: &job::MarkId| case.marks.iter().position(|mark| mark.id == *id);
    typed.marks.sort_by_key(|mark| rank(&mark.id));
    for (setup, like) in typed.levels.setups.iter_mut().zip(&case.levels.setups) {
        let rank = |point: &str| {
            let name = renamed(point, true);
            like.sights
                .iter()
                .position(|sight| sight.point.as_str() == name)
        };
        setup.sights.sort_by_key(|sight| rank(sight.point.as_str()));
    }
    typed
}

/// Back to a job with nothing in it, and forth again.
fn all_is_undone_and_done_again(hand: &Hand) {
    let (before, worth) = (hand.saved(), hand.shown());
    hand.go(Place::Walls, Page::Walls);
    let steps = hand.bridge.look(|desk| {
        let open = desk.open().expect("a job");
        open.history().done().len()
    });
    assert!(steps > 100, "{steps} steps");
    let vm = FrameVm::get(&hand.app);
    for _ in 0..steps {
        assert!(vm.get_can_undo());
        hand.press("Undo");
    }
    assert!(!vm.get_can_undo());
    assert_eq!(hand.saved(), Job::new("Two walls, a gap between"));
    hand.must_say("Nothing measured yet.");
    for _ in 0..steps {
        hand.press("Redo");
    }
    assert!(!vm.get_can_redo());
    assert_eq!(hand.saved(), before);
    let said = |solution: &Solution| serde_json::to_value(solution).expect("JSON");
    assert_eq!(said(&hand.shown()), said(&worth));
}

/// Does a part of the work, and prints how many taps it took.
fn stage(hand: &Hand, name: &str, does: &dyn Fn(&Hand)) {
    let before = hand.taps();
    does(hand);
    println!("{name}: {} taps", hand.taps() - before);
}

#[test]
fn from_an_empty_list_to_the_last_ticked_post() {
    let hand = Hand::with_no_job(412.0, 915.0);
    stage(&hand, "measure", &measure);
    stage(&hand, "strings and corner", &stretch);
    stage(&hand, "runs", &|hand| {
        set_up_runs(hand, &as_in_the_case, &gate_in_the_run)
    });
    stage(&hand, "mark out", &|hand| {
        mark_out(hand, "R1", 1);
        hand.press("Run R2");
        mark_out(hand, "R2", 2);
    });
    stage(&hand, "as built", &build);
    stage(&hand, "levels", &level);
    stage(&hand, "boards", &choose_boards);
    hand.press("Cut list");
    hand.press("Close");
    let cuts = hand.shown().cuts;
    let rail = cuts
        .iter()
        .find(|cut| cut.item == tautmark::boards::CutPiece::Rail);
    let rail = rail.expect("rails are cut");
    let value = format!("{} × {}", show(rail.length, Unit::Mm), rail.count);
    assert_eq!(hand.value("Rails"), value);
    stage(&hand, "heights", &mark_heights);
    println!("the whole job: {} taps", hand.taps());
    hand.press("Sheet");
    hand.picture("whole-8-sheet");

    all_is_undone_and_done_again(&hand);
    let job = hand.saved();
    let posts: usize = hand.shown().runs.values().map(|run| run.posts.len()).sum();
    let ticked = job.marked.iter().filter(|one| one.done).count();
    assert_eq!(ticked, posts, "every post of both runs is ticked");
    let levelled = job.marked.iter().filter(|one| one.heights).count();
    assert_eq!(levelled, posts, "and its heights are on it");
    let said = |solution: &Solution| serde_json::to_value(solution).expect("JSON");
    let core = said(&solve(&job));
    assert_eq!(
        said(&hand.shown()),
        core,
        "what is shown is what the core makes of it"
    );

    let ours = serde_json::to_value(solve(&in_the_cases_order(job))).expect("a solution is JSON");
    let ours = in_the_cases_names(ours, false);
    let expected: Value = serde_json::from_str(&text("expected")).expect("JSON");
    let mut misses = Vec::new();
    compare(&expected, &ours, "", &mut misses);
    assert!(misses.is_empty(), "{}", misses.join("\n"));
}

/// Less out of the posts in holes at the lowest rail, where the wind works them hardest.
fn notch_the_lowest_rail_less(hand: &Hand) {
    hand.press("Sizes");
    figure(hand, "Rail 1, posts in holes", "10");
    hand.press("Boards");
}

/// Cuts every group of posts, one tap from each to the next.
fn cut_on_trestles(hand: &Hand) {
    let boards = hand.shown().boards;
    let groups = boards.keys().map(|run| cut_together(&boards, run).len());
    let groups: usize = groups.sum();
    hand.press("On the trestles");
    for _ in 1..groups {
        hand.press("Cut · next");
    }
    hand.press("Cut");
    assert_eq!(hand.here(), (Place::Boards, Page::Boards));
}

/// Seven out, and its concrete has set.
fn keep_a_post(hand: &Hand) {
    let planned = hand.shown().runs["R1"].posts[2].near;
    hand.press("Posts");
    hand.press("Run R1");
    hand.press("3 line post");
    hand.press("As built…");
    type_all(hand, &[&format!("{:.0}", planned + 7.0)]);
    hand.press("Leave this figure");
    hand.press("It has set: keep it");
    hand.press("Keep it");
}

/// What a solution says of a gate whose opening begins at the first post, by hand: the leaf is the opening
/// less its two gaps, the packing what the lock's case is wider than the stile.
fn the_gate_is_made_to_measure(hand: &Hand) {
    let made = hand.shown().boards["R1"].gates[0];
    assert!((made.clear - 957.0).abs() < 1e-6, "{made:?}");
    assert!((made.width - (957.0 - 15.0 - 10.0)).abs() < 1e-6);
    let lock = made.lock.expect("a lock");
    assert!((lock.packing.expect("a wide case") - (95.0 - 70.0)).abs() < 1e-6);
    hand.press("Boards");
    hand.press("The gate");
    assert_eq!(hand.value("Width of the leaf"), "932 mm");
    assert_eq!(hand.value("Packing beside the stile"), "25 mm");
    hand.press("Boards");
}

#[test]
fn posts_on_the_walls_cut_beforehand_one_that_set_wrong_and_a_gate_with_its_lock() {
    let hand = Hand::with_no_job(412.0, 915.0);
    stage(&hand, "measure", &measure);
    stage(&hand, "strings and corner", &stretch);
    stage(&hand, "runs", &|hand| {
        set_up_runs(hand, &as_is_usual, &gate_on_the_wall)
    });
    stage(&hand, "levels", &level_at_the_posts);
    stage(&hand, "boards", &choose_usual_boards);
    stage(&hand, "notch", &notch_the_lowest_rail_less);
    the_gate_is_made_to_measure(&hand);
    stage(&hand, "trestles", &cut_on_trestles);
    stage(&hand, "mark out", &|hand| {
        hand.press("Posts");
        mark_out(hand, "R1", 1);
        hand.press("Run R2");
        mark_out(hand, "R2", 2);
    });
    let before = hand.shown().runs["R1"].clone();
    stage(&hand, "keep", &keep_a_post);
    stage(&hand, "heights", &mark_heights);
    println!("the whole job: {} taps", hand.taps());
    assert!(hand.taps() < 350, "{} taps for the whole job", hand.taps());

    let (job, shown) = (hand.saved(), hand.shown());
    for (run, last) in [("R1", false), ("R2", true)] {
        let posts = &shown.runs[run].posts;
        let on_wall = if last { posts.last() } else { posts.first() };
        assert_eq!(on_wall.expect("a post").foot, Foot::Wall, "{run}");
    }
    assert_eq!(job.boards.notch(1, Foot::Hole), 10.0);
    let posts = shown.buy.post_count;
    assert_eq!(job.marked.iter().filter(|one| one.cut).count(), posts);
    let after = &shown.runs["R1"];
    let moved = |n: usize| after.posts[n].centre - before.posts[n].centre;
    assert!((moved(2) - 7.0).abs() < 0.5, "the kept post: {}", moved(2));
    assert!(
        moved(0).abs() < 1e-6 && moved(1).abs() < 1e-6,
        "the gate's posts stay"
    );
    let said = |solution: &Solution| serde_json::to_value(solution).expect("JSON");
    assert_eq!(said(&shown), said(&solve(&job)));
}

/// How many presses a way takes; each must be in sight, under a thumb and large enough.
#[track_caller]
fn taps(hand: &Hand, way: &[&str]) -> usize {
    for label in way {
        assert!(hand.reaches(label), "{label} is not in sight");
        hand.press(label);
    }
    way.len()
}

#[test]
fn nothing_needed_while_marking_out_is_more_than_two_taps_away() {
    let ways: [(&[&str], &str); 13] = [
        (&["Marked · 3"], "Post 3 of 5 · Run R1"),
        (&["Post 1 before"], "Post 1 of 5 · Run R1"),
        (&["Far face"], "Far face"),
        (&["As built…"], "Leave this figure"),
        (&["Hole centre, on the tape"], "Close"),
        (&["Bay from post 1"], "Close"),
        (
            &["Before you dig: find the buried cables and pipes."],
            "Close",
        ),
        (
            &["Post 2 of 5 · Run R1", "3 gate post"],
            "Post 3 of 5 · Run R1",
        ),
        (&["Post 2 of 5 · Run R1", "Run details"], "Name of the run"),
        (&["Levels", "Mark heights"], "Set-up S1"),
        (&["Sheet"], "Set-out sheet."),
        (&["Boards"], "Cut list"),
        (&["Undo"], "Post 2 of 5 · Run R1"),
    ];
    for (width, height) in [(412.0, 915.0), (360.0, 800.0)] {
        for (way, seen) in ways {
            let tried = std::thread::spawn(move || {
                let mut job = job::example();
                job.marked.push(job::model::Marked {
                    run: "R1".into(),
                    post: 1,
                    done: true,
                    ..job::model::Marked::default()
                });
                let hand = Hand::on_screen(job, width, height);
                hand.press("Posts");
                hand.press("Mark out post 2");
                if way == ["Undo"] {
                    hand.press("Marked · 3");
                    hand.press("Post 2 before");
                }
                assert!(taps(&hand, way) <= 2);
                let labels = hand.labels();
                assert!(
                    labels.iter().any(|label| label.contains(seen)),
                    "{way:?} leads to {seen:?}, not to {labels:#?}"
                );
            });
            tried
                .join()
                .unwrap_or_else(|_| panic!("{way:?} at {width} × {height}"));
        }
    }
}

#[test]
fn the_next_figure_is_one_tap_of_the_thumb_away() {
    for (width, height) in [(360.0, 640.0), (412.0, 915.0)] {
        let tried = std::thread::spawn(move || {
            let hand = Hand::on_screen(job::example(), width, height);
            let posts = hand.shown().runs["R1"].posts.clone();
            hand.press("Posts");
            hand.press("Mark out post 1");
            hand.press("Close");
            for post in &posts[..posts.len() - 1] {
                let tick = format!("Marked · {}", post.n + 1);
                assert!(hand.low_on_the_screen(&tick), "{tick} is under the thumb");
                hand.press(&tick);
                if post.n == 1 {
                    // The first hole has cautions of its own.
                    hand.press("Close");
                }
                let next = &posts[post.n];
                let figure = MarkOutVm::get(&hand.app).get_figure();
                let near = match next.kind {
                    PostKind::Corner => front_corner(&hand.shown().runs["R1"], next)[0],
                    _ => next.near,
                };
                assert_eq!(figure, show(near, Unit::Mm));
            }
        });
        tried.join().expect("one tap from post to post");
    }
}

#[test]
fn a_problem_that_names_a_post_is_told_where_that_post_is_marked_out() {
    let mut job = job::example();
    job.hole.diameter = 1300.0;
    let problem = solve(&job).problems;
    let problem = problem
        .into_iter()
        .find(|one| one.text.contains("run into each other"));
    let problem = problem.expect("holes that run into each other");
    let hand = Hand::on(job);
    hand.press("Posts");
    hand.press("2 gate post");
    hand.press("Close");
    hand.must_say(&problem.text);
    hand.picture("live-mark-out-trouble");
}
