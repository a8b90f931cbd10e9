package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class FindingCodeTest {
    /** Other programs rely on these names: one that changes or goes is a break. */
    @Test
    void namesAreStable() {
        assertThat(Arrays.stream(FindingCode.values()).map(FindingCode::code))
                .containsExactlyInAnyOrder(
                        "contradiction",
                        "recheck-contradiction",
                        "several-drags",
                        "may-have-no-clearance",
                        "far-too-loose",
                        "decompressor-holds",
                        "dished-pad",
                        "engine-too-warm",
                        "engine-too-cold",
                        "temperature-not-recorded",
                        "no-clearance-in-this-train",
                        "leaf-not-owned",
                        "stack-too-high",
                        "nothing-guarded",
                        "tolerance-unusual",
                        "window-unusual",
                        "figure-unusual",
                        "forked-rocker",
                        "done-does-not-fit",
                        "shim-not-as-marked",
                        "shim-unreadable",
                        "shim-not-in-range",
                        "recheck-missing",
                        "recheck-not-within",
                        "recheck-unexpected",
                        "recheck-outside-setting",
                        "closed-up-fast",
                        "opened-up",
                        "against-wear",
                        "record-missing",
                        "shim-not-as-recorded",
                        "shim-near-thin-end",
                        "visit-not-used",
                        "checks-out-of-order",
                        "interval-not-counted",
                        "symptom",
                        "not-measured",
                        "window-not-confirmed");
        assertThat(FindingCode.DISHED_PAD).hasToString("dished-pad");
    }

    @Test
    void onlyTrialsThatCannotBeUsedAreErrors() {
        assertThat(withSeverity(Severity.ERROR))
                .isEqualTo(EnumSet.of(FindingCode.CONTRADICTION, FindingCode.RECHECK_CONTRADICTION));
        assertThat(withSeverity(Severity.NOTE))
                .contains(
                        FindingCode.RECHECK_OUTSIDE_SETTING,
                        FindingCode.AGAINST_WEAR,
                        FindingCode.NOT_MEASURED,
                        FindingCode.WINDOW_NOT_CONFIRMED,
                        FindingCode.VISIT_NOT_USED,
                        FindingCode.SYMPTOM)
                .doesNotContain(
                        FindingCode.ENGINE_TOO_WARM,
                        FindingCode.MAY_HAVE_NO_CLEARANCE,
                        FindingCode.CLOSED_UP_FAST,
                        FindingCode.RECORD_MISSING);
    }

    private static EnumSet<FindingCode> withSeverity(Severity severity) {
        return Arrays.stream(FindingCode.values())
                .filter(c -> c.severity() == severity)
                .collect(Collectors.toCollection(() -> EnumSet.noneOf(FindingCode.class)));
    }
}
