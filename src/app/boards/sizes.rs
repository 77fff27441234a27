//! Sizes: what the fence is made of, and which lengths can be bought.

use super::figures::{GOODS, Goods, gravel, kerf, pales, rails};
use super::{fixings, front, notches};
use crate::app::bridge::{FormScreen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{FormContents, FormRow, check, choice, heading, pick, small};
use crate::drawing::joint_small;
use crate::job::edit::{Edit, Setting};
use crate::job::model::{BoardFit, Boards, Job, Joint};
use crate::job::usual::Usual;
use tautmark_ui::{Page, Place, Verdict};

/// The page of sizes.
pub static SIZES: FormScreen = FormScreen {
    title: |_| "Sizes".to_owned(),
    picture: |desk| Some(front(desk)),
    ..FormScreen::new(Spec::inside(Place::Boards, Page::Sizes, "sizes"), contents)
};

fn contents(desk: &Desk) -> FormContents {
    let job = desk.job();
    let boards = &job.boards;
    let mut rows = vec![chosen(
        job,
        "Gravel boards",
        |boards| &mut boards.gravel,
        Usual::gravel,
    )];
    if let Some(gravel_boards) = &boards.gravel {
        let ways = [("Level", BoardFit::Level), ("Stepped", BoardFit::Stepped)];
        let label = "How they follow the ground";
        rows.push(choice(label, ways, Some(gravel_boards.fit), |desk, fit| {
            change(desk, |boards| {
                if let Some(gravel) = &mut boards.gravel {
                    gravel.fit = fit;
                }
            })
        }));
        rows.extend(gravel().map(|size| size.row(job)));
        let label = "Gravel boards meet the posts";
        rows.push(meets(label, gravel_boards.joint, |boards, joint| {
            if let Some(gravel) = &mut boards.gravel {
                gravel.joint = joint;
            }
        }));
    }
    rows.push(chosen(
        job,
        "Rails",
        |boards| &mut boards.rails,
        Usual::rails,
    ));
    if let Some(in_bays) = &boards.rails {
        rows.extend(rails().map(|size| size.row(job)));
        rows.push(meets(
            "Rails meet the posts",
            in_bays.joint,
            |boards, joint| {
                if let Some(rails) = &mut boards.rails {
                    rails.joint = joint;
                }
            },
        ));
        rows.extend(notches::rows(job));
    }
    rows.push(chosen(
        job,
        "Pales",
        |boards| &mut boards.pales,
        Usual::pales,
    ));
    if boards.pales.is_some() {
        rows.extend(pales().map(|size| size.row(job)));
    }
    rows.extend(fixings::rows(job));
    rows.push(heading("Lengths that can be bought"));
    rows.extend(GOODS.iter().flat_map(|goods| stock_rows(job, *goods)));
    rows.push(kerf().row(job));
    FormContents::new(rows).saying(
        Verdict::None,
        "What every run of this job is made of. Each figure shows in the drawing at once.",
    )
}

/// Whether the fence has such a part; chosen, it begins with what is usual in the job's unit.
fn chosen<T: 'static>(
    job: &Job,
    label: &str,
    part: fn(&mut Boards) -> &mut Option<T>,
    usual: fn(&Usual) -> T,
) -> FormRow {
    let there = part(&mut job.boards.clone()).is_some();
    check(label, there, move |desk| {
        let of = Usual::of(desk.saved().show.lengths);
        change(desk, |boards| {
            *part(boards) = (!there).then(|| usual(of));
        })
    })
}

/// How boards or rails meet the posts, each way in a picture.
fn meets(label: &str, there: Joint, put: fn(&mut Boards, Joint)) -> FormRow {
    let ways = [
        ("At their sides", Joint::Side),
        ("Across their fronts", Joint::Face),
    ];
    let row = choice(label, ways, Some(there), move |desk, joint| {
        change(desk, |boards| put(boards, joint))
    });
    let ways = [Joint::Side, Joint::Face];
    row.pictured(ways.map(|joint| small(&joint_small(joint))).into())
}

fn change(desk: &mut Desk, how: impl FnOnce(&mut Boards)) -> Then {
    let mut boards = desk.saved().boards.clone();
    how(&mut boards);
    desk.change(Edit::Set(Setting::Boards(boards)));
    Then::Stay
}

/// The lengths of one kind, and a row that adds one.
fn stock_rows(job: &Job, goods: Goods) -> Vec<FormRow> {
    let count = goods.count(job);
    let one = if count == 0 { "a" } else { "another" };
    let label = format!("{}: {one} length", goods.name);
    let add = pick(&label, "Add", move |desk| desk.ask(goods.length(count)));
    let there = (0..count).map(|at| goods.length(at).row(job));
    there.chain([add]).collect()
}
