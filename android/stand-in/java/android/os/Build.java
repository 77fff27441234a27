package android.os;

/** Which Android this is. */
public class Build {
    /** Its API level, which the driver sets. */
    public static class VERSION {
        public static int SDK_INT = 36;
    }

    /** The levels by name. */
    public static class VERSION_CODES {
        public static final int R = 30;
        public static final int UPSIDE_DOWN_CAKE = 34;
    }
}
