//! Nothing is lost: what happens under a hand when the disk fails, when a job is open elsewhere, and
//! when jobs are deleted, brought in or taken back to how they were.

#[path = "../memory_disk/mod.rs"]
mod memory_disk;

use memory_disk::{Effect, Fault, MemoryDisk};
use slint::platform::WindowEvent;
use slint::{ComponentHandle, Global};
use std::io::ErrorKind;
use tautmark::job::reading::Measure;
use tautmark::job::{self, Job};
use tautmark::store::{Jobs, OpenJob};
use tautmark_app_tests::{Hand, settle, wait};
use tautmark_ui::{FrameVm, Page, Place};

const FULL: &str = "The disk is full. Your changes are in this window only.";

fn full() -> Fault {
    Fault {
        from: 0,
        until: usize::MAX,
        kind: ErrorKind::StorageFull,
        effect: Effect::Nothing,
    }
}

/// The app on the example, on a disk that can be made to fail.
fn example_on_disk() -> (MemoryDisk, Hand) {
    let disk = MemoryDisk::default();
    let hand = Hand::on_disk(disk.clone());
    hand.press("Open the example");
    (disk, hand)
}

fn enter(hand: &Hand, reading: &str, figure: &str) {
    hand.press(reading);
    hand.press("Enter its figure");
    hand.keys(figure);
    hand.press("Next");
}

fn length(job: &Job, at: usize) -> Option<f64> {
    match job.readings[at].what {
        Measure::Tape { length, .. } => length,
        _ => None,
    }
}

/// The jobs as they are found after a power cut.
fn on_disk(disk: &MemoryDisk) -> Vec<Job> {
    let jobs = Jobs::on(disk.after_power_cut());
    let all = jobs.list().expect("the list can be read");
    let open = |key| jobs.open(key).expect("the job opens");
    all.iter()
        .map(|one| OpenJob::job(&open(&one.key)).clone())
        .collect()
}

#[test]
fn a_full_disk_is_said_everywhere_until_all_is_written() {
    let (disk, hand) = example_on_disk();
    assert!(!hand.says(FULL));
    disk.fail(Some(full()));
    enter(&hand, "A to C", "10882");
    assert!(hand.says(FULL), "{:?}", hand.labels());
    hand.picture("live-disk-full");
    for (place, page) in [
        (Place::Walls, Page::Walls),
        (Place::Lines, Page::Lines),
        (Place::Posts, Page::Posts),
        (Place::Levels, Page::Levels),
        (Place::Boards, Page::Boards),
    ] {
        hand.go(place, page);
        assert!(hand.says(FULL), "{place:?}");
    }
    for page in [
        Page::Jobs,
        Page::Bin,
        Page::About,
        Page::Sheet,
        Page::Settings,
        Page::Corner,
    ] {
        hand.go(Place::Lines, page);
        assert!(hand.says(FULL), "{page:?}");
    }
    wait(10);
    assert!(hand.says(FULL), "it stays");

    hand.go(Place::Walls, Page::Walls);
    enter(&hand, "B to C", "7631");
    let job = hand.saved();
    assert_eq!(on_disk(&disk)[0].readings, job::example().readings);

    disk.fail(None);
    wait(4);
    assert!(!hand.says(FULL), "{:?}", hand.labels());
    assert!(hand.says("Everything is saved."));
    assert_eq!(on_disk(&disk), [job]);
}

#[test]
fn trying_now_does_not_wait() {
    let (disk, hand) = example_on_disk();
    disk.fail(Some(full()));
    enter(&hand, "A to C", "10882");
    hand.press("Try now");
    assert!(hand.says(FULL));
    disk.fail(None);
    hand.press("Try now");
    assert!(!hand.says(FULL));
}

#[test]
fn a_job_that_could_not_be_written_waits_until_it_can() {
    let (disk, hand) = example_on_disk();
    hand.press("Orchard corner screen");
    hand.press("New job");
    hand.press("One wall");
    hand.press("Leave this figure");
    disk.fail(Some(full()));
    hand.press("A to B");
    hand.press("Enter its figure");
    hand.keys("3650");
    hand.press("Next");
    // The other job takes its place; what could not be written is not let go of.
    hand.press("One wall");
    disk.fail(None);
    let reading = disk.clone();
    hand.press("Orchard corner screen");
    reading.fail(Some(full()));
    wait(1);
    disk.fail(None);
    wait(4);
    let jobs = on_disk(&disk);
    let wall = jobs
        .iter()
        .find(|job| job.title == "One wall")
        .expect("it is there");
    assert_eq!(length(wall, 0), Some(3650.0));
}

#[test]
fn a_new_job_on_a_full_disk_is_in_the_list_and_kept_in_the_end() {
    let disk = MemoryDisk::default();
    let hand = Hand::on_disk(disk.clone());
    disk.fail(Some(full()));
    hand.press("New job");
    hand.press("One wall");
    hand.keys("3650");
    hand.press("Next");
    hand.press("One wall");
    assert_eq!(hand.here().1, Page::Jobs);
    assert!(hand.says(FULL));
    hand.press("One wall");
    assert_eq!(hand.here().1, Page::Walls);
    disk.fail(None);
    wait(4);
    assert_eq!(length(&on_disk(&disk)[0], 0), Some(3650.0));
}

#[test]
fn closing_waits_for_the_disk_or_for_a_word() {
    let (disk, hand) = example_on_disk();
    disk.fail(Some(full()));
    enter(&hand, "A to C", "10882");
    let window = hand.app.window();
    window.dispatch_event(WindowEvent::CloseRequested);
    settle();
    assert!(window.is_visible());
    assert!(hand.says("Not everything is saved"));
    hand.press("Leave it");
    assert!(window.is_visible());
    window.dispatch_event(WindowEvent::CloseRequested);
    settle();
    hand.press("Close all the same");
    assert!(!window.is_visible());
}

#[test]
fn closing_with_all_on_the_disk_just_closes() {
    let (disk, hand) = example_on_disk();
    enter(&hand, "A to C", "10882");
    hand.app
        .window()
        .dispatch_event(WindowEvent::CloseRequested);
    assert!(!hand.app.window().is_visible());
    let jobs = Jobs::on(disk.after_power_cut());
    let file = &jobs.list().expect("a list")[0].key;
    let bytes = jobs.send_out(file).expect("the file");
    let text = String::from_utf8(bytes).expect("text");
    assert!(text.contains("10882"), "the file itself is up to date");
}

#[test]
fn the_file_is_brought_up_to_date_a_second_after_the_last_change() {
    let (disk, hand) = example_on_disk();
    enter(&hand, "A to C", "10882");
    wait(2);
    let path = disk
        .paths()
        .into_iter()
        .find(|path| path.ends_with("/job.json"));
    let bytes = disk.bytes(&path.expect("a job file")).expect("its bytes");
    assert!(String::from_utf8_lossy(&bytes).contains("10882"));
}

#[test]
fn a_job_open_elsewhere_says_so_and_can_be_copied() {
    let disk = MemoryDisk::default();
    let other = Jobs::on(disk.clone()).start(job::example());
    let hand = Hand::on_disk(disk);
    hand.press("Orchard corner screen");
    let shown = "This job is open in another window. It can be viewed here";
    assert!(hand.says(shown), "{:?}", hand.labels());
    hand.go(Place::Boards, Page::Boards);
    assert!(hand.says(shown));
    hand.picture("live-shown-only");
    hand.press("Copy it");
    assert!(!hand.says(shown));
    assert_eq!(hand.saved().title, "Orchard corner screen (copy)");
    enter(&hand, "A to C", "10882");
    assert_ne!(hand.saved().readings, other.job().readings);
}

#[test]
fn a_job_of_a_newer_version_is_copied_only_after_a_word() {
    let disk = MemoryDisk::default();
    let text = job::write(&job::example()).expect("text");
    let text = text.replace("\"version\": 1", "\"version\": 2");
    let jobs = Jobs::on(disk.clone());
    let key = jobs.bring_in(text.as_bytes()).expect("it can be shown");
    let hand = Hand::on_disk(disk);
    hand.press("Orchard corner screen");
    assert!(hand.says("made by a newer version"), "{:?}", hand.labels());
    hand.press("Copy it");
    assert!(hand.says("Compare the two before you build."));
    hand.press("Make the copy");
    enter(&hand, "A to C", "10882");
    assert_eq!(
        length(&hand.saved(), 3),
        Some(10_882.0),
        "{:?}",
        hand.saved().readings
    );
    assert_eq!(jobs.send_out(&key).expect("the first"), text.as_bytes());
}

#[test]
fn deleted_jobs_are_taken_back_or_deleted_for_good() {
    let (disk, hand) = example_on_disk();
    let more = "Copy, rename or delete Orchard corner screen";
    hand.press("Orchard corner screen");
    hand.press(more);
    hand.press("Delete");
    hand.press("Leave it deleted");
    assert!(hand.sees("Open the example"), "the list is empty");
    hand.press("Deleted jobs");
    hand.picture("live-bin");
    hand.press("Orchard corner screen");
    hand.press("Take it back");
    assert!(hand.says("Nothing is deleted."));
    hand.press("Back");
    hand.press(more);
    hand.press("Delete");
    hand.press("Leave it deleted");
    hand.press("Deleted jobs");
    hand.press("Empty the bin");
    hand.press("Leave it");
    assert!(hand.sees("Orchard corner screen"));
    hand.press("Empty the bin");
    hand.press("Delete for good");
    assert!(
        hand.says("One job deleted for good."),
        "{:?}",
        hand.labels()
    );
    assert!(disk.paths().iter().all(|path| !path.starts_with("bin/")));
}

#[test]
fn a_job_is_renamed_from_the_list() {
    let (disk, hand) = example_on_disk();
    hand.press("Orchard corner screen");
    hand.press("New job");
    hand.press("One wall");
    hand.press("Leave this figure");
    hand.press("One wall");
    // One that is not open, and one that is.
    for (from, to) in [
        ("Orchard corner screen", "Long side"),
        ("One wall", "Shed wall"),
    ] {
        hand.press(&format!("Copy, rename or delete {from}"));
        hand.press("Rename");
        hand.write("Name of the job", to);
        hand.press("Back");
        assert!(hand.sees(to), "{:?}", hand.labels());
    }
    let mut titles: Vec<_> = on_disk(&disk).into_iter().map(|job| job.title).collect();
    titles.sort();
    assert_eq!(titles, ["Long side", "Shed wall"]);
}

#[test]
fn a_job_of_ones_own_is_copied_and_the_two_go_their_own_ways() {
    let (disk, hand) = example_on_disk();
    hand.press("Orchard corner screen");
    hand.press("New job");
    hand.press("One wall");
    hand.keys("3650");
    hand.press("Next");
    let first = hand.saved();
    // The one on the desk, then one that is not.
    hand.press("One wall");
    hand.press("Copy, rename or delete One wall");
    hand.press("Copy");
    let copy = hand.saved();
    assert_eq!(copy.title, "One wall (copy)");
    assert_eq!(
        (&copy.readings, &copy.marks),
        (&first.readings, &first.marks)
    );
    enter(&hand, "A to B", "3700");
    wait(2);
    hand.press("One wall (copy)");
    hand.press("Copy, rename or delete Orchard corner screen");
    hand.press("Copy");
    let copy = hand.saved();
    assert_eq!(copy.readings, job::example().readings);
    wait(2);
    let mut jobs = on_disk(&disk);
    jobs.sort_by(|a, b| a.title.cmp(&b.title));
    let lengths: Vec<_> = jobs
        .iter()
        .map(|job| (job.title.as_str(), length(job, 0)))
        .collect();
    let example = Some(3649.0);
    assert_eq!(
        lengths,
        [
            ("One wall", Some(3650.0)),
            ("One wall (copy)", Some(3700.0)),
            ("Orchard corner screen", example),
            ("Orchard corner screen (copy)", example),
        ]
    );
}

#[test]
fn an_earlier_copy_opens_as_a_job_of_its_own() {
    let hand = Hand::on(job::example());
    wait(2);
    let hand = hand.again();
    let before = length(&hand.saved(), 3);
    enter(&hand, "A to C", "10900");
    wait(2);
    hand.press("Orchard corner screen");
    hand.press("Copy, rename or delete Orchard corner screen");
    hand.press("As it was before");
    hand.press("just now");
    let job = hand.saved();
    assert_eq!(job.title, "Orchard corner screen (as it was)");
    assert_eq!(length(&job, 3), before);
}

/// What is in a menu is chosen by its row: an id that no row has is a fault of the program, and no
/// reason to delete anything.
#[test]
fn an_id_that_no_row_of_a_menu_has_does_nothing() {
    let hand = Hand::on(job::example());
    let menus: [(Place, Page, &str); 3] = [
        (
            Place::Walls,
            Page::Jobs,
            "Copy, rename or delete Orchard corner screen",
        ),
        (
            Place::Lines,
            Page::Line,
            "Rename, move or delete this string",
        ),
        (Place::Lines, Page::Corner, "Delete this corner"),
    ];
    for (place, page, more) in menus {
        hand.go(place, page);
        hand.press(more);
        let vm = FrameVm::get(&hand.app);
        assert!(vm.get_menu_open(), "{more}");
        vm.invoke_menu_picked("no such row".into());
        settle();
        assert_eq!(hand.saved(), job::example(), "{more}");
    }
    hand.go(Place::Walls, Page::Jobs);
    assert!(hand.says("Orchard corner screen"), "{:?}", hand.labels());
}
