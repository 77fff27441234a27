package android.view;

import android.graphics.Insets;

/** What lies over the window: the system's bars with the cut-out, and the keyboard. */
public final class WindowInsets {
    public final Insets bars;
    public final Insets keyboard;

    /** The kinds. */
    public static final class Type {
        public static int systemBars() {
            return 1;
        }

        public static int displayCutout() {
            return 2;
        }

        public static int ime() {
            return 4;
        }
    }

    public WindowInsets(Insets bars, Insets keyboard) {
        this.bars = bars;
        this.keyboard = keyboard;
    }

    public Insets getInsets(int kinds) {
        return (kinds & 1) != 0 ? bars : (kinds & 4) != 0 ? keyboard : Insets.of(0, 0, 0, 0);
    }

    public int getStableInsetLeft() {
        return bars.left;
    }

    public int getStableInsetTop() {
        return bars.top;
    }

    public int getStableInsetRight() {
        return bars.right;
    }

    public int getStableInsetBottom() {
        return bars.bottom;
    }
}
