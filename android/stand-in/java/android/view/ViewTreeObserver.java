package android.view;

import java.util.ArrayList;
import java.util.List;

/** Says when the window is laid out anew, as API 29 is told of its insets. */
public final class ViewTreeObserver {
    private final List<OnGlobalLayoutListener> listeners = new ArrayList<>();

    /** Hears of it. */
    public interface OnGlobalLayoutListener {
        void onGlobalLayout();
    }

    public synchronized void addOnGlobalLayoutListener(OnGlobalLayoutListener listener) {
        listeners.add(listener);
    }

    public synchronized void laidOut() {
        for (OnGlobalLayoutListener one : listeners) {
            one.onGlobalLayout();
        }
    }
}
