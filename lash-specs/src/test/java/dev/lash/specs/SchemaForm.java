package dev.lash.specs;

import dev.lash.adjust.InstalledShim;
import dev.lash.engine.CamTiming;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Pitch;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Leaf;
import dev.lash.gauge.LeafStack;
import dev.lash.gauge.ReadingRule;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;

/** The texts with a form of their own in a sheet: the part of the schema, what reads it, and texts that are right. */
final class SchemaForm {
    static final List<SchemaForm> ALL = List.of(
            new SchemaForm("size", "#/$defs/size", SchemaForm::size, texts(Sheets.sizes())),
            new SchemaForm(
                    "allowance",
                    "#/$defs/allowance",
                    text -> ReadingRule.guarded(Length.parse(text), Length.ZERO),
                    texts(Arbitraries.longs().between(0, 100).map(um -> Length.ofNanometres(um * 1000)))),
            new SchemaForm("thickness", "#/$defs/thickness", Leaf::parse, texts(Sheets.clearances())),
            new SchemaForm("stack", "#/$defs/stack", LeafStack::parse, texts(Sheets.clearances())),
            new SchemaForm("window", "#/$defs/window", ClearanceWindow::parse, windows()),
            new SchemaForm("reading", "#/$defs/reading", LengthInterval::parse, readings()),
            new SchemaForm("usage", "#/$defs/usage", Usage::parse, joined(numbers(0), "km", "mi", "h")),
            new SchemaForm("checkInterval", "#/$defs/checkInterval", Usage::parse, joined(numbers(1), "km", "mi", "h")),
            new SchemaForm(
                    "temperature",
                    "#/$defs/temperature",
                    Temperature::parse,
                    joined(signed(tenths(0, 990)), "°C", "°F", "C", "F")),
            new SchemaForm(
                    "date", "#/$defs/date", LocalDate::parse, Sheets.dates().map(LocalDate::toString)),
            new SchemaForm("valve", "#/$defs/valve", ValveId::parse, valves()),
            new SchemaForm("id", "#/$defs/id", SchemaForm::id, ids()),
            new SchemaForm("ratio", "#/$defs/ratio", SchemaForm::ratio, ratios()),
            new SchemaForm("shims", "#/$defs/shims", ShimRange::parse, shims()),
            new SchemaForm("pitch", "#/$defs/train/properties/pitch", Pitch::parse, pitches()),
            new SchemaForm(
                    "eccentricity",
                    "#/$defs/train/properties/eccentricity",
                    text -> new ValveTrain.Eccentric(Length.parse(text), Ratio.ONE),
                    texts(Sheets.clearances())),
            new SchemaForm("opens", "#/$defs/valveEvents/properties/opens", CamTiming.Event::parse, events()),
            new SchemaForm("closes", "#/$defs/valveEvents/properties/closes", CamTiming.Event::parse, events()),
            new SchemaForm(
                    "margin", "#/$defs/camTiming/properties/margin", CamTiming::parseDegrees, joined(angles(), "deg")),
            new SchemaForm(
                    "turned",
                    "#/$defs/done/properties/turned",
                    text -> Ratio.parse(text.replaceFirst(" *deg$", "")),
                    joined(signed(angles()), "deg")));

    private final String name;
    private final Schemas.Part part;
    private final Function<String, ?> parse;
    private final Arbitrary<String> right;

    private SchemaForm(String name, String reference, Function<String, ?> parse, Arbitrary<String> right) {
        this.name = name;
        this.part = Schemas.SHEET.part(name, reference);
        this.parse = parse;
        this.right = right;
    }

    /** The form of a name. */
    static SchemaForm of(String name) {
        return ALL.stream()
                .filter(form -> form.name.equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no form " + name));
    }

    boolean schemaAccepts(String text) {
        return part.accepts(text);
    }

    /** Reads the text; throws what the library throws. */
    Object read(String text) {
        return parse.apply(text);
    }

    /** Texts that are right in form and range. */
    Arbitrary<String> right() {
        return right;
    }

    @Override
    public String toString() {
        return name;
    }

    private static Object size(String text) {
        return InstalledShim.marked(Length.parse(text));
    }

    private static Object id(String text) {
        return EngineSpec.builder(text, "Title")
                .valves("1-in-1")
                .train(new ValveTrain.Hydraulic())
                .build();
    }

    private static Object ratio(String text) {
        return new ValveTrain.Eccentric(Length.ofMillimetres("1"), Ratio.parse(text));
    }

    // Texts that are right, in every spelling that both read

    private static Arbitrary<String> gaps() {
        return Arbitraries.of("", " ", "  ");
    }

    private static Arbitrary<String> joined(Arbitrary<String> numbers, String... units) {
        return Combinators.combine(numbers, gaps(), Arbitraries.of(units)).as((n, gap, unit) -> n + gap + unit);
    }

    /** Numbers with zeros more or less than needed, and some without a point. */
    private static Arbitrary<String> tenths(int least, int most) {
        Arbitrary<String> decimals = Combinators.combine(
                        Arbitraries.integers().between(least, most), Arbitraries.of("%d.%d", "0%d.%d", "%d.%d0"))
                .as((n, form) -> {
                    String number = String.format(Locale.ROOT, form, n / 10, n % 10);
                    return number.startsWith("0.") && n % 2 == 1 ? number.substring(1) : number;
                });
        int leastWhole = (least + 9) / 10;
        Arbitrary<String> whole =
                Arbitraries.integers().between(leastWhole, most / 10).map(String::valueOf);
        return Arbitraries.oneOf(decimals, whole);
    }

    private static Arbitrary<String> numbers(int least) {
        return tenths(least, 9_999_990);
    }

    private static Arbitrary<String> signed(Arbitrary<String> numbers) {
        return Combinators.combine(Arbitraries.of("", "-", "+"), numbers).as((sign, number) -> sign + number);
    }

    private static Arbitrary<String> fractions() {
        return Combinators.combine(
                        Arbitraries.integers().between(10, 99),
                        Arbitraries.integers().between(10, 99))
                .as((above, below) -> above + "/" + below);
    }

    private static Arbitrary<String> angles() {
        return Arbitraries.oneOf(tenths(0, 900), fractions());
    }

    private static Arbitrary<String> ratios() {
        return Arbitraries.oneOf(tenths(1, 100), fractions());
    }

    private static Arbitrary<String> valves() {
        return Combinators.combine(
                        Arbitraries.integers().between(1, 99),
                        Arbitraries.of("in", "ex"),
                        Arbitraries.integers().between(1, 9))
                .as((cylinder, role, place) -> cylinder + "-" + role + "-" + place);
    }

    private static Arbitrary<String> ids() {
        return Arbitraries.strings()
                .withChars("abcxyz019-")
                .ofMinLength(1)
                .ofMaxLength(64)
                .filter(id -> id.charAt(0) != '-');
    }

    private static List<String> symbols(LengthUnit unit) {
        return switch (unit) {
            case MILLIMETRE -> List.of("mm");
            case MICROMETRE -> List.of("um", "\u00b5m", "\u03bcm");
            case HUNDREDTH -> List.of("hundredths", "hundredth");
            case INCH -> List.of("in", "inch", "\"", "\u2033");
            case THOU -> List.of("thou");
        };
    }

    private static String number(Length length, LengthUnit unit) {
        return length.numberIn(unit).orElseThrow();
    }

    /** Whether the length has a finite decimal form in the unit. */
    private static boolean fits(Length length, LengthUnit unit) {
        return length.numberIn(unit).isPresent();
    }

    private static Arbitrary<String> texts(Arbitrary<Length> lengths) {
        return Combinators.combine(lengths, Arbitraries.of(LengthUnit.class), gaps(), Arbitraries.of(true, false))
                .flatAs((length, wished, gap, withoutZero) -> {
                    LengthUnit unit = fits(length, wished) ? wished : LengthUnit.MILLIMETRE;
                    String number = number(length, unit);
                    String spelt = withoutZero && number.startsWith("0.") ? number.substring(1) : number;
                    return Arbitraries.of(symbols(unit)).map(symbol -> spelt + gap + symbol);
                });
    }

    private static Arbitrary<String> windows() {
        return Combinators.combine(
                        Sheets.windows(), Arbitraries.of(LengthUnit.class), gaps(), gaps(), Arbitraries.of(true, false))
                .flatAs((window, wished, before, after, unitTwice) -> {
                    LengthUnit unit = fits(window.lower(), wished) && fits(window.upper(), wished)
                            ? wished
                            : LengthUnit.MILLIMETRE;
                    String least = number(window.lower(), unit);
                    String most = number(window.upper(), unit);
                    return Arbitraries.of(symbols(unit))
                            .map(symbol -> least + (unitTwice ? " " + symbol : "") + before + ".." + after + most
                                    + before + symbol);
                });
    }

    private static Arbitrary<String> readings() {
        Arbitrary<String> written = Combinators.combine(Sheets.intervals(), Arbitraries.of(LengthUnit.class))
                .as((interval, unit) -> interval.toString(unit));
        return Combinators.combine(written, Arbitraries.of(true, false))
                .as((text, wide) ->
                        wide ? text.replace("(", "( ").replace(",", " , ").replace("]", " ]") : text);
    }

    private static Arbitrary<String> shims() {
        return Combinators.combine(Sheets.shimRanges(), gaps(), Arbitraries.of(true, false))
                .as((range, gap, unitTwice) -> {
                    String text =
                            range.toString().replace("..", gap + ".." + gap).replace(" step ", gap + " step " + gap);
                    return unitTwice ? text.replaceFirst("\\.\\.", " mm..") : text;
                });
    }

    private static Arbitrary<String> pitches() {
        Arbitrary<Length> lengths = Arbitraries.longs().between(100, 5_000).map(um -> Length.ofNanometres(um * 1_000));
        Arbitrary<String> threads = Arbitraries.oneOf(
                Arbitraries.integers().between(6, 254).map(String::valueOf), Arbitraries.of("27/2", "13.5"));
        return Arbitraries.oneOf(texts(lengths), joined(threads, "tpi"));
    }

    private static Arbitrary<String> events() {
        return Combinators.combine(angles(), Arbitraries.of(" ", "  "), Arbitraries.of(CamTiming.Mark.class))
                .as((angle, gap, mark) -> angle + gap + "deg" + gap + mark);
    }
}
