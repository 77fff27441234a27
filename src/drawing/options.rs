//! Small pictures of what a person chooses between: how a post stands, how rails meet their posts.

use super::bounds::Vec2;
use super::model::{Drawing, Fill, Hatched, LineStyle, Role};
use super::pencil::{Pencil, circle, upright};
use crate::job::model::{Foot, Joint};

/// A post from the side: in its hole, on its plate, or fixed to a wall.
#[must_use]
pub fn foot_small(foot: Foot) -> Drawing {
    let mut pencil = Pencil::default();
    let at = Vec2::new;
    let post = |pencil: &mut Pencil, from: f64| {
        let outline = upright(-60.0, from, 60.0, 620.0);
        pencil.area(Role::Post, LineStyle::Plain, Fill::Plain, outline);
    };
    let words = match foot {
        Foot::Hole => {
            let hole = upright(-170.0, -420.0, 170.0, 0.0);
            pencil.area(Role::Hole, LineStyle::Plain, Fill::Plain, hole);
            post(&mut pencil, -420.0);
            "A post in a hole, in concrete"
        }
        Foot::Plate => {
            let plate = upright(-130.0, 0.0, 130.0, 30.0);
            pencil.area(Role::Rail, LineStyle::Plain, Fill::Plain, plate);
            post(&mut pencil, 30.0);
            "A post on a plate"
        }
        Foot::Wall => {
            let face = [at(-60.0, 700.0), at(-60.0, -120.0)];
            pencil.wall(Role::Wall, face[0], face[1], Hatched::Right);
            post(&mut pencil, 40.0);
            for height in [160.0, 500.0] {
                let bolt = [at(-150.0, height), at(60.0, height)];
                pencil.line(Role::Text, LineStyle::Thick, bolt[0], bolt[1]);
                let head = circle(at(60.0, height), 18.0);
                pencil.area(Role::Text, LineStyle::Fine, Fill::Plain, head);
            }
            "A post fixed to a wall"
        }
    };
    let ground = [at(-420.0, 0.0), at(420.0, 0.0)];
    pencil.line(Role::Ground, LineStyle::Plain, ground[0], ground[1]);
    pencil.done(words.to_owned())
}

/// Two posts and a rail from above, the string in front of them: let into their sides, or across
/// their fronts.
#[must_use]
pub fn joint_small(joint: Joint) -> Drawing {
    let mut pencil = Pencil::default();
    for left in [0.0, 420.0] {
        let post = upright(left, 0.0, left + 100.0, 100.0);
        pencil.area(Role::Post, LineStyle::Plain, Fill::Plain, post);
    }
    let (rail, words) = match joint {
        Joint::Side => (
            upright(80.0, 30.0, 440.0, 70.0),
            "A rail between the posts, its ends in their sides",
        ),
        Joint::Face => (
            upright(-40.0, -25.0, 560.0, 15.0),
            "A rail across the fronts of the posts",
        ),
    };
    pencil.area(Role::Rail, LineStyle::Plain, Fill::Plain, rail);
    let string = [Vec2::new(-60.0, -80.0), Vec2::new(580.0, -80.0)];
    pencil.line(Role::String, LineStyle::Plain, string[0], string[1]);
    pencil.done(words.to_owned())
}
