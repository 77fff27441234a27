package android.view;

/** What the system calls long. */
public class ViewConfiguration {
    public static int getLongPressTimeout() {
        return 400;
    }
}
