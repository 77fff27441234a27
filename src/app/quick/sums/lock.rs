//! A gate where its lock sits.

use super::Tail::Unit;
use super::Value::{Degrees, Fine, Length};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Stop, Usual, Vec2, Worked};
use crate::cautions::GATE;
use crate::quick::gate_lock::{GateAtLock, TaperedBoard, lock_stack};

const FRAME: Input = Input::length("lock frame", "Thickness of the frame").called("frame");
const THIN: Input = Input::length("lock thin", "Board, thin edge").called("thin edge");
const THICK: Input = Input::length("lock thick", "Board, thick edge").called("thick edge");
const WIDE: Input = Input::length("lock board", "Width of the board").called("width of the board");
const AT: Input =
    Input::length("lock at", "Thin edge to the lock").called("lock's distance from the thin edge");
const MORE: Input = Input::length("lock allowance", "Shaft longer than the stack by")
    .called("allowance")
    .how("as its maker says")
    .natively(Usual::METRIC.shaft, Usual::FEET.shaft);

pub static LOCK: QuickSum = QuickSum {
    id: "lock",
    title: "Gate at its lock",
    stage: Stage::Gate,
    answers: "How thick is the gate there, and what shaft passes through?",
    how: "**Type the frame, the feather-edged board on it, and where on the board the lock sits.**",
    why: "A feather-edged board makes the face lean. An offcut of the same board turned over it, \
          thin edge to thick, makes it parallel again and the stack the same at every height.",
    inputs: &[FRAME, THIN, THICK, WIDE, AT, MORE],
    work: lock,
    picture: lock_picture,
    pictured: "The gate from its edge: frame, board, turned offcut and the lock",
    cautions: &[GATE],
    ..QuickSum::BARE
};

fn lock_given(given: &Given<'_>) -> Result<GateAtLock, Stop> {
    Ok(GateAtLock {
        frame: given.get(&FRAME)?,
        board: TaperedBoard {
            thin: given.get(&THIN)?,
            thick: given.get(&THICK)?,
            width: given.get(&WIDE)?,
        },
        from_thin_edge: given.get(&AT)?,
        allowance: given.get(&MORE)?,
    })
}

fn lock(given: &Given<'_>) -> Worked {
    let stack = lock_stack(lock_given(given)?)?;
    Ok(
        Answer::new("Shortest shaft", Length(stack.shortest_shaft), Unit)
            .row("Frame, board and turned offcut", Fine(stack.packed), Unit)
            .row("Frame and board alone there", Fine(stack.bare), Unit)
            .row("The offcut there", Fine(stack.offcut), Unit)
            .row("The bare face leans", Degrees(stack.face_angle, 1), ""),
    )
}

fn lock_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let good = lock_given(given).ok().filter(|_| lock(given).is_ok());
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
    pen.upright(Solid::Timber, [0.0, -wide * 0.15, frame, wide * 1.15]);
    let side = [[frame, 0.0], [back, 0.0], [face, wide], [frame, wide]];
    pen.block(Solid::Board, side.map(Vec2::from).to_vec());
    let packed = frame + board.thin + board.thick;
    let offcut = [[back, 0.0], [packed, 0.0], [packed, wide], [face, wide]];
    pen.block(Solid::Pale, offcut.map(Vec2::from).to_vec());
    let lock = wide - from_thin_edge;
    pen.ghost(at(-frame * 0.4, lock), at(packed + frame * 0.4, lock));
    let (up, right) = (at(0.0, 1.0), at(1.0, 0.0));
    pen.dimension(&FRAME, [[0.0, 0.0], [frame, 0.0]], -up, wide * 0.2);
    pen.dimension(&THIN, [[frame, wide], [face, wide]], up, wide * 0.1);
    pen.dimension(&THICK, [[frame, 0.0], [back, 0.0]], -up, wide * 0.02);
    pen.dimension(&AT, [[packed, lock], [packed, wide]], right, 0.0);
    pen.dimension(&WIDE, [[0.0, 0.0], [0.0, wide]], -right, 0.0);
}
