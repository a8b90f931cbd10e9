package dev.lash.check;

import dev.lash.engine.ValveRole;
import dev.lash.judge.Verdict;
import dev.lash.measure.RejectedValueException;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What a rider noticed, and which clearance goes with it. All of this is common practice: a hint where to look, no proof.
 */
public enum Symptom {
    /** Hard to start when warm: a valve that no longer seats fully. */
    HARD_TO_START_WARM(Verdict.TIGHT, null, "a leaking seat, ignition, carburation"),
    /** Hard to start when cold. */
    HARD_TO_START_COLD(Verdict.TIGHT, null, "choke, battery, ignition"),
    /** Low compression. */
    LOW_COMPRESSION(Verdict.TIGHT, null, "piston rings, head gasket, a burnt seat; do a leak-down test"),
    /** Uneven idle. */
    UNEVEN_IDLE(Verdict.TIGHT, null, "carburation, an air leak, ignition"),
    /** Popping back through the intake. */
    POPPING_IN_INTAKE(Verdict.TIGHT, ValveRole.INTAKE, "a weak mixture, cam timing"),
    /** Popping in the exhaust. */
    POPPING_IN_EXHAUST(Verdict.TIGHT, ValveRole.EXHAUST, "an exhaust leak, ignition, a weak mixture"),
    /** Loss of power. */
    LOSS_OF_POWER(Verdict.TIGHT, null, "air filter, fuel, compression"),
    /** Ticking from the head. */
    TICKING(Verdict.LOOSE, null, "cam chain, an exhaust leak at the head, a worn rocker pad");

    private final Verdict goesWith;
    private final @Nullable ValveRole role;
    private final String otherCauses;

    Symptom(Verdict goesWith, @Nullable ValveRole role, String otherCauses) {
        this.goesWith = goesWith;
        this.role = role;
        this.otherCauses = otherCauses;
    }

    /** {@return the verdict that goes with it} */
    public Verdict goesWith() {
        return goesWith;
    }

    /** {@return the role that it goes with, or empty for either} */
    public Optional<ValveRole> role() {
        return Optional.ofNullable(role);
    }

    /** {@return what else shows in the same way} */
    public String otherCauses() {
        return otherCauses;
    }

    /** {@return the name in documents, such as {@code "hard-to-start-warm"}} */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * Reads a symptom.
     *
     * @param text its name in documents
     * @return the symptom
     * @throws RejectedValueException if there is none of that name
     */
    public static Symptom parse(String text) {
        return Arrays.stream(values())
                .filter(s -> s.word().equals(text))
                .findFirst()
                .orElseThrow(() -> new RejectedValueException(
                        "symptom",
                        text,
                        "is not known",
                        Arrays.stream(values()).map(Symptom::word).collect(Collectors.joining(", ")),
                        "take one of these; put anything else into the machine's free text"));
    }

    /** {@return the name in words, such as {@code "hard to start warm"}} */
    @Override
    public String toString() {
        return word().replace('-', ' ');
    }
}
