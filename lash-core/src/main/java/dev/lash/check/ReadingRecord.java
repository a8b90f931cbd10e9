package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.RejectedValueException;
import java.io.Serializable;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** One row as another system handed it over: texts by column, not yet looked at. Immutable. */
public final class ReadingRecord implements Serializable {
    private static final long serialVersionUID = 1L;

    private final RecordLayout layout;
    private final long row;
    private final String[] cells;

    private ReadingRecord(RecordLayout layout, long row, String[] cells) {
        this.layout = layout;
        this.row = row;
        this.cells = cells;
    }

    /**
     * Creates a record.
     *
     * @param layout what the columns hold
     * @param row the row, as the reader counts rows
     * @param cells the texts of all columns, empty where nothing is written
     * @return the record
     * @throws RejectedValueException if there are not as many texts as columns
     */
    public static ReadingRecord of(RecordLayout layout, long row, String... cells) {
        requireNonNull(layout, "layout");
        String[] own = cells.clone();
        if (own.length != layout.columns().size()) {
            throw new RejectedValueException(
                    "row " + row,
                    own.length + " columns",
                    "does not have the columns of the header",
                    layout.columns().size() + " columns",
                    "complete the row, or put quotation marks around a text that holds the delimiter");
        }
        for (String cell : own) {
            requireNonNull(cell, "cell");
        }
        return new ReadingRecord(layout, row, own);
    }

    /** {@return what the columns hold} */
    public RecordLayout layout() {
        return layout;
    }

    /** {@return the row, as the reader counts rows} */
    public long row() {
        return row;
    }

    /** How many characters the texts have together. */
    int length() {
        int length = 0;
        for (String cell : cells) {
            length += cell.length();
        }
        return length;
    }

    /** {@return the texts of all columns} */
    public List<String> cells() {
        return List.of(cells);
    }

    /**
     * The text of a field.
     *
     * @param field the field
     * @return its text; empty where nothing is written or no column holds it
     */
    public String text(ReadingField field) {
        int column = layout.index(field);
        return column < 0 ? "" : cells[column];
    }

    /**
     * The record with another text.
     *
     * @param field the field
     * @param text its text
     * @return the record
     * @throws RejectedValueException if no column holds the field
     */
    public ReadingRecord with(ReadingField field, String text) {
        int column = layout.index(field);
        if (column < 0) {
            throw new RejectedValueException(
                    "field", field.word(), "has no column", "a field of the layout", "add the column");
        }
        String[] changed = cells.clone();
        changed[column] = requireNonNull(text, "text");
        return new ReadingRecord(layout, row, changed);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof ReadingRecord r
                && r.row == row
                && r.layout.equals(layout)
                && Arrays.equals(r.cells, cells);
    }

    @Override
    public int hashCode() {
        return Long.hashCode(row) * 31 + Arrays.hashCode(cells);
    }

    /** {@return row and texts, for a log} */
    @Override
    public String toString() {
        return "row " + row + " " + Arrays.toString(cells);
    }
}
