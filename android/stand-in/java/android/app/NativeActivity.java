package android.app;

import android.content.ContentResolver;
import android.content.Intent;
import android.content.res.AssetManager;
import android.content.res.Configuration;
import android.content.res.Resources;
import android.graphics.Insets;
import android.graphics.Rect;
import android.os.Build;
import android.os.Bundle;
import android.view.View;
import android.view.ViewGroup;
import android.view.Window;
import android.view.WindowInsets;
import android.view.WindowManager;
import android.view.WindowMetrics;
import android.view.inputmethod.InputMethodManager;
import android.window.OnBackInvokedCallback;
import android.window.OnBackInvokedDispatcher;
import java.io.File;
import java.lang.reflect.Proxy;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;

/** A window as the system has it: its life, its screen, and what it asks of other programs. */
public class NativeActivity extends Activity {
    // Of the order in host.c.
    public static final int STARTED = 0;
    public static final int RESUMED = 1;
    public static final int SAVED = 2;
    public static final int PAUSED = 3;
    public static final int STOPPED = 4;
    public static final int DESTROYED = 5;
    public static final int FOCUSED = 6;
    public static final int UNFOCUSED = 7;
    public static final int WINDOW_MADE = 8;
    public static final int WINDOW_RESIZED = 9;
    public static final int WINDOW_REDRAWN = 10;
    public static final int WINDOW_GONE = 11;
    public static final int QUEUE_MADE = 12;
    public static final int QUEUE_GONE = 13;
    public static final int CONFIGURED = 14;
    public static final int LOW = 15;

    /** Where the app's library is, and the folder that the system keeps for the app. */
    public static String library;
    public static File folder;
    private static final Thread MAIN = Thread.currentThread();

    /** What other programs were asked for. */
    public final List<Intent> started = new ArrayList<>();
    public final List<Intent> picking = new ArrayList<>();
    /** What came with the start of the app. */
    public Intent intent = new Intent(Intent.ACTION_MAIN);
    /** What the app asked to hear of. */
    public OnBackInvokedCallback back;
    public View content;
    public boolean finished;

    private final Queue<Runnable> waiting = new ConcurrentLinkedQueue<>();
    private final ContentResolver resolver = new ContentResolver(this);
    private final Configuration configuration = new Configuration();
    private final View decor = new View(this);
    private WindowMetrics metrics;
    private long life;

    @Override
    protected void onCreate(Bundle state) {
        life = begin(library, this, new File(folder, "files").getPath(), Build.VERSION.SDK_INT);
    }

    // The screen

    /** A screen of this size, with bars and a keyboard over it, and how large words are on it. */
    public void screen(int width, int height, Insets bars, Insets keyboard) {
        synchronized (this) {
            metrics = new WindowMetrics(new Rect(0, 0, width, height), new WindowInsets(bars, keyboard));
        }
        if (life != 0) {
            size(life, width, height);
        }
    }

    /** Tells the app of the bars and the keyboard that are over it now. */
    public void insetsChanged() {
        decor.told(metrics().getWindowInsets());
    }

    /** Night, and the size of words. */
    public void configuration(int night, float fontScale) {
        configuration.uiMode = night;
        configuration.fontScale = fontScale;
    }

    /** Tells the app's view of both. */
    public void configurationChanged(int night, float fontScale) {
        configuration(night, fontScale);
        content.configured(configuration);
    }

    private synchronized WindowMetrics metrics() {
        return metrics;
    }

    public int[] shown() {
        return shown(life);
    }

    public int posted() {
        return posted(life);
    }

    // The life

    public void tell(int what) {
        tell(life, what);
        if (what == WINDOW_GONE) {
            forget(life);
        }
    }

    /** Does what waits for the main thread. */
    public void turn() {
        loop();
        for (Runnable one = waiting.poll(); one != null; one = waiting.poll()) {
            one.run();
        }
        finished |= finishAsked();
    }

    public void touch(int action, float x, float y, float turned) {
        touch(life, action, x, y, turned);
    }

    public void touchTwo(int action, float x, float y, float secondX, float secondY) {
        touchTwo(life, action, x, y, secondX, secondY);
    }

    public void key(int action, int key) {
        key(life, action, key);
    }

    /** -1 while something waits to be taken, else whether the app took the last key. */
    public int taken() {
        return taken(life);
    }

    // What the app asks of its window

    @Override
    public void runOnUiThread(Runnable what) {
        if (Thread.currentThread() == MAIN) {
            what.run();
        } else {
            waiting.add(what);
        }
    }

    @Override
    public void startActivity(Intent what) {
        started.add(what);
    }

    @Override
    public void startActivityForResult(Intent what, int request) {
        picking.add(what);
    }

    @Override
    public void finish() {
        finished = true;
    }

    @Override
    public Intent getIntent() {
        return intent;
    }

    @Override
    public void addContentView(View view, ViewGroup.LayoutParams layout) {
        content = view;
    }

    @Override
    public WindowManager getWindowManager() {
        Class<?>[] face = {WindowManager.class};
        return (WindowManager) Proxy.newProxyInstance(face[0].getClassLoader(), face, (me, method, given) -> {
            if (method.getName().equals("getCurrentWindowMetrics")) {
                return metrics();
            }
            throw new UnsupportedOperationException(method.getName());
        });
    }

    @Override
    public Window getWindow() {
        return new Window(this) {
            @Override
            public View getDecorView() {
                decor.insets = metrics().getWindowInsets();
                decor.bounds = metrics().getBounds();
                return decor;
            }
        };
    }

    @Override
    public OnBackInvokedDispatcher getOnBackInvokedDispatcher() {
        return new OnBackInvokedDispatcher() {
            @Override
            public void registerOnBackInvokedCallback(int priority, OnBackInvokedCallback callback) {
                back = callback;
            }

            @Override
            public void unregisterOnBackInvokedCallback(OnBackInvokedCallback callback) {
                back = null;
            }
        };
    }

    @Override
    public Resources getResources() {
        return new Resources(null, null, null) {
            @Override
            public Configuration getConfiguration() {
                return configuration;
            }
        };
    }

    @Override
    public Resources.Theme getTheme() {
        return getResources().new Theme();
    }

    @Override
    public ContentResolver getContentResolver() {
        return resolver;
    }

    @Override
    public File getCacheDir() {
        return new File(folder, "cache");
    }

    @Override
    public ClassLoader getClassLoader() {
        return NativeActivity.class.getClassLoader();
    }

    @Override
    public Object getSystemService(String name) {
        return new InputMethodManager();
    }

    @Override
    public Application getApplication() {
        return new Application() {
            @Override
            public AssetManager getAssets() {
                return new AssetManager();
            }
        };
    }

    // host.c

    public static native void prepare();

    public static native void configure(int density, int night, int sdk);

    public static native int flags();

    private static native long begin(String library, NativeActivity self, String files, int sdk);

    private static native void tell(long life, int what);

    private static native void size(long life, int width, int height);

    private static native void forget(long life);

    private static native int posted(long life);

    private static native int[] shown(long life);

    private static native void touch(long life, int action, float x, float y, float turned);

    private static native void touchTwo(long life, int action, float x, float y, float secondX, float secondY);

    private static native void key(long life, int action, int key);

    private static native int taken(long life);

    private static native void loop();

    private static native boolean finishAsked();
}
