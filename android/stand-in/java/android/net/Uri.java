package android.net;

import android.os.Parcelable;
import java.util.ArrayList;
import java.util.List;

/** An address. */
public final class Uri implements Parcelable {
    private final java.net.URI of;

    private Uri(java.net.URI of) {
        this.of = of;
    }

    public static Uri parse(String text) {
        return new Uri(java.net.URI.create(text));
    }

    public String getScheme() {
        return of.getScheme();
    }

    public String getAuthority() {
        return of.getAuthority();
    }

    public List<String> getPathSegments() {
        List<String> segments = new ArrayList<>();
        for (String one : of.getPath().split("/")) {
            if (!one.isEmpty()) {
                segments.add(one);
            }
        }
        return segments;
    }

    public String getLastPathSegment() {
        List<String> segments = getPathSegments();
        return segments.isEmpty() ? null : segments.get(segments.size() - 1);
    }

    @Override
    public String toString() {
        return of.toString();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Uri && ((Uri) other).of.equals(of);
    }

    @Override
    public int hashCode() {
        return of.hashCode();
    }

    @Override
    public int describeContents() {
        return 0;
    }

    @Override
    public void writeToParcel(android.os.Parcel to, int flags) {}

    /** Puts one together. */
    public static final class Builder {
        private String scheme;
        private String authority;
        private final StringBuilder path = new StringBuilder();

        public Builder scheme(String scheme) {
            this.scheme = scheme;
            return this;
        }

        public Builder authority(String authority) {
            this.authority = authority;
            return this;
        }

        public Builder appendPath(String segment) {
            path.append('/').append(segment);
            return this;
        }

        public Uri build() {
            try {
                return new Uri(new java.net.URI(scheme, authority, path.toString(), null, null));
            } catch (java.net.URISyntaxException wrong) {
                throw new IllegalArgumentException(wrong);
            }
        }
    }
}
