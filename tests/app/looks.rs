//! How the places look with what people really have: long names, many posts, a misread tape or sight,
//! a mark still loose, nothing at all, feet and inches; and every quick sum. Drawn into
//! `target/screens` to be looked at.

use slint::Global;
use tautmark::app::Then;
use tautmark::job::model::{Bays, PostSize, Show};
use tautmark::job::reading::Measure;
use tautmark::job::{self, Job};
use tautmark::length::Unit;
use tautmark::solve;
use tautmark_app_tests::{Hand, settle};
use tautmark_ui::{Page, Place, Theme, ThemeMode};

const PAGES: [(&str, Place, Page); 13] = [
    ("stretch", Place::Lines, Page::Stretch),
    ("posts", Place::Posts, Page::Posts),
    ("run", Place::Posts, Page::Run),
    ("mark-out", Place::Posts, Page::MarkOut),
    ("levels", Place::Levels, Page::Levels),
    ("carry", Place::Levels, Page::Carry),
    ("laser", Place::Levels, Page::Laser),
    ("heights", Place::Levels, Page::Heights),
    ("boards", Place::Boards, Page::Boards),
    ("sizes", Place::Boards, Page::Sizes),
    ("cut-list", Place::Boards, Page::CutList),
    ("trestles", Place::Boards, Page::Trestles),
    ("gate", Place::Boards, Page::Gate),
];

/// The example with other names: its own, and one each for its walls, its runs and its strings.
fn named(title: &str, wall: &str, run: &str, line: &str) -> Job {
    let mut job = job::example();
    job.title = title.to_owned();
    for one in &mut job.walls {
        one.name = wall.to_owned();
    }
    for one in &mut job.runs {
        one.name = run.to_owned();
    }
    for one in &mut job.lines {
        one.name = line.to_owned();
    }
    job
}

fn long_names() -> Job {
    named(
        "The screen along the lane behind the old potting shed and orchard",
        "The long garden wall on the side of the lane, rough brick",
        "Along the lane from the old pear tree to the wicket gate",
        "Front string, tied low on the nails of the shed",
    )
}

/// Names without a space: in writing that has none, and of one long word.
fn without_spaces() -> Job {
    let (wall, run) = (
        "果園東側舊磚牆靠近水井的那一段比較高而且不直",
        "รั้วด้านหลังสวนผลไม้ตั้งแต่กำแพงอิฐเก่าจนถึงประตู",
    );
    let line = "Obstgartenmauerverlängerungsabschnittsbegrenzungsschnur";
    named(&format!("{wall}，{run}"), wall, run, line)
}

fn many_posts() -> Job {
    let mut job = job::example();
    let bays = Bays {
        max: 100.0,
        ..Bays::default()
    };
    let post = PostSize {
        width: 40.0,
        depth: 40.0,
        ..PostSize::default()
    };
    job.hole.diameter = 60.0;
    job.runs[0].bays = Some(bays);
    job.runs[0].post = Some(post);
    job
}

fn misread() -> Job {
    let mut job = job::example();
    if let Measure::Tape { length, .. } = &mut job.readings[5].what {
        *length = Some(13_946.0);
    }
    job.levels.setups[1].sights[5].down = Some(575.0);
    job
}

fn loose() -> Job {
    let mut job = job::example();
    for reading in &mut job.readings[3..] {
        if let Measure::Tape { length, .. } = &mut reading.what {
            *length = None;
        }
    }
    job.levels.datum = None;
    job
}

fn in_feet() -> Job {
    let mut job = job::example();
    job.show = Show {
        lengths: Unit::FEET,
        ..Show::default()
    };
    job
}

fn draw(name: &str, job: &Job, (width, height): (f32, f32), mode: ThemeMode) {
    let (name, job) = (name.to_owned(), job.clone());
    std::thread::spawn(move || {
        let hand = Hand::on_screen(job, width, height);
        Theme::get(&hand.app).set_mode(mode);
        for (page_name, place, page) in PAGES {
            hand.go(place, page);
            hand.picture(&format!("looks-{name}-{page_name}-{width}x{height}"));
            assert!(!hand.labels().is_empty(), "{page_name} is empty");
        }
    })
    .join()
    .expect("every place is drawn");
}

#[test]
fn odd_jobs_are_drawn() {
    let phone = (360.0, 800.0);
    let jobs = [
        ("long", long_names()),
        ("many", many_posts()),
        ("misread", misread()),
        ("loose", loose()),
        ("empty", Job::new("Nothing yet")),
        ("feet", in_feet()),
        ("without-spaces", without_spaces()),
    ];
    let posts = solve(&jobs[1].1).runs["R1"].posts.len();
    assert!(posts >= 40, "{posts}");
    for (name, job) in &jobs {
        draw(name, job, phone, ThemeMode::Day);
    }
    for size in [(915.0, 412.0), (1280.0, 800.0)] {
        draw("feet", &jobs[5].1, size, ThemeMode::Night);
    }
    draw("many", &jobs[1].1, (1280.0, 800.0), ThemeMode::Day);
    draw("long", &jobs[0].1, (412.0, 915.0), ThemeMode::Night);
}

/// Figures for a sum, by the names they are kept under.
const FIGURES: [(&str, &[(&str, f64)]); 25] = [
    (
        "corner",
        &[
            ("corner first", 2000.0),
            ("corner second", 2000.0),
            ("corner across", 2905.0),
            ("corner run", 5400.0),
        ],
    ),
    (
        "square",
        &[
            ("square ab", 4000.0),
            ("square bc", 3000.0),
            ("square cd", 4000.0),
            ("square da", 3000.0),
            ("square ac", 5100.0),
            ("square bd", 4898.0),
        ],
    ),
    (
        "point",
        &[
            ("point base", 5000.0),
            ("point first", 3000.0),
            ("point second", 4000.0),
        ],
    ),
    (
        "tapes to",
        &[
            ("to base", 5000.0),
            ("to along", 1800.0),
            ("to off", 2400.0),
        ],
    ),
    ("slope", &[("slope tape", 10_000.0), ("slope drop", 1500.0)]),
    ("sag", &[("sag length", 12_000.0)]),
    (
        "two tapes",
        &[
            ("two tapes first", 3010.0),
            ("two tapes second", 3000.0),
            ("two tapes first far", 9012.0),
            ("two tapes second far", 9000.0),
        ],
    ),
    (
        "across",
        &[
            ("across first", 4000.0),
            ("across second", 3000.0),
            ("across angle", 100.0),
        ],
    ),
    ("turn", &[("corner end", 4000.0)]),
    (
        "diagonal",
        &[("rectangle width", 3000.0), ("rectangle length", 4500.0)],
    ),
    ("bays", &[("bays length", 9200.0), ("bays longest", 1900.0)]),
    (
        "gaps",
        &[
            ("gaps length", 2438.4),
            ("gaps width", 139.7),
            ("gaps widest", 75.0),
        ],
    ),
    (
        "concrete",
        &[
            ("hole across", 300.0),
            ("hole deep", 600.0),
            ("hole count", 8.0),
        ],
    ),
    (
        "carry",
        &[
            ("carry datum", 400.0),
            ("carry first", 612.0),
            ("carry second", 575.0),
            ("carry mark", 900.0),
            ("carry again", 363.0),
        ],
    ),
    (
        "laser",
        &[
            ("laser base", 50_000.0),
            ("laser middle a", 1283.0),
            ("laser middle b", 860.0),
            ("laser distance a", 55_000.0),
            ("laser distance b", 5000.0),
            ("laser second a", 1612.0),
            ("laser second b", 1219.0),
        ],
    ),
    (
        "turn about",
        &[
            ("turn about distance", 20_000.0),
            ("turn about apart", -24.0),
        ],
    ),
    ("spirit", &[("spirit first", 6.0), ("spirit second", 2.0)]),
    (
        "fall",
        &[
            ("fall total", 610.0),
            ("fall bays", 4.0),
            ("fall bay", 2438.0),
        ],
    ),
    ("rail", &[("rail clear", 1800.0), ("rail fall", 240.0)]),
    ("mitre", &[("mitre angle", 104.3)]),
    (
        "pales",
        &[
            ("pales cover", 1800.0),
            ("pales width", 125.0),
            ("pales lap", 20.0),
        ],
    ),
    (
        "notch",
        &[
            ("notch depth", 100.0),
            ("notch cut", 20.0),
            ("notch height", 300.0),
        ],
    ),
    (
        "leaf",
        &[
            ("leaf top", 1042.0),
            ("leaf middle", 1040.0),
            ("leaf bottom", 1037.0),
        ],
    ),
    (
        "swing",
        &[
            ("swing gap", 50.0),
            ("swing half", 15.0),
            ("swing end", 42.0),
            ("swing open", 0.0),
        ],
    ),
    (
        "lock",
        &[
            ("lock frame", 45.0),
            ("lock thin", 8.0),
            ("lock thick", 22.0),
            ("lock board", 150.0),
            ("lock at", 75.0),
        ],
    ),
];

fn look(hand: &Hand, id: &str, filled: bool) {
    hand.bridge.act(|desk| {
        if filled {
            for (_, figures) in &FIGURES {
                let figures = figures.iter().map(|(key, mm)| ((*key).to_owned(), *mm));
                desk.figures.extend(figures);
            }
        }
        desk.look_at_quick(id);
        Then::Open(Page::Quick)
    });
    settle();
}

#[test]
fn every_quick_sum_is_drawn() {
    for (size, mode, filled) in [
        ((412.0, 915.0), ThemeMode::Day, true),
        ((412.0, 915.0), ThemeMode::Day, false),
        ((915.0, 412.0), ThemeMode::Night, true),
    ] {
        let drawn = std::thread::spawn(move || {
            let (width, height) = size;
            let hand = Hand::with_no_job(width, height);
            Theme::get(&hand.app).set_mode(mode);
            for (id, _) in FIGURES {
                look(&hand, id, filled);
                let state = if filled { "full" } else { "empty" };
                let id = id.replace(' ', "-");
                hand.picture(&format!("quick-{width}x{height}-{id}-{state}"));
                assert!(!hand.labels().is_empty());
            }
        });
        drawn.join().expect("every sum is drawn");
    }
}

#[test]
fn quick_in_other_sizes_and_on_the_keypad() {
    let drawn = std::thread::spawn(|| {
        let hand = Hand::with_no_job(360.0, 800.0);
        hand.picture("quick-jobs-360x800");
        hand.press("All quick sums");
        hand.picture("quick-index-360x800");
        look(&hand, "carry", true);
        hand.press("Change point from the first place");
        hand.keys("61");
        hand.picture("quick-keypad-360x800");
    });
    drawn.join().expect("drawn on a small phone");
    let drawn = std::thread::spawn(|| {
        let hand = Hand::with_no_job(1280.0, 800.0);
        hand.picture("quick-jobs-1280x800");
        hand.press("All quick sums");
        hand.picture("quick-index-1280x800");
        look(&hand, "corner", true);
        hand.picture("quick-corner-1280x800");
        hand.press("Across");
        hand.keys("29");
        hand.picture("quick-keypad-1280x800");
    });
    drawn.join().expect("drawn on a tablet");
    let hand = Hand::on_screen(in_feet(), 412.0, 915.0);
    look(&hand, "bays", true);
    hand.picture("quick-feet-412x915");
}
