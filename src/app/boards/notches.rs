//! How deep each rail is cut into its posts, by rail and by how the post stands, with what the cut
//! leaves of the post in bending.

use crate::app::kit::{FormRow, KeypadFigure, heading};
use crate::job::edit::{Edit, Setting};
use crate::job::model::{Boards, Foot, Job, Notch, PostSize, Run};
use crate::quick::notch::face_notch;

/// One small table; none without rails.
pub fn rows(job: &Job) -> Vec<FormRow> {
    let Some(rails) = &job.boards.rails else {
        return Vec::new();
    };
    let feet = feet(job);
    let several = feet.len() > 1;
    let mut rows = vec![heading("Notch for each rail")];
    for foot in feet {
        for rail in (1..=rails.count).rev() {
            let row = depth(rail, foot, several).row(job);
            rows.push(row.noted(leaves(job, rail, foot)));
        }
    }
    rows
}

/// The ways in which posts of this job stand; in holes where there is no run yet.
fn feet(job: &Job) -> Vec<Foot> {
    let of_run = |run: &Run| {
        let own = run.foot.unwrap_or_default();
        let ends = [&run.start, &run.end].into_iter().flatten();
        let ends = ends.filter_map(|end| end.foot);
        ends.chain([own]).collect::<Vec<_>>()
    };
    let used: Vec<Foot> = job.runs.iter().flat_map(of_run).collect();
    let all = [Foot::Hole, Foot::Plate, Foot::Wall];
    let there = |foot: &Foot| used.contains(foot) || (used.is_empty() && *foot == Foot::Hole);
    all.into_iter().filter(there).collect()
}

fn depth(rail: u32, foot: Foot, several: bool) -> KeypadFigure {
    let posts = match foot {
        Foot::Hole => "posts in holes",
        Foot::Plate => "posts on plates",
        Foot::Wall => "posts on a wall",
    };
    let label = if several {
        format!("Rail {rail}, {posts}")
    } else {
        format!("Rail {rail}")
    };
    let there = move |job: &Job| Some(job.boards.notch(rail as usize, foot));
    let figure = KeypadFigure::new(label, there, move |job, depth| {
        let boards = cut(job.boards.clone(), rail, foot, depth);
        Some(Edit::Set(Setting::Boards(boards)))
    });
    figure
        .keyed(format!("notch {rail} {posts}"))
        .titled(move |_| format!("**Depth of the notch** for rail {rail}, {posts}"))
        .hinted(|_| "Out of the post, square to its face. 1 is the lowest rail.".to_owned())
        .told_at("boards.notches")
}

/// With a notch of its own for this rail and these posts, ahead of those that fit more.
fn cut(mut boards: Boards, rail: u32, foot: Foot, depth: f64) -> Boards {
    let own = |notch: &&mut Notch| notch.rail == Some(rail) && notch.foot == Some(foot);
    match boards.notches.iter_mut().find(own) {
        Some(notch) => notch.depth = depth,
        None => {
            let notch = Notch {
                rail: Some(rail),
                foot: Some(foot),
                depth,
                ..Notch::default()
            };
            boards.notches.insert(0, notch);
        }
    }
    boards
}

/// What the cut leaves of the thinnest post's strength in bending.
fn leaves(job: &Job, rail: u32, foot: Foot) -> String {
    let usual = PostSize::default();
    let depths = job.runs.iter();
    let depths = depths.map(|run| run.post.as_ref().unwrap_or(&usual).depth);
    let depth = depths.reduce(f64::min).unwrap_or(usual.depth);
    match face_notch(depth, job.boards.notch(rail as usize, foot)) {
        Ok(left) => format!("leaves {:.0} % in bending", left.bending * 100.0),
        Err(_) => "leaves nothing of the post".to_owned(),
    }
}
