package android.webkit;

/** Kinds of files by their ending. */
public class MimeTypeMap {
    public static MimeTypeMap getSingleton() {
        return new MimeTypeMap();
    }

    public String getMimeTypeFromExtension(String ending) {
        return java.net.URLConnection.guessContentTypeFromName("a." + ending);
    }
}
