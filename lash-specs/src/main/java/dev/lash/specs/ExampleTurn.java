package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.EccentricTurn.Sense;
import dev.lash.adjust.TurnRange;
import dev.lash.measure.RejectedValueException;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * How far an adjuster is turned, as a worked example states it: {@code "28.8..36 deg"}, {@code "-360 deg"}, and for an eccentric {@code
 * "7.4..9.2 deg towards smaller angles"}.
 *
 * @param degrees from the least to the most, positive as the clearance grows; for an eccentric without a sign
 * @param sense which way an eccentric is turned; {@code null} for any other adjuster
 */
record ExampleTurn(TurnRange degrees, @Nullable Sense sense) {
    static final String EXPECTED = "a turn such as \"28.8..36 deg\"";

    /** What an adjustment calls its turn: how far the adjuster goes. */
    static final String TURN = "turn";

    /** The turns that are certain to end in the window. */
    static final String CERTAIN = "certainTurn";

    private static final int MOST_TEXT = 80;
    private static final String NUMBER = "([+-]?[0-9]{1,6}(?:\\.[0-9]{1,6})?)";
    private static final Pattern FORM =
            Pattern.compile(NUMBER + "(?:\\.\\." + NUMBER + ")? *deg(?: towards (smaller|larger) angles)?");

    ExampleTurn {
        requireNonNull(degrees, "degrees");
    }

    /** Reads a turn. */
    static ExampleTurn parse(String text) {
        String stripped = text.strip();
        Matcher matcher = FORM.matcher(stripped);
        if (stripped.length() > MOST_TEXT || !matcher.matches()) {
            throw new RejectedValueException(
                    "turn",
                    text,
                    "is not a turn",
                    EXPECTED + "; for an eccentric \"7.4..9.2 deg towards smaller angles\"",
                    "write degrees, from the least to the most");
        }
        BigDecimal from = new BigDecimal(matcher.group(1));
        BigDecimal to = matcher.group(2) == null ? from : new BigDecimal(matcher.group(2));
        String towards = matcher.group(3);
        return new ExampleTurn(
                new TurnRange(from, to),
                towards == null ? null : towards.equals("smaller") ? Sense.SMALLER : Sense.LARGER);
    }

    /** How far an adjustment turns the adjuster; of the two ways of an eccentric the shorter. */
    static Optional<ExampleTurn> of(Adjustment adjustment) {
        if (adjustment instanceof Adjustment.SetToLeaf set) {
            return set.findTurn()
                    .map(range -> new ExampleTurn(range, null))
                    .or(() -> set.eccentric().stream()
                            .findFirst()
                            .map(turn -> new ExampleTurn(turn.degrees(), turn.sense())));
        }
        return adjustment instanceof Adjustment.Turn turn
                ? Optional.of(new ExampleTurn(turn.degrees(), null))
                : Optional.empty();
    }

    /** The turns of an adjustment that are certain to end in the window. */
    static Optional<ExampleTurn> certainOf(Adjustment adjustment) {
        return adjustment instanceof Adjustment.Turn turn
                ? turn.findCertain().map(range -> new ExampleTurn(range, null))
                : Optional.empty();
    }

    @Override
    public String toString() {
        String from = degrees.from().toPlainString();
        String to = degrees.to().toPlainString();
        return (from.equals(to) ? from : from + ".." + to) + " deg"
                + (sense == null ? "" : " towards " + sense.word() + " angles");
    }
}
