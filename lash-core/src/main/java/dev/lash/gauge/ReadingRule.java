package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.io.Serializable;

/**
 * How a trial is read: which clearances c a leaf of marked thickness t allows.
 *
 * <table>
 * <caption>What each fit claims; d = tolerance of a leaf, f = drag allowance</caption>
 * <tr><th>fit</th><th>simple</th><th>guarded</th></tr>
 * <tr><td>goes</td><td>c &gt; t</td><td>c &gt; t - d</td></tr>
 * <tr><td>drags</td><td>c = t</td><td>t - d - f &lt;= c &lt;= t + d + f</td></tr>
 * <tr><td>forced, refuses</td><td>c &lt; t</td><td>c &lt; t + d</td></tr>
 * </table>
 *
 * <p>The simple rule takes a leaf for its mark, as the trade does: simple acceptance in the sense of JCGM 106:2012. The
 * guarded rule counts the leaf's tolerance and the hand's allowance, so that a verdict drawn from it is proof in the manner
 * of ISO 14253-1. A stack of n leaves has n times the tolerance (worst case).
 */
public sealed interface ReadingRule extends Serializable {
    /**
     * The clearances that a trial allows.
     *
     * @param trial the trial
     * @return the interval
     */
    LengthInterval claim(Trial trial);

    /** {@return the rule that takes a leaf for its mark} */
    static ReadingRule simple() {
        return Simple.INSTANCE;
    }

    /**
     * The rule that counts tolerance and drag allowance.
     *
     * @param tolerance how far a leaf may be from its mark, either way; 0 to 0.1 mm
     * @param dragAllowance how far a drag may be from the leaf, either way; 0 to 0.1 mm
     * @return the rule
     * @throws RejectedValueException if either is outside its range
     */
    static ReadingRule guarded(Length tolerance, Length dragAllowance) {
        return new Guarded(tolerance, dragAllowance);
    }

    /**
     * Reads what {@code toString} writes.
     *
     * @param text {@code "simple"}, or {@code "guarded, tolerance 0.003 mm, drag allowance 0.00 mm"}
     * @return the rule
     * @throws RejectedValueException if the text is anything else
     */
    static ReadingRule parse(String text) {
        if (requireNonNull(text, "text").equals("simple")) {
            return simple();
        }
        String[] parts = text.split(", ", -1);
        if (parts.length == 3
                && parts[0].equals("guarded")
                && parts[1].startsWith("tolerance ")
                && parts[2].startsWith("drag allowance ")) {
            return guarded(
                    Length.parse(parts[1].substring("tolerance ".length())),
                    Length.parse(parts[2].substring("drag allowance ".length())));
        }
        throw new TextParseException(
                Reason.WRONG_FORM,
                "reading rule",
                text,
                0,
                "is not a rule",
                "\"simple\" or \"guarded, tolerance 0.003 mm, drag allowance 0.00 mm\"",
                "write the rule in one of these forms");
    }

    /**
     * {@code "simple"} or {@code "guarded"}.
     *
     * @return the name of the rule without its figures
     */
    String name();

    /**
     * The rule with its figures in a unit, for a person.
     *
     * @param unit the unit wished for
     * @return the text
     */
    String toString(LengthUnit unit);

    /** A leaf is its mark. */
    final class Simple implements ReadingRule {
        private static final long serialVersionUID = 1L;
        private static final Simple INSTANCE = new Simple();

        private Simple() {}

        private Object readResolve() {
            return INSTANCE;
        }

        @Override
        public LengthInterval claim(Trial trial) {
            Length t = trial.leaf().thickness();
            return switch (trial.fit()) {
                case GOES -> LengthInterval.above(t);
                case DRAGS -> LengthInterval.point(t);
                case FORCED, REFUSES -> LengthInterval.below(t);
            };
        }

        @Override
        public String name() {
            return "simple";
        }

        @Override
        public String toString(LengthUnit unit) {
            requireNonNull(unit, "unit");
            return name();
        }

        @Override
        public String toString() {
            return name();
        }
    }

    /**
     * Tolerance and drag allowance are counted.
     *
     * @param tolerance how far a leaf may be from its mark, either way
     * @param dragAllowance how far a drag may be from the leaf, either way
     */
    record Guarded(Length tolerance, Length dragAllowance) implements ReadingRule {
        private static final Length MOST = Length.ofMillimetres("0.1");

        /**
         * Creates the rule.
         *
         * @param tolerance how far a leaf may be from its mark, either way
         * @param dragAllowance how far a drag may be from the leaf, either way
         */
        public Guarded {
            check("leaf tolerance", tolerance);
            check("drag allowance", dragAllowance);
        }

        private static void check(String what, Length value) {
            if (requireNonNull(value, what).signum() < 0 || value.isMoreThan(MOST)) {
                throw new RejectedValueException(
                        what,
                        value.toString(),
                        "is out of range",
                        "0 mm to " + MOST,
                        "give the figure of your own leaves; a published band is 0.003 to 0.010 mm by thickness (JIS B 7524)");
            }
        }

        @Override
        public LengthInterval claim(Trial trial) {
            Length t = trial.leaf().thickness();
            Length d = tolerance.times(trial.leaf().size());
            Length reach = d.plus(dragAllowance);
            return switch (trial.fit()) {
                case GOES -> LengthInterval.above(t.minus(d));
                case DRAGS -> LengthInterval.closed(t.minus(reach), t.plus(reach));
                case FORCED, REFUSES -> LengthInterval.below(t.plus(d));
            };
        }

        @Override
        public String name() {
            return "guarded";
        }

        @Override
        public String toString(LengthUnit unit) {
            return "guarded, tolerance " + tolerance.toString(unit) + ", drag allowance "
                    + dragAllowance.toString(unit);
        }

        @Override
        public String toString() {
            return toString(LengthUnit.MILLIMETRE);
        }
    }
}
