package android.window;

/** API 33. */
public interface OnBackInvokedCallback {
    void onBackInvoked();
}
