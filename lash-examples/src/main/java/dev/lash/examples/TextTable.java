package dev.lash.examples;

import java.util.ArrayList;
import java.util.List;

/** A table of text whose columns line up and whose last column takes the room that is left. */
final class TextTable {
    private static final String GAP = " ";
    private static final int LEAST_LAST = 20;

    private final int width;
    private final List<List<List<String>>> rows = new ArrayList<>();

    TextTable(int width) {
        this.width = width;
    }

    /** Adds a row; each cell is a list of lines. */
    void row(List<List<String>> cells) {
        rows.add(List.copyOf(cells));
    }

    /** The table, every line with its end. */
    String write() {
        int columns = rows.get(0).size();
        int[] widths = new int[columns];
        int left = width;
        for (int c = 0; c < columns - 1; c++) {
            for (List<List<String>> row : rows) {
                for (String line : row.get(c)) {
                    widths[c] = Math.max(widths[c], line.length());
                }
            }
            left -= widths[c] + GAP.length();
        }
        widths[columns - 1] = Math.max(LEAST_LAST, left);
        StringBuilder out = new StringBuilder();
        for (List<List<String>> row : rows) {
            List<List<String>> cells = new ArrayList<>(row.subList(0, columns - 1));
            cells.add(wrap(row.get(columns - 1), widths[columns - 1]));
            int height = cells.stream().mapToInt(List::size).max().orElse(0);
            for (int i = 0; i < height; i++) {
                StringBuilder line = new StringBuilder();
                for (int c = 0; c < columns; c++) {
                    String text = i < cells.get(c).size() ? cells.get(c).get(i) : "";
                    line.append(text)
                            .append(" ".repeat(widths[c] - Math.min(widths[c], text.length())))
                            .append(GAP);
                }
                out.append(line.toString().stripTrailing()).append('\n');
            }
        }
        return out.toString();
    }

    private static List<String> wrap(List<String> lines, int width) {
        return lines.stream().flatMap(line -> wrap(line, width).stream()).toList();
    }

    /** A text broken at spaces into lines of at most {@code width} characters, where its words allow. */
    static List<String> wrap(String text, int width) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        // control characters of a document must not reach a terminal
        for (String word : text.replaceAll("\\p{Cntrl}", "?").split(" ", -1)) {
            if (line.length() > 0 && line.length() + 1 + word.length() > width) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }

    /** Appends a text, wrapped; its first line begins with the mark, the others are indented as far. */
    static void paragraph(String text, String mark, StringBuilder out) {
        String prefix = mark;
        for (String line : wrap(text, TextReport.WIDTH - mark.length())) {
            out.append(prefix).append(line).append('\n');
            prefix = " ".repeat(mark.length());
        }
    }
}
