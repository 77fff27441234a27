package android.content;

import android.database.Cursor;
import android.database.MatrixCursor;
import android.net.Uri;
import android.provider.OpenableColumns;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.FileNotFoundException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.LinkedHashMap;
import java.util.Map;

/** Files in other programs' keeping, and the downloads. */
public class ContentResolver {
    public static final String SCHEME_CONTENT = "content";

    /** A file of another program's. */
    public static final class Kept {
        public final String name;
        public final InputStream stream;

        public Kept(String name, InputStream stream) {
            this.name = name;
            this.stream = stream;
        }

        public Kept(String name, byte[] bytes) {
            this(name, new ByteArrayInputStream(bytes));
        }
    }

    public static final Map<String, Kept> KEPT = new LinkedHashMap<>();
    /** What was put among the downloads, and what is known of it. */
    public static final Map<String, ByteArrayOutputStream> DOWNLOADS = new LinkedHashMap<>();
    public static final Map<String, Map<String, Object>> KNOWN = new LinkedHashMap<>();

    public ContentResolver(Context context) {}

    private static Kept kept(Uri address) throws FileNotFoundException {
        Kept kept = KEPT.get(address.toString());
        if (kept == null) {
            throw new FileNotFoundException(address.toString());
        }
        return kept;
    }

    public InputStream openInputStream(Uri address) throws FileNotFoundException {
        return kept(address).stream;
    }

    public Cursor query(Uri address, String[] wanted, String where, String[] args, String order) {
        try {
            MatrixCursor rows = new MatrixCursor(new String[] {OpenableColumns.DISPLAY_NAME});
            rows.newRow().add(kept(address).name);
            return rows;
        } catch (FileNotFoundException gone) {
            return null;
        }
    }

    public Uri insert(Uri into, ContentValues values) {
        String address = "content://downloads/" + DOWNLOADS.size();
        DOWNLOADS.put(address, new ByteArrayOutputStream());
        KNOWN.put(address, new LinkedHashMap<>(values.all));
        return Uri.parse(address);
    }

    public OutputStream openOutputStream(Uri address) throws FileNotFoundException {
        return DOWNLOADS.get(address.toString());
    }

    public int update(Uri address, ContentValues values, String where, String[] args) {
        KNOWN.get(address.toString()).putAll(values.all);
        return 1;
    }

    public int delete(Uri address, String where, String[] args) {
        DOWNLOADS.remove(address.toString());
        return 1;
    }
}
