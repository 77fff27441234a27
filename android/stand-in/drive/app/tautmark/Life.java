package app.tautmark;

import android.app.NativeActivity;
import android.content.ContentResolver;
import android.content.Intent;
import android.database.Cursor;
import android.graphics.Insets;
import android.net.Uri;
import android.os.ParcelFileDescriptor;
import android.provider.OpenableColumns;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.FileOutputStream;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.Paths;
import java.util.Map;

/**
 * The app's life, twice in one process, on a phone that is only played:
 * {@code Life LIBRARY FOLDER DESKTOP SHOTS JOB}.
 */
public final class Life {
    private static Phone phone;
    private static Path desktop;
    private static Path shots;
    private static byte[] job;

    private Life() {}

    public static void main(String[] words) throws Exception {
        // The app leads standard output into the system's log: this goes to where it was.
        System.setOut(new PrintStream(new FileOutputStream("/dev/fd/3"), true));
        NativeActivity.library = words[0];
        NativeActivity.folder = new File(words[1]);
        desktop = Paths.get(words[2]);
        shots = Paths.get(words[3]);
        job = Files.readAllBytes(Paths.get(words[4]));
        System.loadLibrary("host");
        NativeActivity.prepare();
        try {
            first();
            second();
        } catch (Throwable wrong) {
            if (phone != null) {
                phone.save("failed");
            }
            wrong.printStackTrace(System.out);
            Runtime.getRuntime().halt(1);
        }
        System.out.println("The app has been started, used, ended, and found again as it was left.");
        Runtime.getRuntime().halt(0);
    }

    private static void started(int level, Intent intent) throws Exception {
        phone = new Phone(desktop, shots, new Main());
        phone.start(level, intent);
    }

    /** Android 16: a first start, the example, a figure, a turn, files in and out. */
    private static void first() throws Exception {
        started(36, new Intent(Intent.ACTION_MAIN));
        phone.shows("first-start");
        phone.press("the example");
        phone.shows("example");
        typed();
        phone.back();
        phone.shows("no-figure");
        bars();
        night();
        wheel();
        shared();
        broughtIn();
        refused();
        entered();
        phone.behind();
        holds("a figure that was entered", "8510");
        phone.front();
        phone.shows("entered");
        phone.behind();
        phone.end();
    }

    private static void typed() throws Exception {
        phone.press("a reading");
        phone.shows("chosen");
        phone.press("its figure");
        phone.shows("keypad");
        for (String key : new String[] {"8", "5", "1"}) {
            phone.press("key " + key);
        }
        phone.shows("typed");
        phone.turned(915, 412);
        phone.shows("typed-turned");
        phone.turned(412, 915);
        phone.shows("typed");
    }

    /** Nothing is written under the system's bars. */
    private static void bars() throws Exception {
        int[] before = phone.main.shown();
        phone.main.screen(412, 915, Insets.of(0, 48, 0, 32), Phone.NOTHING);
        phone.main.insetsChanged();
        phone.changes(before, "bars");
        check("nothing lies under the bars", phone.empty(0, 48) && phone.empty(915 - 32, 915));
        phone.main.screen(412, 915, Phone.NOTHING, Phone.NOTHING);
        phone.main.insetsChanged();
        phone.shows("no-figure");
    }

    private static void night() throws Exception {
        phone.main.configurationChanged(Phone.NIGHT, 1);
        phone.shows("no-figure-night");
        int[] before = phone.main.shown();
        phone.main.configurationChanged(Phone.DAY, 1.3f);
        phone.changes(before, "larger-words");
        phone.main.configurationChanged(Phone.DAY, 1);
        phone.shows("no-figure");
    }

    /** The wheel turns the list, and ends nothing; two fingers make the plan larger. */
    private static void wheel() throws Exception {
        phone.wheel(206, 700, -2);
        phone.shows("wheel");
        phone.wheel(206, 700, 20);
        phone.shows("no-figure");
        int[] plan = phone.main.shown();
        phone.spread(206, 300);
        phone.changes(plan, "spread");
    }

    private static void shared() throws Exception {
        phone.press("the sheet");
        phone.shows("sheet");
        phone.press("a form");
        phone.shows("ways");
        phone.press("share it");
        phone.until("another program is offered the message", () -> !phone.main.started.isEmpty());
        Intent send = phone.main.started.get(0).offered;
        check("it is sent", Intent.ACTION_SEND.equals(send.getAction()) && send.type.startsWith("text/plain"));
        Uri address = send.getParcelableExtra(Intent.EXTRA_STREAM);
        Lent lent = new Lent();
        lent.attach(phone.main);
        ParcelFileDescriptor open = lent.openFile(address, "r");
        String text = new String(Files.readAllBytes(open.file.toPath()), StandardCharsets.UTF_8);
        check("the example is what is sent", text.contains("Orchard corner screen"));
        Cursor row = lent.query(address, new String[] {OpenableColumns.DISPLAY_NAME}, null, null, null);
        check("it has a name", row.moveToFirst() && row.getString(0).endsWith(".txt"));
        check("nothing is left among the downloads", ContentResolver.DOWNLOADS.isEmpty());
        refusesWriting(lent, address);
        saved(text);
        phone.press("back");
    }

    private static void saved(String text) throws Exception {
        phone.press("the form again");
        phone.settled();
        phone.press("save it");
        phone.until("a file is among the downloads", () -> !ContentResolver.DOWNLOADS.isEmpty());
        String id = ContentResolver.DOWNLOADS.keySet().iterator().next();
        Map<String, Object> known = ContentResolver.KNOWN.get(id);
        phone.until("it is whole", () -> Integer.valueOf(0).equals(known.get("is_pending")));
        check("it is in the app's own folder", "Download/Tautmark".equals(known.get("relative_path")));
        check("it is the same", text.equals(ContentResolver.DOWNLOADS.get(id).toString("UTF-8")));
    }

    private static void refusesWriting(Lent lent, Uri address) {
        try {
            lent.openFile(address, "rw");
            throw new AssertionError("a file that is lent can be written");
        } catch (java.io.FileNotFoundException refused) {
            System.out.println("holds: a file that is lent can only be read");
        }
    }

    /** A file that is picked, and one that another program sends. */
    private static void broughtIn() throws Exception {
        phone.settled();
        phone.press("the jobs");
        phone.settled();
        phone.press("bring in");
        phone.settled();
        phone.press("a job file");
        phone.until("the phone's files are shown", () -> !phone.main.picking.isEmpty());
        String address = "content://files/1";
        ContentResolver.KEPT.put(address, new ContentResolver.Kept("Yard.job.json", job));
        phone.main.onActivityResult(1, NativeActivity.RESULT_OK, new Intent("", Uri.parse(address)));
        phone.main.tell(NativeActivity.RESUMED);
        phone.shows("picked");

        String other = new String(job, StandardCharsets.UTF_8).replace("A picked yard", "A sent yard");
        address = "content://mail/2";
        byte[] bytes = other.getBytes(StandardCharsets.UTF_8);
        ContentResolver.KEPT.put(address, new ContentResolver.Kept("Sent.job.json", bytes));
        Intent send = new Intent(Intent.ACTION_SEND).putExtra(Intent.EXTRA_STREAM, Uri.parse(address));
        phone.main.onNewIntent(send);
        phone.main.tell(NativeActivity.RESUMED);
        phone.shows("sent");
    }

    /** What is no file of another program, or far too long, harms nothing and is said. */
    private static void refused() throws Exception {
        Path secret = NativeActivity.folder.toPath().resolve("secret.job.json");
        Files.write(secret, new String(job, StandardCharsets.UTF_8).replace("A picked yard", "A secret")
                .getBytes(StandardCharsets.UTF_8));
        phone.main.onNewIntent(new Intent(Intent.ACTION_SEND)
                .putExtra(Intent.EXTRA_STREAM, Uri.parse("file://" + secret)));
        phone.main.tell(NativeActivity.RESUMED);
        phone.main.onNewIntent(new Intent(Intent.ACTION_SEND)
                .putExtra(Intent.EXTRA_STREAM, new Intent.Spoilt()));
        phone.main.tell(NativeActivity.RESUMED);

        int[] before = phone.main.shown();
        String address = "content://files/3";
        ContentResolver.KEPT.put(address, new ContentResolver.Kept("Endless.job.json", new Endless()));
        phone.main.onNewIntent(new Intent(Intent.ACTION_VIEW, Uri.parse(address)));
        phone.main.tell(NativeActivity.RESUMED);
        phone.changes(before, "too-long");
        check("a path is not followed", !Phone.kept("").contains("A secret"));
        check("Back takes the words away", phone.back());
        phone.shows("sent");
    }

    /** A stream with no end. */
    private static final class Endless extends InputStream {
        @Override
        public int read() {
            return ' ';
        }

        @Override
        public int read(byte[] into, int from, int most) {
            java.util.Arrays.fill(into, from, from + most, (byte) ' ');
            return most;
        }
    }

    private static void entered() throws Exception {
        phone.press("the jobs again");
        phone.settled();
        phone.press("the example again");
        phone.shows("example-again");
        phone.press("the reading again");
        phone.settled();
        phone.press("its figure again");
        phone.settled();
        for (String key : new String[] {"8", "5", "1", "0"}) {
            phone.press("key " + key + " again");
        }
        phone.press("next");
        phone.shows("entered");
    }

    /** Android 10: the same job, as it was left; the way back by the key; and an end. */
    private static void second() throws Exception {
        started(29, new Intent(Intent.ACTION_MAIN));
        phone.shows("found-again");
        holds("the figure is still there", "8510");
        int steps = 0;
        while (phone.back()) {
            check("Back comes to an end", steps++ < 10);
        }
        System.out.println("holds: Back is the system's once the app has no use for it, after " + steps);
        phone.save("last");
        phone.behind();
        phone.end();
    }

    private static void holds(String what, String words) throws Exception {
        check(what, Phone.kept("job.json").contains(words));
    }

    private static void check(String what, boolean so) {
        if (!so) {
            throw new AssertionError("not so: " + what);
        }
        System.out.println("holds: " + what);
    }
}
