package android.graphics;

/** API 29. */
public final class BlendModeColorFilter extends ColorFilter {
    public BlendModeColorFilter(int colour, BlendMode mode) {}
}
