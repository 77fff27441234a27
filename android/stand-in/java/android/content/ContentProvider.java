package android.content;

import android.database.Cursor;
import android.net.Uri;
import android.os.ParcelFileDescriptor;
import java.io.FileNotFoundException;

/** What gives files to other programs. */
public abstract class ContentProvider {
    private Context context;

    public void attach(Context context) {
        this.context = context;
        onCreate();
    }

    public final Context getContext() {
        return context;
    }

    public abstract boolean onCreate();

    public ParcelFileDescriptor openFile(Uri address, String mode) throws FileNotFoundException {
        throw new FileNotFoundException(address.toString());
    }

    public abstract Cursor query(Uri address, String[] wanted, String where, String[] args, String order);

    public abstract String getType(Uri address);

    public abstract Uri insert(Uri address, ContentValues values);

    public abstract int update(Uri address, ContentValues values, String where, String[] args);

    public abstract int delete(Uri address, String where, String[] args);
}
