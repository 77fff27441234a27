//! What others open: the figures in SVG, PDF and DXF are those of the solution, and the same job
//! gives the same bytes.

use dxf::entities::{Entity, EntityType};
use quick_xml::Reader;
use quick_xml::events::Event;
use std::io::Cursor;
use tautmark::cautions;
use tautmark::export::{Paper, dxf, pdf, svg_plan};
use tautmark::job::model::Foot;
use tautmark::job::{self, Job};
use tautmark::length::{Unit, show};
use tautmark::sheet::{Block, Sheet};
use tautmark::{Solution, solve};

fn case(name: &str) -> Job {
    let path = format!("tests/cases/{name}.job.json");
    let text = std::fs::read_to_string(path).expect("a case");
    job::read(&text).expect("a job").job
}

fn jobs() -> Vec<Job> {
    let mut feet = job::example();
    feet.show.lengths = Unit::FEET;
    feet.title = "Feet & <inches> “quoted”".to_owned();
    let names = ["coal-yard-return", "coal-yard-slip", "stepped-side-run"];
    let mut jobs = vec![job::example(), feet, Job::new("Nothing yet")];
    jobs.extend(names.into_iter().map(case));
    jobs
}

/// Without any kind of space, which readers give back as they like.
fn bare(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

fn pdf_text(job: &Job, solution: &Solution, paper: Paper) -> String {
    let bytes = pdf(job, solution, paper).expect("pages");
    bare(&pdf_extract::extract_text_from_mem(&bytes).expect("text"))
}

#[test]
fn whatever_leaves_says_the_caution_in_a_line() {
    let job = job::example();
    let solution = solve(&job);
    let message = Sheet::new(&job, &solution).message();
    for (what, text) in [
        ("message", message),
        ("drawing", svg_plan(&job, &solution)),
        ("plan for others", dxf(&job, &solution)),
        ("paper", pdf_text(&job, &solution, Paper::A4)),
    ] {
        assert!(bare(&text).contains(&bare(cautions::IN_ONE_LINE)), "{what}");
    }
}

/// The words of every text element.
fn svg_texts(svg: &str) -> Vec<String> {
    let mut reader = Reader::from_str(svg);
    let (mut texts, mut inside) = (Vec::new(), false);
    loop {
        match reader.read_event().expect("well formed") {
            Event::Start(start) => {
                inside = start.name().as_ref() == b"text";
                if inside {
                    texts.push(String::new());
                }
            }
            Event::End(_) => inside = false,
            Event::Text(text) if inside => {
                let words = text.decode().expect("words");
                texts.last_mut().expect("begun").push_str(&words);
            }
            Event::Eof => return texts,
            _ => {}
        }
    }
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    for job in jobs() {
        let (one, two) = (solve(&job), solve(&job));
        assert_eq!(svg_plan(&job, &one), svg_plan(&job, &two));
        assert_eq!(dxf(&job, &one), dxf(&job, &two));
        for paper in [Paper::A4, Paper::Letter] {
            let [one, two] = [&one, &two].map(|solution| pdf(&job, solution, paper));
            assert!(one.expect("pages") == two.expect("pages"), "{}", job.title);
        }
    }
}

#[test]
fn running_readings_on_the_svg_plan_are_those_of_the_solution() {
    for job in jobs() {
        let solution = solve(&job);
        let texts = svg_texts(&svg_plan(&job, &solution));
        for fix in solution.runs.values() {
            for post in &fix.posts {
                let figure = show(post.centre, job.show.lengths);
                assert!(texts.contains(&figure), "{}: {figure}", job.title);
            }
        }
    }
}

#[test]
fn every_figure_of_the_sheet_is_in_the_pdf_and_can_be_searched() {
    for job in jobs() {
        let solution = solve(&job);
        let sheet = Sheet::new(&job, &solution);
        for paper in [Paper::A4, Paper::Letter] {
            let text = pdf_text(&job, &solution, paper);
            for section in &sheet.sections {
                assert!(
                    text.contains(&bare(&section.heading)),
                    "{}",
                    section.heading
                );
                for block in &section.blocks {
                    let Block::Table(table) = block else { continue };
                    for cell in table.rows.iter().flatten() {
                        let figure = bare(&cell.shown(sheet.unit));
                        let words = figure.split('–').all(|part| text.contains(part));
                        assert!(words, "{}: {figure} of {}", job.title, table.caption);
                    }
                }
            }
        }
    }
}

#[test]
fn problems_cautions_and_how_sure_are_in_the_pdf() {
    let job = job::example();
    let solution = solve(&job);
    let text = pdf_text(&job, &solution, Paper::A4);
    for problem in &solution.problems {
        assert!(text.contains(&bare(&problem.text)), "{}", problem.text);
        assert!(text.contains(&bare(&problem.remedy)), "{}", problem.remedy);
    }
    for caution in cautions::ALL {
        let on_every_site = [cautions::STRINGS, cautions::LIFTING, cautions::SAWING];
        let said = if on_every_site.contains(&caution) {
            caution.short
        } else {
            caution.full
        };
        assert!(text.contains(&bare(said)), "{}", caution.key);
    }
    assert!(text.contains("19timesin20"));
    assert!(text.contains("page1of"));
}

#[test]
fn the_typeface_is_embedded_and_nothing_tells_the_time() {
    let job = job::example();
    let bytes = pdf(&job, &solve(&job), Paper::A4).expect("pages");
    let has = |what: &[u8]| bytes.windows(what.len()).any(|window| window == what);
    assert!(bytes.starts_with(b"%PDF-"));
    assert!(has(b"/FontFile3"));
    assert!(has(b"B612"));
    assert!(!has(b"CreationDate") && !has(b"ModDate"));
}

#[test]
fn pages_have_the_size_that_was_asked_for() {
    let job = job::example();
    let solution = solve(&job);
    for (paper, wanted) in [
        (Paper::A4, [595.28, 841.89]),
        (Paper::Letter, [612.0, 792.0]),
    ] {
        let bytes = pdf(&job, &solution, paper).expect("pages");
        let file = pdf_extract::Document::load_mem(&bytes).expect("a pdf");
        let pages = file.get_pages();
        assert!(pages.len() > 3);
        for id in pages.values() {
            let page = file.get_dictionary(*id).expect("a page");
            let size = page.get(b"MediaBox").and_then(|value| value.as_array());
            let size: Vec<f32> = size
                .expect("a size")
                .iter()
                .map(|value| value.as_float().expect("a figure"))
                .collect();
            assert!((f64::from(size[2]) - wanted[0]).abs() < 0.01);
            assert!((f64::from(size[3]) - wanted[1]).abs() < 0.01);
        }
    }
}

#[test]
fn a_long_table_goes_over_pages_with_its_heading_again() {
    let mut job = case("stepped-side-run");
    if let Some(bays) = &mut job.runs[0].bays {
        bays.max = 80.0;
    }
    job.runs[0].gates.clear();
    let solution = solve(&job);
    let posts = solution.runs.values().next().expect("a run").posts.len();
    assert!(posts > 90, "{posts}");
    let text = pdf_text(&job, &solution, Paper::A4);
    assert!(text.matches("PostKind").count() > 1);
    let sheet = Sheet::new(&job, &solution).text();
    assert_eq!(
        bare(&sheet).matches("Runningreadingsfromthezero").count(),
        1
    );
}

fn loaded(text: &str) -> dxf::Drawing {
    dxf::Drawing::load(&mut Cursor::new(text.as_bytes())).expect("a drawing")
}

fn on_layer<'a>(drawing: &'a dxf::Drawing, layer: &str) -> Vec<&'a Entity> {
    drawing
        .entities()
        .filter(|entity| entity.common.layer == layer)
        .collect()
}

#[test]
fn the_dxf_has_every_post_and_hole_where_the_solution_has_it() {
    for job in jobs() {
        let solution = solve(&job);
        let drawing = loaded(&dxf(&job, &solution));
        let middles: Vec<[f64; 2]> = on_layer(&drawing, "POSTS")
            .into_iter()
            .filter_map(|entity| match &entity.specific {
                EntityType::Polyline(line) => {
                    let corners: Vec<_> = line.vertices().collect();
                    let sum = corners.iter().fold([0.0, 0.0], |sum, corner| {
                        [sum[0] + corner.location.x, sum[1] + corner.location.y]
                    });
                    Some(sum.map(|all| all / corners.len() as f64))
                }
                _ => None,
            })
            .collect();
        let holes: Vec<[f64; 3]> = on_layer(&drawing, "HOLES")
            .into_iter()
            .filter_map(|entity| match &entity.specific {
                EntityType::Circle(circle) => {
                    Some([circle.center.x, circle.center.y, circle.radius])
                }
                _ => None,
            })
            .collect();
        for post in solution.runs.values().flat_map(|fix| &fix.posts) {
            let near = |x: f64, y: f64| (x - post.x).hypot(y - post.y) < 0.01;
            assert_eq!(middles.iter().filter(|at| near(at[0], at[1])).count(), 1);
            let hole = holes.iter().filter(|at| near(at[0], at[1]));
            let hole: Vec<_> = hole.collect();
            // A post that is fixed to a wall or stands on a plate has none.
            assert_eq!(hole.len(), usize::from(post.foot == Foot::Hole));
            for hole in hole {
                assert!((hole[2] - job.hole.diameter / 2.0).abs() < 0.01);
            }
        }
    }
}

#[test]
fn the_dxf_has_marks_walls_strings_and_words_on_their_layers() {
    let job = job::example();
    let solution = solve(&job);
    let drawing = loaded(&dxf(&job, &solution));
    assert_eq!(on_layer(&drawing, "WALLS").len(), job.walls.len());
    assert_eq!(on_layer(&drawing, "STRINGS").len(), job.lines.len());
    assert_eq!(on_layer(&drawing, "GATES").len(), 1);
    for fix in solution.marks.values() {
        let there = on_layer(&drawing, "MARKS").into_iter().any(|entity| {
            matches!(&entity.specific, EntityType::ModelPoint(point)
                if (point.location.x - fix.x).hypot(point.location.y - fix.y) < 0.01)
        });
        assert!(there);
    }
    let words: Vec<&str> = drawing
        .entities()
        .filter_map(|entity| match &entity.specific {
            EntityType::Text(text) => Some(text.value.as_str()),
            _ => None,
        })
        .collect();
    for wanted in ["A", "F", "51", "3 640", "gate 1 040"] {
        assert!(words.contains(&wanted), "{wanted} is not in {words:?}");
    }
    assert!(words.iter().all(|text| text.is_ascii()));
}

/// A fence with everything that is cut before it stands: the example's gate has a leaf and a lock.
fn gated() -> Job {
    let mut job = job::example();
    let gate = &mut job.runs[0].gates[0];
    gate.leaf = Some(serde_json::from_value(serde_json::json!({})).expect("a leaf"));
    gate.lock = Some(serde_json::from_value(serde_json::json!({})).expect("a lock"));
    job
}

#[test]
fn the_dxf_has_the_posts_on_trestles_and_the_leaf_on_layers_of_their_own() {
    let job = gated();
    let solution = solve(&job);
    let drawing = loaded(&dxf(&job, &solution));
    let size = |entity: &Entity| match &entity.specific {
        EntityType::Polyline(line) => {
            let places: Vec<_> = line.vertices().map(|one| one.location.clone()).collect();
            let reach = |of: &dyn Fn(&dxf::Point) -> f64| {
                let all = || places.iter().map(of);
                all().fold(f64::MIN, f64::max) - all().fold(f64::MAX, f64::min)
            };
            Some([reach(&|at| at.x), reach(&|at| at.y)])
        }
        _ => None,
    };
    let lying: Vec<[f64; 2]> = on_layer(&drawing, "TRESTLES")
        .into_iter()
        .filter_map(size)
        .collect();
    for (run, boards) in &solution.boards {
        for group in tautmark::boards::cut_together(&solution.boards, run) {
            let cuts = group
                .iter()
                .filter_map(|post| tautmark::boards::cut_length(&solution.boards, run, post.n));
            let longest = cuts.fold(0.0, f64::max);
            assert!(
                lying.iter().any(|[x, _]| (x - longest).abs() < 0.01),
                "{run}: {longest}"
            );
        }
        assert!(!boards.posts.is_empty());
    }
    let leaf = &solution.boards["R1"].gates[0];
    let [wide, tall] = [leaf.width, leaf.height.expect("known")];
    let drawn: Vec<[f64; 2]> = on_layer(&drawing, "GATE_LEAVES")
        .into_iter()
        .filter_map(size)
        .collect();
    assert!(
        drawn
            .iter()
            .any(|[x, y]| (x - wide).abs() < 0.01 && (y - tall).abs() < 0.01),
        "{drawn:?}"
    );
    let words = |layer: &str| -> Vec<String> {
        let all = on_layer(&drawing, layer).into_iter();
        all.filter_map(|entity| match &entity.specific {
            EntityType::Text(text) => Some(text.value.clone()),
            _ => None,
        })
        .collect()
    };
    for wanted in ["813", "board 1 600", "cut 2 337"] {
        assert!(
            words("TRESTLES_TEXT").iter().any(|text| text == wanted),
            "{wanted}"
        );
    }
    assert!(
        words("GATE_LEAVES_TEXT")
            .iter()
            .any(|text| text == "packing 40")
    );
    // Under the plan, not in it.
    let lowest = solution
        .marks
        .values()
        .map(|mark| mark.y)
        .fold(f64::MAX, f64::min);
    for entity in on_layer(&drawing, "TRESTLES") {
        if let EntityType::Polyline(line) = &entity.specific {
            assert!(line.vertices().all(|one| one.location.y < lowest - 500.0));
        }
    }
}

#[test]
fn the_example_takes_six_pages_of_a4_and_eight_in_feet_and_inches() {
    for (unit, paper, most) in [(Unit::Mm, Paper::A4, 6), (Unit::FEET, Paper::Letter, 8)] {
        let mut job = job::example();
        job.show.lengths = unit;
        let solution = solve(&job);
        let sheet = Sheet::new(&job, &solution);
        let pages = tautmark::export::pages(&sheet, paper);
        assert!(pages.len() <= most, "{} pages", pages.len());
        // The first is for the pocket: every post's reading and what it stands in.
        let first: Vec<&str> = pages[0]
            .ink
            .labels
            .iter()
            .map(|one| one.text.as_str())
            .collect();
        for run in solution.runs.values() {
            for post in &run.posts {
                assert!(first.contains(&show(post.centre, unit).as_str()));
            }
        }
        assert!(first.contains(&"wall") && first.contains(&"hole"));
    }
}

#[test]
fn no_words_on_a_page_are_tiny_or_cut_off() {
    for job in jobs().into_iter().chain([gated()]) {
        let solution = solve(&job);
        let sheet = Sheet::new(&job, &solution);
        for paper in [Paper::A4, Paper::Letter] {
            for page in tautmark::export::pages(&sheet, paper) {
                let [width, height] = page.size;
                for label in &page.ink.labels {
                    assert!(label.size >= 8.0, "{}", label.text);
                    let inside = |at: &tautmark::drawing::Vec2| {
                        (0.0..=width).contains(&at.x) && (0.0..=height).contains(&at.y)
                    };
                    assert!(label.tile().corners().iter().all(inside), "{}", label.text);
                }
            }
        }
    }
}

#[test]
fn the_page_for_a_browser_shows_the_same_plan() {
    let job = job::example();
    let solution = solve(&job);
    let page = Sheet::new(&job, &solution).html();
    assert!(page.matches("<svg").count() >= 5);
    let centre = show(solution.runs[0].posts[3].centre, Unit::Mm);
    assert!(page.contains(&format!(">{centre}</text>")));
}
