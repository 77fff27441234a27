//! Unknown keys that lie as deep as a file may have them: changed, taken back and opened again, with
//! nothing lost from the job or its history.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tautmark::job::edit::{Change, Edit, Setting};
use tautmark::job::read;
use tautmark::store::Jobs;

fuzz_target!(|shape: (u8, Vec<bool>)| {
    let (depth, acts) = shape;
    let depth = usize::from(depth % 128);
    let text = format!(
        r#"{{"format":"tautmark-job","version":1,"title":"deep","runs":[{{"id":"R","x":{}1{}}}]}}"#,
        "[".repeat(depth),
        "]".repeat(depth)
    );
    let Ok(opened) = read(&text) else {
        assert!(depth > 90, "{depth} deep is not read");
        return;
    };
    let memory = std::path::Path::new("/dev/shm");
    let folder = match memory.is_dir() {
        true => tempfile::tempdir_in(memory),
        false => tempfile::tempdir(),
    };
    let jobs = Jobs::in_folder(folder.expect("a folder").path());
    let mut open = jobs.start(opened.job);
    let run = open.job().runs[0].clone();
    for (nth, grows) in acts.into_iter().take(60).enumerate() {
        let put = Change::Replace {
            at: 0,
            value: run.clone(),
        };
        let title = Edit::Set(Setting::Title(nth.to_string()));
        let edit = Edit::Many(vec![Edit::Run(put), title]);
        let done = if grows { open.amend(edit) } else { open.change(edit) };
        done.expect("it can be changed");
        assert_eq!(open.trouble(), None);
    }
    let (key, job) = (open.key().clone(), open.job().clone());
    let steps = open.history().done().len();
    drop(open);
    let mut again = jobs.open(&key).expect("it was saved");
    assert!(*again.job() == job && again.history().done().len() == steps);
    assert_eq!(again.take_notices(), []);
    while again.undo().expect("can be changed").is_some() {}
    assert_eq!(again.job().title, "deep");
});
