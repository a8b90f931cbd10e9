package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.check.ImportCode;
import dev.lash.check.ValidationProfile;
import dev.lash.measure.Length;
import dev.lash.measure.RejectedValueException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;

/**
 * Reads the thresholds of an import ({@code lash-profile/1}). Each may be left out, and is then {@linkplain
 * ValidationProfile#defaults() the default}; names and ranges are those of {@link ValidationProfile}. Lengths are texts with their
 * unit, all else is a number.
 *
 * <pre>{@code
 * { "format": "lash-profile/1", "loosening": "0.05 mm", "kilometresPerDay": 400, "corrections": ["decimal-comma"] }
 * }</pre>
 */
public final class ProfileReader {
    static final String FORMAT = "lash-profile/1";

    private ProfileReader() {}

    /**
     * Reads thresholds from a file.
     *
     * @param file the file
     * @return the thresholds
     * @throws IOException if the file cannot be read
     * @throws DocumentException if it is no valid document of thresholds
     */
    public static ValidationProfile read(Path file) throws IOException {
        return read(JsonDocument.read(file));
    }

    /**
     * Reads thresholds from text.
     *
     * @param source the name to use in errors
     * @param json the document
     * @return the thresholds
     * @throws DocumentException if it is no valid document of thresholds
     */
    public static ValidationProfile read(String source, String json) {
        return read(JsonDocument.parse(requireNonNull(source, "source"), json));
    }

    private static ValidationProfile read(JsonDocument document) {
        JsonFields fields = document.fields(FORMAT, "document of import thresholds");
        ValidationProfile usual = ValidationProfile.defaults();
        Thresholds of = new Thresholds(document, fields);
        ValidationProfile read;
        try {
            read = new ValidationProfile(
                    of.length("largestClearance", usual.largestClearance()),
                    of.length("thinnestLeaf", usual.thinnestLeaf()),
                    of.length("windowMargin", usual.windowMargin()),
                    of.length("historyScatter", usual.historyScatter()),
                    of.number("strayShare", usual.strayShare()),
                    of.number("slipShare", usual.slipShare()),
                    of.number("swapOdds", usual.swapOdds()),
                    of.length("loosening", usual.loosening()),
                    of.length("shimTolerance", usual.shimTolerance()),
                    of.count("kilometresPerDay", usual.kilometresPerDay()),
                    of.count("hoursPerDay", usual.hoursPerDay()),
                    of.number("jumpFactor", usual.jumpFactor()),
                    of.number("windowFactor", usual.windowFactor()),
                    of.count("mostVisits", usual.mostVisits()),
                    of.count("mostOpenVisits", usual.mostOpenVisits()),
                    of.codes("corrections"));
        } catch (DocumentException said) {
            throw said;
        } catch (RejectedValueException refused) {
            // a threshold is refused by its own name
            throw document.error(fields.get(refused.what()), refused.problem(), refused.expected(), refused.mend());
        }
        fields.finish();
        return read;
    }

    /** The fields of the document, each with its default. */
    private record Thresholds(JsonDocument document, JsonFields fields) {
        Length length(String name, Length usual) {
            return fields.find(name, "a length with its unit, such as " + usual, Length::parse)
                    .orElse(usual);
        }

        double number(String name, double usual) {
            return fields.find(name)
                    .map(value ->
                            document.number(value, "a number such as " + usual).doubleValue())
                    .orElse(usual);
        }

        int count(String name, int usual) {
            return fields.find(name).map(document::nearestInt).orElse(usual);
        }

        Set<ImportCode> codes(String name) {
            Set<ImportCode> codes = EnumSet.noneOf(ImportCode.class);
            for (Json item : fields.items(name)) {
                if (!codes.add(document.read(item, "a code such as decimal-comma", ImportCode::parse))) {
                    throw document.error(item, "is given twice", "each code once", "remove one of them");
                }
            }
            return codes;
        }
    }
}
