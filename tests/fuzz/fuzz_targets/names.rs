//! Any text as the name of everything: refused, or shown everywhere as what it is.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tautmark::export::{Paper, dxf, pages, svg_plan};
use tautmark::job::{EXAMPLE, ReadError, read, unfit};
use tautmark::sheet::Sheet;
use tautmark::solve;

fn plain(text: &str) {
    assert_eq!(unfit(text), None);
    let turned = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    assert!(!text.contains(turned));
}

fuzz_target!(|name: &str| {
    let mut file: serde_json::Value = serde_json::from_str(EXAMPLE).expect("the example is JSON");
    file["title"] = name.into();
    file["notes"] = name.into();
    file["walls"][0]["name"] = name.into();
    file["runs"][0]["name"] = name.into();
    let text = file.to_string();
    let old = file["marks"][0]["id"].as_str().expect("a name").to_owned();
    let quoted = serde_json::to_string(name).expect("a text");
    let text = text.replace(&format!("\"{old}\""), &quoted);
    let opened = match read(&text) {
        Ok(opened) => opened,
        Err(error) => {
            let keys = matches!(error, ReadError::NotAJob { .. });
            assert!(keys && !error.to_string().contains(char::is_control));
            return;
        }
    };
    let solution = solve(&opened.job);
    let sheet = Sheet::new(&opened.job, &solution);
    plain(&sheet.text());
    plain(&sheet.csv());
    plain(&sheet.html());
    plain(&sheet.message());
    plain(&svg_plan(&opened.job, &solution));
    assert!(dxf(&opened.job, &solution).is_ascii());
    for page in pages(&sheet, Paper::A4) {
        page.ink.labels.iter().for_each(|label| plain(&label.text));
    }
});
