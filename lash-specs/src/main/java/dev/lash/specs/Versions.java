package dev.lash.specs;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Properties;

/** The version of the library, as the build wrote it. */
public final class Versions {
    private Versions() {}

    /** A version of the pack, checked for its form. */
    static String checked(String text) {
        return PackVersion.parse(text).toString();
    }

    /** {@return the version of the library, such as {@code "0.1.0"}} */
    public static String library() {
        Properties properties = new Properties();
        try (InputStream stream = Versions.class.getResourceAsStream("lash-version.properties")) {
            if (stream == null) {
                throw new IllegalStateException("lash-version.properties is missing: use an unbroken jar");
            }
            properties.load(stream);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
        return properties.getProperty("version", "unknown");
    }
}
