//! The Sheet place: pages as they are printed, and every form as a file.

use slint::{Global, Model};
use tautmark::export::{Form, Paper, Subject};
use tautmark::job;
use tautmark::solve;
use tautmark_app_tests::Hand;
use tautmark_ui::DrawingVm;

fn words_of_the_page(hand: &Hand) -> Vec<String> {
    let drawing = DrawingVm::get(&hand.app).get_drawing();
    drawing
        .labels
        .iter()
        .map(|label| label.text.to_string())
        .collect()
}

#[test]
fn the_preview_shows_the_pages_that_are_printed() {
    let hand = Hand::on(job::example());
    hand.press("Sheet");
    let sheet = tautmark::sheet::Sheet::new(&job::example(), &solve(&job::example()));
    let pages = tautmark::export::pages(&sheet, Paper::A4);
    assert!(pages.len() > 2, "the example fills several pages");
    for (at, page) in pages.iter().enumerate() {
        assert!(hand.sees(&format!("Page {} of {}", at + 1, pages.len())));
        let shown = words_of_the_page(&hand);
        let printed: Vec<String> = page.ink.labels.iter().map(|l| l.text.clone()).collect();
        assert_eq!(shown, printed, "page {}", at + 1);
        if at + 1 < pages.len() {
            hand.press("Page after");
        }
    }
    hand.press("Page before");
    assert!(hand.sees(&format!("Page {} of {}", pages.len() - 1, pages.len())));
    hand.press("Letter");
    let letter = tautmark::export::pages(&sheet, Paper::Letter);
    hand.press(&sheet.sections[0].heading);
    assert!(hand.sees(&format!("Page 1 of {}", letter.len())));
}

#[test]
fn a_section_is_turned_to_by_its_name() {
    let hand = Hand::on(job::example());
    hand.press("Sheet");
    let sheet = tautmark::sheet::Sheet::new(&job::example(), &solve(&job::example()));
    for section in &sheet.sections {
        hand.press(&section.heading);
        let first = section
            .heading
            .split(' ')
            .take(3)
            .collect::<Vec<_>>()
            .join(" ");
        let shown = words_of_the_page(&hand);
        assert!(
            shown.iter().any(|line| line.starts_with(&first)),
            "{first}: {shown:?}"
        );
    }
}

#[test]
fn every_form_is_saved_and_holds_what_the_command_line_gives() {
    let hand = Hand::on(job::example());
    hand.press("Sheet");
    let job = job::example();
    let solution = solve(&job);
    let svg = |name: &str| Form::Svg(Subject::named(&job, name).expect("it is in the example"));
    let forms = [
        ("Pages to print", "", Form::Pdf(Paper::A4)),
        ("A short message", "-message", Form::Message),
        ("A page for a browser", "", Form::Html),
        ("Plain text", "", Form::Text),
        ("Tables for a spreadsheet", "", Form::Csv),
        ("Drawing of the plan", "-plan", svg("plan")),
        ("Drawing of run R1", "-r1", svg("R1")),
        ("Drawing of corner X", "-x", svg("X")),
        ("The plan for drawing programs", "", Form::Dxf),
    ];
    let saved = |name: &str| {
        let path = hand.folder().join(name);
        std::fs::read(path).unwrap_or_else(|why| panic!("{name}: {why}"))
    };
    for (title, shows, form) in forms {
        hand.press(title);
        let name = format!("orchard-corner-screen{shows}.{}", form.ending());
        let same = saved(&name) == form.make(&job, &solution).expect("it can be made");
        assert!(same, "{name} is not what it should be");
        let said = hand.bridge.look(|desk| desk.snack.clone()).expect("words");
        assert!(said.text.contains(&name), "{}", said.text);
    }
    hand.press("The job itself");
    let text = String::from_utf8(saved("orchard-corner-screen.job.json")).expect("text");
    assert_eq!(job::read(&text).expect("a job").job, job);
}

#[test]
fn a_press_on_the_paper_reads_it_from_near_and_another_sees_it_whole() {
    let hand = Hand::on(job::example());
    hand.press("Sheet");
    let size = || {
        let labels = DrawingVm::get(&hand.app).get_drawing().labels;
        labels.iter().map(|label| label.size).fold(0.0, f32::max)
    };
    let whole = size();
    assert!(!DrawingVm::get(&hand.app).get_moved());
    hand.tap_plan(200.0, 60.0);
    assert!(DrawingVm::get(&hand.app).get_moved());
    assert!(size() > 2.0 * whole, "{} px, whole {whole} px", size());
    hand.picture("live-sheet-near");
    hand.tap_plan(200.0, 60.0);
    assert!(!DrawingVm::get(&hand.app).get_moved());
    assert_eq!(size(), whole);
}
