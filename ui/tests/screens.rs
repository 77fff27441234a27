//! Draws every place on every kind of screen into `target/screens`, to be looked at.

mod orchard;

use orchard::{Site, scenes};
use slint::{ComponentHandle, Global};
use std::{fs, io::BufWriter, path::PathBuf};
use tautmark_ui::{Theme, ThemeMode};

fn draw(width: f32, height: f32, text: f32) {
    let site = Site::open(width, height);
    Theme::get(&site.app).set_scale(text);
    let size = if text > 1.0 {
        format!("{width}x{height}-large")
    } else {
        format!("{width}x{height}")
    };
    for scene in scenes() {
        let mut grounds = Vec::new();
        for (mode, name) in [(ThemeMode::Day, "day"), (ThemeMode::Night, "night")] {
            site.go(&scene, mode);
            let picture = site
                .app
                .window()
                .take_snapshot()
                .expect("drawn without a screen");
            assert_eq!(
                (picture.width(), picture.height()),
                (width as u32, height as u32),
                "{}",
                scene.name
            );
            let inks: std::collections::HashSet<_> =
                picture.as_slice().iter().map(|p| (p.r, p.g, p.b)).collect();
            assert!(inks.len() > 8, "{} is blank", scene.name);
            grounds.push(picture.as_slice()[0]);
            save(&format!("{size}-{}-{name}", scene.name), &picture);
        }
        assert_ne!(
            grounds[0], grounds[1],
            "{}: day and night look alike",
            scene.name
        );
    }
}

fn save(name: &str, picture: &slint::SharedPixelBuffer<slint::Rgba8Pixel>) {
    let folder = std::env::var_os("CARGO_TARGET_DIR")
        .map_or_else(
            || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../target"),
            PathBuf::from,
        )
        .join("screens");
    fs::create_dir_all(&folder).expect("the target folder can be written");
    let file =
        fs::File::create(folder.join(format!("{name}.png"))).expect("a picture can be written");
    let mut encoder = png::Encoder::new(BufWriter::new(file), picture.width(), picture.height());
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().expect("a head of a picture");
    writer
        .write_image_data(picture.as_bytes())
        .expect("the pixels of a picture");
}

#[test]
fn smallest_phone() {
    draw(320.0, 568.0, 1.0);
}

#[test]
fn small_phone() {
    draw(360.0, 800.0, 1.0);
}

#[test]
fn large_phone() {
    draw(412.0, 915.0, 1.0);
}

#[test]
fn phone_on_its_side() {
    draw(915.0, 412.0, 1.0);
}

#[test]
fn tablet_or_desktop() {
    draw(1280.0, 800.0, 1.0);
}

#[test]
fn phone_with_larger_text() {
    draw(412.0, 915.0, 1.3);
}
