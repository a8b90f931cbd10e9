package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.io.Serial;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Which columns imported rows have, what they hold and in which form: declared, never guessed. Made by {@link #builder}; immutable.
 *
 * <p>A unit in the text wins over the declared one. Where none is declared, a bare number is an error.
 */
public final class RecordLayout implements Serializable {
    private static final long serialVersionUID = 1L;

    /** The order of day, month and year in a date. */
    public enum DateOrder {
        /** ISO 8601, such as {@code 2031-04-02}. */
        YEAR_MONTH_DAY,
        /** Such as {@code 2.4.2031} or {@code 02/04/2031}. */
        DAY_MONTH_YEAR,
        /** Such as {@code 4/2/2031}. */
        MONTH_DAY_YEAR
    }

    private final List<String> columns;
    private final EnumMap<ReadingField, Integer> fields;

    /** By place of the field among all of them where it stands, or -1: asked for every cell. Not kept: that order may change. */
    private final transient int[] places;

    private final EnumMap<ReadingField, LengthUnit> units;
    private final Usage.@Nullable Unit usageUnit;
    private final Temperature.@Nullable Scale temperatureScale;
    private final boolean decimalComma;
    private final DateOrder dateOrder;
    private final Map<String, String> valveNames;

    private RecordLayout(Builder b) {
        this.columns = List.copyOf(b.columns);
        this.fields = new EnumMap<>(b.fields);
        this.places = places(fields);
        this.units = new EnumMap<>(b.units);
        this.usageUnit = b.usageUnit;
        this.temperatureScale = b.temperatureScale;
        this.decimalComma = b.decimalComma;
        this.dateOrder = b.dateOrder;
        this.valveNames = Collections.unmodifiableMap(new LinkedHashMap<>(b.valveNames));
    }

    private RecordLayout(RecordLayout read) {
        this.columns = read.columns;
        this.fields = read.fields;
        this.places = places(fields);
        this.units = read.units;
        this.usageUnit = read.usageUnit;
        this.temperatureScale = read.temperatureScale;
        this.decimalComma = read.decimalComma;
        this.dateOrder = read.dateOrder;
        this.valveNames = read.valveNames;
    }

    private static int[] places(Map<ReadingField, Integer> fields) {
        int[] places = new int[ReadingField.values().length];
        Arrays.fill(places, -1);
        fields.forEach((field, column) -> places[field.place()] = column);
        return places;
    }

    @Serial
    private Object readResolve() {
        return new RecordLayout(this);
    }

    /**
     * Starts a layout.
     *
     * @param columns the names of the columns, in their order
     * @return a builder
     */
    public static Builder builder(List<String> columns) {
        return new Builder(columns);
    }

    /** {@return a layout with one column for each field, named as the field is, lengths and usages with their unit in the text} */
    public static RecordLayout ofAllFields() {
        List<String> names = new ArrayList<>();
        for (ReadingField field : ReadingField.values()) {
            names.add(field.word());
        }
        Builder builder = new Builder(names);
        for (ReadingField field : ReadingField.values()) {
            builder.column(field, field.word());
        }
        return builder.build();
    }

    /** {@return the names of the columns} */
    public List<String> columns() {
        return columns;
    }

    /** Where the field stands, or -1. */
    int index(ReadingField field) {
        return places[field.place()];
    }

    /**
     * The column of a field.
     *
     * @param field the field
     * @return its name, or empty where no column holds it
     */
    public Optional<String> findColumn(ReadingField field) {
        int index = index(field);
        return index < 0 ? Optional.empty() : Optional.of(columns.get(index));
    }

    /** The name of the column, or the field's own. */
    String name(ReadingField field) {
        int index = index(field);
        return index < 0 ? field.word() : columns.get(index);
    }

    /**
     * The declared unit of bare numbers.
     *
     * @param field a field that holds lengths
     * @return the unit, or empty where none is declared
     */
    public Optional<LengthUnit> findUnit(ReadingField field) {
        return Optional.ofNullable(units.get(requireNonNull(field, "field")));
    }

    @Nullable
    LengthUnit unit(ReadingField field) {
        return units.get(field);
    }

    /** {@return the declared unit of a bare usage, or empty} */
    public Optional<Usage.Unit> usageUnit() {
        return Optional.ofNullable(usageUnit);
    }

    Usage.@Nullable Unit usageUnitOrNull() {
        return usageUnit;
    }

    /** {@return the declared scale of a bare temperature, or empty} */
    public Optional<Temperature.Scale> temperatureScale() {
        return Optional.ofNullable(temperatureScale);
    }

    Temperature.@Nullable Scale scaleOrNull() {
        return temperatureScale;
    }

    /** {@return whether numbers are written with a decimal comma} */
    public boolean decimalComma() {
        return decimalComma;
    }

    /** {@return the order of day, month and year} */
    public DateOrder dateOrder() {
        return dateOrder;
    }

    /** {@return other names of valves, to lash's own} */
    public Map<String, String> valveNames() {
        return valveNames;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other == this || (other instanceof RecordLayout l && l.parts().equals(parts()));
    }

    @Override
    public int hashCode() {
        return columns.hashCode();
    }

    private List<Object> parts() {
        return List.of(columns, fields, units, usageUnit(), temperatureScale(), decimalComma, dateOrder, valveNames);
    }

    /** {@return the columns, for a log} */
    @Override
    public String toString() {
        return "columns " + columns;
    }

    /** Collects the parts of a layout. Used by one thread. */
    public static final class Builder {
        private final List<String> columns;
        private final EnumMap<ReadingField, Integer> fields = new EnumMap<>(ReadingField.class);
        private final EnumMap<ReadingField, LengthUnit> units = new EnumMap<>(ReadingField.class);
        private Usage.@Nullable Unit usageUnit;
        private Temperature.@Nullable Scale temperatureScale;
        private boolean decimalComma;
        private DateOrder dateOrder = DateOrder.YEAR_MONTH_DAY;
        private final Map<String, String> valveNames = new LinkedHashMap<>();

        private Builder(List<String> columns) {
            this.columns = List.copyOf(columns);
            if (new HashSet<>(this.columns).size() != this.columns.size()) {
                throw new RejectedValueException(
                        "columns",
                        this.columns.toString(),
                        "has a name twice",
                        "each name once",
                        "rename one of the two in the header");
            }
        }

        /**
         * Says which column holds a field.
         *
         * @param field the field
         * @param column the name of the column
         * @return this
         * @throws RejectedValueException if there is no such column
         */
        public Builder column(ReadingField field, String column) {
            int index = columns.indexOf(requireNonNull(column, "column"));
            if (index < 0) {
                throw new RejectedValueException(
                        "column",
                        column,
                        "is not in the header",
                        "one of " + columns,
                        "correct the mapping, its delimiter first");
            }
            fields.put(requireNonNull(field, "field"), index);
            return this;
        }

        /**
         * Declares the unit of bare numbers in every column that holds lengths.
         *
         * @param unit the unit
         * @return this
         */
        public Builder unit(LengthUnit unit) {
            for (ReadingField field : ReadingField.values()) {
                if (field.isLength()) {
                    units.put(field, requireNonNull(unit, "unit"));
                }
            }
            return this;
        }

        /**
         * Declares the unit of bare numbers in one column.
         *
         * @param field a field that holds lengths
         * @param unit the unit
         * @return this
         * @throws RejectedValueException if the field holds no lengths
         */
        public Builder unit(ReadingField field, LengthUnit unit) {
            if (!field.isLength()) {
                throw new RejectedValueException(
                        "field", field.word(), "holds no lengths", "a field of lengths", "leave its unit out");
            }
            units.put(field, requireNonNull(unit, "unit"));
            return this;
        }

        /**
         * Declares the unit of a bare usage.
         *
         * @param unit the unit
         * @return this
         */
        public Builder usageUnit(Usage.Unit unit) {
            this.usageUnit = requireNonNull(unit, "unit");
            return this;
        }

        /**
         * Declares the scale of a bare temperature.
         *
         * @param scale the scale
         * @return this
         */
        public Builder temperatureScale(Temperature.Scale scale) {
            this.temperatureScale = requireNonNull(scale, "scale");
            return this;
        }

        /**
         * Declares the decimal sign.
         *
         * @param comma whether numbers are written with a decimal comma
         * @return this
         */
        public Builder decimalComma(boolean comma) {
            this.decimalComma = comma;
            return this;
        }

        /**
         * Declares the order of day, month and year.
         *
         * @param order the order
         * @return this
         */
        public Builder dateOrder(DateOrder order) {
            this.dateOrder = requireNonNull(order, "order");
            return this;
        }

        /**
         * Declares another name of a valve.
         *
         * @param other the name in the rows
         * @param valve the valve, such as {@code "1-in-1"}
         * @return this
         */
        public Builder valveName(String other, String valve) {
            valveNames.put(requireNonNull(other, "other"), requireNonNull(valve, "valve"));
            return this;
        }

        /** {@return the layout} */
        public RecordLayout build() {
            return new RecordLayout(this);
        }
    }
}
