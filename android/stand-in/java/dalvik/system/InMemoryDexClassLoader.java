package dalvik.system;

import java.io.FileOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;

/**
 * Takes the classes that the app's library brings along. A desktop cannot run them: they are written down
 * to be verified, and their like for a desktop is among its classes.
 */
public class InMemoryDexClassLoader extends ClassLoader {
    public InMemoryDexClassLoader(ByteBuffer dex, ClassLoader parent) throws IOException {
        super(parent);
        try (FileChannel out = new FileOutputStream(System.getProperty("dex")).getChannel()) {
            out.write(dex);
        }
    }
}
