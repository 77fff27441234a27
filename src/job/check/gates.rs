//! Gates and pinned posts.

use super::{Ledger, Place};
use crate::job::model::{Gate, Pin};
use crate::job::sound::{SoundGate, SoundPin};

pub(super) fn gates(gates: &[Gate], place: Place<'_>, ledger: &mut Ledger) -> Vec<SoundGate> {
    let mut good = Vec::new();
    let list = place.key("gates");
    for (index, gate) in gates.iter().enumerate() {
        let place = list.nth(index);
        let at = ledger.given(place.key("at"), gate.at, "gate's running reading");
        let at =
            at.and_then(|at| ledger.not_negative(place.key("at"), at, "gate's running reading"));
        let clear = ledger.given(place.key("clear"), gate.clear, "gate's clear opening");
        let clear =
            clear.and_then(|c| ledger.positive(place.key("clear"), c, "gate's clear opening"));
        let leaf_place = place.key("leaf");
        let leaf = gate.leaf.clone().filter(|leaf| {
            let gaps = [
                ("hinge", leaf.hinge, "hinge gap"),
                ("latch", leaf.latch, "latch gap"),
                ("ground", leaf.ground, "ground gap"),
            ];
            let checks = gaps.map(|(key, gap, what)| {
                let gap = ledger.not_negative(leaf_place.key(key), gap, what);
                gap.is_some()
            });
            checks == [true; 3]
        });
        if let (Some(at), Some(clear)) = (at, clear) {
            good.push(SoundGate {
                at,
                clear,
                leaf,
                index,
            });
        }
    }
    good
}

pub(super) fn pins(pins: &[Pin], place: Place<'_>, ledger: &mut Ledger) -> Vec<SoundPin> {
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
