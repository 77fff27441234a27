//! A corner: the two strings, the angle, the check diagonal, and the post turned in it.
//!
//! ```text
//!                    ╱  second string
//!     ●‐ ‐ ‐ ‐ ‐ ‐ ●        the tape across, both marked `arm` from the corner
//!   ──●───────────╱──  first string
//! ```

use super::bounds::Vec2;
use super::model::{Dimension, Drawing, Fill, Label, LineStyle, Rank, Role, Shape, Target};
use super::pencil::{Pencil, arc, circle, left_of, toward, turned};
use crate::Solution;
use crate::job::model::Foot;
use crate::job::{CornerId, Job};
use crate::length::show;
use crate::setout::PostKind;
use crate::site::CornerFix;

/// The corner lies on the origin, the first string level, its arm to the left.
struct Corner<'a> {
    id: &'a CornerId,
    fix: &'a CornerFix,
    /// Degrees that the job's frame is turned by.
    turn: f64,
    /// Directions of the two arms, from the corner.
    arms: [Vec2; 2],
}

impl<'a> Corner<'a> {
    fn of(job: &'a Job, solution: &'a Solution, id: &CornerId) -> Option<Self> {
        let given = job.corners.iter().find(|corner| corner.id == *id)?;
        let fix = solution.corners.get(id)?;
        let first = solution.lines.get(&given.lines[0])?.bearing;
        let second = solution.lines.get(&given.lines[1])?.bearing;
        Some(Self {
            id: &given.id,
            fix,
            turn: -first,
            arms: [Vec2::new(-1.0, 0.0), toward(second - first)],
        })
    }

    fn place(&self, at: [f64; 2]) -> Vec2 {
        let away = Vec2::from(at) - Vec2::new(self.fix.x, self.fix.y);
        nalgebra::Rotation2::new(self.turn.to_radians()) * away
    }

    /// Unit vector into the corner, between the arms.
    fn inward(&self) -> Vec2 {
        let middle = (self.arms[0] + self.arms[1]).try_normalize(1e-6);
        middle.unwrap_or_else(|| left_of(self.arms[1]))
    }

    /// Both strings, `back` along the arms and `beyond` past the corner.
    fn strings(&self, pencil: &mut Pencil, back: f64, beyond: f64) {
        for arm in self.arms {
            pencil
                .line(Role::String, LineStyle::Plain, arm * back, -arm * beyond)
                .of(Target::Corner(self.id.clone()));
        }
    }

    fn angle(&self, pencil: &mut Pencil, radius: f64) {
        let sweep = self.arms[1].y.atan2(self.arms[1].x).to_degrees();
        // From the first arm (180°) the short way to the second.
        let sweep = (sweep - 180.0 + 540.0).rem_euclid(360.0) - 180.0;
        pencil.path(
            Role::Dimension,
            LineStyle::Fine,
            arc(Vec2::zeros(), radius, 180.0, sweep),
        );
        let at = self.inward() * radius;
        let text = format!("{:.1}°", self.fix.angle);
        let label = Label::near(at, text, self.inward(), 0.0).large();
        pencil.label(Role::Text, label.rank(Rank::Now));
    }

    fn post(&self, pencil: &mut Pencil) {
        let Some(post) = self.fix.post else { return };
        let footprint = Shape::Footprint {
            centre: self.place([post.x, post.y]),
            width: post.width,
            depth: post.depth,
            bearing: post.rotation + self.turn,
        };
        pencil
            .add(Role::Post, footprint)
            .of(Target::Corner(self.id.clone()));
    }
}

/// The corner with what the tape across must read where both strings are marked `arm` mm from it;
/// none where the corner is not settled.
#[must_use]
pub fn corner(job: &Job, solution: &Solution, id: &CornerId, arm: f64) -> Option<Drawing> {
    let corner = Corner::of(job, solution, id)?;
    let mut pencil = Pencil::default();
    corner.strings(&mut pencil, arm * 1.25, arm * 0.3);
    let ends = corner.arms.map(|way| way * arm);
    pencil.line(Role::Dimension, LineStyle::Dashed, ends[0], ends[1]);
    for end in ends {
        pencil.add(Role::String, Shape::Dot(end));
    }
    posts_near(job, solution, &corner, arm * 1.25, &mut pencil);
    corner.post(&mut pencil);
    corner.angle(&mut pencil, arm * 0.3);
    let across = 2.0 * arm * (corner.fix.angle / 2.0).to_radians().sin();
    let way = ends[1] - ends[0];
    let text = show(across, job.show.lengths);
    // Off the middle: the angle stands there.
    let label = Label::on(ends[0] + way * 0.3, text, way.normalize(), way.norm() * 0.3);
    pencil.label(Role::Text, label.rank(Rank::Now));
    for (end, arm_way) in ends.into_iter().zip(corner.arms) {
        let text = show(arm, job.show.lengths);
        let out = -corner.inward();
        let label = Label::near(end, text, (out - arm_way * 0.3).normalize(), 0.0);
        pencil.label(Role::Text, label.small());
    }
    let description = format!(
        "Corner {id}: {:.1}°, {} across with arms of {}",
        corner.fix.angle,
        show(across, job.show.lengths),
        show(arm, job.show.lengths)
    );
    let drawing = pencil.done(description);
    Some(Drawing {
        turn: corner.turn,
        ..drawing
    })
}

/// The other posts of the fence that stand within `reach` mm of the corner.
fn posts_near(job: &Job, solution: &Solution, corner: &Corner, reach: f64, pencil: &mut Pencil) {
    let near = job
        .runs
        .iter()
        .filter_map(|run| Some((run, solution.runs.get(&run.id)?)));
    for (run, fix) in near {
        for post in &fix.posts {
            let centre = corner.place([post.x, post.y]);
            let own = corner
                .fix
                .post
                .is_some_and(|own| (corner.place([own.x, own.y]) - centre).norm() < 1.0);
            if own || centre.norm() > reach {
                continue;
            }
            let footprint = Shape::Footprint {
                centre,
                width: post.size[0],
                depth: post.size[1],
                bearing: post.rotation + corner.turn,
            };
            pencil.add(Role::Post, footprint).of(Target::Post {
                run: run.id.clone(),
                n: post.n,
            });
        }
    }
}

/// The post in its corner between the two strings, without figures, for a small picture; none where
/// the corner is not settled or has no post.
#[must_use]
pub fn corner_small(job: &Job, solution: &Solution, id: &CornerId) -> Option<Drawing> {
    let corner = Corner::of(job, solution, id)?;
    let post = corner.fix.post?;
    let reach = (post.width + post.depth) * 0.8 + corner.place([post.x, post.y]).norm();
    let mut pencil = Pencil::default();
    corner.strings(&mut pencil, reach, reach * 0.25);
    corner.post(&mut pencil);
    let turned = post.rotation + corner.turn;
    let drawing = pencil.done(format!("The post turned by {turned:.1}° in corner {id}"));
    Some(Drawing {
        turn: corner.turn,
        ..drawing
    })
}

/// The corner post as it is turned, its gaps to both strings, and the mitre; none where there is no
/// corner post.
#[must_use]
pub fn corner_detail(job: &Job, solution: &Solution, id: &CornerId) -> Option<Drawing> {
    let corner = Corner::of(job, solution, id)?;
    let post = corner.fix.post?;
    let centre = corner.place([post.x, post.y]);
    let reach = (post.width + post.depth) * 1.1 + centre.norm();
    let mut pencil = Pencil::default();
    if stands_in_hole(solution, [post.x, post.y]) {
        let hole = circle(centre, job.hole.diameter.max(0.0) / 2.0);
        pencil.area(Role::Hole, LineStyle::Dotted, Fill::None, hole);
    }
    corner.strings(&mut pencil, reach, reach * 0.4);
    let inward = corner.inward();
    pencil.line(
        Role::Quiet,
        LineStyle::Dashed,
        -inward * reach * 0.3,
        inward * reach,
    );
    corner.post(&mut pencil);
    let corners = turned(
        centre,
        [post.width, post.depth],
        post.rotation + corner.turn,
    );
    for (arm, other) in [
        (corner.arms[0], corner.arms[1]),
        (corner.arms[1], corner.arms[0]),
    ] {
        gap(job, &corners, arm, other, &mut pencil);
    }
    let bevel = format!("mitre {:.1}°", corner.fix.bevel);
    let label = Label::near(inward * reach, bevel, inward, 0.0);
    pencil.label(Role::Text, label);
    let name = format!("{:.1}°", corner.fix.angle);
    let label = Label::near(Vec2::zeros(), name, -inward, 0.0);
    pencil.label(Role::Text, label);
    let drawing = pencil.done(format!(
        "Corner post {id}, turned in its corner; mitre {:.1}°",
        corner.fix.bevel
    ));
    Some(Drawing {
        turn: corner.turn,
        ..drawing
    })
}

/// Whether the corner post at this place of the job's frame stands in a hole.
fn stands_in_hole(solution: &Solution, [x, y]: [f64; 2]) -> bool {
    let mut posts = solution.runs.values().flat_map(|run| &run.posts);
    let here =
        posts.find(|post| post.kind == PostKind::Corner && (post.x - x).hypot(post.y - y) < 1.0);
    here.is_none_or(|post| post.foot == Foot::Hole)
}

/// From a string, whose arm this is, to the nearest edge of the post.
fn gap(job: &Job, corners: &[Vec2], arm: Vec2, other: Vec2, pencil: &mut Pencil) {
    let square = left_of(arm);
    let inside = square * square.dot(&other).signum();
    let nearest = corners
        .iter()
        .min_by(|a, b| a.dot(&inside).total_cmp(&b.dot(&inside)));
    let Some(&nearest) = nearest else { return };
    let off = nearest.dot(&inside);
    if off.abs() < 0.5 {
        return;
    }
    let dimension = Dimension {
        from: nearest - inside * off,
        to: nearest,
        out: arm,
        clear: corners
            .iter()
            .map(|c| c.dot(&arm) - nearest.dot(&arm))
            .fold(0.0, f64::max),
        name: String::new(),
        text: show(off, job.show.lengths),
        rank: Rank::Main,
    };
    pencil.add(Role::Dimension, Shape::Dimension(dimension));
}
