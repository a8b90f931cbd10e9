package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.check.ReadingField;
import dev.lash.check.RecordLayout;
import dev.lash.check.RecordLayout.DateOrder;
import dev.lash.engine.ValveId;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * How a file of readings is to be read ({@code lash-mapping/1}): which column holds what, and in which form. Declared, never guessed.
 *
 * <pre>{@code
 * { "format": "lash-mapping/1", "delimiter": ";", "decimalComma": true, "dateOrder": "day-month-year",
 *   "unit": "mm", "units": { "shim": "mm" }, "usageUnit": "km", "temperatureScale": "C",
 *   "columns": { "machine": "Bike", "date": "Day", "usage": "km", "valve": "Valve", "goes": "Go", "refuses": "No go" },
 *   "valveNames": { "EX RIGHT": "2-ex-1" } }
 * }</pre>
 *
 * <p>All but {@code format} and {@code columns} may be left out: the delimiter is then a comma, numbers have a decimal point, dates are
 * ISO 8601, and a bare number is an error. In JSON Lines {@code columns} names the keys of each object. Columns and keys that the
 * mapping does not name are left alone; in lash's {@linkplain #own own form}, where nothing is declared, they are refused, as a
 * misspelt name would lose readings. Immutable.
 */
public final class ImportMapping {
    static final String FORMAT = "lash-mapping/1";

    private final char delimiter;
    private final boolean decimalComma;
    private final DateOrder dateOrder;
    private final EnumMap<ReadingField, LengthUnit> units;
    private final Usage.@Nullable Unit usageUnit;
    private final Temperature.@Nullable Scale scale;
    private final EnumMap<ReadingField, String> columns;
    private final Map<String, String> valveNames;
    private final boolean own;

    private ImportMapping(
            char delimiter,
            boolean decimalComma,
            DateOrder dateOrder,
            EnumMap<ReadingField, LengthUnit> units,
            Usage.@Nullable Unit usageUnit,
            Temperature.@Nullable Scale scale,
            EnumMap<ReadingField, String> columns,
            Map<String, String> valveNames,
            boolean own) {
        this.delimiter = delimiter;
        this.decimalComma = decimalComma;
        this.dateOrder = dateOrder;
        this.units = units;
        this.usageUnit = usageUnit;
        this.scale = scale;
        this.columns = columns;
        this.valveNames = valveNames;
        this.own = own;
    }

    /** {@return lash's own form: columns named as the fields are, a comma between them, every length with its unit} */
    public static ImportMapping own() {
        EnumMap<ReadingField, String> columns = new EnumMap<>(ReadingField.class);
        for (ReadingField field : ReadingField.values()) {
            columns.put(field, field.word());
        }
        return new ImportMapping(
                ',',
                false,
                DateOrder.YEAR_MONTH_DAY,
                new EnumMap<>(ReadingField.class),
                null,
                null,
                columns,
                Map.of(),
                true);
    }

    /**
     * Reads a mapping from a file.
     *
     * @param file the file
     * @return the mapping
     * @throws IOException if the file cannot be read
     * @throws DocumentException if it is no valid mapping
     */
    public static ImportMapping read(Path file) throws IOException {
        return read(JsonDocument.read(file));
    }

    /**
     * Reads a mapping from text.
     *
     * @param source the name to use in errors
     * @param json the document
     * @return the mapping
     * @throws DocumentException if it is no valid mapping
     */
    public static ImportMapping read(String source, String json) {
        return read(JsonDocument.parse(requireNonNull(source, "source"), json));
    }

    private static ImportMapping read(JsonDocument document) {
        JsonFields fields = document.fields(FORMAT, "mapping");
        char delimiter = fields.find("delimiter")
                .map(value -> delimiter(document, value))
                .orElse(',');
        boolean comma = fields.find("decimalComma")
                .map(value -> {
                    if (value.kind() != Json.Kind.TRUTH) {
                        throw document.error(
                                value, "is not true or false", "true or false", "write it without quotation marks");
                    }
                    return value.text().equals("true");
                })
                .orElse(false);
        DateOrder order = fields.find("dateOrder")
                .map(value -> switch (document.text(value, "an order of day, month and year")) {
                    case "year-month-day" -> DateOrder.YEAR_MONTH_DAY;
                    case "day-month-year" -> DateOrder.DAY_MONTH_YEAR;
                    case "month-day-year" -> DateOrder.MONTH_DAY_YEAR;
                    default ->
                        throw document.error(
                                value,
                                "is not an order of day, month and year",
                                "year-month-day, day-month-year or month-day-year",
                                "write one of these");
                })
                .orElse(DateOrder.YEAR_MONTH_DAY);
        EnumMap<ReadingField, LengthUnit> units = new EnumMap<>(ReadingField.class);
        fields.find("unit").map(value -> unit(document, value)).ifPresent(unit -> {
            for (ReadingField field : ReadingField.values()) {
                if (field.isLength()) {
                    units.put(field, unit);
                }
            }
        });
        fields.find("units")
                .ifPresent(value -> document.fields(value).members().forEach((name, unit) -> {
                    ReadingField field = field(document, unit, name);
                    if (!field.isLength()) {
                        throw document.error(
                                unit, "is given for " + name + ", which holds no lengths", "nothing", "remove it");
                    }
                    units.put(field, unit(document, unit));
                }));
        Usage.Unit usageUnit = fields.find("usageUnit")
                .map(value -> switch (document.text(value, "km, mi or h")) {
                    case "km" -> Usage.Unit.KILOMETRE;
                    case "mi" -> Usage.Unit.MILE;
                    case "h" -> Usage.Unit.HOUR;
                    default ->
                        throw document.error(value, "is not a unit of usage", "km, mi or h", "write one of these");
                })
                .orElse(null);
        Temperature.Scale scale = fields.find("temperatureScale")
                .map(value -> switch (document.text(value, "C or F")) {
                    case "C" -> Temperature.Scale.CELSIUS;
                    case "F" -> Temperature.Scale.FAHRENHEIT;
                    default -> throw document.error(value, "is not a scale", "C or F", "write one of these");
                })
                .orElse(null);
        EnumMap<ReadingField, String> columns = new EnumMap<>(ReadingField.class);
        document.fields(fields.get("columns")).members().forEach((name, value) -> {
            ReadingField field = field(document, value, name);
            String column = document.text(value, "the name of a column");
            columns.forEach((other, taken) -> {
                if (taken.equals(column)) {
                    throw document.error(
                            value,
                            "is given for " + field + ", and for " + other + " already",
                            "a column of its own for each field",
                            "name the column that holds " + field + ", or leave " + field + " out");
                }
            });
            columns.put(field, column);
        });
        Map<String, String> names = new LinkedHashMap<>();
        fields.find("valveNames")
                .ifPresent(value -> document.fields(value)
                        .members()
                        .forEach((name, valve) -> names.put(
                                name,
                                document.read(valve, "a valve such as \"1-in-1\"", ValveId::parse)
                                        .toString())));
        fields.finish();
        return new ImportMapping(delimiter, comma, order, units, usageUnit, scale, columns, Map.copyOf(names), false);
    }

    private static char delimiter(JsonDocument document, Json value) {
        String text = document.text(value, "one character between columns");
        if (text.length() != 1 || "\"\r\n\0\uFFFD".contains(text) || Character.isLetterOrDigit(text.charAt(0))) {
            throw document.error(
                    value,
                    "cannot part columns",
                    "one character such as , or ; or a tab",
                    "write the file's delimiter");
        }
        return text.charAt(0);
    }

    private static LengthUnit unit(JsonDocument document, Json value) {
        String text = document.text(value, "a unit of length");
        return LengthUnit.find(text)
                .orElseThrow(() -> document.error(
                        value, "is not a unit of length", "mm, um, hundredths, in or thou", "write one of these"));
    }

    private static ReadingField field(JsonDocument document, Json value, String name) {
        try {
            return ReadingField.parse(name);
        } catch (RejectedValueException unknown) {
            throw document.error(
                    value, "is given for \"" + name + "\", which is no field", unknown.expected(), unknown.mend());
        }
    }

    /** The character between columns. */
    char delimiter() {
        return delimiter;
    }

    /** The name of the column that holds a field, where there is one. */
    Optional<String> column(ReadingField field) {
        return Optional.ofNullable(columns.get(field));
    }

    /** The names that a file in lash's own form may have, in their order; none where a mapping says which of the file's names count. */
    Set<String> onlyNames() {
        return own ? new LinkedHashSet<>(columns.values()) : Set.of();
    }

    /**
     * The layout of a file with these columns.
     *
     * @param header the names of the columns, as the file has them
     * @return the layout
     * @throws RejectedValueException if a column that the mapping names is missing, or the header has a name twice; only that of {@link
     *     ReadingField#CONFIRMED} may be missing, and in lash's own form any
     */
    public RecordLayout layout(List<String> header) {
        RecordLayout.Builder builder =
                RecordLayout.builder(header).decimalComma(decimalComma).dateOrder(dateOrder);
        columns.forEach((field, column) -> {
            if (header.contains(column) || !(own || field == ReadingField.CONFIRMED)) {
                builder.column(field, column);
            }
        });
        units.forEach(builder::unit);
        Optional.ofNullable(usageUnit).ifPresent(builder::usageUnit);
        Optional.ofNullable(scale).ifPresent(builder::temperatureScale);
        valveNames.forEach(builder::valveName);
        return builder.build();
    }
}
