package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Comparator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A version of a pack of templates: major, minor and patch as in Semantic Versioning 2.0.0. Text: {@code "1.2.3"}.
 *
 * @param major grows when a window or a train changed, so that advice may differ
 * @param minor grows when something was added, or another figure changed
 * @param patch grows when words changed
 */
public record PackVersion(int major, int minor, int patch) implements Comparable<PackVersion>, Serializable {
    private static final Pattern FORM =
            Pattern.compile("(0|[1-9][0-9]{0,8})\\.(0|[1-9][0-9]{0,8})\\.(0|[1-9][0-9]{0,8})");
    private static final int MOST = 999_999_999;
    private static final Comparator<PackVersion> ORDER = Comparator.comparingInt(PackVersion::major)
            .thenComparingInt(PackVersion::minor)
            .thenComparingInt(PackVersion::patch);

    /**
     * Creates a version.
     *
     * @param major grows when a window or a train changed, so that advice may differ
     * @param minor grows when something was added, or another figure changed
     * @param patch grows when words changed
     * @throws RejectedValueException if a number is below 0 or above 999999999
     */
    public PackVersion {
        for (int part : new int[] {major, minor, patch}) {
            if (part < 0 || part > MOST) {
                throw new RejectedValueException(
                        "version",
                        major + "." + minor + "." + patch,
                        "has a number out of range",
                        "three numbers from 0 to " + MOST,
                        "correct it");
            }
        }
    }

    /** How large a change is. */
    public enum Step {
        /** Nothing changed. */
        NONE,
        /** Words changed. */
        PATCH,
        /** Something was added, or a figure that no verdict hangs on changed. */
        MINOR,
        /** A window or a train changed. */
        MAJOR
    }

    /**
     * Reads a version.
     *
     * @param text the version
     * @return the version
     * @throws RejectedValueException if the text is anything else
     */
    public static PackVersion parse(String text) {
        Matcher parts = FORM.matcher(requireNonNull(text, "text"));
        if (!parts.matches()) {
            throw new RejectedValueException(
                    "version", text, "is not a version", "three whole numbers such as 1.2.3", "correct it");
        }
        return new PackVersion(
                Integer.parseInt(parts.group(1)), Integer.parseInt(parts.group(2)), Integer.parseInt(parts.group(3)));
    }

    /**
     * How large the step to another version is. Below 1.0.0 nothing is promised, so there a step of the minor number may hold a
     * major change.
     *
     * @param later the later version
     * @return the step; none where it is not later
     */
    public Step to(PackVersion later) {
        if (later.compareTo(this) <= 0) {
            return Step.NONE;
        }
        if (later.major > major) {
            return Step.MAJOR;
        }
        if (later.minor > minor) {
            return major == 0 ? Step.MAJOR : Step.MINOR;
        }
        return Step.PATCH;
    }

    @Override
    public int compareTo(PackVersion other) {
        return ORDER.compare(this, other);
    }

    /** {@return the version, such as {@code "1.2.3"}} */
    @Override
    public String toString() {
        return major + "." + minor + "." + patch;
    }
}
