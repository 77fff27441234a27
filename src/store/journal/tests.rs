use super::*;
use crate::job::edit::Setting;

fn title(text: &str) -> Edit {
    Edit::Set(Setting::Title(text.to_owned()))
}

/// A history of one title after another, undone once, as a file, with the job at its end.
fn file() -> (Vec<u8>, Job) {
    let mut job = Job::new("start");
    let mut history = History::default();
    let text = |job: &Job| write(job).expect("a job can be written");
    let mut file = afresh(&history, &text(&job), &[]).expect("a history can be written");
    let mut add = |line: HistoryLine| file.push_str(&line.text().expect("a line can be written"));
    for name in ["one", "two", "three"] {
        history.push(&mut job, title(name)).expect("a title");
        let step = history.done().last().expect("a step").clone();
        let after = Print::of(text(&job).as_bytes());
        add(HistoryLine::Did { step, after });
    }
    history.undo(&mut job).expect("undo");
    let after = Print::of(text(&job).as_bytes());
    add(HistoryLine::Undid { after });
    (file.into_bytes(), job)
}

#[test]
fn a_history_leads_to_its_job() {
    let (bytes, job) = file();
    let journal = Journal::read(&bytes);
    assert!(journal.whole);
    assert_eq!(journal.job(), Some(job));
    assert_eq!(journal.history.done().len(), 2);
    assert_eq!(journal.history.undone().len(), 1);
}

#[test]
fn a_history_cut_anywhere_holds_up_to_its_last_whole_line() {
    let (bytes, _) = file();
    let titles = ["start", "one", "two", "three", "two"];
    for cut in 0..bytes.len() {
        let lines = bytes[..cut].iter().filter(|&&b| b == b'\n').count();
        let job = Journal::read(&bytes[..cut]).job();
        let expected = lines.checked_sub(1).map(|n| titles[n].to_owned());
        assert_eq!(job.map(|j| j.title), expected, "cut at {cut}");
    }
}

#[test]
fn a_damaged_byte_is_never_taken_for_a_change() {
    let (bytes, _) = file();
    for place in 0..bytes.len() {
        let mut damaged = bytes.clone();
        damaged[place] ^= 1;
        let journal = Journal::read(&damaged);
        assert!(!journal.whole, "byte {place}");
        let said = journal.job().map(|job| job.title);
        let said = said.as_deref();
        assert!(matches!(
            said,
            None | Some("start" | "one" | "two" | "three")
        ));
    }
}

/// The same, with the line of that number spoilt.
fn spoilt(bytes: &[u8], line: usize) -> Vec<u8> {
    let lines = bytes.split_inclusive(|&b| b == b'\n').enumerate();
    let spoil = |(at, line_bytes): (usize, &[u8])| {
        let mut own = line_bytes.to_vec();
        if at == line {
            own[0] ^= 1;
        }
        own
    };
    lines.flat_map(spoil).collect()
}

#[test]
fn a_damaged_step_before_the_job_costs_that_step_and_those_before() {
    let (bytes, job) = file();
    let journal = Journal::read(&bytes);
    let text = write(&job).expect("a job can be written");
    let whole = afresh(&journal.history, &text, &[]).expect("a history can be written");
    let journal = Journal::read(&spoilt(whole.as_bytes(), 0));
    assert!(!journal.whole);
    assert_eq!(journal.job(), Some(job));
    assert_eq!(journal.history.done().len(), 1);
}

#[test]
fn what_follows_a_damaged_line_leads_on_from_a_file_written_after_it() {
    let (bytes, job) = file();
    let mut two = job.clone();
    two.title = "two".to_owned();
    let print = |job: &Job| Print::of(write(job).expect("a job can be written").as_bytes());
    let mut three = job.clone();
    three.title = "three".to_owned();
    // Lines: now, one, two, three, undid. The second change is lost.
    let journal = Journal::read(&spoilt(&bytes, 2)).for_file(print(&three));
    assert!(!journal.whole);
    assert_eq!(journal.job_after(&three, print(&three)), Some(two));
    // A file from before the damage has what can be had up to there.
    let mut one = job;
    one.title = "one".to_owned();
    let journal = Journal::read(&spoilt(&bytes, 2)).for_file(print(&one));
    assert_eq!(journal.job(), Some(one));
}

#[test]
fn a_key_that_lies_deep_goes_through_the_history() {
    let deep = |levels: usize| {
        let open = "{\"a\":".repeat(levels);
        let close = "}".repeat(levels);
        format!(
            r#"{{"format":"tautmark-job","version":1,"title":"deep","runs":[{{"id":"R","x":{open}1{close}}}]}}"#
        )
    };
    let deepest = (1..128).rev().find_map(|levels| read(&deep(levels)).ok());
    let mut job = deepest.expect("some depth is read").job;
    let mut history = History::default();
    let remove = Edit::Many(vec![Edit::Run(crate::job::edit::Change::Remove { at: 0 })]);
    history.push(&mut job, remove).expect("there is a run");
    let text = write(&job).expect("a job can be written");
    let file = afresh(&history, &text, &[]).expect("a history can be written");
    let journal = Journal::read(file.as_bytes());
    assert!(journal.whole);
    assert_eq!(journal.job(), Some(job));
}

#[test]
fn a_step_of_many_keystrokes_goes_through_the_history() {
    let mut job = Job::new("start");
    let mut history = History::default();
    for n in 0..300 {
        history
            .amend(&mut job, title(&format!("t{n}")))
            .expect("a title");
        let notes = Edit::Set(Setting::Notes(format!("n{n}")));
        history.amend(&mut job, notes).expect("notes");
    }
    let text = write(&job).expect("a job can be written");
    let file = afresh(&history, &text, &[]).expect("a history can be written");
    let journal = Journal::read(file.as_bytes());
    assert!(journal.whole);
    let mut history = journal.history;
    history.undo(&mut job).expect("undo");
    assert_eq!(job, Job::new("start"));
}
