//! The device around the app: what it can do with a file, with its screen, and with its voice.

#[cfg(not(any(target_arch = "wasm32", target_os = "android")))]
mod desktop;

#[cfg(not(any(target_arch = "wasm32", target_os = "android")))]
pub use desktop::Desktop;

/// A file that leaves the app.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Handed {
    /// Its name, with the ending that says what it is.
    pub name: String,
    /// What it is, as `application/pdf`.
    pub media_type: &'static str,
    /// All of it.
    pub bytes: Vec<u8>,
}

impl Handed {
    /// A job's own file; `name` without its ending.
    #[must_use]
    pub fn job(name: &str, bytes: Vec<u8>) -> Self {
        Self {
            name: format!("{name}.job.json"),
            media_type: "application/json",
            bytes,
        }
    }
}

/// A file that was picked, or that another program handed over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Brought {
    /// Its name, for words about it; may be empty.
    pub name: String,
    /// All of it.
    pub bytes: Vec<u8>,
}

/// What became of picking a file: the file, `None` where the person changed their mind, or words
/// of what is wrong and what to do.
pub type Picked = Result<Option<Brought>, String>;

/// How a file leaves the app.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Kept on this device, where a person finds it.
    Save,
    /// Given to another program, to be sent or printed.
    Share,
}

/// What the app asks of the device it runs on.
pub trait Device {
    /// Gives a file to the person; the words say where it went.
    ///
    /// # Errors
    /// Words of what is wrong and what to do.
    fn hand_over(&self, file: &Handed, way: Way) -> Result<String, String>;

    /// The ways a file can leave the app here, the usual one first.
    fn ways(&self) -> &'static [Way];

    /// Lets the person pick a job file. `then` is called once, later or at once, from the thread of
    /// the window.
    fn pick(&self, then: Box<dyn FnOnce(Picked)>);

    /// Keeps the screen on, or lets it sleep again.
    fn keep_awake(&self, awake: bool);

    /// What reads aloud here; none on a device that cannot.
    fn voice(&self) -> Option<&dyn Voice> {
        None
    }
}

/// What reads aloud on a device.
pub trait Voice {
    /// Reads English words aloud, at once, in place of what it is reading.
    fn say(&self, words: &str);

    /// Falls silent.
    fn hush(&self);
}
