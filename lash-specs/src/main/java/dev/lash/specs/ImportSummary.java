package dev.lash.specs;

import dev.lash.check.Correction;
import dev.lash.check.ImportCode;
import dev.lash.check.ImportFinding;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What an import came to.
 *
 * @param read the rows that were read
 * @param accepted those that became readings
 * @param rejected those that have an error
 * @param duplicates those that were there already
 * @param counts how many findings there are of each code that there is
 * @param first the first finding of each of these codes
 */
public record ImportSummary(
        long read,
        long accepted,
        long rejected,
        long duplicates,
        Map<ImportCode, Long> counts,
        Map<ImportCode, ImportFinding> first)
        implements Serializable {
    /**
     * Creates a summary.
     *
     * @param read the rows that were read
     * @param accepted those that became readings
     * @param rejected those that have an error
     * @param duplicates those that were there already
     * @param counts how many findings there are of each code that there is
     * @param first the first finding of each of these codes
     * @throws RejectedValueException if the rows do not add up
     */
    public ImportSummary {
        if (read != accepted + rejected + duplicates) {
            throw new RejectedValueException(
                    "rows read",
                    Long.toString(read),
                    "are not those accepted, rejected and duplicate together",
                    Long.toString(accepted + rejected + duplicates),
                    "ask for the summary once a file is read");
        }
        counts = copy(counts);
        first = copy(first);
    }

    private static <V> Map<ImportCode, V> copy(Map<ImportCode, V> map) {
        EnumMap<ImportCode, V> own = new EnumMap<>(ImportCode.class);
        own.putAll(map);
        return Collections.unmodifiableMap(own);
    }

    /** {@return the summary as a JSON document ({@code lash-import/1})} */
    public String json() {
        List<Object> codes = new ArrayList<>();
        counts.forEach((code, count) -> {
            JsonText.Fields fields = new JsonText.Fields()
                    .put("code", code.code())
                    .put("severity", code.severity().word())
                    .put("count", count);
            ImportFinding example = first.get(code);
            if (example != null) {
                fields.put("first", tree(example));
            }
            codes.add(fields.map());
        });
        return JsonText.write(
                new JsonText.Fields()
                        .put("format", "lash-import/1")
                        .put("read", read)
                        .put("accepted", accepted)
                        .put("rejected", rejected)
                        .put("duplicates", duplicates)
                        .put("findings", codes)
                        .map(),
                true);
    }

    /**
     * A finding as a line of JSON, without its end.
     *
     * @param finding the finding
     * @param fate what became of its row
     * @return the line
     */
    public static String line(ImportFinding finding, Fate fate) {
        Map<String, Object> tree = tree(finding);
        tree.put("fate", fate.word());
        return JsonText.write(tree, false);
    }

    private static Map<String, Object> tree(ImportFinding finding) {
        JsonText.Fields fields = new JsonText.Fields()
                .put("code", finding.code().code())
                .put("severity", finding.severity().word())
                .put("row", finding.row())
                .putText("column", finding.column())
                .putText("value", finding.value())
                .put("problem", finding.problem())
                .put("expected", finding.expected())
                .put("mend", finding.mend())
                .put("standing", finding.standing().word());
        finding.findCorrection().ifPresent(c -> fields.put("correction", tree(c)));
        return fields.map();
    }

    private static Map<String, Object> tree(Correction correction) {
        JsonText.Fields fields = new JsonText.Fields()
                .put("field", correction.field().word())
                .put("text", correction.text())
                .put("reason", correction.reason());
        if (correction.odds() < Double.POSITIVE_INFINITY) {
            fields.put("odds", (double) Math.round(correction.odds() * 10) / 10);
        }
        return fields.map();
    }
}
