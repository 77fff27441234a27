//! The gate: its leaf, the ground under its swing, its lock.

use super::given::Given;
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::drawing::{Block, Drawing, Sketch, Vec2};
use crate::quick::gate::{Height, Opening, ground_under_swing, latch_drop, leaf};
use crate::quick::gate_lock::{GateAtLock, TaperedBoard, lock_stack};
use tautmark_ui::Verdict;

const TOP: &str = "leaf top";
const MIDDLE: &str = "leaf middle";
const BOTTOM: &str = "leaf bottom";
const HINGE: &str = "leaf hinge";
const LATCH: &str = "leaf latch";
const LEAN: &str = "leaf lean";
const OVER: &str = "leaf lean over";

pub(super) static LEAF: Sum = Sum {
    id: "leaf",
    title: "Gate leaf",
    stage: Stage::Gate,
    answers: "How wide is the leaf for this opening?",
    how: "**Measure the opening at the top, the middle and the bottom:** the least of them counts.",
    why: "The least of the three less the gaps that hinges and latch need. A hinge post that leans \
          drops the latch by the leaf's width times the lean over its height.",
    inputs: &[
        Input::length(TOP, "Opening at the top").called("opening at the top"),
        Input::length(MIDDLE, "At the middle").called("opening at the middle"),
        Input::length(BOTTOM, "At the bottom").called("opening at the bottom"),
        Input::length(HINGE, "Gap at the hinges")
            .called("hinge gap")
            .how("as your hinges ask")
            .usually(15.0),
        Input::length(LATCH, "Gap at the latch")
            .called("latch gap")
            .how("as your latch asks")
            .usually(10.0),
        Input::length(LEAN, "Hinge post leans by")
            .called("lean of the hinge post")
            .may(),
        Input::length(OVER, "Measured over a height of")
            .called("height the lean is measured over")
            .usually(1800.0),
    ],
    work: leaf_work,
    picture: leaf_picture,
    caution: None,
    keep: None,
};

fn leaf_work(given: &Given<'_>) -> Worked {
    let opening = Opening {
        top: given.get(TOP)?,
        middle: given.get(MIDDLE)?,
        bottom: given.get(BOTTOM)?,
    };
    Some(leaf_of(given, opening))
}

fn leaf_of(given: &Given<'_>, opening: Opening) -> Result<Answer, Refused> {
    let gaps = [HINGE, LATCH].map(|key| given.get(key).unwrap_or_default());
    let found = leaf(opening, gaps[0], gaps[1])?;
    let at = match found.least_at {
        Height::Top => "top",
        Height::Middle => "middle",
        Height::Bottom => "bottom",
    };
    let unit = given.unit_name();
    let mut answer = Answer::new("Width of the leaf", given.length(found.width), unit)
        .row("Least opening", given.length(found.least), unit)
        .noted(format!("at the {at}"))
        .row(
            "Posts out of parallel by",
            given.length(found.out_of_parallel),
            unit,
        );
    if let (Some(lean), Some(over)) = (given.get(LEAN), given.get(OVER)) {
        let drop = latch_drop(found.width, lean, over)?;
        answer = answer.row("The latch drops by", given.fine(drop), unit);
    }
    Ok(answer)
}

/// Two posts and the leaf between them, 10 wide and 12 high.
fn gate(sketch: &mut Sketch<'_>, [hinge, latch, ground]: [f64; 3]) {
    let at = Vec2::new;
    sketch.ground(&[at(-2.5, 0.0), at(12.5, 0.0)], 1.2);
    for x in [-1.2, 10.0] {
        sketch.upright(Block::Post, [x, 0.0, x + 1.2, 12.5]);
    }
    sketch.upright(Block::Pale, [hinge, ground, 10.0 - latch, 11.0]);
    let (low, high) = (at(hinge, ground), at(10.0 - latch, 11.0));
    sketch.ink(vec![low, at(high.x, low.y), high, at(low.x, high.y), low]);
    sketch.ink(vec![low, high]);
}

fn leaf_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let at = Vec2::new;
    let up = at(0.0, 1.0);
    gate(&mut sketch, [0.5, 0.4, 0.8]);
    for (key, y, clear) in [(TOP, 11.0, 1.7), (MIDDLE, 6.0, 0.0), (BOTTOM, 1.2, 0.0)] {
        let ends = [at(0.0, y), at(10.0, y)];
        if key == TOP {
            sketch.dimension(&given.tag(key), ends, up, clear);
        } else {
            sketch.tape(&given.tag(key), ends[0], ends[1]);
        }
    }
    if given.asked == Some(HINGE) {
        sketch.dimension(&given.tag(HINGE), [at(0.0, 8.5), at(0.5, 8.5)], up, 0.0);
    }
    if given.asked == Some(LATCH) {
        sketch.dimension(&given.tag(LATCH), [at(9.6, 8.5), at(10.0, 8.5)], up, 0.0);
    }
    if given.asked == Some(LEAN) || given.asked == Some(OVER) {
        sketch.ghost(at(-1.2, 0.0), at(0.2, 12.5));
        sketch.figure(&given.tag(LEAN), at(-0.6, 12.5), up);
        let side = [at(-1.2, 0.0), at(-1.2, 12.5)];
        sketch.dimension(&given.tag(OVER), side, at(-1.0, 0.0), 0.4);
    }
    sketch.done("A gate between its posts, measured at three heights")
}

const GAP: &str = "swing gap";
const HALF: &str = "swing half";
const END: &str = "swing end";
const OPEN: &str = "swing open";
const WANTED: &str = "swing wanted";

pub(super) static SWING: Sum = Sum {
    id: "swing",
    title: "Ground under a gate",
    stage: Stage::Gate,
    answers: "Does the gate clear the ground through its whole swing?",
    how: "**Measure how much higher the ground is than at the hinge:** half way along the leaf, at \
          the latch, and where the latch ends up when it stands open.",
    why: "The gap under the leaf less the highest ground under its swing. On a slope, hang it on \
          the low side.",
    inputs: &[
        Input::length(GAP, "Gap under the leaf at the hinge").called("ground gap"),
        Input::up(HALF, "Ground half way along the leaf")
            .called("half way")
            .how("above the ground at the hinge; Down where it falls"),
        Input::up(END, "Ground at the latch").called("at the latch"),
        Input::up(OPEN, "Ground where it stands open").called("standing open"),
        Input::length(WANTED, "Clearance wanted")
            .called("wanted clearance")
            .usually(30.0),
    ],
    work: swing,
    picture: swing_picture,
    caution: None,
    keep: None,
};

fn swing(given: &Given<'_>) -> Worked {
    let rises = [given.get(HALF)?, given.get(END)?, given.get(OPEN)?];
    let found = ground_under_swing(given.get(GAP)?, &rises, given.get(WANTED)?);
    Some(found.map_err(Refused::from).map(|found| {
        let places = ["half way along", "at the latch", "where it stands open"];
        let at = places.get(found.at).copied().unwrap_or_default();
        let unit = given.unit_name();
        let what = if found.least < 0.0 {
            "It strikes the ground by"
        } else {
            "Least clearance"
        };
        let answer = Answer::new(what, given.length(found.least.abs()), unit);
        if found.raise > 0.0 {
            let raise = given.length(found.raise);
            let text =
                format!("Tightest **{at}.** Hang it **{raise}** higher to keep what you want.");
            answer.says(
                if found.least < 0.0 {
                    Verdict::Bad
                } else {
                    Verdict::Attention
                },
                text,
            )
        } else {
            answer.says(Verdict::Good, format!("Clear all the way; tightest {at}."))
        }
    }))
}

fn swing_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let at = Vec2::new;
    let rise = |key: &str, likely: f64| match (given.get(key), given.get(GAP)) {
        (Some(rise), Some(gap)) if gap > 0.0 => (rise / gap).clamp(-1.5, 1.5),
        _ => likely,
    };
    let ground = [
        at(-2.5, 0.0),
        at(0.0, 0.0),
        at(5.0, rise(HALF, 0.2)),
        at(10.0, rise(END, 0.5)),
        at(12.5, rise(END, 0.5)),
    ];
    sketch.ground(&ground, 2.0);
    sketch.upright(Block::Post, [-1.2, 0.0, 0.0, 7.0]);
    sketch.upright(Block::Pale, [0.4, 1.0, 10.0, 6.0]);
    let leaf = [[0.4, 1.0], [10.0, 1.0], [10.0, 6.0], [0.4, 6.0], [0.4, 1.0]];
    sketch.ink(leaf.map(Vec2::from).to_vec());
    sketch.dimension(
        &given.tag(GAP),
        [at(0.4, 0.0), at(0.4, 1.0)],
        at(-1.0, 0.0),
        1.8,
    );
    let down = at(0.0, -1.0);
    sketch.figure(&given.tag(HALF), ground[2], down);
    sketch.figure(&given.tag(END), ground[3], down);
    if given.asked == Some(OPEN) {
        sketch.figure(&given.tag(OPEN), at(10.0, 6.0), at(0.0, 1.0));
    }
    if given.asked == Some(WANTED) {
        sketch.figure(&given.tag(WANTED), at(7.0, 1.0), at(0.0, 1.0));
    }
    sketch.done("A gate leaf over ground that rises under it")
}

const FRAME: &str = "lock frame";
const THIN: &str = "lock thin";
const THICK: &str = "lock thick";
const WIDE: &str = "lock board";
const AT: &str = "lock at";
const MORE: &str = "lock allowance";

pub(super) static LOCK: Sum = Sum {
    id: "lock",
    title: "Gate at its lock",
    stage: Stage::Gate,
    answers: "How thick is the gate there, and what shaft passes through?",
    how: "**Type the frame, the feather-edged board on it, and where on the board the lock sits.**",
    why: "A feather-edged board makes the face lean. An offcut of the same board turned over it, \
          thin edge to thick, makes it parallel again and the stack the same at every height.",
    inputs: &[
        Input::length(FRAME, "Thickness of the frame").called("frame"),
        Input::length(THIN, "Board, thin edge").called("thin edge"),
        Input::length(THICK, "Board, thick edge").called("thick edge"),
        Input::length(WIDE, "Width of the board").called("width of the board"),
        Input::length(AT, "Thin edge to the lock").called("lock's distance from the thin edge"),
        Input::length(MORE, "Shaft longer than the stack by")
            .called("allowance")
            .how("as its maker says")
            .usually(5.0),
    ],
    work: lock,
    picture: lock_picture,
    caution: None,
    keep: None,
};

fn lock_given(given: &Given<'_>) -> Option<GateAtLock> {
    Some(GateAtLock {
        frame: given.get(FRAME)?,
        board: TaperedBoard {
            thin: given.get(THIN)?,
            thick: given.get(THICK)?,
            width: given.get(WIDE)?,
        },
        from_thin_edge: given.get(AT)?,
        allowance: given.get(MORE)?,
    })
}

fn lock(given: &Given<'_>) -> Worked {
    let stack = lock_stack(lock_given(given)?).map_err(Refused::from);
    let unit = given.unit_name();
    Some(stack.map(|stack| {
        Answer::new("Shortest shaft", given.length(stack.shortest_shaft), unit)
            .row(
                "Frame, board and turned offcut",
                given.fine(stack.packed),
                unit,
            )
            .row("Frame and board alone there", given.fine(stack.bare), unit)
            .row("The offcut there", given.fine(stack.offcut), unit)
            .row(
                "The bare face leans",
                format!("{:.1}°", stack.face_angle),
                "",
            )
    }))
}

fn lock_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let good = lock_given(given).filter(|_| matches!(lock(given), Some(Ok(_))));
    let likely = GateAtLock {
        frame: 45.0,
        board: TaperedBoard {
            thin: 8.0,
            thick: 22.0,
            width: 150.0,
        },
        from_thin_edge: 75.0,
        allowance: 5.0,
    };
    let GateAtLock {
        frame,
        board,
        from_thin_edge,
        ..
    } = good.unwrap_or(likely);
    let at = Vec2::new;
    let (wide, face, back) = (board.width, frame + board.thin, frame + board.thick);
    // Seen from the edge of the gate: the board's thin edge is up.
    sketch.upright(Block::Timber, [0.0, -wide * 0.15, frame, wide * 1.15]);
    let side = [[frame, 0.0], [back, 0.0], [face, wide], [frame, wide]];
    sketch.block(Block::Board, side.map(Vec2::from).to_vec());
    let packed = frame + board.thin + board.thick;
    let offcut = [[back, 0.0], [packed, 0.0], [packed, wide], [face, wide]];
    sketch.block(Block::Pale, offcut.map(Vec2::from).to_vec());
    let lock = wide - from_thin_edge;
    sketch.ghost(at(-frame * 0.4, lock), at(packed + frame * 0.4, lock));
    let (up, right) = (at(0.0, 1.0), at(1.0, 0.0));
    sketch.dimension(
        &given.tag(FRAME),
        [at(0.0, 0.0), at(frame, 0.0)],
        -up,
        wide * 0.2,
    );
    sketch.dimension(
        &given.tag(THIN),
        [at(frame, wide), at(face, wide)],
        up,
        wide * 0.1,
    );
    sketch.dimension(
        &given.tag(THICK),
        [at(frame, 0.0), at(back, 0.0)],
        -up,
        wide * 0.02,
    );
    sketch.dimension(
        &given.tag(AT),
        [at(packed, lock), at(packed, wide)],
        right,
        0.0,
    );
    sketch.dimension(&given.tag(WIDE), [at(0.0, 0.0), at(0.0, wide)], -right, 0.0);
    sketch.done("The gate from its edge: frame, board, turned offcut and the lock")
}
