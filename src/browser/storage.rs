//! The browser's storage behind the disk: pieces of files, kept by `ui/web/storage.js`.

use crate::store::slow::{FilePiece, HandedOver, Kept, Storage};
use js_sys::{Array, Uint8Array};
use std::io::{self, ErrorKind};
use std::time::{Duration, SystemTime};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(raw_module = "./storage.js")]
extern "C" {
    fn keep(everything: bool, pieces: Array, kept: JsValue);
}

/// Keeps pieces in this browser. `start.js` sees to it that one window does at a time.
pub(super) struct Pieces;

impl Storage for Pieces {
    fn keep(&self, handed: HandedOver, kept: Kept) {
        let (everything, pieces) = match handed {
            HandedOver::Step(pieces) => (false, pieces),
            HandedOver::Everything(pieces) => (true, pieces),
        };
        let pieces = pieces.iter().map(row).collect();
        let said = move |fault: Option<String>| kept(fault.map_or(Ok(()), |name| Err(kind(&name))));
        keep(everything, pieces, Closure::once_into_js(said));
    }
}

fn kind(name: &str) -> io::Error {
    match name {
        "QuotaExceededError" => ErrorKind::QuotaExceeded.into(),
        name => io::Error::other(name),
    }
}

/// A piece as `storage.js` has it: path, part, bytes, milliseconds; only the path where it goes.
fn row(piece: &FilePiece) -> JsValue {
    match piece {
        FilePiece::Gone { path } => Array::of1(&path.into()),
        FilePiece::Part {
            path,
            part,
            bytes,
            changed,
        } => {
            let age = changed.duration_since(SystemTime::UNIX_EPOCH);
            let millis = age.unwrap_or_default().as_secs_f64() * 1000.0;
            let bytes = Uint8Array::from(bytes.as_slice());
            Array::of4(&path.into(), &(*part).into(), &bytes, &millis.into())
        }
    }
    .into()
}

/// The pieces that were kept; what is no piece is passed over.
pub(super) fn read(rows: &Array) -> Vec<FilePiece> {
    rows.iter().filter_map(|row| piece(&row)).collect()
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "parts are written from a u32"
)]
fn piece(row: &JsValue) -> Option<FilePiece> {
    let row = Array::from(row);
    let millis = row.get(3).as_f64()?;
    let age = Duration::try_from_secs_f64(millis / 1000.0).ok()?;
    Some(FilePiece::Part {
        path: row.get(0).as_string()?,
        part: row.get(1).as_f64()? as u32,
        bytes: row.get(2).dyn_into::<Uint8Array>().ok()?.to_vec(),
        changed: SystemTime::UNIX_EPOCH + age,
    })
}
