//! A screen in memory, drawn as the window is: whole, or only where something has changed.

use i_slint_backend_testing::get_mocked_time;
use slint::platform::software_renderer::{
    MinimalSoftwareWindow, PremultipliedRgbaColor, RepaintBufferType,
};
use slint::platform::{Platform, PlatformError, WindowAdapter, set_platform};
use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;

thread_local! {
    static LATEST: RefCell<Option<Rc<MinimalSoftwareWindow>>> = const { RefCell::new(None) };
}

struct InMemory;

impl Platform for InMemory {
    fn create_window_adapter(&self) -> Result<Rc<dyn WindowAdapter>, PlatformError> {
        let window = MinimalSoftwareWindow::new(RepaintBufferType::ReusedBuffer);
        LATEST.set(Some(window.clone()));
        Ok(window)
    }

    /// Time goes on only when it is told to, as in the tests.
    fn duration_since_start(&self) -> Duration {
        Duration::from_millis(get_mocked_time())
    }
}

/// Windows of this thread are drawn in memory from now on.
pub fn prepare() {
    // Refused where this thread has it already, which is as good.
    let _ = set_platform(Box::new(InMemory));
}

/// The window that was made last, and what is seen of it.
pub struct Screen {
    window: Rc<MinimalSoftwareWindow>,
    width: usize,
    pixels: Vec<PremultipliedRgbaColor>,
}

impl Screen {
    /// `size` is the window's, width and height in px.
    pub fn of_latest(size: [f32; 2]) -> Self {
        let window = LATEST.with_borrow(Clone::clone).expect("a window was made");
        let [width, height] = size.map(|size| size as usize);
        let pixels = vec![PremultipliedRgbaColor::default(); width * height];
        Self {
            window,
            width,
            pixels,
        }
    }

    /// Draws every pixel, as after a change of size.
    pub fn draw_whole(&mut self) {
        self.draw(RepaintBufferType::NewBuffer);
    }

    /// Draws what has changed since the last frame, as the window does. Answers the share of the
    /// screen that was drawn.
    pub fn draw_changed(&mut self) -> f32 {
        self.draw(RepaintBufferType::ReusedBuffer)
    }

    fn draw(&mut self, how: RepaintBufferType) -> f32 {
        let mut drawn = 0;
        self.window.request_redraw();
        let pixels = &mut self.pixels;
        self.window.draw_if_needed(|renderer| {
            renderer.set_repaint_buffer_type(how);
            let region = renderer.render(pixels, self.width);
            drawn = region
                .iter()
                .map(|(_, size)| size.width * size.height)
                .sum();
        });
        drawn as f32 / self.pixels.len() as f32
    }

    /// The frame as it stands.
    pub fn pixels(&self) -> Vec<[u8; 4]> {
        let bytes = |of: &PremultipliedRgbaColor| [of.red, of.green, of.blue, of.alpha];
        self.pixels.iter().map(bytes).collect()
    }
}
