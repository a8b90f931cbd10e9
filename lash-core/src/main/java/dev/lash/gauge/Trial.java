package dev.lash.gauge;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.List;

/**
 * One leaf or stack offered to one gap, with what the hand felt.
 *
 * <p>Text: {@code "0.10 mm goes"}, {@code "0.06 mm + 0.15 mm refuses"}.
 *
 * @param leaf what was offered
 * @param fit what the hand felt
 */
public record Trial(LeafStack leaf, Fit fit) implements Serializable {
    /**
     * Creates a trial.
     *
     * @param leaf what was offered
     * @param fit what the hand felt
     */
    public Trial {
        requireNonNull(leaf, "leaf");
        requireNonNull(fit, "fit");
    }

    /**
     * A trial with one leaf.
     *
     * @param leaf the leaf
     * @param fit what the hand felt
     * @return the trial
     */
    public static Trial of(Leaf leaf, Fit fit) {
        return new Trial(LeafStack.of(leaf), fit);
    }

    /**
     * The two trials that one stroke with a stepped leaf gives: its thin nose and its thick body.
     *
     * @param nose the thin part, which enters first
     * @param noseFit what the hand felt of the nose
     * @param body the thick part
     * @param bodyFit what the hand felt of the body
     * @return the trial of the nose, then that of the body
     * @throws RejectedValueException if the nose is not thinner than the body
     */
    public static List<Trial> stepped(Leaf nose, Fit noseFit, Leaf body, Fit bodyFit) {
        if (nose.compareTo(body) >= 0) {
            throw new RejectedValueException(
                    "stepped leaf",
                    nose + " nose, " + body + " body",
                    "the nose is not the thinner part",
                    "a nose thinner than the body",
                    "swap nose and body");
        }
        return List.of(of(nose, noseFit), of(body, bodyFit));
    }

    /**
     * Reads what {@link #toString()} writes.
     *
     * @param text the leaf or stack, a space, and the fit
     * @return the trial
     * @throws RejectedValueException if the text is anything else
     */
    public static Trial parse(String text) {
        String s = requireNonNull(text, "text").strip();
        int space = Math.max(s.lastIndexOf(' '), 0);
        Fit fit = Fit.parse(s.substring(space).strip());
        return new Trial(LeafStack.parse(s.substring(0, space)), fit);
    }

    /** {@return the leaf and the fit, such as {@code "0.10 mm goes"}} */
    @Override
    public String toString() {
        return toString(LengthUnit.MILLIMETRE);
    }

    /**
     * The trial with its lengths in a unit.
     *
     * @param unit the unit wished for
     * @return the text
     */
    public String toString(LengthUnit unit) {
        return leaf.toString(unit) + " " + fit;
    }
}
