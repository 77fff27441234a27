package android.util;

/** The system's log. */
public final class Log {
    public static int w(String tag, Throwable what) {
        System.err.println(tag + ": " + what);
        return 0;
    }
}
