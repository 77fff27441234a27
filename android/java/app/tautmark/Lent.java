package app.tautmark;

import android.content.ContentProvider;
import android.content.ContentResolver;
import android.content.ContentValues;
import android.content.Context;
import android.database.Cursor;
import android.database.MatrixCursor;
import android.net.Uri;
import android.os.ParcelFileDescriptor;
import android.provider.OpenableColumns;
import android.webkit.MimeTypeMap;
import java.io.File;
import java.io.FileNotFoundException;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.List;

/**
 * Files that are shared: copies in the app's own cache, each readable by the one program it was given to.
 * They are gone a day later, or as soon as the system wants the room.
 */
public final class Lent extends ContentProvider {
    private static final String AUTHORITY = "app.tautmark.lent";
    /** How long another program may take to read a file, milliseconds. */
    private static final long KEPT = 24 * 60 * 60 * 1000L;

    /** Keeps a copy of a file and gives its address. */
    static Uri put(Context app, String name, byte[] bytes) throws IOException {
        File all = folder(app);
        long now = System.currentTimeMillis();
        discard(all.listFiles(), now - KEPT);
        // A folder to each, so that two files of one name stay two.
        File own = new File(all, Long.toString(now));
        if (!own.isDirectory() && !own.mkdirs()) {
            throw new IOException("no place for a copy");
        }
        File copy = new File(own, new File(name).getName());
        try (OutputStream out = new FileOutputStream(copy)) {
            out.write(bytes);
        } catch (IOException wrong) {
            copy.delete();
            throw wrong;
        }
        return new Uri.Builder()
                .scheme(ContentResolver.SCHEME_CONTENT)
                .authority(AUTHORITY)
                .appendPath(own.getName())
                .appendPath(copy.getName())
                .build();
    }

    private static File folder(Context app) {
        return new File(app.getCacheDir(), "lent");
    }

    private static void discard(File[] shares, long before) {
        if (shares == null) {
            return;
        }
        for (File share : shares) {
            if (share.lastModified() < before) {
                File[] copies = share.listFiles();
                if (copies != null) {
                    for (File copy : copies) {
                        copy.delete();
                    }
                }
                share.delete();
            }
        }
    }

    private File file(Uri address) throws FileNotFoundException {
        List<String> path = address.getPathSegments();
        if (path.size() == 2 && !path.contains("..")) {
            File own = new File(folder(getContext()), new File(path.get(0)).getName());
            File copy = new File(own, new File(path.get(1)).getName());
            if (copy.isFile()) {
                return copy;
            }
        }
        throw new FileNotFoundException("this file is not lent any more");
    }

    @Override
    public boolean onCreate() {
        return true;
    }

    @Override
    public ParcelFileDescriptor openFile(Uri address, String mode) throws FileNotFoundException {
        if (!"r".equals(mode)) {
            throw new FileNotFoundException("this file is only lent to be read");
        }
        return ParcelFileDescriptor.open(file(address), ParcelFileDescriptor.MODE_READ_ONLY);
    }

    @Override
    public Cursor query(Uri address, String[] wanted, String where, String[] args, String order) {
        String[] columns = wanted != null
                ? wanted
                : new String[] {OpenableColumns.DISPLAY_NAME, OpenableColumns.SIZE};
        MatrixCursor rows = new MatrixCursor(columns);
        try {
            File copy = file(address);
            MatrixCursor.RowBuilder row = rows.newRow();
            for (String column : columns) {
                row.add(OpenableColumns.DISPLAY_NAME.equals(column)
                        ? copy.getName()
                        : OpenableColumns.SIZE.equals(column) ? copy.length() : null);
            }
        } catch (FileNotFoundException gone) {
            android.util.Log.w("tautmark", gone);
        }
        return rows;
    }

    @Override
    public String getType(Uri address) {
        String name = String.valueOf(address.getLastPathSegment());
        String ending = name.substring(name.lastIndexOf('.') + 1);
        String type = MimeTypeMap.getSingleton().getMimeTypeFromExtension(ending);
        return type != null ? type : "application/octet-stream";
    }

    @Override
    public Uri insert(Uri address, ContentValues values) {
        throw new UnsupportedOperationException();
    }

    @Override
    public int update(Uri address, ContentValues values, String where, String[] args) {
        throw new UnsupportedOperationException();
    }

    @Override
    public int delete(Uri address, String where, String[] args) {
        throw new UnsupportedOperationException();
    }
}
