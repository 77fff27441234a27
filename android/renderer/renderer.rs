//! Draws the window on Android, in the place of `i-slint-renderer-skia`.
//!
//! Slint's backend for Android names that renderer as a concrete type, and no feature takes it out.
//! It needs a library of C++ that is fetched ready made or built with a compiler and a kit of its own.
//! Here are the same few names over Slint's software renderer, as on the desktop: nothing but Rust is
//! built, and a page looks the same on both. They are not a public interface, so that every version
//! of Slint may ask for other ones: `tests/pinned.rs` says what to do then.
#![cfg(target_os = "android")]

use i_slint_core::api::{PhysicalSize, PlatformError};
use i_slint_core::graphics::{BitmapFont, FontRequest, RequestedGraphicsAPI};
use i_slint_core::item_rendering::{HasFont, ItemRenderer, RenderString};
use i_slint_core::item_tree::ItemTreeRef;
use i_slint_core::items::{FontMetrics, ItemRc, ItemRef, TextCursorAffinity, TextInput, TextWrap};
use i_slint_core::lengths::{LogicalLength, LogicalPoint, LogicalRect, LogicalSize};
use i_slint_core::partial_renderer::DirtyRegion;
use i_slint_core::renderer::{ContentWidths, DrawOutcome, RendererSealed};
use i_slint_core::textlayout::sharedparley::TextLayoutCache;
use i_slint_core::window::WindowAdapter;
use i_slint_renderer_software::{
    PhysicalRegion, PremultipliedRgbaColor, RepaintBufferType, SoftwareRenderer,
};
use ndk::hardware_buffer_format::HardwareBufferFormat;
use ndk::native_window::{NativeWindow, NativeWindowBufferLockGuard, Rect};
use raw_window_handle::{HasDisplayHandle, HasWindowHandle, RawWindowHandle};
use std::cell::{Cell, RefCell};
use std::error::Error;
use std::path::Path;
use std::pin::Pin;
use std::rc::Rc;
use std::sync::Arc;

/// What several windows would share: nothing, and there is one.
#[derive(Default)]
pub struct SkiaSharedContext;

/// Draws into memory of its own, and copies what has changed into the window's next buffer.
pub struct SkiaRenderer {
    drawing: SoftwareRenderer,
    window: RefCell<Option<NativeWindow>>,
    frame: RefCell<Frame>,
    /// What is drawn in the frame and not on the screen yet.
    owed: Cell<Option<Rect>>,
}

/// The last picture: rows of `width` pixels.
#[derive(Default)]
struct Frame {
    width: usize,
    height: usize,
    pixels: Vec<PremultipliedRgbaColor>,
}

impl SkiaRenderer {
    #[allow(clippy::should_implement_trait)]
    pub fn default(_: &SkiaSharedContext) -> Self {
        Self {
            drawing: SoftwareRenderer::new_with_repaint_buffer_type(
                RepaintBufferType::ReusedBuffer,
            ),
            window: RefCell::default(),
            frame: RefCell::default(),
            owed: Cell::default(),
        }
    }

    /// Takes a window that the system has made, or made anew after the app was out of sight.
    pub fn set_window_handle(
        &self,
        window: Arc<dyn HasWindowHandle + Send + Sync>,
        _: Arc<dyn HasDisplayHandle + Send + Sync>,
        _: PhysicalSize,
        _: Option<RequestedGraphicsAPI>,
        _: bool,
    ) -> Result<(), PlatformError> {
        let handle = window.window_handle();
        let handle = handle.map_err(|error| PlatformError::Other(error.to_string()))?;
        let RawWindowHandle::AndroidNdk(raw) = handle.as_raw() else {
            return Err("this is not a window of Android's".into());
        };
        // Safety: the handle is borrowed from a window that is alive.
        let window = unsafe { NativeWindow::clone_from_ptr(raw.a_native_window.cast()) };
        window
            .set_buffers_geometry(0, 0, Some(HardwareBufferFormat::R8G8B8X8_UNORM))
            .map_err(|error| PlatformError::Other(error.to_string()))?;
        self.window.replace(Some(window));
        // Nothing of what was drawn is in its buffers.
        let frame = self.frame.borrow();
        self.owed.set(frame.whole());
        Ok(())
    }

    pub fn suspend(&self) -> Result<(), PlatformError> {
        self.window.take();
        Ok(())
    }
}

/// The one way in which the backend asks for a frame.
pub trait SkiaRendererExt {
    fn render_transformed_with_post_callback(
        &self,
        rotation_angle_degrees: f32,
        translation: (f32, f32),
        surface_size: PhysicalSize,
        post_render_cb: Option<&dyn Fn(&mut dyn ItemRenderer)>,
    ) -> Result<DrawOutcome, PlatformError>;
}

impl SkiaRendererExt for SkiaRenderer {
    /// The backend asks for no turn and no shift: the window is drawn as large as it is.
    fn render_transformed_with_post_callback(
        &self,
        _: f32,
        _: (f32, f32),
        size: PhysicalSize,
        _: Option<&dyn Fn(&mut dyn ItemRenderer)>,
    ) -> Result<DrawOutcome, PlatformError> {
        let window = self.window.borrow();
        let Some(window) = window.as_ref() else {
            return Ok(DrawOutcome::Skipped);
        };
        let mut frame = self.frame.borrow_mut();
        if frame.resize(size) {
            self.draw_afresh();
            self.owed.set(frame.whole());
        }
        if frame.pixels.is_empty() {
            return Ok(DrawOutcome::Skipped);
        }
        let width = frame.width;
        let drawn = self.drawing.render(&mut frame.pixels, width);
        let Some(mut part) = joined(self.owed.get(), extent(&drawn)) else {
            return Ok(DrawOutcome::Success);
        };
        self.owed.set(Some(part));
        // The window may go away at any time; the part is owed until there is one again. The system
        // fills the rest from the last buffer, or makes the part larger where it cannot.
        let Ok(mut buffer) = window.lock(Some(&mut part)) else {
            return Ok(DrawOutcome::Skipped);
        };
        frame.copy(part, &mut buffer);
        self.owed.set(None);
        Ok(DrawOutcome::Success)
    }
}

impl SkiaRenderer {
    /// Forgets what the frame holds: a change of the kind of buffer is what clears the renderer's memory.
    fn draw_afresh(&self) {
        for kind in [
            RepaintBufferType::NewBuffer,
            RepaintBufferType::ReusedBuffer,
        ] {
            self.drawing.set_repaint_buffer_type(kind);
        }
    }
}

impl Frame {
    /// Whether the size is another one, so that nothing of the last picture is of use.
    fn resize(&mut self, size: PhysicalSize) -> bool {
        let (width, height) = (size.width as usize, size.height as usize);
        if (width, height) == (self.width, self.height) {
            return false;
        }
        *self = Self {
            width,
            height,
            pixels: vec![PremultipliedRgbaColor::default(); width * height],
        };
        true
    }

    fn whole(&self) -> Option<Rect> {
        (!self.pixels.is_empty()).then_some(Rect {
            left: 0,
            top: 0,
            right: self.width as i32,
            bottom: self.height as i32,
        })
    }

    /// Copies a part into a buffer of the window, which may be of another size while it is turned.
    fn copy(&self, part: Rect, buffer: &mut NativeWindowBufferLockGuard<'_>) {
        let within = |value: i32, most: usize| (value.max(0) as usize).min(most);
        let (columns, rows) = (
            self.width.min(buffer.width()),
            self.height.min(buffer.height()),
        );
        let (left, right) = (within(part.left, columns), within(part.right, columns));
        let (top, bottom) = (within(part.top, rows), within(part.bottom, rows));
        let stride = buffer.stride();
        let bits = buffer.bits().cast::<PremultipliedRgbaColor>();
        for row in top..bottom {
            let from = &self.pixels[row * self.width..][left..right.max(left)];
            // Safety: the buffer is locked, and has rows of `stride` pixels of four bytes.
            unsafe {
                bits.add(row * stride + left)
                    .copy_from_nonoverlapping(from.as_ptr(), from.len());
            }
        }
    }
}

/// The smallest part that holds all of a region; none where nothing was drawn.
fn extent(region: &PhysicalRegion) -> Option<Rect> {
    let (at, size) = (region.bounding_box_origin(), region.bounding_box_size());
    (size.width > 0 && size.height > 0).then_some(Rect {
        left: at.x,
        top: at.y,
        right: at.x + size.width as i32,
        bottom: at.y + size.height as i32,
    })
}

fn joined(one: Option<Rect>, other: Option<Rect>) -> Option<Rect> {
    let (Some(a), Some(b)) = (one, other) else {
        return one.or(other);
    };
    Some(Rect {
        left: a.left.min(b.left),
        top: a.top.min(b.top),
        right: a.right.max(b.right),
        bottom: a.bottom.max(b.bottom),
    })
}

/// What the toolkit asks of any renderer, asked of the software one.
impl RendererSealed for SkiaRenderer {
    fn text_layout_cache(&self) -> Option<&TextLayoutCache> {
        RendererSealed::text_layout_cache(&self.drawing)
    }

    fn text_size(
        &self,
        text: Pin<&dyn RenderString>,
        item: &ItemRc,
        widest: Option<LogicalLength>,
        wrap: TextWrap,
    ) -> LogicalSize {
        self.drawing.text_size(text, item, widest, wrap)
    }

    fn text_content_widths(
        &self,
        text: Pin<&dyn RenderString>,
        item: &ItemRc,
    ) -> Option<ContentWidths> {
        self.drawing.text_content_widths(text, item)
    }

    fn text_line_height(&self, font: FontRequest) -> Option<LogicalLength> {
        self.drawing.text_line_height(font)
    }

    fn char_size(&self, text: Pin<&dyn HasFont>, item: &ItemRc, letter: char) -> LogicalSize {
        self.drawing.char_size(text, item, letter)
    }

    fn font_metrics(&self, font: FontRequest) -> FontMetrics {
        self.drawing.font_metrics(font)
    }

    fn text_input_byte_offset_for_position(
        &self,
        input: Pin<&TextInput>,
        item: &ItemRc,
        position: LogicalPoint,
    ) -> (usize, TextCursorAffinity) {
        self.drawing
            .text_input_byte_offset_for_position(input, item, position)
    }

    fn text_input_cursor_rect_for_byte_offset(
        &self,
        input: Pin<&TextInput>,
        item: &ItemRc,
        at: usize,
        affinity: TextCursorAffinity,
    ) -> LogicalRect {
        self.drawing
            .text_input_cursor_rect_for_byte_offset(input, item, at, affinity)
    }

    fn text_input_has_parley_layout(&self, input: Pin<&TextInput>, item: &ItemRc) -> bool {
        self.drawing.text_input_has_parley_layout(input, item)
    }

    fn free_graphics_resources(
        &self,
        component: ItemTreeRef,
        items: &mut dyn Iterator<Item = Pin<ItemRef<'_>>>,
    ) -> Result<(), PlatformError> {
        self.drawing.free_graphics_resources(component, items)
    }

    fn mark_dirty_region(&self, region: DirtyRegion) {
        self.drawing.mark_dirty_region(region);
    }

    fn register_font_from_memory(&self, font: &'static [u8]) -> Result<(), Box<dyn Error>> {
        self.drawing.register_font_from_memory(font)
    }

    fn register_font_from_path(&self, font: &Path) -> Result<(), Box<dyn Error>> {
        self.drawing.register_font_from_path(font)
    }

    fn register_bitmap_font(&self, font: &'static BitmapFont) {
        self.drawing.register_bitmap_font(font);
    }

    fn set_window_adapter(&self, window: &Rc<dyn WindowAdapter>) {
        self.drawing.set_window_adapter(window);
    }

    fn window_adapter(&self) -> Option<Rc<dyn WindowAdapter>> {
        self.drawing.window_adapter()
    }

    fn supports_transformations(&self) -> bool {
        self.drawing.supports_transformations()
    }
}
