package android.content;

import android.net.Uri;
import android.os.Parcelable;
import java.util.HashMap;
import java.util.Map;

/** What one program asks of another. */
public class Intent {
    public static final String ACTION_MAIN = "android.intent.action.MAIN";
    public static final String ACTION_VIEW = "android.intent.action.VIEW";
    public static final String ACTION_SEND = "android.intent.action.SEND";
    public static final String EXTRA_STREAM = "android.intent.extra.STREAM";
    public static final int FLAG_ACTIVITY_LAUNCHED_FROM_HISTORY = 0x00100000;

    public final Map<String, Parcelable> extras = new HashMap<>();
    public ClipData clip;
    /** What a chooser was asked to offer. */
    public Intent offered;
    public String type;
    private final String action;
    private Uri data;
    private int flags;

    public Intent(String action) {
        this.action = action;
    }

    public Intent(String action, Uri data) {
        this.action = action;
        this.data = data;
    }

    public static Intent createChooser(Intent offered, CharSequence title) {
        Intent chooser = new Intent("android.intent.action.CHOOSER");
        chooser.offered = offered;
        return chooser;
    }

    public String getAction() {
        return action;
    }

    public Uri getData() {
        return data;
    }

    public int getFlags() {
        return flags;
    }

    public Intent addFlags(int more) {
        flags |= more;
        return this;
    }

    public Intent addCategory(String category) {
        return this;
    }

    public Intent setType(String type) {
        this.type = type;
        return this;
    }

    public Intent putExtra(String name, Parcelable value) {
        extras.put(name, value);
        return this;
    }

    @SuppressWarnings("unchecked")
    public <T extends Parcelable> T getParcelableExtra(String name) {
        return (T) extras.get(name);
    }

    public void setClipData(ClipData clip) {
        this.clip = clip;
    }

    /** What is no address, from a program that means harm. */
    public static final class Spoilt implements Parcelable {
        @Override
        public int describeContents() {
            return 0;
        }

        @Override
        public void writeToParcel(android.os.Parcel to, int flags) {}
    }
}
