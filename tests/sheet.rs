//! The sheet says what the solution says, in every form and unit.

use std::{fs, path::Path};
use tautmark::boards::CutPiece;
use tautmark::job::{self, Job};
use tautmark::length::{Unit, parse, show};
use tautmark::sheet::{Block, Section, Sheet};
use tautmark::{Solution, solve};

fn cases() -> Vec<Job> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases");
    let names = [
        "orchard-corner",
        "coal-yard-return",
        "coal-yard-slip",
        "stepped-side-run",
    ];
    let open = |name: &str| {
        let text = fs::read_to_string(folder.join(format!("{name}.job.json"))).expect("a case");
        job::read(&text).expect("the case opens").job
    };
    names.into_iter().map(open).collect()
}

/// The example with everything that a job can hold: all kinds of readings, posts as built, stock.
fn full() -> Job {
    let mut value: serde_json::Value = serde_json::from_str(job::EXAMPLE).expect("JSON");
    let readings = value["readings"].as_array_mut().expect("readings");
    readings.extend([
        serde_json::json!({"kind": "angle", "from": "A", "at": "B", "to": "E", "degrees": 90.4}),
        serde_json::json!({"kind": "offset", "mark": "C", "wall": "shed", "side": "left", "length": 4126}),
        serde_json::json!({"kind": "tape", "from": "C", "to": "E", "length": 6816, "drop": 120}),
        serde_json::json!({"kind": "inline", "mark": "C", "with": ["D", "F"], "use": false}),
    ]);
    value["marked"] = serde_json::json!([
        {"run": "R1", "post": 1, "done": true, "measured": 52},
        {"run": "R1", "post": 3, "done": true, "measured": 2001, "off": 117},
        {"run": "R1", "post": 4, "done": true}
    ]);
    value["stock"] = serde_json::json!({"gravel": [2400, 3000], "rails": [3000], "posts": [2700]});
    value["runs"][0]["gates"][0]["leaf"] = serde_json::json!({"hinge": 15, "latch": 10});
    value["lines"][0]["offsets"] = serde_json::json!([
        {"at": 0, "off": 50}, {"at": 1800, "off": 58}, {"at": 3650, "off": 50}
    ]);
    job::read(&value.to_string()).expect("it opens").job
}

fn in_unit(mut job: Job, unit: Unit) -> (Sheet, Solution) {
    job.show.lengths = unit;
    let solution = solve(&job);
    (Sheet::new(&job, &solution), solution)
}

fn rows(csv: &str) -> Vec<Vec<String>> {
    csv::ReaderBuilder::new()
        .flexible(true)
        .has_headers(false)
        .from_reader(csv.as_bytes())
        .records()
        .map(|row| row.expect("a row").iter().map(str::to_owned).collect())
        .collect()
}

/// The rows under the heading row that starts so, up to the first row of another length.
fn table<'a>(rows: &'a [Vec<String>], from: usize, heading: &[&str]) -> (usize, Vec<&'a [String]>) {
    let at = rows[from..]
        .iter()
        .position(|row| row.len() >= heading.len() && row[..heading.len()] == *heading)
        .unwrap_or_else(|| panic!("no table {heading:?}"))
        + from;
    let width = rows[at].len();
    let body = rows[at + 1..].iter().take_while(|row| row.len() == width);
    (at + 1, body.map(Vec::as_slice).collect())
}

fn near(text: &str, unit: Unit, mm: f64) {
    let allowed = if unit == Unit::FEET {
        25.4 / 64.0
    } else {
        0.006
    };
    let read = parse(&text.replace('-', "−"), unit).unwrap_or_else(|e| panic!("{text}: {e}"));
    assert!((read - mm).abs() <= allowed, "{text} is not {mm}");
}

#[test]
fn running_readings_in_the_rows_are_the_solution() {
    for unit in Unit::ALL {
        for job in cases() {
            let (sheet, solution) = in_unit(job, unit);
            let rows = rows(&sheet.csv());
            let mut from = 0;
            for run in solution.runs.values() {
                let (next, body) = table(&rows, from, &["Post", "Kind", "Near face"]);
                from = next;
                assert_eq!(body.len(), run.posts.len());
                for (row, post) in body.into_iter().zip(&run.posts) {
                    assert_eq!(row[0], post.n.to_string());
                    near(&row[2], unit, post.near);
                    near(&row[3], unit, post.centre);
                    near(&row[4], unit, post.far);
                    near(&row[5], unit, post.pm);
                    near(&row[row.len() - 5], unit, post.off);
                    if let Some(bay) = post.bay {
                        near(&row[6], unit, bay);
                    }
                }
            }
        }
    }
}

#[test]
fn heights_and_cuts_in_the_rows_are_the_solution() {
    let (sheet, solution) = in_unit(job::example(), Unit::Mm);
    let rows = rows(&sheet.csv());
    let mut from = 0;
    for boards in solution.boards.values() {
        let (next, body) = table(&rows, from, &["Bay", "Top of board"]);
        from = next;
        for (row, board) in body.into_iter().zip(&boards.gravel) {
            assert_eq!(row[0], format!("{} to {}", board.from, board.to));
            near(&row[1], Unit::Mm, board.down.expect("known"));
            near(&row[3], Unit::Mm, board.dig.expect("known"));
        }
    }
    let (_, body) = table(&rows, 0, &["Piece", "How many"]);
    // Posts have a table of their own, where a corner post stands once.
    let pieces = solution
        .cuts
        .iter()
        .filter(|cut| cut.item != CutPiece::Post);
    let pieces: Vec<_> = pieces.collect();
    assert_eq!(body.len(), pieces.len());
    for (row, cut) in body.into_iter().zip(pieces) {
        assert_eq!(row[1], cut.count.to_string());
        near(&row[2], Unit::Mm, cut.length);
    }
    let (_, body) = table(&rows, 0, &["Run", "Post", "Stands"]);
    assert_eq!(body.len(), solution.buy.post_count);
    for row in body {
        let run = &solution.boards[row[0].as_str()];
        let n: usize = row[1].parse().expect("a number");
        let own = run.posts[n - 1].length.expect("known");
        let shared = if (row[0].as_str(), n) == ("R1", 5) {
            solution.boards["R2"].posts[0].length.expect("known")
        } else {
            0.0
        };
        near(&row[4], Unit::Mm, own.max(shared));
    }
}

#[test]
fn the_text_holds_every_running_reading_and_diagonal() {
    for unit in Unit::ALL {
        for job in cases() {
            let (sheet, solution) = in_unit(job, unit);
            let text = sheet.text();
            let posts = solution.runs.values().flat_map(|run| &run.posts);
            let figures = posts
                .flat_map(|post| [post.near, post.centre, post.far, post.off])
                .chain(
                    solution
                        .corners
                        .values()
                        .flat_map(|c| &c.check)
                        .map(|c| c.diagonal),
                );
            for figure in figures {
                let shown = show(figure, unit);
                assert!(text.contains(&shown), "{shown} is not in the text");
            }
        }
    }
}

#[test]
fn a_mark_on_a_post_is_where_its_board_goes() {
    let (sheet, solution) = in_unit(job::example(), Unit::Mm);
    let rows = rows(&sheet.csv());
    let line = solution.levels.expect("levelled").setups["S1"].line;
    // The pocket card has a column for each side of a post; its first is that of run R1.
    let heading = rows.iter().find(|row| row.contains(&"4 to end".to_owned()));
    let column = heading.and_then(|row| row.iter().position(|cell| cell == "4 to end"));
    // Post 4 of R1, towards the end: the board of bay 4 to 5.
    let column = column.expect("post 4");
    let cell = |name: &str| {
        let row = rows.iter().find(|row| row[0] == name).expect("a row");
        row[column].clone()
    };
    let board = &solution.boards["R1"].gravel[2];
    near(
        &cell("Board top"),
        Unit::Mm,
        line - board.top.expect("known"),
    );
    let rails = &solution.boards["R1"].rails[2];
    for (n, down) in rails.down.iter().enumerate() {
        near(&cell(&format!("Rail {}, centre", n + 1)), Unit::Mm, *down);
    }
}

#[test]
fn every_problem_is_said_in_every_form() {
    let mut wrong = job::example();
    wrong.runs[0].gates[0].clear = Some(9000.0);
    wrong.readings.truncate(9);
    for job in cases().into_iter().chain([wrong, full()]) {
        let solution = solve(&job);
        assert!(!solution.problems.is_empty());
        let sheet = Sheet::new(&job, &solution);
        let one_line = |text: String| {
            let words: Vec<&str> = text.split_whitespace().collect();
            words.join(" ")
        };
        let text = one_line(sheet.text());
        let rows: Vec<String> = rows(&sheet.csv()).into_iter().flatten().collect();
        let html = one_line(sheet.html());
        for problem in &solution.problems {
            let said = one_line(problem.text.clone());
            assert!(text.contains(&said), "{said}");
            assert!(text.contains(&one_line(problem.remedy.clone())));
            assert!(rows.contains(&problem.text), "{said}");
            let escaped = said.replace('&', "&amp;").replace('<', "&lt;");
            assert!(
                html.contains(&escaped.replace('>', "&gt;").replace('"', "&quot;")),
                "{said}"
            );
        }
    }
}

#[test]
fn no_line_is_wider_than_the_page() {
    for unit in Unit::ALL {
        for job in cases().into_iter().chain([full(), Job::new("Nothing yet")]) {
            let (sheet, _) = in_unit(job, unit);
            for line in sheet.text().lines() {
                assert!(line.chars().count() <= 100, "{line}");
            }
        }
    }
}

#[test]
fn every_table_has_a_cell_for_each_column() {
    for job in cases().into_iter().chain([full()]) {
        let sheet = Sheet::new(&job, &solve(&job));
        for block in sheet.sections.iter().flat_map(|section| &section.blocks) {
            if let Block::Table(table) = block {
                assert!(!table.rows.is_empty());
                for row in &table.rows {
                    assert_eq!(row.len(), table.columns.len(), "{}", table.caption);
                }
            }
        }
    }
}

#[test]
fn feet_and_inches_go_all_the_way_through() {
    let mut job = full();
    job.show.lengths = Unit::FEET;
    let solution = solve(&job);
    let sheet = Sheet::new(&job, &solution);
    let post = &solution.runs["R1"].posts[3];
    assert!(sheet.text().contains(&show(post.centre, Unit::FEET)));
    assert!(!sheet.text().contains(&show(post.centre, Unit::Mm)));
    // After what is wrong, which names figures of the file as they stand there.
    let told = |section: &&Section| section.heading != "Look at this first";
    for section in sheet.sections.iter().filter(told) {
        for block in &section.blocks {
            let said = match block {
                Block::Paragraph(text) => vec![text.clone()],
                Block::List(items) => items.clone(),
                Block::Table(table) => vec![table.note.clone(), table.caption.clone()],
                _ => Vec::new(),
            };
            for text in said {
                let metric = text.contains("\u{a0}mm") || text.contains(" mm");
                assert!(!metric, "{text}");
            }
        }
    }
}

#[test]
fn as_built_posts_say_which_way_to_move() {
    let job = full();
    let text = Sheet::new(&job, &solve(&job)).text();
    let words: Vec<&str> = text.split_whitespace().collect();
    let text = words.join(" ");
    assert!(text.contains("3 posts done, 2 to go."));
    assert!(text.contains("Out: move it 11 towards the run's start and 8"));
    assert!(text.contains("In tolerance"));
}

#[test]
fn while_readings_disagree_the_sheet_says_stop() {
    let slip = &cases()[2];
    let text = Sheet::new(slip, &solve(slip)).text();
    assert!(text.contains("Stop: readings do not agree."));
    assert!(text.contains("Not yet: the readings do not agree"));
    assert!(text.contains("looks wrong"));
    let sound = &cases()[1];
    assert!(!Sheet::new(sound, &solve(sound)).text().contains("Stop:"));
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    for job in cases() {
        let one = Sheet::new(&job, &solve(&job));
        let two = Sheet::new(&job.clone(), &solve(&job.clone()));
        assert_eq!(one.text(), two.text());
        assert_eq!(one.csv(), two.csv());
        assert_eq!(one.html(), two.html());
        assert_eq!(one.message(), two.message());
    }
}

#[test]
fn a_message_is_short_and_plain() {
    let (sheet, _) = in_unit(job::example(), Unit::Mm);
    let message = sheet.message();
    assert!(
        message.contains("R1: 51, 850, 1990, 3640, 5290"),
        "{message}"
    );
    assert!(message.contains("R1 gate: 900 to 1940"), "{message}");
    assert!(message.contains("104.29°"), "{message}");
    // What is marked along the posts of a run is one line.
    let from_top = "2 start: 123 813 1503 board 1600 cut 2337";
    assert!(message.contains(from_top), "{message}");
    assert!(
        message.contains("bolts 228 617 1083 1473 cut 1700"),
        "{message}"
    );
    assert!(message.lines().count() <= 9, "{message}");
    assert!(message.len() < 1000, "{message}");
    assert!(!message.contains('\u{a0}'));
}

#[test]
fn a_message_has_the_leaf_of_a_gate() {
    let mut job = job::example();
    let gate = &mut job.runs[0].gates[0];
    gate.leaf = Some(serde_json::from_value(serde_json::json!({})).expect("a leaf"));
    gate.lock = Some(serde_json::from_value(serde_json::json!({})).expect("a lock"));
    let (sheet, solution) = in_unit(job, Unit::Mm);
    let made = &solution.boards["R1"].gates[0];
    let height = made.height.expect("known").round();
    let brace = made.brace.expect("a brace");
    let wanted = format!(
        "R1 leaf: 1015 wide, {height} high, brace {:.0} at {:.2}°, lock 1000 up and 60 in, packing 40",
        brace.length.round(),
        brace.angle
    );
    let message = sheet.message();
    assert!(message.contains(&wanted), "{wanted}: {message}");
    for form in [sheet.text(), sheet.csv(), sheet.html()] {
        let form = form.to_lowercase();
        assert!(form.contains("the gate") && form.contains("on the trestles"));
    }
}

#[test]
fn a_kept_post_is_said_to_be_kept() {
    let mut job = job::example();
    let kept = serde_json::json!([{ "run": "R2", "post": 2, "done": true, "measured": 1498, "keep": true }]);
    job.marked = serde_json::from_value(kept).expect("marked as done");
    let text = Sheet::new(&job, &solve(&job)).text();
    let words: Vec<&str> = text.split_whitespace().collect();
    assert!(
        words
            .join(" ")
            .contains("Kept where it stands; the rest is fitted to it")
    );
}

#[test]
fn the_posts_say_what_they_are_cut_from_and_what_is_short() {
    let mut job = job::example();
    job.stock.posts = vec![2100.0, 2400.0];
    let (sheet, solution) = in_unit(job, Unit::Mm);
    let rows = rows(&sheet.csv());
    let (_, body) = table(
        &rows,
        0,
        &[
            "Run",
            "Post",
            "Stands",
            "Above ground",
            "Length",
            "Cut from",
        ],
    );
    for row in &body {
        let bars = &solution.buy.posts.bars;
        let n: usize = row[1].parse().expect("a number");
        let from = bars.iter().find(|bar| {
            let mut posts = bar.posts.iter();
            posts.any(|spot| spot.run.as_str() == row[0] && spot.from == n)
        });
        match from {
            Some(bar) => near(&row[5], Unit::Mm, bar.stock),
            None => assert_eq!(row[5], ""),
        }
    }
    // The corner post is 2444 long.
    let text = sheet.text();
    let words: Vec<&str> = text.split_whitespace().collect();
    assert!(
        words
            .join(" ")
            .contains("short of a length that holds 2 444 mm"),
        "{text}"
    );
}

#[test]
fn an_empty_job_is_told_where_to_start() {
    let job = Job::new("Nothing yet");
    let text = Sheet::new(&job, &solve(&job)).text();
    assert!(text.contains("Nothing is measured yet."));
    assert!(!text.contains("NaN"));
}

/// Every place in a job's file that holds a figure, a text, a list or a part.
fn places(value: &serde_json::Value, at: &str, found: &mut Vec<String>) {
    match value {
        serde_json::Value::Object(parts) => parts.iter().for_each(|(key, part)| {
            let at = format!("{at}/{key}");
            found.push(at.clone());
            places(part, &at, found);
        }),
        serde_json::Value::Array(parts) => parts.iter().enumerate().for_each(|(n, part)| {
            let at = format!("{at}/{n}");
            found.push(at.clone());
            places(part, &at, found);
        }),
        _ => {}
    }
}

#[test]
fn whatever_a_file_says_every_form_can_be_made() {
    let text = job::write(&full()).expect("JSON");
    let whole: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let mut at = Vec::new();
    places(&whole, "", &mut at);
    // Each place is tried with one of these in turn.
    let values = [
        serde_json::json!(-1),
        serde_json::json!(0),
        serde_json::json!(1e-9),
        serde_json::json!(999_999),
        serde_json::json!(1e300),
        serde_json::json!("\u{202e}<&>\"'\n=1"),
        serde_json::json!([]),
        serde_json::Value::Null,
    ];
    let mut opened = 0;
    for (n, place) in at.iter().enumerate() {
        for (k, value) in values.iter().enumerate().skip(n % values.len()).take(1) {
            let mut spoilt = whole.clone();
            if let Some(part) = spoilt.pointer_mut(place) {
                *part = value.clone();
            }
            let Ok(job) = job::read(&spoilt.to_string()) else {
                continue;
            };
            opened += 1;
            let (sheet, _) = in_unit(job.job, Unit::ALL[(n + k) % 3]);
            let page = sheet.text();
            assert!(
                !page.contains("NaN") && !page.contains("inf "),
                "{place}: {value}"
            );
            assert!(!sheet.csv().is_empty());
            // Its drawings take long to lay out.
            if n % 8 == 3 {
                assert!(!sheet.html().contains("<&>"), "{place}: {value}");
            }
            assert!(!sheet.message().is_empty());
        }
    }
    assert!(opened > 100, "{opened}");
}
