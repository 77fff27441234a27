//! The plan as DXF (release 12, text), in mm, in the frame of the marks: the first wall's first
//! mark is 0, 0 and its second lies to the right. Under it, on layers of their own, the posts lying
//! on trestles and the leaves of the gates, each as large as it is.

mod ascii;
mod file;
mod view;

use crate::Solution;
use crate::cautions::IN_ONE_LINE;
use crate::drawing::{
    Detail, Drawing, PlanShow, Role, Seen, Turn, Vec2, gate_leaf, plan, trestles,
};
use crate::job::Job;
use file::File;
use view::Placing;

/// Millimetres to a pt of paper at 1 : 50, the scale that the plan's words are sized for.
const PLAN: f64 = 50.0 * 25.4 / 72.0;
/// The same at 1 : 15, for posts and leaves.
const DETAIL: f64 = 15.0 * 25.4 / 72.0;
/// Between the plan and the drawings under it, and between those, mm.
const APART: f64 = 1500.0;

/// How high the capitals over a drawing are, mm.
const TITLE: f64 = 60.0;

/// The layers and their colours (numbers of the usual table: 7 is black or white).
const LAYERS: [(&str, u8); 12] = [
    ("WALLS", 7),
    ("MARKS", 7),
    ("STRINGS", 30),
    ("POSTS", 7),
    ("HOLES", 8),
    ("GATES", 5),
    ("DIMENSIONS", 8),
    ("TEXT", 7),
    (TRESTLES, 7),
    (TRESTLES_TEXT, 8),
    (LEAVES, 5),
    (LEAVES_TEXT, 8),
];
const TRESTLES: &str = "TRESTLES";
const TRESTLES_TEXT: &str = "TRESTLES_TEXT";
const LEAVES: &str = "GATE_LEAVES";
const LEAVES_TEXT: &str = "GATE_LEAVES_TEXT";

/// The plan of a job and its solution with dimensions and running readings, one layer for each kind
/// of thing, and under it the posts on trestles and the gates' leaves. The same job gives the same
/// text.
#[must_use]
pub fn dxf(job: &Job, solution: &Solution) -> String {
    let show = PlanShow {
        turn: Turn::Site,
        detail: Detail::Sheet,
        readings: Seen::Hidden,
        ..PlanShow::default()
    };
    let plan = plan(job, solution, &show);
    let beside = beside(job, solution, &plan);
    let mut bounds = plan.bounds;
    for (drawing, origin, _) in &beside {
        bounds.take_in(drawing.bounds.min + origin);
        bounds.take_in(drawing.bounds.max + origin);
    }
    let foot = Vec2::new(bounds.min.x, bounds.min.y - TITLE * 4.0);
    bounds.take_in(foot);
    let mut file = File::default();
    file.header(&bounds);
    file.tables(&LAYERS);
    file.pair(0, "SECTION");
    file.pair(2, "ENTITIES");
    let as_seen = Placing {
        origin: Vec2::zeros(),
        mm_per_pt: PLAN,
        layer: &layer,
        figures: "DIMENSIONS",
        words: "TEXT",
    };
    as_seen.put(&plan, &mut file);
    for (drawing, origin, [things, words]) in &beside {
        let placing = Placing {
            origin: *origin,
            mm_per_pt: DETAIL,
            layer: &|_| things,
            figures: words,
            words,
        };
        placing.put(drawing, &mut file);
        let title = Vec2::new(drawing.bounds.min.x, drawing.bounds.max.y + TITLE * 4.0) + origin;
        file.words(words, title, &drawing.description, TITLE, 0.0);
    }
    file.words("TEXT", foot, IN_ONE_LINE, TITLE, 0.0);
    file.pair(0, "ENDSEC");
    file.pair(0, "EOF");
    file.text
}

fn layer(role: Role) -> &'static str {
    match role {
        Role::Wall | Role::Sketch => "WALLS",
        Role::Mark => "MARKS",
        Role::String => "STRINGS",
        Role::Post | Role::DonePost => "POSTS",
        Role::Hole => "HOLES",
        Role::Gate => "GATES",
        Role::Dimension => "DIMENSIONS",
        _ => "TEXT",
    }
}

/// A drawing, where its own zero comes to be, and its layers for what is drawn and for words.
type Beside = (Drawing, Vec2, [&'static str; 2]);

/// The posts of every run on trestles and the leaves of its gates, one under the other under the plan.
fn beside(job: &Job, solution: &Solution, plan: &Drawing) -> Vec<Beside> {
    let posts = solution.boards.keys();
    let posts = posts.filter_map(|run| trestles(job, solution, run, None));
    let leaves = solution.boards.iter().flat_map(|(run, boards)| {
        let leaves = boards.gates.iter();
        leaves.filter_map(|leaf| gate_leaf(job, solution, run, leaf.index))
    });
    let posts = posts.map(|drawing| (drawing, [TRESTLES, TRESTLES_TEXT]));
    let leaves = leaves.map(|drawing| (drawing, [LEAVES, LEAVES_TEXT]));
    let mut low = plan.bounds.min.y.min(0.0);
    let left = plan.bounds.min.x.min(0.0);
    let under = |(drawing, layers): (Drawing, [&'static str; 2])| {
        let top_left = Vec2::new(left, low - APART);
        let corner = Vec2::new(drawing.bounds.min.x, drawing.bounds.max.y);
        low = top_left.y - drawing.bounds.size().y;
        (drawing, top_left - corner, layers)
    };
    posts.chain(leaves).map(under).collect()
}
