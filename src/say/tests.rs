use super::*;
use crate::boards::{BayAt, PostFace};
use crate::job::example;
use crate::solve;

#[test]
fn a_post_is_called_before_its_figure() {
    let table = [
        (
            post(3, "", 1940.0, Unit::Mm),
            "post three, one nine four zero",
        ),
        (
            post(12, "", 673.0, Unit::M),
            "post twelve, zero point six seven three",
        ),
        (
            post(2, "", 3111.5, Unit::FEET),
            "post two, ten foot two and a half",
        ),
        (post(1, "", -38.4, Unit::Mm), "post one, back, three eight"),
        (post(1, "", -0.4, Unit::Mm), "post one, zero"),
        (
            post(5, "Front corner", 5219.0, Unit::Mm),
            "post five, front corner, five two one nine",
        ),
    ];
    for (said, words) in table {
        assert_eq!(said, words);
    }
}

fn bay(top: f64, rails: &[f64]) -> BayAt {
    BayAt {
        top,
        bottom: top - 150.0,
        rails: rails.to_vec(),
        gap: None,
        dig: None,
    }
}

/// A post of the example with its top at 1855 mm and these bays.
fn standing(before: Option<BayAt>, after: Option<BayAt>) -> PostHeights {
    let post = &solve(&example()).boards["R1"].posts[2];
    PostHeights {
        n: 4,
        top: Some(1855.0),
        before,
        after,
        ..post.clone()
    }
}

fn from(edge: RailEdge) -> FromLaser<'static> {
    FromLaser {
        line: 1000.0,
        edge,
        above_centre: edge.above_centre(95.0),
        sides: ["towards the start", "towards the end"],
    }
}

#[test]
fn a_height_is_said_which_way_how_far_and_for_what() {
    let same = || Some(bay(415.0, &[600.0, 1673.0]));
    let lower = Some(bay(395.0, &[600.0, 1673.0]));
    let top = "post four. up, eight five five, post top";
    let table = [
        (
            standing(same(), same()),
            RailEdge::Centre,
            ". up, six seven three, rail two centre. down, four zero zero, rail one centre. \
             down, five eight five, board top",
        ),
        (
            standing(None, same()),
            RailEdge::Top,
            ". up, seven two one, rail two top. down, three five three, rail one top. \
             down, five eight five, board top",
        ),
        (
            standing(same(), lower),
            RailEdge::Centre,
            ". up, six seven three, rail two centre. down, four zero zero, rail one centre. \
             down, five eight five, board top, towards the start. \
             down, six zero five, board top, towards the end",
        ),
        (
            standing(Some(bay(1000.2, &[])), None),
            RailEdge::Centre,
            ". on the line, board top",
        ),
    ];
    for (post, edge, words) in table {
        let said = heights(&post, &from(edge), Unit::Mm);
        assert_eq!(said, format!("{top}{words}"));
    }
}

#[test]
fn marks_on_the_trestles_run_from_the_top() {
    let mark = |what, from, to, depth| AlongPost {
        what,
        from,
        to,
        depth,
        side: Some(PostFace::Front),
        half: None,
        bending: None,
        section: None,
    };
    let [rail, board, ground] = [
        mark(AlongWhat::Rail(2), 120.0, 215.0, Some(45.0)),
        mark(AlongWhat::Gravel, 1440.0, 1590.0, None),
        mark(AlongWhat::Ground, 1600.0, 1600.0, None),
    ];
    let sides = [
        ("Front, from the top".to_owned(), vec![&rail, &board]),
        ("Bolts and the ground".to_owned(), vec![&ground]),
    ];
    let said = along(&[2, 3, 4], &sides, &[(2, 2200.0)], Unit::Mm);
    let words = "posts two, three and four. front, from the top. rail two, one two zero to two one \
                 five, four five deep. gravel board, one four four zero to one five nine zero. bolts \
                 and the ground. ground, one six zero zero. post two, cut at two two zero zero";
    assert_eq!(said, words);
}
