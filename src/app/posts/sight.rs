//! The post in sight, with the run it is of.

use crate::app::desk::{Desk, run_fix, run_in_sight};
use crate::app::names::face_reading;
use crate::job::model::Run;
use crate::setout::{Post, PostKind, RunFix, front_corner};

/// The post being marked out, and the run it is of.
#[derive(Clone, Copy)]
pub struct AtPost<'a> {
    /// Place of the run in the file.
    pub at: usize,
    pub run: &'a Run,
    pub fix: &'a RunFix,
    pub post: &'a Post,
}

/// The post in sight; `None` where its run is not settled.
#[must_use]
pub fn post_in_sight(desk: &Desk) -> Option<AtPost<'_>> {
    let (at, run) = run_in_sight(desk)?;
    let fix = run_fix(desk, run)?;
    let last = fix.posts.len().checked_sub(1)?;
    let post = fix
        .posts
        .get(desk.chosen.post.saturating_sub(1).min(last))?;
    Some(AtPost { at, run, fix, post })
}

/// The same corner post in another run.
#[must_use]
pub fn twin<'a>(fix: &'a RunFix, post: &Post) -> Option<&'a Post> {
    let same = |other: &&Post| other.kind == PostKind::Corner && other.apart(post) < 1.0;
    if post.kind == PostKind::Corner {
        fix.posts.iter().find(same)
    } else {
        None
    }
}

/// What of a post is taped to: its faces and centre; of a corner post its front corner, which a tape can
/// be held to however it is turned, and its centre.
pub fn faces(post: &Post) -> &'static [&'static str] {
    if post.kind == PostKind::Corner {
        &["Front corner", "Centre"]
    } else {
        &["Near face", "Centre", "Far face"]
    }
}

impl AtPost<'_> {
    /// Which of them is chosen; the centre where the post has no such face.
    pub fn face(&self, desk: &Desk) -> usize {
        desk.chosen.face.min(faces(self.post).len() - 1)
    }

    /// The running reading of one of them, mm.
    pub fn reading(&self, face: usize) -> f64 {
        match (self.post.kind, face) {
            (PostKind::Corner, 0) => front_corner(self.fix, self.post)[0],
            _ => face_reading(self.post, face),
        }
    }
}
