//! A library of nothing but Rust's own: what of the system that asks for, linked as the app's library is.
//! android/check links it, and looks at it as android/prove looks at the app's.

#[path = "../../src/android/unwind.rs"]
mod unwind;

use std::fs;
use std::io::Write;
use std::sync::mpsc;
use std::thread;
use std::time::{Duration, Instant};

/// The name by which Android starts a library: here it only keeps what is below in it.
#[unsafe(no_mangle)]
extern "C" fn ANativeActivity_onCreate(angle: f64) -> f64 {
    let (tell, hear) = mpsc::channel();
    let other = thread::spawn(move || tell.send(Instant::now()));
    let told = hear.recv_timeout(Duration::from_secs(1));
    let written = fs::File::create("one").and_then(|mut file| {
        writeln!(file, "{told:?} {:?}", other.join().is_ok())?;
        file.sync_all()
    });
    let kept = written.and_then(|()| fs::rename("one", "two"));
    eprintln!("{kept:?} {:?}", fs::read_dir(".").map(Iterator::count));
    angle.sin().atan2(angle.cos()).hypot(angle)
}
