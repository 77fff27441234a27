package app.tautmark;

import android.app.NativeActivity;
import android.content.ActivityNotFoundException;
import android.content.ContentResolver;
import android.content.ContentValues;
import android.content.Intent;
import android.database.Cursor;
import android.net.Uri;
import android.os.Bundle;
import android.os.Environment;
import android.provider.MediaStore;
import android.provider.OpenableColumns;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;

/** The window on a phone, and what Android gives only to a window. src/android calls it. */
public final class Main extends NativeActivity {
    private static final int PICK = 1;
    /** No job is nearly as long, bytes. */
    private static final int LONGEST = 64 << 20;

    private Uri brought;
    private boolean answered;

    @Override
    protected void onCreate(Bundle state) {
        // After a restart the file of the first start has been brought in already.
        if (state == null) {
            note(getIntent());
        }
        super.onCreate(state);
    }

    @Override
    protected void onNewIntent(Intent intent) {
        super.onNewIntent(intent);
        note(intent);
    }

    @Override
    protected void onActivityResult(int request, int result, Intent data) {
        super.onActivityResult(request, result, data);
        if (request == PICK) {
            synchronized (this) {
                answered = true;
                brought = result == RESULT_OK && data != null ? data.getData() : null;
            }
        }
    }

    private synchronized void note(Intent intent) {
        if (intent == null || (intent.getFlags() & Intent.FLAG_ACTIVITY_LAUNCHED_FROM_HISTORY) != 0) {
            return;
        }
        Uri file = Intent.ACTION_SEND.equals(intent.getAction())
                ? (Uri) intent.getParcelableExtra(Intent.EXTRA_STREAM)
                : intent.getData();
        if (file != null) {
            brought = file;
        }
    }

    /** Lets the person pick a file; answered when the window is in front again. */
    void pick() {
        runOnUiThread(() -> {
            Intent ask = new Intent(Intent.ACTION_OPEN_DOCUMENT)
                    .addCategory(Intent.CATEGORY_OPENABLE)
                    // Not every program that keeps a job file knows what kind it is.
                    .setType("*/*");
            try {
                startActivityForResult(ask, PICK);
            } catch (ActivityNotFoundException none) {
                onActivityResult(PICK, RESULT_CANCELED, null);
            }
        });
    }

    /** Whether the person has come back from picking; once for each time. */
    synchronized boolean answered() {
        boolean was = answered;
        answered = false;
        return was;
    }

    /** The name and the bytes of the file that was brought, once; null for bytes that cannot be read. */
    Object[] takeBrought() {
        Uri file;
        synchronized (this) {
            file = brought;
            brought = null;
        }
        if (file == null) {
            return null;
        }
        byte[] bytes = null;
        try (InputStream in = getContentResolver().openInputStream(file)) {
            bytes = in == null ? null : all(in);
        } catch (IOException | SecurityException cannot) {
            android.util.Log.w("tautmark", cannot);
        }
        return new Object[] {name(file), bytes};
    }

    private static byte[] all(InputStream in) throws IOException {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        byte[] part = new byte[1 << 16];
        for (int n = in.read(part); n >= 0; n = in.read(part)) {
            all.write(part, 0, n);
            if (all.size() > LONGEST) {
                throw new IOException("too long for a job file");
            }
        }
        return all.toByteArray();
    }

    private String name(Uri file) {
        String[] wanted = {OpenableColumns.DISPLAY_NAME};
        try (Cursor rows = getContentResolver().query(file, wanted, null, null, null)) {
            if (rows != null && rows.moveToFirst() && !rows.isNull(0)) {
                return rows.getString(0);
            }
        } catch (RuntimeException cannot) {
            android.util.Log.w("tautmark", cannot);
        }
        String last = file.getLastPathSegment();
        return last == null ? "" : last;
    }

    /** Keeps a file among the downloads and, to share, offers it to other programs; null, or what is wrong. */
    String handOver(String name, String type, byte[] bytes, boolean share) {
        try {
            Uri kept = keep(name, type, bytes);
            if (share) {
                Intent send = new Intent(Intent.ACTION_SEND)
                        .setType(type)
                        .putExtra(Intent.EXTRA_STREAM, kept)
                        .addFlags(Intent.FLAG_GRANT_READ_URI_PERMISSION);
                runOnUiThread(() -> startActivity(Intent.createChooser(send, name)));
            }
            return null;
        } catch (IOException | RuntimeException wrong) {
            android.util.Log.w("tautmark", wrong);
            return String.valueOf(wrong.getMessage());
        }
    }

    private Uri keep(String name, String type, byte[] bytes) throws IOException {
        ContentResolver files = getContentResolver();
        ContentValues about = new ContentValues();
        about.put(MediaStore.MediaColumns.DISPLAY_NAME, name);
        about.put(MediaStore.MediaColumns.MIME_TYPE, type);
        about.put(MediaStore.MediaColumns.RELATIVE_PATH, Environment.DIRECTORY_DOWNLOADS + "/Tautmark");
        about.put(MediaStore.MediaColumns.IS_PENDING, 1);
        Uri kept = files.insert(MediaStore.Downloads.EXTERNAL_CONTENT_URI, about);
        if (kept == null) {
            throw new IOException("no place among the downloads");
        }
        try (OutputStream out = files.openOutputStream(kept)) {
            if (out == null) {
                throw new IOException("no way into the downloads");
            }
            out.write(bytes);
        } catch (IOException | RuntimeException wrong) {
            files.delete(kept, null, null);
            throw wrong;
        }
        about.clear();
        about.put(MediaStore.MediaColumns.IS_PENDING, 0);
        files.update(kept, about, null, null);
        return kept;
    }
}
