package dev.lash.check;

import java.util.Locale;

/** The kinds of finding; their names in documents are stable. */
public enum FindingCode {
    /** Two trials of one gap cannot both be true: the valve has no bracket and no verdict. */
    CONTRADICTION(Severity.ERROR),
    /** The trials made after the adjustment contradict each other. */
    RECHECK_CONTRADICTION(Severity.ERROR),
    /** More than one leaf drags in one gap; they count together. */
    SEVERAL_DRAGS(Severity.DOUBT),
    /** No leaf went in, not even the thinnest: there may be no clearance. */
    MAY_HAVE_NO_CLEARANCE(Severity.DOUBT),
    /** The reading lies far above the window. */
    FAR_TOO_LOOSE(Severity.DOUBT),
    /** The valve was read where the decompressor holds it or may hold it, so its gap reads too small. */
    DECOMPRESSOR_HOLDS(Severity.DOUBT),
    /** Pad or valve tip is dished: the reading is not used. */
    DISHED_PAD(Severity.DOUBT),
    /** The engine was warmer than the maker's condition. */
    ENGINE_TOO_WARM(Severity.DOUBT),
    /** The engine was colder than the maker's condition. */
    ENGINE_TOO_COLD(Severity.DOUBT),
    /** The maker gives a temperature, the sheet does not. */
    TEMPERATURE_NOT_RECORDED(Severity.DOUBT),
    /** The train has no clearance, yet leaves were offered. */
    NO_CLEARANCE_IN_THIS_TRAIN(Severity.DOUBT),
    /** A leaf was used that is not in the gauge set. */
    LEAF_NOT_OWNED(Severity.DOUBT),
    /** More leaves were stacked than the gauge set allows. */
    STACK_TOO_HIGH(Severity.DOUBT),
    /** The guarded rule was asked for, with neither tolerance nor drag allowance. */
    NOTHING_GUARDED(Severity.DOUBT),
    /** The leaf tolerance lies outside what is published for leaves. */
    TOLERANCE_UNUSUAL(Severity.DOUBT),
    /** A window is unlike any that makers give, or the two of an engine are unlike each other: a unit or a decimal may have slipped. */
    WINDOW_UNUSUAL(Severity.DOUBT),
    /** Another figure of the engine, such as a pitch, is unlike any that makers give: what is worked out with it may be wrong. */
    FIGURE_UNUSUAL(Severity.DOUBT),
    /** One arm moves two valves, and the other one is tighter: this reading is suspect until both are set. */
    FORKED_ROCKER(Severity.DOUBT),
    /** The shim's measured size is not its mark. */
    SHIM_NOT_AS_MARKED(Severity.DOUBT),
    /** The shim has neither a readable mark nor a measured size. */
    SHIM_UNREADABLE(Severity.DOUBT),
    /** The shim's size is not one that is made. */
    SHIM_NOT_IN_RANGE(Severity.DOUBT),
    /** What was done cannot be done to this valve train. */
    DONE_DOES_NOT_FIT(Severity.DOUBT),
    /** Something was adjusted, and not checked again. */
    RECHECK_MISSING(Severity.DOUBT),
    /** After the adjustment the clearance is not shown to be within its window. */
    RECHECK_NOT_WITHIN(Severity.DOUBT),
    /** The clearance after the adjustment is not what the adjustment should have made it. */
    RECHECK_UNEXPECTED(Severity.DOUBT),
    /** The clearance after the adjustment is within the window to check against, not shown to be in the one to set to. */
    RECHECK_OUTSIDE_SETTING(Severity.NOTE),
    /** Between two checks, or over all, a gap closed up much more than its own history and its neighbours let expect. */
    CLOSED_UP_FAST(Severity.DOUBT),
    /** Between two checks, or over all, a gap opened up, or closed up much less than expected. */
    OPENED_UP(Severity.DOUBT),
    /** A clearance moves steadily the way that wear of valve and seat does not move it, certain by what was read. */
    AGAINST_WEAR(Severity.NOTE),
    /** Between two checks the clearance jumped the way that wear does not move it, and no adjustment is recorded. */
    RECORD_MISSING(Severity.DOUBT),
    /** The shim in place is not the one that the last check left in. */
    SHIM_NOT_AS_RECORDED(Severity.DOUBT),
    /** The shim is near the thin end of the sizes that are made: valve or seat is nearly used up. */
    SHIM_NEAR_THIN_END(Severity.DOUBT),
    /** An earlier check cannot be used for the trend. */
    VISIT_NOT_USED(Severity.NOTE),
    /** Dates and usages of the checks do not rise together. */
    CHECKS_OUT_OF_ORDER(Severity.DOUBT),
    /** The maker's interval counts something else than the counter, so no time to check comes from it. */
    INTERVAL_NOT_COUNTED(Severity.NOTE),
    /** What the rider noticed, held against what was found. */
    SYMPTOM(Severity.NOTE),
    /** A valve of the engine has no trials. */
    NOT_MEASURED(Severity.NOTE),
    /** The windows are typical values that the shop has not confirmed from the manual. */
    WINDOW_NOT_CONFIRMED(Severity.NOTE);

    private final Severity severity;

    FindingCode(Severity severity) {
        this.severity = severity;
    }

    /** {@return how much findings of this kind matter} */
    public Severity severity() {
        return severity;
    }

    /** {@return the name in documents, such as {@code "contradiction"}} */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** {@return {@link #code()}} */
    @Override
    public String toString() {
        return code();
    }
}
