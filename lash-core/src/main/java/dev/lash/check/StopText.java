package dev.lash.check;

import static java.util.Objects.requireNonNull;
import static java.util.Objects.requireNonNullElseGet;

import dev.lash.engine.CrankPlanner;
import dev.lash.engine.EngineSpec;
import dev.lash.measure.Ratio;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads the free text of a crank stop, as far as it says where the engine stood: {@code "number 1 compression TDC"}, {@code "31 degrees
 * after compression TDC of cylinder 2, mark T"}. What it cannot read it does not guess.
 */
final class StopText {
    private static final Ratio TURN = Ratio.of(360, 1);
    private static final String CYLINDER = "(?:number|cylinder|no\\.?)\\s*#?";
    private static final Pattern FORM = Pattern.compile(
            "(?:(?<degrees>[0-9]{1,3}(?:\\.[0-9]{1,2})?)\\s*(?:deg(?:rees)?|°)\\s*(?<side>after|past|before)\\s+)?(?:at\\s+)?"
                    + "(?:" + CYLINDER
                    + "(?<number>[0-9]{1,2})(?:'s)?\\s+(?:(?:at|on)\\s+)?(?<tdc>compression|overlap)\\s+TDC"
                    + "|(?<own>compression|overlap)\\s+TDC(?:\\s+of\\s+" + CYLINDER + "(?<of>[0-9]{1,2}))?)"
                    + "(?:$|\\s*[,;.(])",
            Pattern.CASE_INSENSITIVE);

    private static final Pattern CLEAR =
            Pattern.compile("(?:^|[,;.(])\\s*clear of the decompressor\\s*(?:$|[,;.)])", Pattern.CASE_INSENSITIVE);

    private StopText() {}

    /** Whether it says outright that no decompressor held. */
    static boolean saysClear(String stop) {
        return CLEAR.matcher(stop).find();
    }

    /** How far a cylinder was past its compression TDC, from 0 to below 720; empty where the text does not say. */
    static Optional<Ratio> phase(EngineSpec engine, int cylinder, String stop) {
        Matcher text = FORM.matcher(stop.strip());
        if (!text.lookingAt()) {
            return Optional.empty();
        }
        String named = text.group("number") == null ? text.group("of") : text.group("number");
        int at = named == null ? cylinder : Integer.parseInt(named);
        if (!engine.firingOrder().order().contains(at)) {
            return Optional.empty();
        }
        String tdc = requireNonNullElseGet(text.group("tdc"), () -> requireNonNull(text.group("own"), "own"));
        Ratio angle = engine.firingOrder().firingAngle(at);
        if (tdc.equalsIgnoreCase("overlap")) {
            angle = angle.plus(TURN);
        }
        String given = text.group("degrees");
        if (given != null) {
            Ratio degrees = Ratio.parse(given);
            angle = "before".equalsIgnoreCase(text.group("side")) ? angle.minus(degrees) : angle.plus(degrees);
        }
        return Optional.of(CrankPlanner.phase(engine, cylinder, angle));
    }
}
