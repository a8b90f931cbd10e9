package dev.lash.examples;

import dev.lash.adjust.Adjustment;
import dev.lash.adjust.InstalledShim;
import dev.lash.check.Done;
import dev.lash.engine.CrankPlanner;
import dev.lash.engine.Decompressor;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.StandardGaugeSet;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** What a walk says and understands: intervals in words, leaves, shims and turns from what a person types. */
final class WalkWords {
    private static final Pattern DEGREES = Pattern.compile("([-+]?[0-9.]+) *(deg|degrees|°)?");
    private static final Pattern LETTERS_OR_QUOTES = Pattern.compile(".*[a-zA-Zµμ\"″].*");
    private static final Ratio MOST_DEGREES = Ratio.of(3600, 1);

    private WalkWords() {}

    /** Whether shims are reached only with a camshaft out. */
    static boolean liftsCamshaft(ValveTrain train) {
        return train instanceof ValveTrain.Shim shim
                && (shim.place() == ValveTrain.ShimPlace.UNDER_BUCKET
                        || shim.place() == ValveTrain.ShimPlace.GRADED_BUCKET);
    }

    /** The place where a valve is measured by itself, as the sheet records it. */
    static String place(EngineSpec engine, ValveId valve) {
        return CrankPlanner.placeToMeasure(engine, valve).orElse("where the manual says") + " of cylinder "
                + valve.cylinder();
    }

    /** Where the engine must stand before a leaf goes in. */
    static String where(EngineSpec engine, ValveId valve) {
        Optional<String> place = CrankPlanner.placeToMeasure(engine, valve);
        Optional<Decompressor> device =
                engine.decompressor().filter(d -> d.valve().equals(valve));
        if (place.isEmpty()) {
            return "By cam timing and decompressor " + valve + " can be measured at no angle: see the manual.";
        }
        return "Cylinder " + valve.cylinder() + " at " + place.get() + ", the follower slack"
                + device.map(
                                d -> d.isKnown()
                                        ? " and clear of the decompressor."
                                        : ". A decompressor may hold this valve there (its angles are not known): see the manual.")
                        .orElse(".");
    }

    /** A reading in words. */
    static String known(LengthInterval interval, LengthUnit unit) {
        if (interval.isPoint()) {
            return "exactly " + interval.lower().orElseThrow().toString(unit);
        }
        List<String> parts = new ArrayList<>();
        interval.lower()
                .map(l -> interval.lowerIncluded() ? l.toString(unit) + " or more" : "more than " + l.toString(unit))
                .ifPresent(parts::add);
        interval.upper()
                .map(u -> interval.upperIncluded() ? "at most " + u.toString(unit) : "less than " + u.toString(unit))
                .ifPresent(parts::add);
        return parts.isEmpty() ? "nothing yet" : String.join(", ", parts);
    }

    /** Words joined by commas and a last "or". */
    static String or(List<Verdict> verdicts) {
        List<String> words = verdicts.stream().map(Verdict::word).toList();
        return words.size() < 2
                ? String.join("", words)
                : String.join(", ", words.subList(0, words.size() - 1)) + " or " + words.get(words.size() - 1);
    }

    /** What was done if the advice was followed, or empty where the advice names no figure. */
    static Optional<Done> advised(Adjustment advice) {
        if (advice instanceof Adjustment.SetToLeaf set) {
            return Optional.of(new Done.SetWith(set.leaf()));
        }
        if (advice instanceof Adjustment.Turn turn) {
            BigDecimal from = turn.degrees().from();
            BigDecimal to = turn.degrees().to();
            BigDecimal middle = from.add(to).divide(BigDecimal.valueOf(2));
            BigDecimal whole = middle.setScale(0, RoundingMode.HALF_UP);
            boolean inside = whole.compareTo(from) >= 0 && whole.compareTo(to) <= 0;
            return Optional.of(new Done.Turned(Ratio.of(inside ? whole : middle)));
        }
        if (advice instanceof Adjustment.FitShim fit) {
            return Optional.of(new Done.Fitted(fit.shim()));
        }
        return advice instanceof Adjustment.Inspect inspect
                ? inspect.findThen().flatMap(WalkWords::advised)
                : Optional.empty();
    }

    /** Whether the advice, once nothing is found wrong, is a counted turn. */
    static boolean isTurn(Adjustment advice) {
        return advice instanceof Adjustment.Turn
                || (advice instanceof Adjustment.Inspect inspect
                        && inspect.findThen().filter(WalkWords::isTurn).isPresent());
    }

    static boolean hasShims(ValveTrain train) {
        return train.shimRatio().isPresent();
    }

    /** The sizes that are made, of the opener's shims for a desmodromic train; empty where there are no shims. */
    static Optional<ShimRange> sizes(ValveTrain train) {
        return train.shims(Gap.OPENER);
    }

    /** What can be asked about an adjustment of a train; empty where a sheet cannot hold it. */
    static Optional<String> doneQuestion(ValveTrain train, LengthUnit unit, boolean turn) {
        if (hasShims(train)) {
            return Optional.of("Which shim was fitted, in mm?");
        }
        if (train instanceof ValveTrain.Wedge) {
            return Optional.of("Turned by how many degrees, 360 for a whole turn (+ the clearance grows)?");
        }
        if (train instanceof ValveTrain.Screw || train instanceof ValveTrain.Eccentric) {
            return Optional.of(
                    turn
                            ? "Turned by how many degrees (+ the clearance grows), or set with which leaf (with its unit)?"
                            : "Set with which leaf, in " + unit.symbol()
                                    + ", or turned by how many degrees (+15 deg: the clearance grows)?");
        }
        return Optional.empty();
    }

    /**
     * Reads what was done.
     *
     * @throws RejectedValueException if it is nothing that can be done to this train
     */
    static Done done(String text, ValveTrain train, LengthUnit unit, boolean turn) {
        if (hasShims(train)) {
            return new Done.Fitted(shim(text).size().orElseThrow());
        }
        Matcher degrees = DEGREES.matcher(text);
        if (degrees.matches() && (turn || train instanceof ValveTrain.Wedge || degrees.group(2) != null)) {
            Ratio turned = Ratio.parse(degrees.group(1).replaceFirst("^\\+", ""));
            if (turned.compareTo(MOST_DEGREES) > 0 || turned.compareTo(Ratio.ZERO.minus(MOST_DEGREES)) < 0) {
                throw new RejectedValueException(
                        "turn", text, "is out of range", "at most ten turns either way", "count the degrees again");
            }
            return new Done.Turned(turned);
        }
        if (train instanceof ValveTrain.Wedge) {
            throw new RejectedValueException(
                    "turn", text, "is no turn", "degrees, such as 360 or -720", "count the turns");
        }
        return new Done.SetWith(stack(text, unit));
    }

    /**
     * Reads an installed shim: its mark, or after an m its measured size; blank for one that is not known.
     *
     * @throws RejectedValueException if it is no size
     */
    static InstalledShim shim(String text) {
        if (text.isBlank()) {
            return new InstalledShim(null, null, Length.ZERO, "");
        }
        boolean measured = text.matches("[mM] .*|[mM][0-9.].*");
        Length size = Length.parse(measured ? text.substring(1).strip() : text, LengthUnit.MILLIMETRE);
        return measured ? InstalledShim.measured(size) : InstalledShim.marked(size);
    }

    /**
     * Reads one leaf, or several joined by +, whose bare numbers are in the unit.
     *
     * @throws RejectedValueException if it is no leaf
     */
    static LeafStack stack(String text, LengthUnit unit) {
        return new LeafStack(Arrays.stream(text.split("\\+", -1))
                .map(part -> new Leaf(Length.parse(part.strip(), unit)))
                .toList());
    }

    /**
     * Reads a set: the name of a standard set, or leaves with white space between.
     *
     * @throws RejectedValueException if it is neither
     */
    static GaugeSet set(String text, LengthUnit unit) {
        Optional<StandardGaugeSet> standard = Arrays.stream(StandardGaugeSet.values())
                .filter(s -> s.id().equals(text.strip()))
                .findFirst();
        if (standard.isPresent()) {
            return standard.get().gauges();
        }
        List<String> leaves = new ArrayList<>();
        for (String word : text.replace(';', ' ').strip().split("\\s+", -1)) {
            boolean unitOfTheOneBefore = !leaves.isEmpty() && !word.isEmpty() && isUnit(word);
            if (unitOfTheOneBefore) {
                leaves.add(leaves.remove(leaves.size() - 1) + " " + word);
            } else {
                leaves.add(word);
            }
        }
        return GaugeSet.of(unit, leaves.toArray(new String[0]));
    }

    /** Whether a list of leaves needs no declared unit: it names units, or a standard set. */
    static boolean namesUnits(String text) {
        return LETTERS_OR_QUOTES.matcher(text).matches();
    }

    /** The unit of a list that names units: inches when most of them are, as a sheet is read. */
    static LengthUnit unitOf(String text) {
        try {
            return StandardGaugeSet.parse(text.strip()).gauges().unit();
        } catch (RejectedValueException noSet) {
            long words = Arrays.stream(text.split("[^a-zA-Zµμ\"″]+", -1))
                    .filter(w -> !w.isEmpty())
                    .count();
            long inches = Arrays.stream(text.split("[^a-zA-Zµμ\"″]+", -1))
                    .filter(w -> LengthUnit.find(w).filter(LengthUnit::isInch).isPresent())
                    .count();
            return 2 * inches > words ? LengthUnit.INCH : LengthUnit.MILLIMETRE;
        }
    }

    private static boolean isUnit(String word) {
        return LengthUnit.find(word).isPresent();
    }

    static String setNames() {
        return Arrays.stream(StandardGaugeSet.values())
                .map(StandardGaugeSet::id)
                .collect(Collectors.joining(", "));
    }

    /** The text with the unit where it names none. */
    static String withUnit(String text, LengthUnit unit) {
        return LETTERS_OR_QUOTES.matcher(text).matches() ? text : text + " " + unit.symbol();
    }

    /** What to look at when setting again and again does not bring a valve within. */
    static String lookAt(ValveTrain train) {
        return hasShims(train)
                ? "is each shim the size it is marked with (micrometer), dirt or a burr under the shim, worn bucket, shim "
                        + "seat or cam lobe"
                : "worn or dished pad and valve tip, stretched or damaged thread of screw or nut, a nut that turns the "
                        + "screw with it";
    }
}
