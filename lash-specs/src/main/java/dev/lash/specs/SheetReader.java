package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.PastVisit;
import dev.lash.check.PastVisit.PastReading;
import dev.lash.check.Symptom;
import dev.lash.check.ValveReading;
import dev.lash.engine.CamTiming;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.gauge.Fit;
import dev.lash.gauge.GaugeSet;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.ResolverStyle;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Reads check sheets ({@code lash-sheet/1}). Strict: what is not understood is refused, and nothing is read in part.
 *
 * <p>Limits: 8 MiB a document, 40 levels, 10 000 characters a text. Dates are ISO 8601; lengths, usages and temperatures are
 * texts with a unit.
 */
public final class SheetReader {
    static final String FORMAT = "lash-sheet/1";
    private static final int MOST_TRIES = 1000;
    private static final String LENGTH = "a length with its unit, such as \"0.10 mm\"";

    private final SpecPack pack;

    /**
     * Creates a reader.
     *
     * @param pack the templates that a sheet may name
     */
    public SheetReader(SpecPack pack) {
        this.pack = requireNonNull(pack, "pack");
    }

    /**
     * Reads a sheet from text.
     *
     * @param source the name to use in errors
     * @param json the document
     * @return the sheet
     * @throws DocumentException if it is no valid sheet
     */
    public CheckSheet read(String source, String json) {
        return new Reading(JsonDocument.parse(requireNonNull(source, "source"), json)).sheet();
    }

    /**
     * Reads a sheet from a stream of UTF-8; at most the largest document's size is taken from it.
     *
     * @param source the name to use in errors
     * @param stream the stream; it is not closed
     * @return the sheet
     * @throws IOException if the stream cannot be read
     * @throws DocumentException if it is no valid sheet
     */
    public CheckSheet read(String source, InputStream stream) throws IOException {
        requireNonNull(source, "source");
        byte[] utf8 = stream.readNBytes(JsonDocument.MOST_BYTES + 1);
        return new Reading(JsonDocument.parse(source, utf8)).sheet();
    }

    /**
     * Reads a sheet from a file.
     *
     * @param file the file
     * @return the sheet
     * @throws IOException if the file cannot be read
     * @throws DocumentException if it is no valid sheet
     */
    public CheckSheet read(Path file) throws IOException {
        try (InputStream stream = Files.newInputStream(file)) {
            return read(file.toString(), stream);
        }
    }

    /** What was done to a valve, and the how-manieth try it was. */
    private record Work(@Nullable Done done, int tries) {}

    /** One document being read. */
    private final class Reading {
        private final JsonDocument document;

        Reading(JsonDocument document) {
            this.document = document;
        }

        CheckSheet sheet() {
            JsonFields fields = document.fields(FORMAT, "check sheet");
            EngineSpec engine = new SheetEngineReader(document).read(document.fields(fields.get("engine")), pack);
            GaugeSet gauges = gauges(document.fields(fields.get("gauges")));
            CheckSheet.Builder builder = CheckSheet.builder(engine, gauges);
            builder.machine(fields.text("machine"));
            fields.find("date").map(this::date).ifPresent(builder::date);
            fields.find("usage", "a usage such as \"18450 km\" or \"120 h\"", Usage::parse)
                    .ifPresent(builder::usage);
            fields.find("engineTemperature", "a temperature such as \"19 °C\"", Temperature::parse)
                    .ifPresent(builder::engineTemperature);
            fields.find("rule").map(value -> rule(value, gauges)).ifPresent(builder::rule);
            for (Json value : document.items(fields.get("valves"))) {
                valve(value, builder);
            }
            fields.find("shimBox").map(this::shimBox).ifPresent(builder::shimBox);
            fields.find("symptoms")
                    .map(value -> document.items(value).stream()
                            .map(item -> document.read(item, "a symptom such as \"ticking\"", Symptom::parse))
                            .toList())
                    .ifPresent(builder::symptoms);
            for (Json value : fields.items("history")) {
                PastVisit visit = visit(value);
                document.at(value, () -> builder.pastVisit(visit));
            }
            fields.finish();
            return builder.build();
        }

        private LocalDate date(Json value) {
            String text = document.text(value, "a date such as \"2031-04-02\"");
            try {
                // ISO 8601 with four digits for the year, as the schema has it
                return LocalDate.parse(
                        text,
                        DateTimeFormatter.ofPattern("uuuu-MM-dd", Locale.ROOT).withResolverStyle(ResolverStyle.STRICT));
            } catch (DateTimeException noDate) {
                throw document.error(
                        value,
                        "is not a date",
                        "a date such as \"2031-04-02\"",
                        "write year, month and day of a day that exists");
            }
        }

        private ReadingRule rule(Json value, GaugeSet gauges) {
            return switch (document.text(value, "simple or guarded")) {
                case "simple" -> ReadingRule.simple();
                case "guarded" -> gauges.guardedRule();
                default -> throw document.error(value, "is not a rule", "simple or guarded", "write one of these");
            };
        }

        private GaugeSet gauges(JsonFields fields) {
            List<Json> leaves = document.items(fields.get("leaves"));
            Length tolerance = fields.find("tolerance", LENGTH, Length::parse).orElse(Length.ZERO);
            Length allowance =
                    fields.find("dragAllowance", LENGTH, Length::parse).orElse(Length.ZERO);
            int stack = fields.find("stack")
                    .map(value -> document.wholeNumber(value, 1, LeafStack.MOST_LEAVES))
                    .orElse(1);
            List<Leaf> owned = leaves.stream()
                    .map(value -> document.read(value, LENGTH, Leaf::parse))
                    .toList();
            long inches = leaves.stream().filter(value -> isInch(value.text())).count();
            LengthUnit unit = 2 * inches > leaves.size() ? LengthUnit.INCH : LengthUnit.MILLIMETRE;
            fields.finish();
            return document.at(fields.object(), () -> new GaugeSet(owned, stack, tolerance, allowance, unit));
        }

        private static boolean isInch(String length) {
            String symbol = length.strip().replaceFirst("^[-+0-9.]+ *", "").toLowerCase(Locale.ROOT);
            return LengthUnit.find(symbol).filter(LengthUnit::isInch).isPresent();
        }

        private void valve(Json value, CheckSheet.Builder builder) {
            JsonFields fields = document.fields(value);
            Json name = fields.get("valve");
            ValveId valve = document.read(name, "a valve such as \"1-in-1\"", ValveId::parse);
            Gap gap = fields.find("gap", "opener or closer", Gap::parse).orElse(Gap.ONLY);
            List<Trial> trials = trials(fields, "trials");
            List<Trial> loaded = trials(fields, "loadedTrials");
            boolean free = fields.find("turnsFree").map(this::truth).orElse(false);
            InstalledShim shim = fields.find("shim").map(this::shim).orElse(null);
            Pad pad = fields.find("pad").map(this::pad).orElse(Pad.SOUND);
            Ratio angle = fields.find("eccentricAngle").map(this::degrees).orElse(null);
            String stop = fields.text("stop");
            Work work = fields.find("done").map(this::done).orElse(new Work(null, 0));
            List<Trial> recheck = trials(fields, "recheck");
            fields.finish();
            ValveReading reading = document.at(
                    value,
                    () -> new ValveReading(
                            valve, gap, trials, loaded, free, shim, pad, angle, stop, work.done, work.tries, recheck));
            document.at(name, () -> builder.valve(reading));
        }

        private List<Trial> trials(JsonFields fields, String name) {
            return fields.items(name).stream()
                    .map(value -> {
                        JsonFields trial = document.fields(value);
                        LeafStack leaf = leaf(trial.get("leaf"));
                        Fit fit = trial.get("fit", "goes, drags, forced or refuses", Fit::parse);
                        trial.finish();
                        return new Trial(leaf, fit);
                    })
                    .toList();
        }

        private LeafStack leaf(Json value) {
            if (value.kind() == Json.Kind.ARRAY) {
                List<Leaf> leaves = value.items().stream()
                        .map(item -> document.read(item, LENGTH, Leaf::parse))
                        .toList();
                return document.at(value, () -> new LeafStack(leaves));
            }
            return document.read(value, LENGTH, LeafStack::parse);
        }

        private InstalledShim shim(Json value) {
            if (value.kind() != Json.Kind.OBJECT) {
                return document.at(value, () -> InstalledShim.marked(Length.parse(document.text(value, LENGTH))));
            }
            JsonFields fields = document.fields(value);
            Length marked = fields.find("marked", LENGTH, Length::parse).orElse(null);
            Length measured = fields.find("measured", LENGTH, Length::parse).orElse(null);
            Length tolerance = fields.find("tolerance", LENGTH, Length::parse).orElse(Length.ZERO);
            String type = fields.text("type");
            fields.finish();
            return document.at(value, () -> new InstalledShim(marked, measured, tolerance, type));
        }

        /** A size that a shim can have. */
        private static Length shimSize(String text) {
            return InstalledShim.marked(Length.parse(text)).size().orElseThrow();
        }

        private Pad pad(Json value) {
            return switch (document.text(value, "sound or dished")) {
                case "sound" -> Pad.SOUND;
                case "dished" -> Pad.DISHED;
                default ->
                    throw document.error(value, "is not a state of the pad", "sound or dished", "write one of these");
            };
        }

        private boolean truth(Json value) {
            if (value.kind() != Json.Kind.TRUTH) {
                throw document.error(
                        value, "is not true or false", "true or false", "write it without quotation marks");
            }
            return value.text().equals("true");
        }

        private Work done(Json value) {
            JsonFields fields = document.fields(value);
            Optional<Done> set = fields.find("setWith").map(leaf -> new Done.SetWith(leaf(leaf)));
            Optional<Done> turned = fields.find("turned").map(turn -> new Done.Turned(degrees(turn)));
            Optional<Done> fitted =
                    fields.find("fitted", LENGTH, Reading::shimSize).map(Done.Fitted::new);
            int tries = fields.find("tries")
                    .map(count -> document.wholeNumber(count, 1, MOST_TRIES))
                    .orElse(1);
            fields.finish();
            List<Done> all = Optional.of(List.of(set, turned, fitted)).stream()
                    .flatMap(List::stream)
                    .flatMap(Optional::stream)
                    .toList();
            if (all.size() != 1) {
                throw document.error(
                        value,
                        "says " + all.size() + " things that were done",
                        "one of setWith, turned, fitted",
                        "write what was done last");
            }
            return new Work(all.get(0), tries);
        }

        private Ratio degrees(Json value) {
            String expected = "degrees, such as 15 or \"15 deg\"";
            return value.kind() == Json.Kind.NUMBER
                    ? Ratio.of(document.number(value, expected))
                    : document.read(value, expected, CamTiming::parseDegrees);
        }

        private ShimBox shimBox(Json value) {
            return new ShimBox(document.items(value).stream()
                    .map(item -> {
                        JsonFields fields = document.fields(item);
                        Length size = fields.get("size", LENGTH, Length::parse);
                        int count = document.wholeNumber(fields.get("count"), 0, 100_000);
                        String type = fields.text("type");
                        fields.finish();
                        return document.at(item, () -> new ShimBox.Lot(size, count, type));
                    })
                    .toList());
        }

        private PastVisit visit(Json value) {
            JsonFields fields = document.fields(value);
            LocalDate date = date(fields.get("date"));
            Usage usage = fields.find("usage", "a usage such as \"12010 km\"", Usage::parse)
                    .orElse(null);
            List<PastReading> readings = document.items(fields.get("valves")).stream()
                    .map(this::pastReading)
                    .toList();
            boolean breakIn = fields.find("breakIn").map(this::truth).orElse(false);
            fields.finish();
            return new PastVisit(date, usage, readings, breakIn);
        }

        private PastReading pastReading(Json value) {
            JsonFields fields = document.fields(value);
            String interval = "a reading such as \"(0.12, 0.15) mm\" or \"< 0.03 mm\"";
            ValveId valve = fields.get("valve", "a valve such as \"1-in-1\"", ValveId::parse);
            LengthInterval found = fields.get("found", interval, LengthInterval::parse);
            LengthInterval left =
                    fields.find("left", interval, LengthInterval::parse).orElse(found);
            InstalledShim shim = fields.find("shim").map(this::shim).orElse(null);
            Gap gap = fields.find("gap", "opener or closer", Gap::parse).orElse(Gap.ONLY);
            fields.finish();
            return new PastReading(valve, gap, found, left, shim);
        }
    }
}
