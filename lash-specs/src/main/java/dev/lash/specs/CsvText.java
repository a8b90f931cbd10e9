package dev.lash.specs;

import java.util.List;

/** Writes rows as delimited text (RFC 4180). */
final class CsvText {
    private CsvText() {}

    /** One row without its line end. */
    static String line(List<String> cells, char delimiter) {
        StringBuilder out = new StringBuilder();
        for (int i = 0; i < cells.size(); i++) {
            if (i > 0) {
                out.append(delimiter);
            }
            String cell = cells.get(i);
            boolean quote = (cell.isEmpty() && cells.size() == 1)
                    || cell.indexOf(delimiter) >= 0
                    || cell.indexOf('"') >= 0
                    || cell.indexOf('\n') >= 0
                    || cell.indexOf('\r') >= 0
                    || cell.startsWith(" ")
                    || cell.endsWith(" ");
            if (quote) {
                out.append('"').append(cell.replace("\"", "\"\"")).append('"');
            } else {
                out.append(cell);
            }
        }
        return out.toString();
    }
}
