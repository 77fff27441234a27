//! A job file, drawn on paper, on a screen and at its scale: no words cover each other or a post.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tautmark::drawing::{
    Bundled, Drawing, ElevationShow, Hand, LayoutDesk, PlanShow, elevation, fitted, lay_out, plan,
};

fn drawn(drawing: &Drawing, hand: &Hand, room: [f64; 2]) {
    let desk = LayoutDesk {
        hand,
        measure: &Bundled,
    };
    let view = fitted(drawing, room, desk);
    let laid = lay_out(drawing, &view, Some(room), desk);
    for (at, label) in laid.labels.iter().enumerate() {
        let others = laid.labels.iter().skip(at + 1);
        assert!(others.map(|one| one.tile()).all(|tile| !tile.covers(&label.tile())));
    }
}

fuzz_target!(|text: &str| {
    let Ok(opened) = tautmark::job::read(text) else {
        return;
    };
    let job = opened.job;
    let solution = tautmark::solve(&job);
    let plan = plan(&job, &solution, &PlanShow::default());
    drawn(&plan, &Hand::paper(), [842.0, 595.0]);
    drawn(&plan, &Hand::screen(1.0), [412.0, 500.0]);
    for run in solution.runs.keys() {
        if let Some(side) = elevation(&job, &solution, run, &ElevationShow::default()) {
            drawn(&side, &Hand::paper(), [842.0, 595.0]);
        }
    }
    assert!(!tautmark::export::dxf(&job, &solution).is_empty());
});
