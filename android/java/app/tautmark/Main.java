package app.tautmark;

import android.app.NativeActivity;
import android.content.ActivityNotFoundException;
import android.content.ClipData;
import android.content.ContentResolver;
import android.content.ContentValues;
import android.content.Intent;
import android.database.Cursor;
import android.net.Uri;
import android.os.Bundle;
import android.os.Environment;
import android.provider.MediaStore;
import android.provider.OpenableColumns;
import android.speech.tts.TextToSpeech;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.Arrays;
import java.util.Locale;

/** The window on a phone, and what Android gives only to a window. src/android calls it. */
public final class Main extends NativeActivity {
    private static final int PICK = 1;
    /** What is read at once to begin with, bytes: most jobs are shorter. */
    private static final int PART = 1 << 16;

    private Uri brought;
    private boolean cameBack;

    // The voice is of the window's own thread. It comes a while after it is called for, and not before
    // something is to be said.
    private TextToSpeech voice;
    private boolean voiceCame;
    private String toSay;

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
                cameBack = true;
                brought = result == RESULT_OK && data != null ? ofAnother(data.getData()) : null;
            }
        }
    }

    /** Nothing is read aloud out of sight. */
    @Override
    protected void onPause() {
        silence();
        super.onPause();
    }

    @Override
    protected void onDestroy() {
        if (voice != null) {
            voice.shutdown();
        }
        super.onDestroy();
    }

    /** Any program may send anything: what is not a file in another program's keeping is passed over. */
    private synchronized void note(Intent intent) {
        if (intent == null || (intent.getFlags() & Intent.FLAG_ACTIVITY_LAUNCHED_FROM_HISTORY) != 0) {
            return;
        }
        try {
            Object file = null;
            if (Intent.ACTION_SEND.equals(intent.getAction())) {
                file = intent.<android.os.Parcelable>getParcelableExtra(Intent.EXTRA_STREAM);
            } else if (Intent.ACTION_VIEW.equals(intent.getAction())) {
                file = intent.getData();
            }
            Uri usable = file instanceof Uri ? ofAnother((Uri) file) : null;
            if (usable != null) {
                brought = usable;
            }
        } catch (RuntimeException spoilt) {
            android.util.Log.w("tautmark", spoilt);
        }
    }

    /** A path would be read with this program's own rights, so that its own files could be asked for. */
    private static Uri ofAnother(Uri file) {
        return file != null && ContentResolver.SCHEME_CONTENT.equals(file.getScheme()) ? file : null;
    }

    /** Lets the person pick a file; takeBrought has the answer when the window is in front again. */
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

    /**
     * The name and the bytes of the file that was brought, once; no more than one byte over the longest
     * is read. No bytes where they cannot be read, no name where the person came back from picking
     * without one, null where nothing was asked for. Another program may take its time: not for the
     * window's own thread.
     */
    Object[] takeBrought(int longest) {
        Uri file;
        boolean asked;
        synchronized (this) {
            file = brought;
            asked = cameBack;
            brought = null;
            cameBack = false;
        }
        if (file == null) {
            return asked ? new Object[] {null, null} : null;
        }
        byte[] bytes = null;
        try (InputStream in = getContentResolver().openInputStream(file)) {
            bytes = in == null ? null : read(in, longest + 1);
        } catch (IOException | RuntimeException cannot) {
            android.util.Log.w("tautmark", cannot);
        }
        return new Object[] {name(file), bytes};
    }

    /** Whether this phone has a program that reads aloud. */
    boolean hasVoice() {
        try {
            Intent reads = new Intent(TextToSpeech.Engine.INTENT_ACTION_TTS_SERVICE);
            return !getPackageManager().queryIntentServices(reads, 0).isEmpty();
        } catch (RuntimeException cannot) {
            android.util.Log.w("tautmark", cannot);
            return false;
        }
    }

    /** Reads English words aloud, in place of what is being read. */
    void say(String words) {
        runOnUiThread(() -> {
            toSay = words;
            if (voice == null) {
                voice = new TextToSpeech(this, status -> begin(status));
            } else if (voiceCame) {
                speak();
            }
        });
    }

    /** Falls silent. */
    void hush() {
        runOnUiThread(() -> silence());
    }

    private void begin(int status) {
        voiceCame = status == TextToSpeech.SUCCESS && voice != null;
        if (voiceCame) {
            // The voice of the person's own English, where it is theirs.
            Locale own = Locale.getDefault();
            voice.setLanguage(own.getLanguage().equals("en") ? own : Locale.ENGLISH);
            speak();
        }
    }

    private void speak() {
        if (toSay != null) {
            voice.speak(toSay, TextToSpeech.QUEUE_FLUSH, null, "figure");
            toSay = null;
        }
    }

    private void silence() {
        toSay = null;
        if (voice != null) {
            voice.stop();
        }
    }

    private static byte[] read(InputStream in, int most) throws IOException {
        byte[] all = new byte[Math.min(PART, most)];
        int length = 0;
        for (int n = in.read(all); n >= 0; n = in.read(all, length, all.length - length)) {
            length += n;
            if (length == most) {
                break;
            }
            if (length == all.length) {
                all = Arrays.copyOf(all, (int) Math.min(2L * length, most));
            }
        }
        return Arrays.copyOf(all, length);
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

    /** Keeps a file among the downloads; null, or what is wrong. */
    String save(String name, String type, byte[] bytes) {
        try {
            keep(name, type, bytes);
            return null;
        } catch (IOException | RuntimeException wrong) {
            return said(wrong);
        }
    }

    /** Offers a file to other programs; null, or what is wrong. */
    String share(String name, String type, byte[] bytes) {
        try {
            Uri lent = Lent.put(this, name, bytes);
            Intent send = new Intent(Intent.ACTION_SEND)
                    .setType(type)
                    .putExtra(Intent.EXTRA_STREAM, lent)
                    .addFlags(Intent.FLAG_GRANT_READ_URI_PERMISSION);
            send.setClipData(ClipData.newRawUri(name, lent));
            runOnUiThread(() -> startActivity(Intent.createChooser(send, name)));
            return null;
        } catch (IOException | RuntimeException wrong) {
            return said(wrong);
        }
    }

    private static String said(Exception wrong) {
        android.util.Log.w("tautmark", wrong);
        return String.valueOf(wrong.getMessage());
    }

    private void keep(String name, String type, byte[] bytes) throws IOException {
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
    }
}
