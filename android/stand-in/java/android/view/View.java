package android.view;

import android.content.Context;
import android.content.res.Configuration;
import android.graphics.Rect;
import android.os.IBinder;

/** A part of the window; the toolkit's own is told of night and of the size of words. */
public class View {
    public static final int VISIBLE = 0;

    public WindowInsets insets;
    public Rect bounds = new Rect();
    private final Context context;
    private OnApplyWindowInsetsListener listener;

    /** Hears of what lies over the window. */
    public interface OnApplyWindowInsetsListener {
        WindowInsets onApplyWindowInsets(View view, WindowInsets insets);
    }

    public View(Context context) {
        this.context = context;
    }

    public void told(WindowInsets now) {
        if (listener != null) {
            listener.onApplyWindowInsets(this, now);
        }
        observer.laidOut();
    }

    public void configured(Configuration now) {
        onConfigurationChanged(now);
    }

    protected void onConfigurationChanged(Configuration now) {}

    public void setOnApplyWindowInsetsListener(OnApplyWindowInsetsListener listener) {
        this.listener = listener;
    }

    public void setWindowInsetsAnimationCallback(WindowInsetsAnimation.Callback callback) {}

    private final ViewTreeObserver observer = new ViewTreeObserver();

    public ViewTreeObserver getViewTreeObserver() {
        return observer;
    }

    public WindowInsets getRootWindowInsets() {
        return insets;
    }

    public void getWindowVisibleDisplayFrame(Rect into) {
        into.left = bounds.left;
        into.top = bounds.top;
        into.right = bounds.right;
        into.bottom = bounds.bottom - (insets == null ? 0 : insets.keyboard.bottom);
    }

    public View getRootView() {
        return this;
    }

    public Context getContext() {
        return context;
    }

    public int getLeft() {
        return bounds.left;
    }

    public int getTop() {
        return bounds.top;
    }

    public int getRight() {
        return bounds.right;
    }

    public int getBottom() {
        return bounds.bottom;
    }

    public int getHeight() {
        return bounds.bottom - bounds.top;
    }

    public void setFocusable(boolean can) {}

    public void setFocusableInTouchMode(boolean can) {}

    public void setVisibility(int visibility) {}

    public boolean requestFocus() {
        return true;
    }

    public void clearFocus() {}

    public IBinder getWindowToken() {
        return null;
    }

    public boolean onCheckIsTextEditor() {
        return false;
    }

    public boolean onTouchEvent(MotionEvent event) {
        return false;
    }

    public ActionMode startActionMode(ActionMode.Callback2 callback, int kind) {
        return null;
    }

    public ActionMode startActionMode(ActionMode.Callback callback, int kind) {
        return null;
    }

    public android.view.inputmethod.InputConnection onCreateInputConnection(
            android.view.inputmethod.EditorInfo attributes) {
        return null;
    }
}
