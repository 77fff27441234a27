//! A gate where its lock sits.

use super::Tail::Unit;
use super::Value::{Degrees, Fine, Length};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Stop, Usual, Vec2, Worked};
use crate::app::quick::keep;
use crate::cautions::{GATE, SAWING};
use crate::job::model::{Gate, Offcut};
use crate::length;
use crate::quick::Refusal;
use crate::quick::gate_lock::{
    GateAtLock, LockOnStile, LockSeat, LockStack, Taper, lock_seat, lock_stack,
};

const FRAME: Input = Input::length("lock frame", "Thickness of the frame").called("frame");
const FACE: Input = Input::length("lock thick", "Thickness of the face board")
    .called("face board")
    .how("of a tapered one, at its thick edge");
const CASE: Input = Input::length("lock case", "Width of the lock’s case")
    .called("case")
    .how("to see whether it fits on the stile")
    .may();
const STILE: Input = Input::length("lock stile", "Width of the stile")
    .called("stile")
    .natively(Usual::METRIC.stile, Usual::FEET.stile);
const BACKSET: Input = Input::length("lock backset", "Spindle from the leaf’s edge")
    .called("backset")
    .natively(Usual::METRIC.backset, Usual::FEET.backset);
const BOARD: Input = Input::choice("lock face", "The face board is", &["Even", "Tapered"]);
const PACKED: Input = Input::choice(
    "lock packed",
    "Under the lock of a tapered one",
    &["Nothing", "Turned offcut"],
);
const THIN: Input = Input::length("lock thin", "Tapered board, thin edge")
    .called("thin edge")
    .may();
const WIDE: Input = Input::length("lock board", "Tapered board, width")
    .called("width of the board")
    .may();
const AT: Input = Input::length("lock at", "Thin edge to the lock")
    .called("lock's distance from the thin edge")
    .may();
const MORE: Input = Input::length("lock allowance", "Shaft longer than the stack by")
    .called("allowance")
    .how("as its maker says")
    .natively(Usual::METRIC.shaft, Usual::FEET.shaft);

pub static LOCK: QuickSum = QuickSum {
    id: "lock",
    title: "Gate at its lock",
    stage: Stage::Gate,
    answers: "What shaft passes through, and does the stile take the lock?",
    how: "**Type how thick the frame and its face board are;** the case too, to see whether it fits \
          on the stile.",
    why: "The shaft passes through frame and face. A case wider than its stile wants a packing piece \
          beside the stile, as thick as the frame. A tapered board makes the face lean; an offcut of \
          it turned over it, thin edge to thick, makes it parallel again and the stack the same at \
          every height.",
    inputs: &[
        FRAME, FACE, CASE, STILE, BACKSET, BOARD, THIN, WIDE, AT, PACKED, MORE,
    ],
    work,
    picture,
    pictured: "The gate from its edge: frame, face board and the lock",
    cautions: &[GATE, SAWING],
    keep: Some(|desk, inputs| keep::into_a_gate(desk, inputs, "The gate’s lock.", in_gate)),
};

/// A figure of a tapered board that is not there yet.
#[derive(Debug, thiserror::Error)]
#[error("The board tapers: its {called} is wanted too. Measure it.")]
struct WantedOfTapered {
    called: &'static str,
}

impl Refusal for WantedOfTapered {
    fn figure(&self) -> Option<&'static str> {
        Some(self.called)
    }
}

fn taper(given: &Given<'_>) -> Result<Option<Taper>, Stop> {
    if given.picked(&BOARD) == 0 {
        return Ok(None);
    }
    let wanted = |input: &Input| {
        let called = input.called;
        given.maybe(input).ok_or(WantedOfTapered { called })
    };
    Ok(Some(Taper {
        thin: wanted(&THIN)?,
        width: wanted(&WIDE)?,
        from_thin_edge: wanted(&AT)?,
        packed: given.picked(&PACKED) == 1,
    }))
}

fn gate_given(given: &Given<'_>) -> Result<GateAtLock, Stop> {
    Ok(GateAtLock {
        frame: given.get(&FRAME)?,
        face: given.get(&FACE)?,
        taper: taper(given)?,
    })
}

fn work(given: &Given<'_>) -> Worked {
    let stack = lock_stack(gate_given(given)?)?;
    let shaft = stack.through + given.get(&MORE)?;
    let mut answer = Answer::new("Shortest shaft", Length(shaft), Unit).row(
        "Frame and face board there",
        Fine(stack.bare),
        Unit,
    );
    answer = with_offcut(answer, &stack);
    if stack.face_angle > 0.0 {
        answer = answer.row("The bare face leans", Degrees(stack.face_angle, 1), "");
    }
    let Some(case) = given.maybe(&CASE) else {
        return Ok(answer);
    };
    let seat = lock_seat(LockOnStile {
        stile: given.get(&STILE)?,
        case,
        edge: 0.0,
        backset: given.get(&BACKSET)?,
    });
    Ok(with_seat(answer, given, &seat))
}

fn with_offcut(answer: Answer, stack: &LockStack) -> Answer {
    let Some(offcut) = stack.offcut else {
        return answer;
    };
    answer
        .row("The turned offcut there", Fine(offcut), Unit)
        .row("Frame, board and offcut", Fine(stack.through), Unit)
}

fn with_seat(answer: Answer, given: &Given<'_>, seat: &LockSeat) -> Answer {
    let unit = given.unit;
    let off = |mm: f64| length::show_with_unit(mm.abs(), unit);
    let mut answer = answer;
    if let Some(packing) = seat.packing {
        answer = answer.row("Packing beside the stile", Fine(packing), Unit);
        if let Some(centred) = seat.packing_to_centre.filter(|wide| *wide >= packing) {
            answer = answer
                .row("Packing that centres the handle", Fine(centred), Unit)
                .noted("in the middle of what is seen: stile and packing");
        }
        let text = format!(
            "**The case is wider than the stile:** a packing piece beside it carries the rest. The \
             handle is {} off the middle of stile and packing.",
            off(seat.off_seen)
        );
        return answer.says(super::Verdict::Attention, text);
    }
    let text = format!(
        "**The stile takes the case.** The handle is {} off the stile’s middle.",
        off(seat.off_stile)
    );
    answer.says(super::Verdict::Good, text)
}

/// The frame, its face and the lock of a gate, as far as they were given.
fn in_gate(given: &Given<'_>, gate: &mut Gate) {
    let usual = Usual::of(given.unit);
    let leaf = gate.leaf.get_or_insert_with(|| usual.leaf());
    let put = |slot: &mut f64, input: &Input| {
        if let Some(mm) = given.maybe(input) {
            *slot = mm;
        }
    };
    put(&mut leaf.thick, &FRAME);
    put(&mut leaf.face, &FACE);
    put(&mut leaf.stile, &STILE);
    let lock = gate.lock.get_or_insert_with(|| usual.lock());
    put(&mut lock.backset, &BACKSET);
    put(&mut lock.case, &CASE);
    let packed = taper(given).ok().flatten().filter(|taper| taper.packed);
    lock.offcut = packed.map(|taper| Offcut {
        thin: taper.thin,
        width: taper.width,
        from: taper.from_thin_edge,
        ..lock.offcut.take().unwrap_or_default()
    });
}

fn picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let good = gate_given(given).ok().filter(|_| work(given).is_ok());
    let likely = GateAtLock {
        frame: 45.0,
        face: 22.0,
        taper: (given.picked(&BOARD) == 1).then_some(Taper {
            thin: 8.0,
            width: 150.0,
            from_thin_edge: 75.0,
            packed: given.picked(&PACKED) == 1,
        }),
    };
    let GateAtLock { frame, face, taper } = good.unwrap_or(likely);
    let at = Vec2::new;
    let even = Taper {
        thin: face,
        width: 3.0 * (frame + face),
        from_thin_edge: 1.5 * (frame + face),
        packed: false,
    };
    let board = taper.unwrap_or(even);
    let (wide, thin, thick) = (board.width, frame + board.thin, frame + face);
    // Seen from the edge of the gate: the board's thin edge is up.
    pen.upright(Solid::Timber, [0.0, -wide * 0.15, frame, wide * 1.15]);
    let side = [[frame, 0.0], [thick, 0.0], [thin, wide], [frame, wide]];
    pen.block(Solid::Board, side.map(Vec2::from).to_vec());
    let mut front = thick;
    if board.packed {
        front = thick + board.thin;
        let offcut = [[thick, 0.0], [front, 0.0], [front, wide], [thin, wide]];
        pen.block(Solid::Pale, offcut.map(Vec2::from).to_vec());
    }
    let lock = wide - board.from_thin_edge;
    pen.ghost(at(-frame * 0.4, lock), at(front + frame * 0.4, lock));
    let (up, right) = (at(0.0, 1.0), at(1.0, 0.0));
    pen.dimension(&FRAME, [[0.0, 0.0], [frame, 0.0]], -up, wide * 0.2);
    pen.dimension(&FACE, [[frame, 0.0], [thick, 0.0]], -up, wide * 0.02);
    if taper.is_some() {
        pen.dimension(&THIN, [[frame, wide], [thin, wide]], up, wide * 0.1);
        pen.dimension(&AT, [[front, lock], [front, wide]], right, 0.0);
        pen.dimension(&WIDE, [[0.0, 0.0], [0.0, wide]], -right, 0.0);
    }
}
