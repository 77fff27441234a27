//! Gates, their leaves and locks, and pinned posts.

use super::{FilePlace, Ledger};
use crate::job::model::{Against, Gate, Leaf, Lock, Pin};
use crate::job::sound::{GateAt, SoundGate, SoundPin};

pub(super) fn gates(gates: &[Gate], place: FilePlace<'_>, ledger: &mut Ledger) -> Vec<SoundGate> {
    let mut good = Vec::new();
    let list = place.key("gates");
    for (index, gate) in gates.iter().enumerate() {
        let place = list.nth(index);
        let at = opens_at(gate, place, ledger);
        let clear = ledger.given(place.key("clear"), gate.clear, "gate's clear opening");
        let clear =
            clear.and_then(|c| ledger.positive(place.key("clear"), c, "gate's clear opening"));
        let leaf = gate.leaf.clone();
        let leaf = leaf.filter(|leaf| is_sound_leaf(leaf, place.key("leaf"), ledger));
        let lock = gate.lock.clone();
        let lock = lock.filter(|lock| is_sound_lock(lock, place.key("lock"), ledger));
        if lock.is_some() && gate.leaf.is_none() {
            ledger.problems.warning(
                place.key("leaf"),
                "The gate has a lock and no leaf to put it on.",
                "Enter the leaf's gaps.",
            );
        }
        if let (Some(at), Some(clear)) = (at, clear) {
            good.push(SoundGate {
                at,
                clear,
                leaf,
                lock,
                index,
            });
        }
    }
    good
}

/// Where the opening is: at a running reading, or hard against the run's first or last post.
fn opens_at(gate: &Gate, place: FilePlace<'_>, ledger: &mut Ledger) -> Option<GateAt> {
    let Some(against) = &gate.against else {
        let at = ledger.given(place.key("at"), gate.at, "gate's running reading")?;
        let at = ledger.not_negative(place.key("at"), at, "gate's running reading")?;
        return Some(GateAt::Reading(at));
    };
    if gate.at.is_some() {
        ledger.problems.error(
            place.key("against"),
            "It says both where the gate begins and which post it is hard against.",
            "Keep one of the two.",
        );
        return None;
    }
    match against {
        Against::Start => Some(GateAt::First),
        Against::End => Some(GateAt::Last),
        Against::Other(other) => {
            ledger.problems.error(
                place.key("against"),
                format!("The run has no post “{other}” for a gate to be hard against."),
                "Say start for the run's first post or end for its last, or give the running \
                 reading where the opening begins.",
            );
            None
        }
    }
}

fn is_sound_leaf(leaf: &Leaf, place: FilePlace<'_>, ledger: &mut Ledger) -> bool {
    let gaps = [
        ("hinge", leaf.hinge, "hinge gap"),
        ("latch", leaf.latch, "latch gap"),
        ("ground", leaf.ground, "ground gap"),
        ("face", leaf.face, "thickness of the gate's face boards"),
    ];
    let gaps = gaps.map(|(key, gap, what)| {
        let gap = ledger.not_negative(place.key(key), gap, what);
        gap.is_some()
    });
    let frame = [
        ("stile", leaf.stile, "width of the gate's frame"),
        ("thick", leaf.thick, "thickness of the gate's frame"),
    ];
    let frame = frame.map(|(key, size, what)| {
        let size = ledger.positive(place.key(key), size, what);
        size.is_some()
    });
    gaps == [true; 4] && frame == [true; 2]
}

fn is_sound_lock(lock: &Lock, place: FilePlace<'_>, ledger: &mut Ledger) -> bool {
    let sizes = [
        ledger.positive(place.key("height"), lock.height, "lock's height"),
        ledger.not_negative(place.key("backset"), lock.backset, "lock's backset"),
        ledger.positive(place.key("case"), lock.case, "width of the lock's case"),
        ledger.not_negative(
            place.key("edge"),
            lock.edge,
            "lock's distance from the edge",
        ),
    ];
    let offcut = lock.offcut.as_ref().is_none_or(|offcut| {
        let place = place.key("offcut");
        let sizes = [
            ledger.not_negative(place.key("thin"), offcut.thin, "face board's thin edge"),
            ledger.positive(place.key("width"), offcut.width, "face board's width"),
            ledger.not_negative(
                place.key("from"),
                offcut.from,
                "lock's distance from the thin edge",
            ),
        ];
        sizes.iter().all(Option::is_some)
    });
    offcut && sizes.iter().all(Option::is_some)
}

pub(super) fn pins(pins: &[Pin], place: FilePlace<'_>, ledger: &mut Ledger) -> Vec<SoundPin> {
    let mut good = Vec::new();
    let list = place.key("pins");
    for (index, pin) in pins.iter().enumerate() {
        let place = list.nth(index);
        let at = ledger.given(place.key("at"), pin.at, "pin's running reading");
        if let Some(at) = at.and_then(|at| ledger.any(place.key("at"), at, "pin's running reading"))
        {
            let stands = pin.stands;
            good.push(SoundPin { at, stands, index });
        }
    }
    good
}
