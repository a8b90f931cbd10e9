package dev.lash.specs;

import dev.lash.check.CheckSheet;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** Documents that the tests share. */
final class Fixtures {
    /** A sheet that uses every field, with the engine in place. */
    static final String FULL = "full-sheet.json";

    /** A sheet that lays figures over a template. */
    static final String OVERLAY = "overlay-sheet.json";

    /** A sheet with leaves in inches, with the engine in place. */
    static final String INCH = "inch-sheet.json";

    /** A template that uses every field. */
    static final String TEMPLATE = "full-template.json";

    private Fixtures() {}

    /** A resource of the tests or of the library, from the package of the documents. */
    static String resource(String name) {
        try (InputStream stream = Fixtures.class.getResourceAsStream(name)) {
            if (stream == null) {
                throw new IllegalStateException("no resource " + name);
            }
            return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    static CheckSheet read(String json) {
        return new SheetReader(SpecPack.bundled()).read("sheet.json", json);
    }

    /** A sheet of one cylinder with screws, and these entries in its list of valves. */
    static String sheet(String valves) {
        return """
                {
                  "format": "lash-sheet/1",
                  "engine": {
                    "inline": {
                      "id": "yard-generator",
                      "title": "Yard generator",
                      "cylinders": 1,
                      "valves": ["1-in-1", "1-ex-1"],
                      "train": { "kind": "rocker-screw", "pitch": "0.75 mm" },
                      "clearances": { "in": "0.10..0.15 mm", "ex": "0.15..0.20 mm" }
                    }
                  },
                  "gauges": { "leaves": ["0.05 mm", "0.10 mm", "0.15 mm", "0.20 mm"] },
                  "valves": [VALVES]
                }
                """.replace("VALVES", valves);
    }
}
