package android.content;

import java.util.HashMap;
import java.util.Map;

/** Values by name. */
public final class ContentValues {
    public final Map<String, Object> all = new HashMap<>();

    public void put(String name, String value) {
        all.put(name, value);
    }

    public void put(String name, Integer value) {
        all.put(name, value);
    }

    public void clear() {
        all.clear();
    }
}
