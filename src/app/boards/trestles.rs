//! On the trestles: posts lying side by side, one group of alike ones at a time, with every mark from
//! their tops. A person cuts a group, notes that, and goes to the next.

use super::front;
use crate::app::bridge::{FormScreen, PagePicture, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{FormButton, FormContents, FormRow, counted, heading, result};
use crate::app::names::{marked, run_called};
use crate::boards::{
    AlongPost, AlongWhat, LaserMark, PostHeights, PostSide, UpOrDown, cut_length, cut_together,
    post_sides,
};
use crate::cautions::{LIFTING, NOTCH, SAWING, TREATED_CUTS};
use crate::drawing;
use crate::job::edit::Edit;
use crate::job::model::{Marked, Run};
use crate::length::{self, Unit};
use crate::listed::and;
use crate::say;
use tautmark_ui::{Page, Place, Verdict};

/// The page.
pub static TRESTLES: FormScreen = FormScreen {
    title: |desk| {
        let group = in_sight(desk);
        group.map_or_else(
            || "On the trestles".to_owned(),
            |group| {
                format!(
                    "{} · {}",
                    group.called(),
                    run_called(desk.job(), &group.run.id)
                )
            },
        )
    },
    picture: |desk| {
        let lying = in_sight(desk).and_then(|group| {
            let first = group.posts.first()?.n;
            let (job, solution) = (desk.job(), &desk.solution);
            drawing::trestles(job, solution, &group.run.id, Some(first))
        });
        Some(lying.map_or_else(|| front(desk), PagePicture::Drawing))
    },
    aloud,
    ..FormScreen::new(
        Spec::inside(Place::Boards, Page::Trestles, "trestles"),
        contents,
    )
};

/// Posts that are clamped side by side, marked and cut together.
struct Clamped<'a> {
    run: &'a Run,
    posts: Vec<&'a PostHeights>,
}

impl Clamped<'_> {
    /// “Posts 2, 3 and 4”.
    fn called(&self) -> String {
        let numbers: Vec<String> = self.posts.iter().map(|post| post.n.to_string()).collect();
        let post = if numbers.len() == 1 { "Post" } else { "Posts" };
        format!("{post} {}", and(&numbers))
    }

    fn is_cut(&self, desk: &Desk) -> bool {
        let cut = |n| marked(desk.saved(), self.run, n).is_some_and(|one| one.cut);
        self.posts.iter().all(|post| cut(post.n))
    }
}

fn all(desk: &Desk) -> Vec<Clamped<'_>> {
    let runs = desk.job().runs.iter();
    let groups = runs.flat_map(|run| {
        let groups = cut_together(&desk.solution.boards, &run.id);
        groups.into_iter().map(move |posts| Clamped { run, posts })
    });
    groups.collect()
}

fn in_sight(desk: &Desk) -> Option<Clamped<'_>> {
    let mut all = all(desk);
    let last = all.len().checked_sub(1)?;
    Some(all.swap_remove(desk.chosen.group.min(last)))
}

/// How many groups there are and how many of them are cut; `None` while nothing is known of any.
#[must_use]
pub fn standing(desk: &Desk) -> Option<String> {
    let all = all(desk);
    let cut = all.iter().filter(|group| group.is_cut(desk)).count();
    let groups = counted(all.len(), "group of posts", "groups of posts");
    (!all.is_empty()).then(|| match cut {
        0 => groups,
        cut => format!("{groups}, {cut} cut"),
    })
}

/// Opens the first group that is not cut yet.
pub fn open(desk: &mut Desk) -> Then {
    let groups = all(desk);
    let next = groups.iter().position(|group| !group.is_cut(desk));
    desk.chosen.group = next.unwrap_or(0);
    Then::Open(Page::Trestles)
}

fn contents(desk: &Desk) -> FormContents {
    let Some(group) = in_sight(desk) else {
        let text = "**No post has its marks yet.** They follow from the rails, the boards and the \
                    ground along the run.";
        return FormContents::new(Vec::new()).saying(Verdict::Note, text);
    };
    let unit = desk.job().show.lengths;
    let mut rows = Vec::new();
    for (name, marks) in sides(&group) {
        rows.push(heading(&name));
        rows.extend(marks.into_iter().map(|mark| mark_row(mark, unit)));
    }
    rows.push(heading("From the top to the cut"));
    rows.extend(group.posts.iter().map(|post| {
        let length = cut_length(&desk.solution.boards, &group.run.id, post.n);
        let length = length.map_or_else(|| "—".to_owned(), |mm| length::show(mm, unit));
        result(&format!("Post {}", post.n), &length, "", explain)
    }));
    let set: Vec<FormRow> = group
        .posts
        .iter()
        .filter_map(|post| Some(laser_row(post.n, &post.laser?, unit)))
        .collect();
    if !set.is_empty() {
        rows.push(heading("To set a post that is cut: from the laser line"));
        rows.extend(set);
    }
    let mut contents = FormContents::new(rows);
    contents.cautions = &[SAWING, TREATED_CUTS, NOTCH, LIFTING];
    let last = desk.chosen.group + 1 >= all(desk).len();
    contents.primary = Some(FormButton::new(
        if last { "Cut" } else { "Cut · next" },
        cut,
    ));
    if desk.chosen.group > 0 {
        contents.secondary = Some(FormButton::new("The group before", |desk| {
            desk.chosen.group = desk.chosen.group.saturating_sub(1);
            Then::Stay
        }));
    }
    let together = match group.posts.len() {
        1 => "Lay it down and mark from its top.".to_owned(),
        _ => format!(
            "**Clamp {} together,** tops level.",
            group.called().to_lowercase()
        ),
    };
    if group.is_cut(desk) {
        return contents.saying(Verdict::Good, &format!("**Cut.** {together}"));
    }
    contents.saying(Verdict::None, &together)
}

/// What is marked on each side, under its name, and then what goes all round.
fn sides<'a>(group: &Clamped<'a>) -> Vec<(String, Vec<&'a AlongPost>)> {
    let sides = post_sides(&group.posts).into_iter();
    let mut all: Vec<_> = sides.map(|side| (side_name(&side), side.marks)).collect();
    let marks = group.posts.first().map_or(&[][..], |post| &post.along);
    let all_round: Vec<_> = marks.iter().filter(|mark| mark.side.is_none()).collect();
    if !all_round.is_empty() {
        all.push(("Bolts and the ground, from the top".to_owned(), all_round));
    }
    all
}

/// The marks of the group in sight, as they are read aloud.
fn aloud(desk: &Desk) -> Option<String> {
    let group = in_sight(desk)?;
    let numbers: Vec<usize> = group.posts.iter().map(|post| post.n).collect();
    let cuts: Vec<(usize, f64)> = numbers
        .iter()
        .filter_map(|&n| Some((n, cut_length(&desk.solution.boards, &group.run.id, n)?)))
        .collect();
    let unit = desk.job().show.lengths;
    Some(say::along(&numbers, &sides(&group), &cuts, unit))
}

/// “Start side” and the like.
fn side_name(side: &PostSide<'_>) -> String {
    match side.side {
        "" => "From the top".to_owned(),
        "both" => "Both sides, from the top".to_owned(),
        "front" => "Front, from the top".to_owned(),
        one if one.starts_with("front") => {
            format!("{}, from the top", one.replace("front", "Front"))
        }
        one => format!("Towards the run’s {one}, from the top"),
    }
}

/// A mark, from its upper edge to its lower.
fn mark_row(mark: &AlongPost, unit: Unit) -> FormRow {
    let label = match mark.what {
        AlongWhat::Rail(n) => format!("Rail {n}"),
        AlongWhat::Gravel => "Gravel board".to_owned(),
        AlongWhat::Ground => "Ground".to_owned(),
        AlongWhat::Bolt(n) => format!("Bolt {n}"),
    };
    let is_line = mark.to - mark.from < 0.05;
    let tail = if is_line {
        String::new()
    } else {
        format!("to {}", length::show(mark.to, unit))
    };
    let depth = mark.depth.map(|depth| length::show_with_unit(depth, unit));
    let note = depth.map_or_else(String::new, |depth| format!("{depth} deep"));
    result(&label, &length::show(mark.from, unit), &tail, explain).noted(note)
}

/// Which mark of a cut post comes to the laser line.
fn laser_row(n: usize, mark: &LaserMark, unit: Unit) -> FormRow {
    let way = match mark.way {
        UpOrDown::Up => "up",
        UpOrDown::Down => "down",
    };
    result(
        &format!("Post {n}"),
        &length::show(mark.by, unit),
        way,
        explain,
    )
    .noted(mark.called())
}

fn explain(desk: &mut Desk) -> Then {
    desk.explain(
        "Where the marks come from",
        "From the heights of the rails and boards at each post, as they are marked on a standing \
         one: what is on either side lies as far from its top as it will stand below it.",
    )
}

/// Notes that the group is cut, and goes to the next.
fn cut(desk: &mut Desk) -> Then {
    let Some(group) = in_sight(desk) else {
        return Then::Stay;
    };
    let job = desk.saved();
    let done = group.posts.iter().filter_map(|post| {
        let known = marked(job, group.run, post.n).cloned();
        let one = Marked {
            run: group.run.id.clone(),
            post: u32::try_from(post.n).ok()?,
            cut: true,
            ..known.unwrap_or_default()
        };
        Some(one)
    });
    let edit = Edit::mark_posts(job, done.collect());
    let fresh = !group.is_cut(desk);
    if fresh && !desk.change(edit) {
        return Then::Stay;
    }
    if desk.chosen.group + 1 < all(desk).len() {
        desk.chosen.group += 1;
        return Then::Stay;
    }
    desk.say("The last group is cut.");
    Then::Back
}
