package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;

/**
 * What the maker says of the clearance of one role: the window to check against, the window to set to, and where the shop
 * read them.
 *
 * @param check the window to check against
 * @param setTo the window to set to, inside the first; the same where the maker gives only one
 * @param confirmedFrom where the shop read the figures (manual and page); empty while they are typical values only
 */
public record ClearanceSpec(ClearanceWindow check, ClearanceWindow setTo, String confirmedFrom)
        implements Serializable {
    /**
     * Creates a clearance specification.
     *
     * @param check the window to check against
     * @param setTo the window to set to, inside the first; the same where the maker gives only one
     * @param confirmedFrom where the shop read the figures (manual and page); empty while they are typical values only
     * @throws RejectedValueException if the window to set to is not inside the window to check against
     */
    public ClearanceSpec {
        requireNonNull(check, "check");
        requireNonNull(setTo, "setTo");
        requireNonNull(confirmedFrom, "confirmedFrom");
        if (!check.interval().encloses(setTo.interval())) {
            throw new RejectedValueException(
                    "window to set to",
                    setTo.toString(),
                    "is not inside the window to check against",
                    "a window inside " + check,
                    "check both windows in the manual");
        }
    }

    /**
     * One window for checking and setting, not yet confirmed.
     *
     * @param window the window
     * @return the specification
     */
    public static ClearanceSpec typical(ClearanceWindow window) {
        return new ClearanceSpec(window, window, "");
    }

    /** {@return whether the shop has confirmed the figures from the manual} */
    public boolean isConfirmed() {
        return !confirmedFrom.isBlank();
    }
}
