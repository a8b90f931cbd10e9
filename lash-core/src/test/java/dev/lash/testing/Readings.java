package dev.lash.testing;

import dev.lash.engine.ClearanceWindow;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.judge.Judgement;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.util.Arrays;
import java.util.List;

/** Short ways to write readings, windows and leaves in tests. */
public final class Readings {
    private Readings() {}

    /** A length from a bare number of millimetres. */
    public static Length mm(String number) {
        return Length.ofMillimetres(number);
    }

    /** Lengths from bare numbers of millimetres. */
    public static List<Length> mms(String... numbers) {
        return Arrays.stream(numbers).map(Length::ofMillimetres).toList();
    }

    /** An interval from its text. */
    public static LengthInterval interval(String text) {
        return LengthInterval.parse(text);
    }

    /** A window from its text. */
    public static ClearanceWindow window(String text) {
        return ClearanceWindow.parse(text);
    }

    /** Trials from their texts. */
    public static List<Trial> trials(String... texts) {
        return Arrays.stream(texts).map(Trial::parse).toList();
    }

    /** The bracket of some trials under the simple rule. */
    public static Bracket read(String... texts) {
        return read(ReadingRule.simple(), texts);
    }

    /** The bracket of some trials. */
    public static Bracket read(ReadingRule rule, String... texts) {
        return Evidence.of(trials(texts), rule).bracket().orElseThrow();
    }

    /** A guarded rule with its figures in bare numbers of millimetres. */
    public static ReadingRule guarded(String tolerance, String dragAllowance) {
        return ReadingRule.guarded(mm(tolerance), mm(dragAllowance));
    }

    /** A reading under the simple rule, judged. */
    public static Judgement judged(String windowText, String... texts) {
        return Judgement.of(read(texts), window(windowText));
    }

    /** A set of single metric leaves. */
    public static GaugeSet leaves(String... millimetres) {
        return GaugeSet.of(LengthUnit.MILLIMETRE, millimetres);
    }
}
