package dev.lash.specs;

import dev.lash.gauge.LeafStack;
import dev.lash.gauge.Trial;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import java.util.List;
import java.util.Map;

/** How sheets and reports both write leaves and trials. */
final class SharedForms {
    private SharedForms() {}

    /** One leaf as a text, a stack as a list of texts. */
    static Object leaf(LeafStack stack, LengthUnit unit) {
        return stack.size() == 1 ? stack.toString(unit) : leaves(stack, unit);
    }

    static List<String> leaves(LeafStack stack, LengthUnit unit) {
        return stack.leaves().stream().map(leaf -> leaf.toString(unit)).toList();
    }

    static Map<String, Object> trial(Trial trial, LengthUnit unit) {
        return new JsonText.Fields()
                .put("leaf", leaf(trial.leaf(), unit))
                .put("fit", trial.fit().word())
                .map();
    }

    static List<Map<String, Object>> trials(List<Trial> trials, LengthUnit unit) {
        return trials.stream().map(t -> trial(t, unit)).toList();
    }

    /** An interval; a missing end is left out. */
    static Map<String, Object> interval(LengthInterval interval, LengthUnit unit) {
        JsonText.Fields fields = new JsonText.Fields();
        interval.lower()
                .ifPresent(lower ->
                        fields.put("lower", lower.toString(unit)).put("lowerIncluded", interval.lowerIncluded()));
        interval.upper()
                .ifPresent(upper ->
                        fields.put("upper", upper.toString(unit)).put("upperIncluded", interval.upperIncluded()));
        return fields.map();
    }
}
