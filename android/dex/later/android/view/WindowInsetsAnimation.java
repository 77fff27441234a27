package android.view;

import java.util.List;

/** API 30. */
public final class WindowInsetsAnimation {
    public abstract static class Callback {
        public static final int DISPATCH_MODE_STOP = 0;
        public static final int DISPATCH_MODE_CONTINUE_ON_SUBTREE = 1;

        public Callback(int mode) {}

        public abstract WindowInsets onProgress(WindowInsets insets, List<WindowInsetsAnimation> running);
    }
}
