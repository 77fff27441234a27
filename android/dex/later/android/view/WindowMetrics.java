package android.view;

import android.graphics.Rect;

/** API 30. */
public final class WindowMetrics {
    private final Rect bounds;
    private final WindowInsets insets;

    public WindowMetrics(Rect bounds, WindowInsets insets) {
        this.bounds = bounds;
        this.insets = insets;
    }

    public Rect getBounds() {
        return bounds;
    }

    public WindowInsets getWindowInsets() {
        return insets;
    }
}
