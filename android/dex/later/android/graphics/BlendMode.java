package android.graphics;

/** API 29. */
public enum BlendMode {
    SRC_IN
}
