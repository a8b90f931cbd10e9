package dev.lash.judge;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Bracket;
import dev.lash.measure.Length;
import dev.lash.measure.LengthDistribution;
import dev.lash.measure.LengthInterval;
import java.io.Serializable;
import java.util.List;
import java.util.Optional;

/**
 * A verdict with what it was drawn from.
 *
 * <p>With the simple rule this is simple acceptance (JCGM 106:2012). With the guarded rule a verdict of within is proof of
 * conformity, tight or loose proof of nonconformity, and undecided says that neither is proved, in the manner of ISO
 * 14253-1.
 *
 * @param bracket the reading, with its trials and rule
 * @param window the window it was held against
 */
public record Judgement(Bracket bracket, ClearanceWindow window) implements Serializable {
    private static final Length LEAST = Length.ofMillimetres("-1000");

    /**
     * Creates a judgement.
     *
     * @param bracket the reading, with its trials and rule
     * @param window the window it was held against
     */
    public Judgement {
        requireNonNull(bracket, "bracket");
        requireNonNull(window, "window");
    }

    /**
     * Judges a reading.
     *
     * @param bracket the reading
     * @param window the window to hold it against
     * @return the judgement
     */
    public static Judgement of(Bracket bracket, ClearanceWindow window) {
        return new Judgement(bracket, window);
    }

    /** {@return the verdict} */
    public Verdict verdict() {
        return Verdict.of(clearances(), window);
    }

    /** A closer may hold its valve with force: where its reading has no lower end, gaps below 0 are meant too. */
    private LengthInterval clearances() {
        LengthInterval interval = bracket.interval();
        return bracket.unloaded().isEmpty() || interval.lower().isPresent()
                ? interval
                : interval.intersection(LengthInterval.atLeast(LEAST)).orElse(interval);
    }

    /** {@return the verdicts that the reading leaves open, in the order tight, within, loose; one of them when it is decided} */
    public List<Verdict> possible() {
        return Verdict.possible(clearances(), window);
    }

    /**
     * The probability of each verdict, given what was thought of the clearance before this reading: the mass of the prior in
     * bracket and window together, over its mass in the bracket. A bracket of one point decides by itself.
     *
     * @param prior what was thought before this reading; it must not have used the reading
     * @return the probabilities, or empty when the prior gives the bracket no mass
     */
    public Optional<VerdictProbabilities> probabilities(LengthDistribution prior) {
        // A prior may reach below 0, where no clearance can be but that of a closer.
        LengthInterval interval = Optional.of(bracket.interval())
                .filter(i -> bracket.unloaded().isEmpty())
                .flatMap(i -> i.intersection(LengthInterval.atLeast(Length.ZERO)))
                .orElse(bracket.interval());
        Verdict decided = verdict();
        if (decided != Verdict.UNDECIDED) {
            return Optional.of(VerdictProbabilities.certain(decided));
        }
        double mass = prior.probabilityOf(interval);
        if (!(mass > 0)) {
            return Optional.empty();
        }
        double tight = interval.intersection(LengthInterval.below(window.lower()))
                .map(prior::probabilityOf)
                .orElse(0.0);
        double within = interval.intersection(window.interval())
                .map(prior::probabilityOf)
                .orElse(0.0);
        double loose = interval.intersection(LengthInterval.above(window.upper()))
                .map(prior::probabilityOf)
                .orElse(0.0);
        return Optional.of(new VerdictProbabilities(tight / mass, within / mass, loose / mass));
    }
}
