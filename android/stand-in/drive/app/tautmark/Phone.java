package app.tautmark;

import android.app.NativeActivity;
import android.content.Intent;
import android.graphics.Insets;
import android.os.Build;
import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.function.BooleanSupplier;
import javax.imageio.ImageIO;

/** A phone with the app on it: touched where the desktop's app says that things are, and looked at. */
final class Phone {
    static final Insets NOTHING = Insets.of(0, 0, 0, 0);
    static final int DAY = 0x10;
    static final int NIGHT = 0x20;

    private static final int DOWN = 0;
    private static final int UP = 1;
    private static final int SECOND_DOWN = 5 | 1 << 8;
    private static final int SECOND_UP = 6 | 1 << 8;
    private static final int MOVE = 2;
    private static final int SCROLL = 8;
    private static final int BACK = 4;
    private static final int SHADE = 96;
    /** How long is waited for anything, nanoseconds: the machine may have other work. */
    private static final long PATIENCE = 120_000_000_000L;

    /** Where things are, and what the desktop's app shows, as tests/app/phone.rs wrote it down. */
    private final Path desktop;
    private final Path shots;
    private final Map<String, float[]> places = new HashMap<>();
    final Main main;
    int width = 412;
    int height = 915;

    Phone(Path desktop, Path shots, Main main) throws IOException {
        this.desktop = desktop;
        this.shots = shots;
        this.main = main;
        for (String line : Files.readAllLines(desktop.resolve("phone-places.txt"))) {
            String[] parts = line.split("\t");
            places.put(parts[0], new float[] {Float.parseFloat(parts[1]), Float.parseFloat(parts[2])});
        }
    }

    // Its life

    void start(int level, Intent intent) {
        Build.VERSION.SDK_INT = level;
        NativeActivity.configure(160, DAY >> 4, level);
        main.intent = intent;
        main.configuration(DAY, 1);
        main.screen(width, height, NOTHING, NOTHING);
        main.onCreate(null);
        main.tell(NativeActivity.STARTED);
        main.tell(NativeActivity.QUEUE_MADE);
        front();
    }

    /** In front again, with a window that is made anew. */
    void front() {
        main.tell(NativeActivity.RESUMED);
        main.screen(width, height, NOTHING, NOTHING);
        main.tell(NativeActivity.WINDOW_MADE);
        main.tell(NativeActivity.FOCUSED);
        main.tell(NativeActivity.WINDOW_REDRAWN);
    }

    void behind() {
        main.tell(NativeActivity.UNFOCUSED);
        main.tell(NativeActivity.PAUSED);
        main.tell(NativeActivity.SAVED);
        main.tell(NativeActivity.WINDOW_GONE);
        main.tell(NativeActivity.STOPPED);
    }

    void end() {
        main.tell(NativeActivity.QUEUE_GONE);
        main.tell(NativeActivity.DESTROYED);
    }

    void turned(int newWidth, int newHeight) {
        width = newWidth;
        height = newHeight;
        main.screen(width, height, NOTHING, NOTHING);
        main.tell(NativeActivity.CONFIGURED);
        main.tell(NativeActivity.WINDOW_RESIZED);
        main.tell(NativeActivity.WINDOW_REDRAWN);
    }

    // The hand

    void press(String what) {
        float[] at = places.get(what);
        if (at == null) {
            throw new AssertionError("the desktop's app has not said where \"" + what + "\" is");
        }
        press(at[0], at[1]);
    }

    void press(float x, float y) {
        main.touch(DOWN, x, y, 0);
        main.touch(UP, x, y, 0);
        taken();
    }

    /** Two fingers, from close together to far apart. */
    void spread(float x, float y) {
        main.touch(DOWN, x, y - 20, 0);
        main.touchTwo(SECOND_DOWN, x, y - 20, x, y + 20);
        for (int by = 20; by <= 80; by += 10) {
            main.touchTwo(MOVE, x, y - by, x, y + by);
        }
        main.touchTwo(SECOND_UP, x, y - 80, x, y + 80);
        main.touch(UP, x, y - 80, 0);
        taken();
    }

    void wheel(float x, float y, float notches) {
        main.touch(SCROLL, x, y, notches);
        taken();
    }

    /** Whether the app took it: on the way that this phone's Android has. */
    boolean back() {
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.UPSIDE_DOWN_CAKE) {
            until("the app asks to hear of Back", () -> main.back != null);
            main.back.onBackInvoked();
            return true;
        }
        main.key(DOWN, BACK);
        main.key(UP, BACK);
        taken();
        return main.taken() == 1;
    }

    private void taken() {
        until("a touch is taken", () -> main.taken() >= 0);
    }

    // The eye

    /** Waits until every pixel of the screen is as the desktop's app shows it. */
    void shows(String name) throws IOException {
        BufferedImage wanted = ImageIO.read(desktop.resolve("phone-" + name + ".png").toFile());
        try {
            until(name + " is on the screen", () -> differing(wanted) == 0);
        } finally {
            save(name);
        }
        System.out.println("as on the desktop: " + name);
    }

    /** Waits until the screen is another than this. */
    int[] changes(int[] before, String name) throws IOException {
        until("the screen changes to " + name, () -> !java.util.Arrays.equals(before, main.shown()));
        settled();
        save(name);
        return main.shown();
    }

    /** Waits until nothing is drawn any more. */
    void settled() {
        int[] last = {-1, 0};
        until("the screen comes to rest", () -> {
            int now = main.posted();
            last[1] = now == last[0] ? last[1] + 1 : 0;
            last[0] = now;
            return last[1] > 50;
        });
    }

    /** Whether a band of rows has one colour, so that nothing is written there. */
    boolean empty(int from, int to) {
        int[] now = main.shown();
        for (int i = 2 + from * now[0]; i < 2 + to * now[0]; i++) {
            if (now[i] != now[2 + from * now[0]]) {
                return false;
            }
        }
        return true;
    }

    /** How many pixels are of another kind. */
    private int differing(BufferedImage wanted) {
        int[] now = main.shown();
        if (now == null || now[0] != wanted.getWidth() || now[1] != wanted.getHeight()) {
            return Integer.MAX_VALUE;
        }
        int other = 0;
        for (int i = 2; i < now.length; i++) {
            int at = i - 2;
            if (apart(wanted.getRGB(at % now[0], at / now[0]), now[i])) {
                other++;
            }
        }
        return other;
    }

    /** As in tests/app/frames.rs: a stroke's soft edge may be a shade darker where it was painted again. */
    private static boolean apart(int one, int other) {
        for (int channel = 0; channel < 24; channel += 8) {
            if (Math.abs((one >> channel & 255) - (other >> channel & 255)) > SHADE) {
                return true;
            }
        }
        return false;
    }

    void save(String name) throws IOException {
        int[] now = main.shown();
        if (now == null) {
            return;
        }
        BufferedImage picture = new BufferedImage(now[0], now[1], BufferedImage.TYPE_INT_RGB);
        picture.setRGB(0, 0, now[0], now[1], now, 2, now[0]);
        Files.createDirectories(shots);
        ImageIO.write(picture, "png", shots.resolve(name + ".png").toFile());
    }

    /** What is in the app's folder, under names that end like this, as one text. */
    static String kept(String ending) throws IOException {
        StringBuilder all = new StringBuilder();
        File folder = new File(NativeActivity.folder, "files");
        try (java.util.stream.Stream<Path> files = Files.walk(folder.toPath())) {
            for (Path file : (Iterable<Path>) files.filter(Files::isRegularFile)::iterator) {
                if (file.toString().endsWith(ending)) {
                    all.append(new String(Files.readAllBytes(file), StandardCharsets.UTF_8));
                }
            }
        }
        return all.toString();
    }

    /** Goes on as the system would until this is so. */
    void until(String what, BooleanSupplier so) {
        long end = System.nanoTime() + PATIENCE;
        while (true) {
            main.turn();
            if (so.getAsBoolean()) {
                return;
            }
            if (System.nanoTime() > end) {
                throw new AssertionError("never came to be: " + what);
            }
            java.util.concurrent.locks.LockSupport.parkNanos(5_000_000);
        }
    }
}
