package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** The figures of an engine that work may lean on; {@link EngineSpec} remembers of each where it came from. */
public enum Figure {
    /** The order in which the cylinders fire. */
    FIRING_ORDER("firing order"),
    /** The crank degrees from each firing to the next. */
    FIRING_INTERVALS("firing intervals"),
    /** The pitch of an adjusting screw or nut. */
    PITCH("pitch"),
    /** The ratio of a rocker or finger follower. */
    RATIO("ratio"),
    /** The shape by which an adjusting screw is turned. */
    HEAD("screw head"),
    /** What one turn of a wedge screw changes. */
    STEP("step of a turn"),
    /** The eccentricity of an eccentric. */
    ECCENTRICITY("eccentricity"),
    /** What the lever makes of an eccentric's lift. */
    MULTIPLIER("multiplier"),
    /** The sizes in which shims, buckets or lash caps are made. */
    SHIMS("shim sizes"),
    /** The sizes of a desmodromic opener's shims. */
    OPENER_SHIMS("opener shim sizes"),
    /** The sizes of a desmodromic closer's shims. */
    CLOSER_SHIMS("closer shim sizes"),
    /** The window to check an intake valve, or its opener, against. */
    INTAKE_WINDOW("intake window", ValveRole.INTAKE, false, false),
    /** The window to check an exhaust valve, or its opener, against. */
    EXHAUST_WINDOW("exhaust window", ValveRole.EXHAUST, false, false),
    /** The window to set an intake valve, or its opener, to. */
    INTAKE_SETTING("intake window to set to", ValveRole.INTAKE, false, true),
    /** The window to set an exhaust valve, or its opener, to. */
    EXHAUST_SETTING("exhaust window to set to", ValveRole.EXHAUST, false, true),
    /** The window to check the closer of an intake valve against. */
    INTAKE_CLOSER_WINDOW("intake closer window", ValveRole.INTAKE, true, false),
    /** The window to check the closer of an exhaust valve against. */
    EXHAUST_CLOSER_WINDOW("exhaust closer window", ValveRole.EXHAUST, true, false),
    /** The window to set the closer of an intake valve to. */
    INTAKE_CLOSER_SETTING("intake closer window to set to", ValveRole.INTAKE, true, true),
    /** The window to set the closer of an exhaust valve to. */
    EXHAUST_CLOSER_SETTING("exhaust closer window to set to", ValveRole.EXHAUST, true, true),
    /** The least engine temperature for a reading. */
    COLDEST("engine at least"),
    /** The highest engine temperature for a reading. */
    WARMEST("engine at most"),
    /** The usage after which the maker wants a check. */
    CHECK_INTERVAL("check interval"),
    /** What is thought of the wear before readings are looked at: never more than an assumption. */
    WEAR_PRIOR("assumed wear"),
    /** When the valves open and close. */
    CAM_TIMING("cam timing"),
    /** Where the automatic decompressor holds its valve. */
    DECOMPRESSOR("decompressor"),
    /** Which camshaft lies over which valves. */
    CAMSHAFTS("camshafts");

    private final String words;
    private final @Nullable ValveRole role;
    private final boolean closer;
    private final boolean setting;

    Figure(String words) {
        this(words, null, false, false);
    }

    Figure(String words, @Nullable ValveRole role, boolean closer, boolean setting) {
        this.words = words;
        this.role = role;
        this.closer = closer;
        this.setting = setting;
    }

    /** {@return what a person calls it, such as {@code "intake window"}} */
    public String words() {
        return words;
    }

    /** {@return whether it is a window to check against or to set to} */
    public boolean isWindow() {
        return role != null;
    }

    /** {@return whether it is a window to set to} */
    public boolean isSetting() {
        return setting;
    }

    /** {@return whether it is a figure of the valve train} */
    public boolean isOfTrain() {
        return compareTo(PITCH) >= 0 && compareTo(CLOSER_SHIMS) <= 0;
    }

    /**
     * Whether it is a window of a role, of whichever gap.
     *
     * @param of the role
     * @return whether it is
     */
    public boolean isWindowOf(ValveRole of) {
        return role == requireNonNull(of, "of");
    }

    /** The role of a window. */
    @Nullable
    ValveRole role() {
        return role;
    }

    /** Whether it is a window of a desmodromic closer. */
    boolean isOfCloser() {
        return closer;
    }

    /**
     * The window to check a gap against.
     *
     * @param role the role
     * @param gap the gap
     * @return the figure
     */
    public static Figure window(ValveRole role, Gap gap) {
        return of(role, gap, false);
    }

    /**
     * The window to set a gap to.
     *
     * @param role the role
     * @param gap the gap
     * @return the figure
     */
    public static Figure setting(ValveRole role, Gap gap) {
        return of(role, gap, true);
    }

    private static Figure of(ValveRole role, Gap gap, boolean setting) {
        requireNonNull(role, "role");
        requireNonNull(gap, "gap");
        return Arrays.stream(values())
                .filter(f -> f.role == role && f.closer == (gap == Gap.CLOSER) && f.setting == setting)
                .findFirst()
                .orElseThrow();
    }

    /** {@return {@link #words()}} */
    @Override
    public String toString() {
        return words;
    }
}
