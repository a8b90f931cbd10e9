package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.Length;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * A figure of an engine that is unlike what makers give: a decimal or a unit may have slipped. Templates and sheets are held to the same
 * limits, which are common practice, with room. Windows have limits of their own, in {@link ClearanceWindow}.
 *
 * @param figure the figure
 * @param part which part of it, as a field or an index, such as {@code "in"} of the cam timing; empty for the whole
 * @param value the value with its unit
 * @param problem what is wrong with it, as the end of a sentence
 * @param expected what was expected
 * @param mend what to do about it
 */
public record UnusualFigure(Figure figure, String part, String value, String problem, String expected, String mend)
        implements Serializable {
    private static final Length THINNEST_SHIM = Length.ofMillimetres("0.8");
    private static final Length THICKEST_SHIM = Length.ofMillimetres("8");

    /** Limits with room, common practice: of ratios, a cold engine, any engine that is measured, degrees between firings and of lift. */
    private static final Ratio LEAST_RATIO = Ratio.of(1, 2);

    private static final Ratio MOST_RATIO = Ratio.of(5, 2);
    private static final Temperature MOST_COLD = Temperature.ofCelsius(60);
    private static final Temperature MOST_HOT = Temperature.ofCelsius(150);
    private static final Ratio LEAST_FIRING = Ratio.of(30, 1);
    private static final Ratio LEAST_LIFT = Ratio.of(200, 1);
    private static final Ratio MOST_LIFT = Ratio.of(340, 1);

    /** Pitches of fine threads that adjusters have: metric by ISO 261, in threads to the inch by ISO 263 (from memory). */
    private static final List<String> THREADS = List.of(
            "0.5 mm", "0.6 mm", "0.7 mm", "0.75 mm", "0.8 mm", "1 mm", "1.25 mm", "1.5 mm", "18 tpi", "20 tpi",
            "24 tpi", "26 tpi", "28 tpi", "32 tpi", "36 tpi", "40 tpi");

    private static final Set<Pitch> STANDARD =
            THREADS.stream().map(Pitch::parse).collect(Collectors.toUnmodifiableSet());

    /**
     * Creates an unusual figure.
     *
     * @param figure the figure
     * @param part which part of it, as a field or an index, such as {@code "in"} of the cam timing; empty for the whole
     * @param value the value with its unit
     * @param problem what is wrong with it, as the end of a sentence
     * @param expected what was expected
     * @param mend what to do about it
     */
    public UnusualFigure {
        requireNonNull(figure, "figure");
        requireNonNull(part, "part");
        requireNonNull(value, "value");
        requireNonNull(problem, "problem");
        requireNonNull(expected, "expected");
        requireNonNull(mend, "mend");
    }

    /**
     * The unusual figures of an engine, those of windows left out.
     *
     * @param engine the engine
     * @return the figures, in the order of {@link Figure}; none where all are usual
     */
    public static List<UnusualFigure> of(EngineSpec engine) {
        Search search = new Search(requireNonNull(engine, "engine"));
        search.firing();
        search.train();
        search.condition();
        search.interval();
        search.timing();
        return List.copyOf(search.found);
    }

    /** {@return the figure and what is wrong with it, in words} */
    @Override
    public String toString() {
        return figure.words() + (part.isEmpty() ? "" : " (" + part + ")") + " " + value + " " + problem;
    }

    private static final class Search {
        private final EngineSpec engine;
        private final List<UnusualFigure> found = new ArrayList<>();

        private Search(EngineSpec engine) {
            this.engine = engine;
        }

        private void add(Figure figure, String problem, String expected, String mend) {
            String value = engine.findFigure(figure, LengthUnit.MILLIMETRE).orElse("");
            found.add(new UnusualFigure(figure, "", value, problem, expected, mend));
        }

        /** Two cylinders do not fire within a few degrees of each other. */
        private void firing() {
            List<Ratio> intervals = engine.firingOrder().intervals();
            for (int i = 0; i < intervals.size(); i++) {
                if (intervals.get(i).compareTo(LEAST_FIRING) < 0) {
                    found.add(new UnusualFigure(
                            Figure.FIRING_INTERVALS,
                            String.valueOf(i),
                            intervals.get(i) + " deg",
                            "is no usual interval between two firings",
                            LEAST_FIRING + " crank degrees or more",
                            "check the figure; the intervals sum to 720"));
                }
            }
        }

        private void train() {
            if (engine.train() instanceof ValveTrain.Screw screw) {
                if (!STANDARD.contains(screw.pitch())) {
                    add(
                            Figure.PITCH,
                            "is not the pitch of a standard thread",
                            "one of " + String.join(", ", THREADS),
                            "check the thread");
                }
                if (screw.ratio().compareTo(LEAST_RATIO) < 0 || screw.ratio().compareTo(MOST_RATIO) > 0) {
                    add(
                            Figure.RATIO,
                            "is no usual ratio of a rocker",
                            LEAST_RATIO + " to " + MOST_RATIO,
                            "divide the arm of the valve by that of the pushrod");
                }
            } else if (engine.train() instanceof ValveTrain.Shim shim) {
                sizes(Figure.SHIMS, shim.sizes());
            } else if (engine.train() instanceof ValveTrain.Desmodromic desmodromic) {
                sizes(Figure.OPENER_SHIMS, desmodromic.opener());
                sizes(Figure.CLOSER_SHIMS, desmodromic.closer());
            }
        }

        private void sizes(Figure figure, ShimRange sizes) {
            if (sizes.thinnest().isLessThan(THINNEST_SHIM) || sizes.thickest().isMoreThan(THICKEST_SHIM)) {
                add(
                        figure,
                        "are no usual sizes of shims, buckets or lash caps",
                        THINNEST_SHIM + " to " + THICKEST_SHIM,
                        "check the sizes and their unit");
            }
        }

        private void condition() {
            engine.coldest()
                    .filter(coldest -> coldest.isAbove(MOST_HOT))
                    .ifPresent(coldest -> add(
                            Figure.COLDEST,
                            "is warmer than any engine at this work",
                            "at most " + MOST_HOT,
                            "check the figure and its scale"));
            // with a least temperature too, the windows are for a hot engine
            Temperature most = engine.coldest().isEmpty() ? MOST_COLD : MOST_HOT;
            engine.warmest()
                    .filter(warmest -> warmest.isAbove(most))
                    .ifPresent(warmest -> add(
                            Figure.WARMEST,
                            "is warmer than a" + (most.equals(MOST_COLD) ? " cold engine" : "ny engine at this work"),
                            "at most " + most,
                            "check the figure and its scale"));
        }

        private void interval() {
            UsualIntervals usual = UsualIntervals.of(engine.train().kind());
            engine.checkInterval()
                    .filter(interval -> !usual.contains(interval))
                    .ifPresent(interval -> add(
                            Figure.CHECK_INTERVAL,
                            "is no usual interval of a " + engine.train().kind() + " train",
                            usual.words(interval),
                            "check the figure and its unit"));
        }

        private void timing() {
            engine.camTiming().ifPresent(timing -> {
                for (ValveRole role : ValveRole.values()) {
                    Ratio lift = timing.liftTo(role)
                            .minus(timing.liftFrom(role))
                            .minus(timing.margin())
                            .minus(timing.margin());
                    if (lift.compareTo(LEAST_LIFT) < 0 || lift.compareTo(MOST_LIFT) > 0) {
                        found.add(new UnusualFigure(
                                Figure.CAM_TIMING,
                                role.code(),
                                engine.findFigure(Figure.CAM_TIMING, LengthUnit.MILLIMETRE)
                                        .orElse(""),
                                "lifts the valve for " + lift + " crank degrees, which no usual cam does",
                                LEAST_LIFT + " to " + MOST_LIFT,
                                "check the figures and the marks that they count from"));
                    }
                }
            });
        }
    }
}
