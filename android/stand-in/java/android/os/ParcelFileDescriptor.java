package android.os;

import java.io.File;

/** An open file. */
public class ParcelFileDescriptor {
    public static final int MODE_READ_ONLY = 0x10000000;
    public final File file;

    private ParcelFileDescriptor(File file) {
        this.file = file;
    }

    public static ParcelFileDescriptor open(File file, int mode) {
        return new ParcelFileDescriptor(file);
    }
}
