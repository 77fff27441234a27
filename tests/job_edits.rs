//! Edits: each has its exact way back, an error changes nothing, names are taken along.

use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use serde_json::Value;
use tautmark::job::check::check;
use tautmark::job::edit::{
    Change, Edit, EditError, Fate, History, Setting, Thing, apply, dependents, label,
};
use tautmark::job::model::{
    Boards, Corner, Datum, Gate, Hole, Laser, Line, Mark, Marked, Pin, Point, Run, Setup, Show,
    Sight, Stock, Tape, Tolerance, Wall,
};
use tautmark::job::reading::{Measure, Reading};
use tautmark::job::{Job, MarkId, RunId, example, read, write};

fn cases() -> Vec<Job> {
    [
        "orchard-corner",
        "coal-yard-return",
        "coal-yard-slip",
        "stepped-side-run",
    ]
    .iter()
    .map(|name| {
        let path = format!("tests/cases/{name}.job.json");
        let text = std::fs::read_to_string(path).expect("the case is there");
        read(&text).expect("the case opens").job
    })
    .collect()
}

fn pick<T: Clone>(rng: &mut StdRng, list: &[T]) -> Option<T> {
    (!list.is_empty()).then(|| list[rng.random_range(0..list.len())].clone())
}

/// A change to a list: a known entry (or a plain one), somewhere, sometimes past the end.
fn any_change<T: Clone + Default>(
    rng: &mut StdRng,
    list: &[T],
    vary: impl Fn(&mut StdRng, &mut T),
) -> Change<T> {
    let place = |rng: &mut StdRng| rng.random_range(0..list.len() + 2);
    let mut value = pick(rng, list).unwrap_or_default();
    vary(rng, &mut value);
    match rng.random_range(0..5) {
        0 => Change::Insert {
            at: place(rng),
            value,
        },
        1 => Change::Remove { at: place(rng) },
        2 => Change::Move {
            from: place(rng),
            to: place(rng),
        },
        _ => Change::Replace {
            at: place(rng),
            value,
        },
    }
}

fn name(rng: &mut StdRng) -> String {
    let names = [
        "A", "B", "C", "X", "shed", "front", "R1", "S1", "nail", "new", "", "ö b",
    ];
    names[rng.random_range(0..names.len())].to_owned()
}

fn figure(rng: &mut StdRng) -> f64 {
    let odd = [0.0, -0.0, 1e-300, 0.1 + 0.2, -1234.5, 3650.0];
    match rng.random_range(0..8) {
        0 => odd[rng.random_range(0..odd.len())],
        _ => rng.random_range(-2e4..2e4),
    }
}

fn any_thing(rng: &mut StdRng, job: &Job) -> Thing {
    let stray = name(rng);
    let mut known = vec![
        Thing::Mark(stray.clone().into()),
        Thing::Point(stray.into()),
    ];
    known.extend(job.marks.iter().map(|e| Thing::Mark(e.id.clone())));
    known.extend(job.walls.iter().map(|e| Thing::Wall(e.id.clone())));
    known.extend(job.lines.iter().map(|e| Thing::Line(e.id.clone())));
    known.extend(job.corners.iter().map(|e| Thing::Corner(e.id.clone())));
    known.extend(job.runs.iter().map(|e| Thing::Run(e.id.clone())));
    known.extend(job.levels.points.iter().map(|e| Thing::Point(e.id.clone())));
    known.extend(job.levels.setups.iter().map(|e| Thing::Setup(e.id.clone())));
    known[rng.random_range(0..known.len())].clone()
}

fn any_setting(rng: &mut StdRng, job: &Job) -> Setting {
    let mm = figure(rng);
    match rng.random_range(0..10) {
        0 => Setting::Title(name(rng)),
        1 => Setting::Notes(name(rng)),
        2 => Setting::Show(Show::default()),
        3 => Setting::Tape(Tape {
            reading: mm,
            ..job.tape.clone()
        }),
        4 => Setting::Laser(Laser {
            accuracy: mm,
            ..job.level.clone()
        }),
        5 => Setting::Tolerance(Tolerance {
            level: mm,
            ..Tolerance::default()
        }),
        6 => Setting::Hole(Hole {
            depth: mm,
            ..job.hole.clone()
        }),
        7 => Setting::Boards(Boards::default()),
        8 => Setting::Stock(Stock {
            rails: vec![mm, 3600.0],
            ..job.stock.clone()
        }),
        _ => Setting::Datum(rng.random_bool(0.5).then(|| Datum {
            height: mm,
            ..Datum::default()
        })),
    }
}

fn any_reading(rng: &mut StdRng, job: &Job) -> Change<Reading> {
    let plain = Reading::tape(name(rng).into(), name(rng).into(), 1.0);
    let list = job.readings.clone();
    let mut value = pick(rng, &list).unwrap_or(plain);
    value.used = rng.random_bool(0.8);
    if rng.random_bool(0.2) {
        value.extra.insert("seen-by".into(), Value::from(name(rng)));
    }
    if let Measure::Tape { length, .. } = &mut value.what {
        *length = rng.random_bool(0.9).then(|| figure(rng));
    }
    let at = rng.random_range(0..list.len() + 2);
    match rng.random_range(0..4) {
        0 => Change::Insert { at, value },
        1 => Change::Remove { at },
        _ => Change::Replace { at, value },
    }
}

fn any_edit(rng: &mut StdRng, job: &Job, depth: u32) -> Edit {
    let renamed = |rng: &mut StdRng| rng.random_bool(0.3).then(|| name(rng));
    let run = rng.random_range(0..job.runs.len() + 1);
    let setup = rng.random_range(0..job.levels.setups.len() + 1);
    let gates = job.runs.get(run).map_or(vec![], |r| r.gates.clone());
    let pins = job.runs.get(run).map_or(vec![], |r| r.pins.clone());
    let sights = job
        .levels
        .setups
        .get(setup)
        .map_or(vec![], |s| s.sights.clone());
    macro_rules! renaming {
        ($list:expr) => {
            any_change(rng, $list, |rng, entry| {
                if let Some(to) = renamed(rng) {
                    entry.id = to.into();
                }
            })
        };
    }
    match rng.random_range(0..17) {
        0 => Edit::Set(any_setting(rng, job)),
        1 => Edit::Mark(renaming!(&job.marks)),
        2 => Edit::Wall(renaming!(&job.walls)),
        3 | 4 => Edit::Reading(any_reading(rng, job)),
        5 => Edit::Line(renaming!(&job.lines)),
        6 => Edit::Corner(renaming!(&job.corners)),
        7 => Edit::Run(renaming!(&job.runs)),
        8 => Edit::Gate {
            run,
            change: any_change(rng, &gates, |rng, g: &mut Gate| g.at = Some(figure(rng))),
        },
        9 => Edit::Pin {
            run,
            change: any_change(rng, &pins, |rng, p: &mut Pin| p.at = Some(figure(rng))),
        },
        10 => Edit::Point(renaming!(&job.levels.points)),
        11 => Edit::Setup(renaming!(&job.levels.setups)),
        12 => Edit::Sight {
            setup,
            change: any_change(rng, &sights, |rng, s: &mut Sight| {
                s.down = Some(figure(rng))
            }),
        },
        13 => Edit::Marked(any_change(rng, &job.marked, |rng, m: &mut Marked| {
            m.post = rng.random_range(0..9)
        })),
        14 => Edit::Rename {
            thing: any_thing(rng, job),
            to: name(rng),
        },
        15 => Edit::Remove(any_thing(rng, job)),
        _ if depth > 0 => Edit::Many(
            (0..rng.random_range(0..4))
                .map(|_| any_edit(rng, job, depth - 1))
                .collect(),
        ),
        _ => Edit::Set(any_setting(rng, job)),
    }
}

#[test]
fn every_edit_has_its_exact_way_back() {
    let mut rng = StdRng::seed_from_u64(20);
    let (mut made, mut refused) = (0, 0);
    for start in cases() {
        for _ in 0..40 {
            let mut job = start.clone();
            let mut backs = Vec::new();
            for _ in 0..40 {
                let edit = any_edit(&mut rng, &job, 2);
                let before = job.clone();
                assert!(!label(&job, &edit).is_empty());
                match apply(&mut job, &edit) {
                    Ok(back) => {
                        let after = job.clone();
                        let mut again = after.clone();
                        let forth = apply(&mut again, &back).expect("the way back is open");
                        assert_eq!(again, before, "{edit:?}");
                        apply(&mut again, &forth).expect("and forth again");
                        assert_eq!(again, after, "{edit:?}");
                        backs.push(back);
                        made += 1;
                    }
                    Err(error) => {
                        assert_eq!(job, before, "{edit:?}");
                        assert!(error.to_string().ends_with('.'), "{error}");
                        refused += 1;
                    }
                }
                let _ = check(&job);
            }
            for back in backs.iter().rev() {
                apply(&mut job, back).expect("the way back is open");
            }
            assert_eq!(job, start);
        }
    }
    assert!(
        made > 2_000 && refused > 500,
        "made {made}, refused {refused}"
    );
}

#[test]
fn undo_and_redo_reach_every_state_again_and_survive_being_written() {
    let mut rng = StdRng::seed_from_u64(21);
    for start in cases() {
        for _ in 0..15 {
            let mut job = start.clone();
            let mut history = History::default();
            let mut states = vec![job.clone()];
            for _ in 0..30 {
                let edit = any_edit(&mut rng, &job, 1);
                if rng.random_bool(0.4) && states.len() > 1 {
                    if history.amend(&mut job, edit).is_ok() {
                        *states.last_mut().expect("there is a state") = job.clone();
                    }
                } else if history.push(&mut job, edit).is_ok() {
                    states.push(job.clone());
                }
            }
            let text =
                serde_json::to_string(&history.done().to_vec()).expect("steps can be written");
            let mut history =
                History::new(serde_json::from_str(&text).expect("and read"), Vec::new());
            assert_eq!(history.done().len(), states.len() - 1);
            for state in states.iter().rev().skip(1) {
                history.undo(&mut job).expect("undo").expect("a step");
                assert_eq!(job, *state);
            }
            assert_eq!(history.undo(&mut job), Ok(None));
            for state in &states[1..] {
                history.redo(&mut job).expect("redo").expect("a step");
                assert_eq!(job, *state);
            }
            assert_eq!(history.redo(&mut job), Ok(None));
        }
    }
}

#[test]
fn the_keystrokes_of_one_figure_are_one_step() {
    let mut job = example();
    let start = job.clone();
    let mut history = History::default();
    let typed = |job: &Job, length: f64| {
        let mut value = job.readings[0].clone();
        if let Measure::Tape { length: slot, .. } = &mut value.what {
            *slot = Some(length);
        }
        Edit::Reading(Change::Replace { at: 0, value })
    };
    for length in [1.0, 10.0, 108.0, 1088.0, 10881.0] {
        let edit = typed(&job, length);
        history.amend(&mut job, edit).expect("a figure");
    }
    assert_eq!(history.done().len(), 1);
    assert_eq!(history.done()[0].label, "Tape A to B 10\u{a0}881");
    assert!(matches!(history.done()[0].forward, Edit::Reading(_)));
    history.close();
    let edit = typed(&job, 3.0);
    history.amend(&mut job, edit).expect("a figure");
    assert_eq!(history.done().len(), 2);
    history.undo(&mut job).expect("undo");
    history.undo(&mut job).expect("undo");
    assert_eq!(job, start);
}

#[test]
fn a_new_edit_forgets_what_was_undone() {
    let mut job = Job::new("one");
    let mut history = History::default();
    for title in ["two", "three"] {
        history
            .push(&mut job, Edit::Set(Setting::Title(title.into())))
            .expect("a title");
    }
    history.undo(&mut job).expect("undo");
    assert_eq!(history.undone().len(), 1);
    history
        .push(&mut job, Edit::Set(Setting::Title("four".into())))
        .expect("a title");
    assert_eq!(history.undone().len(), 0);
    assert_eq!(history.redo(&mut job), Ok(None));
    assert_eq!(job.title, "four");
}

#[test]
fn renaming_takes_every_reference_along() {
    let job = example();
    let things = [
        Thing::Mark("A".into()),
        Thing::Wall("shed".into()),
        Thing::Line(job.lines[0].id.clone()),
        Thing::Corner(job.corners[0].id.clone()),
        Thing::Run(job.runs[0].id.clone()),
        Thing::Point(job.levels.points[0].id.clone()),
        Thing::Setup(job.levels.setups[0].id.clone()),
    ];
    for thing in things {
        let mut renamed = job.clone();
        let rename = Edit::Rename {
            thing: thing.clone(),
            to: "quite new".into(),
        };
        let back = apply(&mut renamed, &rename).expect("the name is free");
        assert_ne!(renamed, job);
        let (before, after) = (check(&job).1, check(&renamed).1);
        assert_eq!(
            before.len(),
            after.len(),
            "renaming {thing:?} broke a reference: {after:#?}"
        );
        let old = format!("\"{}\"", thing.name());
        let text = write(&renamed).expect("a job can be written");
        // A key of the file may have the name too.
        let text = text.replace(&format!("{old}:"), "");
        let kinds_with_same_name = job.marks.iter().any(|m| m.id.as_str() == thing.name())
            && !matches!(thing, Thing::Mark(_));
        assert!(
            kinds_with_same_name || !text.contains(&old),
            "{old} is still somewhere"
        );
        apply(&mut renamed, &back).expect("the way back is open");
        assert_eq!(renamed, job);
    }
}

#[test]
fn names_must_be_given_and_free() {
    let mut job = example();
    let before = job.clone();
    let to_taken = Edit::Rename {
        thing: Thing::Mark("A".into()),
        to: "B".into(),
    };
    let taken = apply(&mut job, &to_taken).expect_err("B is taken");
    assert_eq!(
        taken,
        EditError::Taken {
            kind: "mark",
            name: "B".into()
        }
    );
    let to_nothing = Edit::Rename {
        thing: Thing::Mark("A".into()),
        to: String::new(),
    };
    assert_eq!(
        apply(&mut job, &to_nothing),
        Err(EditError::Nameless { kind: "mark" })
    );
    let again = Edit::add_mark(&job, "A".into(), [0.0, 0.0]);
    assert!(matches!(
        apply(&mut job, &again),
        Err(EditError::Taken { .. })
    ));
    let gone = Edit::Remove(Thing::Wall("nowhere".into()));
    assert_eq!(
        apply(&mut job, &gone),
        Err(EditError::NoName {
            kind: "wall",
            name: "nowhere".into()
        })
    );
    assert_eq!(job, before);
}

#[test]
fn a_figure_that_is_no_number_is_refused() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let mut job = example();
        let edits = [
            Edit::add_reading(&job, Reading::tape("A".into(), "B".into(), bad)),
            Edit::Set(Setting::Tape(Tape {
                reading: bad,
                ..Tape::default()
            })),
            Edit::move_mark(&job, &MarkId::from("A"), [0.0, bad]).expect("mark A is there"),
            Edit::Many(vec![
                Edit::Set(Setting::Title("half done".into())),
                Edit::Gate {
                    run: 0,
                    change: Change::Insert {
                        at: 0,
                        value: Gate {
                            at: Some(bad),
                            ..Gate::default()
                        },
                    },
                },
            ]),
        ];
        for edit in edits {
            assert_eq!(
                apply(&mut job, &edit),
                Err(EditError::Unkeepable),
                "{edit:?}"
            );
        }
        assert_eq!(job, example());
    }
}

#[test]
fn removing_a_mark_says_in_advance_what_goes_and_leaves_no_name_behind() {
    for job in cases() {
        for mark in &job.marks {
            let thing = Thing::Mark(mark.id.clone());
            let told = dependents(&job, &thing);
            let mut left = job.clone();
            apply(&mut left, &Edit::Remove(thing)).expect("the mark is there");
            let entries = |job: &Job| {
                job.walls.len()
                    + job.readings.len()
                    + job.lines.len()
                    + job.corners.len()
                    + job
                        .levels
                        .setups
                        .iter()
                        .map(|s| s.sights.len())
                        .sum::<usize>()
            };
            let goes = told.iter().filter(|d| d.fate == Fate::Goes).count();
            assert_eq!(entries(&job) - entries(&left), goes);
            assert_eq!(left.runs.len(), job.runs.len());
            let lost: Vec<_> = check(&left)
                .1
                .into_iter()
                .filter(|p| p.severity == tautmark::job::Severity::Error)
                .collect();
            let had = check(&job)
                .1
                .into_iter()
                .filter(|p| p.severity == tautmark::job::Severity::Error)
                .count();
            assert!(lost.len() <= had + told.len(), "{lost:#?}");
            assert!(
                told.iter()
                    .all(|d| !d.place.is_empty() && !d.what.is_empty())
            );
        }
    }
}

#[test]
fn removing_a_point_takes_its_sights_and_the_datum() {
    let job = example();
    let datum = job.levels.datum.clone().expect("the example has a datum");
    let thing = Thing::Point(datum.point.clone());
    let told = dependents(&job, &thing);
    assert!(
        told.iter()
            .any(|d| d.place == "levels.datum" && d.fate == Fate::AsksAgain)
    );
    let mut left = job.clone();
    apply(&mut left, &Edit::Remove(thing)).expect("the point is there");
    assert_eq!(left.levels.datum, None);
    let sighted = left
        .levels
        .setups
        .iter()
        .flat_map(|s| &s.sights)
        .any(|s| s.point == datum.point);
    assert!(!sighted);
}

#[test]
fn removing_a_run_takes_its_ticks_and_keeps_its_levels() {
    let mut job = example();
    let run = job.runs[0].id.clone();
    let tick = Marked {
        run: run.clone(),
        post: 3,
        done: true,
        ..Marked::default()
    };
    let mark_post = Edit::mark_post(&job, tick);
    apply(&mut job, &mark_post).expect("a tick");
    let points = job.levels.points.len();
    apply(&mut job, &Edit::Remove(Thing::Run(run.clone()))).expect("the run is there");
    assert!(job.marked.iter().all(|m| m.run != run));
    assert_eq!(job.levels.points.len(), points);
    assert!(
        job.levels
            .points
            .iter()
            .all(|p| p.run.as_ref() != Some(&run))
    );
}

#[test]
fn ticking_a_post_twice_keeps_one_note_of_it() {
    let mut job = example();
    for measured in [Some(3642.0), Some(3644.0)] {
        let value = Marked {
            run: RunId::from("R1"),
            post: 2,
            done: true,
            measured,
            ..Marked::default()
        };
        let edit = Edit::mark_post(&job, value);
        apply(&mut job, &edit).expect("a tick");
    }
    let noted: Vec<_> = job
        .marked
        .iter()
        .filter(|m| m.post == 2 && m.run.as_str() == "R1")
        .collect();
    assert_eq!(noted.len(), 1);
    assert_eq!(noted[0].measured, Some(3644.0));
}

#[test]
fn labels_read_as_a_person_would_say_them() {
    let job = example();
    let leave_out = Edit::use_reading(&job, 0, false).expect("a reading");
    assert!(label(&job, &leave_out).starts_with("Leave out tape A to B"));
    let gate = Gate {
        at: Some(900.0),
        ..Gate::default()
    };
    let post = |with: fn(&mut Marked)| {
        let mut value = Marked {
            run: "R1".into(),
            post: 3,
            ..Marked::default()
        };
        with(&mut value);
        Edit::Marked(Change::Insert { at: 0, value })
    };
    let said = [
        (
            Edit::Rename {
                thing: Thing::Mark("A".into()),
                to: "K".into(),
            },
            "Rename mark A to K",
        ),
        (
            Edit::Gate {
                run: 0,
                change: Change::Insert { at: 0, value: gate },
            },
            "Add gate at 900",
        ),
        (Edit::Set(Setting::Title("Back".into())), "Title “Back”"),
        (Edit::add_mark(&job, "K".into(), [0.0, 0.0]), "Add mark K"),
        (
            Edit::Wall(Change::Remove { at: 0 }),
            "Delete wall Potting shed front",
        ),
        (post(|one| one.done = true), "Post 3 of run R1 marked"),
        (
            post(|one| one.keep = true),
            "Post 3 of run R1 kept where it stands",
        ),
        (
            post(|one| one.measured = Some(3642.0)),
            "Post 3 of run R1 measured: 3\u{a0}642",
        ),
    ];
    for (edit, words) in said {
        assert_eq!(label(&job, &edit), words);
    }
}

#[test]
fn plain_entries_can_be_put_in_with_a_name() {
    let mut job = Job::new("empty");
    let end = 0;
    let edits = [
        Edit::Wall(Change::Insert {
            at: end,
            value: Wall {
                id: "w".into(),
                ..Wall::default()
            },
        }),
        Edit::Line(Change::Insert {
            at: end,
            value: Line {
                id: "l".into(),
                ..Line::default()
            },
        }),
        Edit::Corner(Change::Insert {
            at: end,
            value: Corner {
                id: "c".into(),
                ..Corner::default()
            },
        }),
        Edit::Run(Change::Insert {
            at: end,
            value: Run {
                id: "r".into(),
                ..Run::default()
            },
        }),
        Edit::Point(Change::Insert {
            at: end,
            value: Point {
                id: "p".into(),
                ..Point::default()
            },
        }),
        Edit::Setup(Change::Insert {
            at: end,
            value: Setup {
                id: "s".into(),
                ..Setup::default()
            },
        }),
        Edit::Mark(Change::Insert {
            at: end,
            value: Mark {
                id: "m".into(),
                ..Mark::default()
            },
        }),
    ];
    apply(&mut job, &Edit::Many(edits.to_vec())).expect("all are named");
    assert_eq!(
        (job.walls.len(), job.runs.len(), job.levels.setups.len()),
        (1, 1, 1)
    );
    let nameless = Edit::Wall(Change::Insert {
        at: 0,
        value: Wall::default(),
    });
    assert_eq!(
        apply(&mut job, &nameless),
        Err(EditError::Nameless { kind: "wall" })
    );
}
