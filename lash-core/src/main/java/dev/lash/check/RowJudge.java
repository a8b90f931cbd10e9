package dev.lash.check;

import static java.util.Objects.requireNonNull;

import dev.lash.check.ImportFinding.Standing;
import dev.lash.check.RecordLayout.DateOrder;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.gauge.Fit;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Reads one row and holds it against the engine and against what is remembered of the machine. Used by one thread. */
final class RowJudge {
    private static final int MOST_TRIALS = 60;
    private static final int MOST_LEAVES = 3;
    private static final long THICKEST = 5_000_000L;
    private static final int MOST_TEXT = 2000;
    private static final long MOST_USAGE = 100_000_000L;
    private static final String LENGTH = "a length with its unit, such as 0.10 mm";
    private static final String RETRY = "look it up, and correct it";

    private final ValidationProfile profile;
    private final int today;
    private final Plausibility plausibility;
    private final NumberText number = new NumberText();
    private final KnownLengths lengths = new KnownLengths();
    private final Claims readingClaims = new Claims();

    /** The rows of a visit mostly say the same date and usage, so that the last ones are kept with what they were read as. */
    private String lastDate = "";

    private @Nullable DateOrder lastOrder;
    private int lastDay;
    private String lastUsage = "";
    private @Nullable RecordLayout lastLayout;
    private @Nullable Counter lastCounter;
    private int nextValve;

    /** By part of the import: what to write before the number of a row of it. */
    private final List<String> places = new ArrayList<>();

    RowJudge(ValidationProfile profile, LocalDate today) {
        this.profile = profile;
        this.today = (int) today.toEpochDay();
        this.plausibility = new Plausibility(profile);
    }

    /** Begins another part of the import, whose rows have places of their own. */
    void begin(String place) {
        places.add(place);
    }

    /** Says what to write before the number of a row of this part. */
    void place(String place) {
        places.set(places.size() - 1, place);
    }

    Plausibility plausibility() {
        return plausibility;
    }

    /** Adds a finding, which counts for less where the row says that somebody stands by the value. */
    void add(
            RowReading row,
            ImportCode code,
            @Nullable ReadingField field,
            String value,
            String problem,
            String expected,
            String mend,
            @Nullable Correction correction) {
        boolean named = isConfirmed(row.record, code);
        boolean confirmed = code.isConfirmable() && named;
        row.add(new ImportFinding(
                code,
                row.record.row(),
                field == null ? "" : row.record.layout().name(field),
                value,
                problem,
                expected,
                mend + confirming(row.record.layout(), code, named),
                correction,
                confirmed ? Standing.CONFIRMED : Standing.OPEN));
    }

    /** What there is to say of confirming an error. */
    private static String confirming(RecordLayout layout, ImportCode code, boolean named) {
        if (code.severity() != Severity.ERROR) {
            return "";
        }
        if (!code.isConfirmable()) {
            return named ? "; " + code + " cannot be confirmed, as the row cannot be used as it is" : "";
        }
        return layout.findColumn(ReadingField.CONFIRMED).isPresent()
                ? "; where it is right, write " + code + " into the column " + layout.name(ReadingField.CONFIRMED)
                : "";
    }

    private static boolean isConfirmed(ReadingRecord record, ImportCode code) {
        String text = record.text(ReadingField.CONFIRMED);
        if (text.isEmpty()) {
            return false;
        }
        for (String word : text.substring(0, Math.min(text.length(), MOST_TEXT)).split(" ", -1)) {
            if (word.equals(code.code())) {
                return true;
            }
        }
        return false;
    }

    /** Reads the date of a row; whether it has a usable one. */
    boolean date(RowReading row) {
        row.dated = day(row, row.record.text(ReadingField.DATE));
        return row.dated;
    }

    /** Reads the other fields of a row; what cannot be read becomes findings. */
    void judge(RowReading row, boolean dated) {
        ReadingRecord record = row.record;
        MachineState machine = row.machine;
        boolean counted = usage(row, record.text(ReadingField.USAGE)) && isOfSameCounter(row);
        temperature(row, record.text(ReadingField.TEMPERATURE));
        if (!machine.view.hasClearance) {
            add(
                    row,
                    ImportCode.NO_CLEARANCE_IN_THIS_TRAIN,
                    ReadingField.MACHINE,
                    record.text(ReadingField.MACHINE),
                    "has hydraulic lifters, which have no clearance to read",
                    "a machine whose valve train has clearance",
                    "check which machine was meant, or its spec",
                    null);
            return;
        }
        if (!valve(row, record.text(ReadingField.VALVE), record.text(ReadingField.GAP))
                || !machine.view.hasWindow(row.slot)) {
            return;
        }
        readings(row);
        if (dated && counted && !row.hasError()) {
            int before = machine.print(row.day, row.slot);
            if (before != MachineState.UNREAD) {
                int visit = machine.before(row.day);
                repeated(
                        row,
                        before == row.print(),
                        otherUsage(row, before, machine.usage(visit), machine.leastUsage(visit)));
                return;
            }
        }
        if (dated) {
            order(row, counted);
        }
        if (!row.hasError()) {
            history(row);
        }
    }

    /** Says that another row of the open visit read the slot already. */
    void repeated(RowReading row, RowReading other) {
        int before = other.print();
        repeated(row, before == row.print(), otherUsage(row, before, other.usageKey, other.usageKey));
    }

    /** The usage of a reading before, where that is all in which a row differs from it; else empty. */
    private static String otherUsage(RowReading row, int before, long usage, long least) {
        long key = before == row.print(usage) ? usage : least;
        return key != row.usageKey && before == row.print(key) ? counter(row, key) : "";
    }

    /** Says that the slot was read on that day already. */
    private void repeated(RowReading row, boolean same, String otherUsage) {
        if (same) {
            row.duplicate = true;
        }
        add(
                row,
                same ? ImportCode.DUPLICATE : ImportCode.DUPLICATE_DIFFERS,
                ReadingField.VALVE,
                row.record.text(ReadingField.VALVE),
                same
                        ? "was read on that day with the same result: the row is there already"
                        : otherUsage.isEmpty()
                                ? "was read on that day already, with another result"
                                : "was read on that day already, with the same result, but at " + otherUsage
                                        + " and not " + counter(row, row.usageKey),
                "each gap once for each day",
                same ? "nothing to do" : "keep the right one of the two rows",
                null);
    }

    // ---- date, usage, temperature

    private boolean missing(RowReading row, ReadingField field, String text) {
        if (!text.isBlank()) {
            return false;
        }
        add(
                row,
                ImportCode.MISSING_VALUE,
                field,
                "",
                "nothing is written here",
                "the " + field.word() + " of the reading",
                "fill it in",
                null);
        return true;
    }

    private void unparsable(RowReading row, ReadingField field, String text, String expected) {
        add(row, ImportCode.UNPARSABLE, field, text, "cannot be read", expected, "write it in this form", null);
    }

    private boolean day(RowReading row, String text) {
        DateOrder order = row.record.layout().dateOrder();
        if (order == lastOrder && text.equals(lastDate)) {
            row.day = lastDay;
            return true;
        }
        if (missing(row, ReadingField.DATE, text)) {
            return false;
        }
        long day = DateText.epochDay(text, order);
        if (day == DateText.NONE) {
            unparsable(row, ReadingField.DATE, text, DateText.form(order));
            return false;
        }
        row.day = (int) day;
        if (row.day > today) {
            future(row, text);
            return false;
        }
        lastOrder = order;
        lastDate = text;
        lastDay = row.day;
        return true;
    }

    private void future(RowReading row, String text) {
        add(
                row,
                ImportCode.DATE_IN_FUTURE,
                ReadingField.DATE,
                text,
                "is after the day of the import",
                "a date up to " + LocalDate.ofEpochDay(today),
                "correct the date",
                null);
    }

    @SuppressWarnings("ReferenceEquality") // rows of one file have the same layout; another one is only read anew
    private boolean usage(RowReading row, String text) {
        if (lastCounter != null && row.record.layout() == lastLayout && text.equals(lastUsage)) {
            row.counter = lastCounter;
            row.usageKey = lastCounter.key();
            return true;
        }
        if (missing(row, ReadingField.USAGE, text)) {
            return false;
        }
        String expected = "a usage such as 18450 km or 120 h";
        boolean comma = row.record.layout().decimalComma();
        if (!read(row, ReadingField.USAGE, text, 0, text.length(), comma, expected)) {
            return false;
        }
        Usage.Unit unit = row.record.layout().usageUnitOrNull();
        if (number.hasUnit()) {
            unit = switch (text.substring(number.unitStart, number.unitEnd).toLowerCase(Locale.ROOT)) {
                case "km" -> Usage.Unit.KILOMETRE;
                case "mi" -> Usage.Unit.MILE;
                case "h" -> Usage.Unit.HOUR;
                default -> null;
            };
            if (unit == null) {
                unparsable(row, ReadingField.USAGE, text, expected);
                return false;
            }
        }
        if (unit == null) {
            noUnit(row, ReadingField.USAGE, text, expected, null);
            return false;
        }
        long millionths = number.millionths(MOST_USAGE);
        if (millionths == NumberText.NONE || millionths < 0) {
            unparsable(row, ReadingField.USAGE, text, "0 to " + MOST_USAGE + " " + unit.symbol() + ", to a millionth");
            return false;
        }
        row.counter = new Counter(millionths, unit);
        row.usageKey = row.counter.key();
        lastCounter = row.counter;
        lastLayout = row.record.layout();
        lastUsage = text;
        return true;
    }

    /** Whether a row counts what the machine is counted in: no distance is more or less than a time. */
    private boolean isOfSameCounter(RowReading row) {
        MachineState machine = row.machine;
        Counter known = machine.counter();
        Usage.Unit unit = requireNonNull(row.counter).unit();
        if (known == null || known.unit().isDistance() == unit.isDistance()) {
            return true;
        }
        boolean hours = unit.isDistance();
        int visit = Math.max(machine.before(row.day) - 1, 0);
        String shown = machine.visits() > 0
                ? "the visit of " + visit(machine, visit) + " shows "
                        + known.ofKey(machine.usage(visit)).usage()
                : "row " + machine.open.get(0).record.row() + " of the same visit shows " + known.usage();
        add(
                row,
                ImportCode.OTHER_COUNTER,
                ReadingField.USAGE,
                row.record.text(ReadingField.USAGE),
                "counts " + unit.symbol() + ", but this machine is counted in "
                        + known.unit().symbol() + ": " + shown,
                hours ? "a usage in h" : "a usage in km or mi",
                "write what the machine's " + (hours ? "hour counter" : "odometer")
                        + " shows, or correct the name of the machine; where the"
                        + " earlier visits have the wrong unit, correct those first",
                null);
        return false;
    }

    private void temperature(RowReading row, String text) {
        if (text.isBlank()) {
            return;
        }
        String expected = "a temperature such as 22 °C";
        if (!read(
                row,
                ReadingField.TEMPERATURE,
                text,
                0,
                text.length(),
                row.record.layout().decimalComma(),
                expected)) {
            return;
        }
        Temperature.Scale scale = row.record.layout().scaleOrNull();
        if (number.hasUnit()) {
            scale = number.isUnit(text, "°C") || number.isUnit(text, "C")
                    ? Temperature.Scale.CELSIUS
                    : number.isUnit(text, "°F") || number.isUnit(text, "F") ? Temperature.Scale.FAHRENHEIT : null;
            if (scale == null) {
                unparsable(row, ReadingField.TEMPERATURE, text, expected);
                return;
            }
        }
        if (scale == null) {
            noUnit(row, ReadingField.TEMPERATURE, text, expected, null);
            return;
        }
        double celsius = scale == Temperature.Scale.CELSIUS ? number.value() : (number.value() - 32) * 5 / 9;
        if (!(celsius >= -100 && celsius <= 1000)) {
            unparsable(row, ReadingField.TEMPERATURE, text, "-100 °C to 1000 °C");
        } else if (celsius > row.machine.view.warmest + 1e-9) {
            add(
                    row,
                    ImportCode.ENGINE_TOO_WARM,
                    ReadingField.TEMPERATURE,
                    text,
                    "is warmer than the maker's condition",
                    "at most " + row.machine.view.machine.engine().warmest().orElseThrow(),
                    "read it again with the engine cold",
                    null);
        }
    }

    /** Reads a number, or says why not. */
    private boolean read(
            RowReading row, ReadingField field, String text, int from, int to, boolean comma, String expected) {
        NumberText.State state = number.read(text, from, to, comma);
        if (state == NumberText.State.OTHER_DECIMAL_SIGN) {
            char sign = comma ? '.' : ',';
            boolean once = text.indexOf(sign) == text.lastIndexOf(sign) && text.indexOf(comma ? ',' : '.') < 0;
            boolean grouped = once && field == ReadingField.USAGE && isThousands(text, text.indexOf(sign));
            String either = text.replace(sign, comma ? ',' : '.').strip() + " or "
                    + text.replace(String.valueOf(sign), "").strip();
            add(
                    row,
                    ImportCode.DECIMAL_COMMA,
                    field,
                    text,
                    (comma ? "holds a decimal point" : "holds a comma") + (grouped ? ": it may mean " + either : ""),
                    expected + ", with a decimal " + (comma ? "comma" : "point") + " as declared",
                    grouped
                            ? "look up which of the two was meant, and write it so"
                            : "write the declared decimal sign, or declare the other one",
                    once && !grouped
                            ? new Correction(
                                    field,
                                    text.replace(sign, comma ? ',' : '.'),
                                    "one other decimal sign in a number",
                                    Double.POSITIVE_INFINITY)
                            : null);
        } else if (state == NumberText.State.NOT_A_NUMBER) {
            unparsable(row, field, text, expected);
        }
        return state == NumberText.State.NUMBER;
    }

    /** Whether a sign has one to three digits before it and three after it, as one between thousands has: large counters are written so. */
    private static boolean isThousands(String text, int sign) {
        int from = sign;
        while (from > 0 && Character.isDigit(text.charAt(from - 1))) {
            from--;
        }
        int to = sign + 1;
        while (to < text.length() && Character.isDigit(text.charAt(to))) {
            to++;
        }
        return to - sign == 4 && from < sign && sign - from <= 3 && text.charAt(from) != '0';
    }

    private void noUnit(
            RowReading row, ReadingField field, String text, String expected, @Nullable Correction correction) {
        add(
                row,
                ImportCode.NO_UNIT,
                field,
                text,
                "has no unit, and none is declared for its column",
                expected,
                "add the unit, or declare it in the mapping",
                correction);
    }

    // ---- valve

    private boolean valve(RowReading row, String text, String gapText) {
        if (missing(row, ReadingField.VALVE, text)) {
            return false;
        }
        EngineView view = row.machine.view;
        int valve = view.find(text, nextValve);
        if (valve < 0) {
            String alias = row.record.layout().valveNames().get(text);
            valve = alias == null ? -1 : view.find(alias);
        }
        if (valve < 0) {
            String likely = text.length() > 20
                    ? ""
                    : text.strip()
                            .toLowerCase(Locale.ROOT)
                            .replace(' ', '-')
                            .replace('_', '-')
                            .replace('.', '-');
            add(
                    row,
                    ImportCode.UNKNOWN_VALVE,
                    ReadingField.VALVE,
                    text,
                    "is not a valve of this engine",
                    "one of " + view.valves,
                    "correct the name, or declare it in the mapping",
                    view.find(likely) >= 0
                            ? new Correction(
                                    ReadingField.VALVE,
                                    likely,
                                    "the same name in lash's form",
                                    Double.POSITIVE_INFINITY)
                            : null);
            return false;
        }
        int gap = -1;
        for (int g = 0; g < view.gaps.size(); g++) {
            if (gapText.isEmpty()
                    ? view.gaps.get(g) == Gap.ONLY
                    : view.gaps.get(g).word().equals(gapText)) {
                gap = g;
            }
        }
        if (gap < 0) {
            add(
                    row,
                    ImportCode.UNKNOWN_VALVE,
                    ReadingField.GAP,
                    gapText,
                    "is not a gap of a " + view.machine.engine().train().kind() + " train",
                    view.gaps.get(0) == Gap.ONLY ? "nothing, as each valve has one gap" : "opener or closer",
                    "name the gap for a desmodromic valve, and for no other",
                    null);
            return false;
        }
        row.slot = valve * view.gaps.size() + gap;
        nextValve = valve + 1 == view.valves.size() ? 0 : valve + 1;
        return true;
    }

    // ---- readings

    private void readings(RowReading row) {
        ReadingRecord record = row.record;
        Claims claims = readingClaims.begin(row.machine.view);
        boolean any = false;
        String trials = record.text(ReadingField.TRIALS);
        if (!trials.isBlank()) {
            any = true;
            trials(row, trials, claims);
        }
        any |= single(row, ReadingField.GOES, Fit.GOES, claims);
        any |= single(row, ReadingField.DRAGS, Fit.DRAGS, claims);
        any |= single(row, ReadingField.REFUSES, Fit.REFUSES, claims);
        Span found = claims.span();
        String clearance = record.text(ReadingField.CLEARANCE);
        if (!clearance.isBlank()) {
            any = true;
            found = clearance(row, ReadingField.CLEARANCE, clearance, found);
        }
        if (!any) {
            missing(row, readingField(record.layout()), "");
            return;
        }
        adjusted(row, record.text(ReadingField.ADJUSTED));
        String left = record.text(ReadingField.LEFT);
        if (!left.isBlank()) {
            row.adjusted = true;
            row.left = clearance(row, ReadingField.LEFT, left, Span.ANY);
        }
        row.shim = shim(row, ReadingField.SHIM, record.text(ReadingField.SHIM));
        row.fitted = shim(row, ReadingField.FITTED, record.text(ReadingField.FITTED));
        row.adjusted |= row.fitted > 0;
        if (row.hasError()) {
            return;
        }
        if (found.isEmpty() || claims.contradicts()) {
            add(
                    row,
                    ImportCode.CONTRADICTION,
                    claims.field(),
                    claims.text(),
                    "cannot all be true",
                    "trials that one clearance agrees with",
                    "repeat the two trials",
                    null);
            return;
        }
        row.found = found;
        possible(row, found, clearance.isBlank() ? claims.field() : ReadingField.CLEARANCE);
    }

    /** The column to fill in where nothing was read. */
    private static ReadingField readingField(RecordLayout layout) {
        for (ReadingField field : List.of(
                ReadingField.CLEARANCE,
                ReadingField.TRIALS,
                ReadingField.GOES,
                ReadingField.REFUSES,
                ReadingField.DRAGS)) {
            if (layout.findColumn(field).isPresent()) {
                return field;
            }
        }
        return ReadingField.CLEARANCE;
    }

    private void possible(RowReading row, Span found, ReadingField field) {
        long most = profile.largestClearance().nanometres();
        boolean closer = row.machine.view.gap(row.slot) == Gap.CLOSER;
        boolean tooLarge = found.hasLow() && found.low() > most;
        boolean negative =
                !closer && found.hasHigh() && (found.high() < 0 || (found.high() == 0 && !found.highIncluded()));
        if (tooLarge || negative) {
            impossible(row, found, field, tooLarge);
        } else {
            farFromWindow(row, found, field);
        }
    }

    /** Doubts what lies wholly many times above or below the window, unless somebody stands by its unit. */
    private void farFromWindow(RowReading row, Span found, ReadingField field) {
        EngineView view = row.machine.view;
        double factor = profile.windowFactor();
        boolean above = found.hasLow() && view.high(row.slot) > 0 && found.low() > view.high(row.slot) * factor;
        // a leaf that refuses says nothing of how small a clearance is: closed up, or next to it
        boolean below =
                found.hasLow() && found.low() > 0 && found.hasHigh() && found.high() < view.low(row.slot) / factor;
        if (!(above || below)
                || isConfirmed(row.record, ImportCode.OTHER_UNIT)
                || isConfirmed(row.record, ImportCode.WHOLE_HUNDREDTHS)) {
            return;
        }
        String times = BigDecimal.valueOf(factor).stripTrailingZeros().toPlainString();
        String end = EngineView.text(above ? view.high(row.slot) : view.low(row.slot));
        add(
                row,
                ImportCode.FAR_FROM_WINDOW,
                field,
                found.interval().toString(),
                above
                        ? "is more than " + times + " times the window's " + end
                        : "is less than the window's " + end + " divided by " + times,
                "a clearance near " + EngineView.text(view.low(row.slot)) + " to "
                        + EngineView.text(view.high(row.slot)),
                "look for a decimal sign in the wrong place",
                null);
    }

    private void impossible(RowReading row, Span found, ReadingField field, boolean tooLarge) {
        // what is no clearance was read with no leaf: the doubt about it would say the same again, unless somebody
        // stands by it
        if (!isConfirmed(row.record, ImportCode.IMPOSSIBLE_CLEARANCE)) {
            row.drop(ImportCode.LEAF_NOT_OWNED);
        }
        add(
                row,
                ImportCode.IMPOSSIBLE_CLEARANCE,
                field,
                found.interval().toString(),
                tooLarge ? "is larger than any clearance" : "is below 0",
                "0 mm to " + profile.largestClearance(),
                RETRY,
                null);
    }

    private boolean single(RowReading row, ReadingField field, Fit fit, Claims claims) {
        String text = row.record.text(field);
        if (text.isEmpty() || text.isBlank()) {
            return false;
        }
        stack(row, field, text, 0, text.length(), fit, claims);
        return true;
    }

    private void trials(RowReading row, String text, Claims claims) {
        if (text.length() > MOST_TEXT) {
            unparsable(row, ReadingField.TRIALS, text, "at most " + MOST_TRIALS + " trials");
            return;
        }
        int count = 0;
        int from = 0;
        while (from <= text.length()) {
            int end = text.indexOf(';', from);
            end = end < 0 ? text.length() : end;
            int last = end;
            while (last > from && text.charAt(last - 1) == ' ') {
                last--;
            }
            if (last > from) {
                int space = text.lastIndexOf(' ', last - 1);
                Fit fit = space < from ? null : fit(text, space + 1, last);
                if (fit == null || ++count > MOST_TRIALS) {
                    unparsable(row, ReadingField.TRIALS, text, "trials such as 0.10 mm goes; 0.13 mm refuses");
                    return;
                }
                if (!stack(row, ReadingField.TRIALS, text, from, space, fit, claims)) {
                    return;
                }
            }
            from = end + 1;
        }
        if (count == 0) {
            unparsable(row, ReadingField.TRIALS, text, "trials such as 0.10 mm goes; 0.13 mm refuses");
        }
    }

    private static @Nullable Fit fit(String text, int from, int to) {
        for (int i = 0; i < 4; i++) {
            Fit fit = i == 0 ? Fit.GOES : i == 1 ? Fit.REFUSES : i == 2 ? Fit.DRAGS : Fit.FORCED;
            if (to - from == fit.word().length() && text.startsWith(fit.word(), from)) {
                return fit;
            }
        }
        return null;
    }

    /** A leaf, or leaves joined by plus signs. */
    private boolean stack(RowReading row, ReadingField field, String text, int from, int to, Fit fit, Claims claims) {
        long thickness = 0;
        long[] sizes = new long[MOST_LEAVES];
        int leaves = 0;
        int start = from;
        while (start <= to) {
            int plus = text.indexOf('+', start);
            int end = plus < 0 || plus > to ? to : plus;
            long leaf = length(row, field, text, start, end, leaves == 0 && end == to);
            if (leaf == NumberText.NONE) {
                return false;
            }
            if (leaf <= 0 || leaf > THICKEST || leaves >= MOST_LEAVES) {
                unparsable(row, field, text, "one to three leaves, each above 0 mm and at most 5 mm");
                return false;
            }
            sizes[leaves] = leaf;
            leaves++;
            if (row.machine.view.knowsLeaves() && !row.machine.view.ownsLeaf(leaf)) {
                add(
                        row,
                        ImportCode.LEAF_NOT_OWNED,
                        field,
                        text,
                        "names a leaf of " + EngineView.text(leaf) + " that is not in the gauge set",
                        "leaves of " + row.machine.view.leavesText(),
                        "correct the leaf, or add it to the set",
                        null);
            }
            thickness += leaf;
            start = end + 1;
        }
        claims.add(field, text, leafName(row.machine.view, sizes), thickness, leaves, fit);
        return true;
    }

    /** Names a stack whatever the order of its leaves; not needed where leaves have no tolerance, and then empty. */
    private static String leafName(EngineView view, long[] sizes) {
        if (view.leafTolerance + view.dragAllowance == 0) {
            return "";
        }
        long[] sorted = sizes.clone();
        Arrays.sort(sorted);
        return Arrays.toString(sorted);
    }

    /** A clearance as an interval, or as one size; meets what is known already. */
    private Span clearance(RowReading row, ReadingField field, String text, Span known) {
        char first = text.strip().charAt(0);
        Span span;
        if ((first >= '0' && first <= '9') || first == '.' || first == ',' || first == '-' || first == '+') {
            long size = length(row, field, text, 0, text.length(), true);
            if (size == NumberText.NONE) {
                return known;
            }
            long reach = row.machine.view.leafTolerance + row.machine.view.dragAllowance;
            span = new Span(size - reach, true, size + reach, true);
        } else {
            Span quick = quickInterval(text, row.record.layout().unit(field));
            if (quick == null) {
                LengthInterval interval = interval(row, field, text);
                if (interval == null) {
                    return known;
                }
                quick = Span.of(interval);
            }
            span = quick;
            if (!span.hasLow() && !span.hasHigh()) {
                unparsable(row, field, text, "an interval with an end");
                return known;
            }
        }
        return meet(span, known);
    }

    /**
     * The most common form, such as {@code "(0.10, 0.13) mm"}, without making objects; {@code null} for every other one, which {@link
     * LengthInterval#parse} then reads.
     */
    @Nullable
    Span quickInterval(String text, @Nullable LengthUnit declared) {
        int comma = text.indexOf(',');
        int last = text.length() - 1;
        boolean millimetres = last > 3 && text.charAt(last) == 'm' && text.endsWith(" mm");
        int close = millimetres ? last - 3 : last;
        LengthUnit unit = millimetres ? LengthUnit.MILLIMETRE : declared;
        if (unit == null || comma < 0 || close < comma + 2 || text.charAt(comma + 1) != ' ') {
            return null;
        }
        char open = text.charAt(0);
        char shut = text.charAt(close);
        if ((open != '(' && open != '[') || (shut != ')' && shut != ']') || !number.plain(text, 1, comma)) {
            return null;
        }
        long low = number.nanometres(unit);
        if (!number.plain(text, comma + 2, close)) {
            return null;
        }
        long high = number.nanometres(unit);
        return low == NumberText.NONE || low >= high ? null : new Span(low, open == '[', high, shut == ']');
    }

    private @Nullable LengthInterval interval(RowReading row, ReadingField field, String text) {
        LengthUnit declared = row.record.layout().unit(field);
        // a comma parts the ends of an interval, so that its numbers have points whatever the mapping declares
        try {
            return LengthInterval.parse(text);
        } catch (RejectedValueException first) {
            if (declared != null) {
                try {
                    return LengthInterval.parse(text.strip() + " " + declared.symbol());
                } catch (RejectedValueException second) {
                    // the first says better what is wrong
                }
            }
            unparsable(row, field, text, "an interval such as (0.10, 0.13) mm, or " + LENGTH);
            return null;
        }
    }

    private static Span meet(Span a, Span b) {
        if (!b.hasLow() && !b.hasHigh()) {
            return a;
        }
        boolean lowOfA = a.low() > b.low() || (a.low() == b.low() && !a.lowIncluded());
        boolean highOfA = a.high() < b.high() || (a.high() == b.high() && !a.highIncluded());
        return new Span(
                lowOfA ? a.low() : b.low(),
                lowOfA ? a.lowIncluded() : b.lowIncluded(),
                highOfA ? a.high() : b.high(),
                highOfA ? a.highIncluded() : b.highIncluded());
    }

    /** A length in nanometres; {@link NumberText#NONE} where a finding says why not. */
    private long length(RowReading row, ReadingField field, String text, int from, int to, boolean alone) {
        RecordLayout layout = row.record.layout();
        LengthUnit declared = layout.unit(field);
        boolean sized = field == ReadingField.SHIM || field == ReadingField.FITTED;
        boolean whole = from == 0 && to == text.length() && to <= KnownLengths.LONGEST;
        if (whole) {
            long known = lengths.find(text, layout, declared);
            if (known != NumberText.NONE && (sized || plausibility.isUsual(row.machine.view, row.slot, known))) {
                return known;
            }
        }
        if (!read(row, field, text, from, to, layout.decimalComma(), LENGTH)) {
            return NumberText.NONE;
        }
        LengthUnit unit = number.hasUnit() ? number.lengthUnit(text) : declared;
        if (unit == null) {
            if (number.hasUnit()) {
                unparsable(row, field, text, LENGTH);
            } else {
                noUnit(row, field, text, LENGTH, alone && !sized ? likelyUnit(row, field, text) : null);
            }
            return NumberText.NONE;
        }
        long nanometres = number.nanometres(unit);
        boolean usual =
                !sized && nanometres != NumberText.NONE && plausibility.isUsual(row.machine.view, row.slot, nanometres);
        if (!sized && alone && !usual) {
            long asWritten =
                    nanometres == NumberText.NONE ? Length.ofMillimetres("1000").nanometres() : nanometres;
            Plausibility.Slip slip = plausibility.slip(row, number, unit, asWritten);
            if (slip != null) {
                slip(row, field, text, slip);
                if (!row.hasError() && nanometres != NumberText.NONE) {
                    return nanometres;
                }
                return NumberText.NONE;
            }
        }
        if (nanometres == NumberText.NONE) {
            unparsable(row, field, text, "a length to 1000 mm in whole nanometres");
        } else if (whole) {
            lengths.keep(text, declared, nanometres);
        }
        return nanometres;
    }

    private void slip(RowReading row, ReadingField field, String text, Plausibility.Slip slip) {
        boolean other = slip.unit() == LengthUnit.MILLIMETRE || slip.unit() == LengthUnit.INCH;
        String strays = plausibility.strays(row, slip.nanometres());
        add(
                row,
                other ? ImportCode.OTHER_UNIT : ImportCode.WHOLE_HUNDREDTHS,
                field,
                text,
                "does not fit this valve; in " + words(slip.unit()) + " it is " + EngineView.text(slip.nanometres())
                        + ", which " + (strays.isEmpty() ? "fits" : "is likelier, though " + strays),
                "a clearance near " + EngineView.text(row.machine.view.low(row.slot)) + " to "
                        + EngineView.text(row.machine.view.high(row.slot)),
                "look up which unit was meant, and write it",
                new Correction(
                        field,
                        corrected(row, text, slip),
                        rounded(slip.odds()) + " times likelier in " + words(slip.unit()) + ", by "
                                + plausibility.grounds(row)
                                + (strays.isEmpty() ? "" : "; but " + strays),
                        slip.odds()));
    }

    private static String words(LengthUnit unit) {
        return switch (unit) {
            case MILLIMETRE -> "millimetres";
            case MICROMETRE -> "micrometres";
            case HUNDREDTH -> "hundredths of a millimetre";
            case INCH -> "inches";
            case THOU -> "thousandths of an inch";
        };
    }

    private static String rounded(double odds) {
        return odds > 1e9 ? "over a thousand million" : Long.toString(Math.max(1, Math.round(odds)));
    }

    /** The text with the likelier unit; of trials every leaf gets it. */
    private String corrected(RowReading row, String text, Plausibility.Slip slip) {
        String size;
        if (slip.unit() == LengthUnit.INCH || slip.unit() == LengthUnit.THOU) {
            size = Length.ofNanometres(slip.nanometres()).toString(LengthUnit.INCH);
        } else {
            size = EngineView.text(slip.nanometres());
        }
        String unit = slip.unit().symbol();
        if (text.indexOf(';') >= 0
                || text.endsWith("goes")
                || text.endsWith("refuses")
                || text.endsWith("drags")
                || text.endsWith("forced")) {
            List<String> parts = new ArrayList<>();
            for (String trial : text.split(";", -1)) {
                String t = trial.strip();
                int space = t.lastIndexOf(' ');
                if (space > 0) {
                    int end = 0;
                    while (end < space
                            && (Character.isDigit(t.charAt(end)) || t.charAt(end) == '.' || t.charAt(end) == ',')) {
                        end++;
                    }
                    parts.add(t.substring(0, end) + " " + unit + t.substring(space));
                }
            }
            return String.join("; ", parts);
        }
        return row.record.layout().decimalComma() ? size.replace('.', ',') : size;
    }

    /** The unit in which a bare number fits the valve, where it fits in no other. */
    private @Nullable Correction likelyUnit(RowReading row, ReadingField field, String text) {
        Plausibility.Slip slip = plausibility.unit(row, number);
        if (slip == null) {
            return null;
        }
        return new Correction(
                field,
                corrected(row, text, slip),
                "fits in " + words(slip.unit()) + ", by " + plausibility.grounds(row) + "; " + rounded(slip.odds())
                        + " times likelier than in any other unit",
                slip.odds());
    }

    private void adjusted(RowReading row, String text) {
        if (text.isEmpty()) {
            return;
        }
        switch (text.length() > 10 ? text : text.strip().toLowerCase(Locale.ROOT)) {
            case "yes", "y", "true", "1", "x" -> row.adjusted = true;
            case "", "no", "n", "false", "0", "-" -> row.adjusted = false;
            default -> unparsable(row, ReadingField.ADJUSTED, text, "yes or no");
        }
    }

    private long shim(RowReading row, ReadingField field, String text) {
        if (text.isEmpty() || text.isBlank()) {
            return 0;
        }
        long size = length(row, field, text, 0, text.length(), true);
        if (size == NumberText.NONE) {
            return 0;
        }
        if (size <= 0 || size > 20_000_000L) {
            unparsable(row, field, text, "a shim above 0 mm and at most 20 mm");
            return 0;
        }
        if (!row.machine.view.isShimMade(row.slot, size)) {
            ShimRange sizes = row.machine.view.shims(row.slot);
            add(
                    row,
                    ImportCode.SHIM_NOT_IN_RANGE,
                    field,
                    text,
                    sizes == null ? "is a shim, and the train has none" : "is not a size that is made",
                    sizes == null ? "no shim" : sizes.toString(),
                    "measure the shim, or correct the row",
                    null);
        }
        return size;
    }

    // ---- what went before

    private void order(RowReading row, boolean counted) {
        MachineState machine = row.machine;
        int visits = machine.visits();
        if (machine.isForgotten(row.day)) {
            add(
                    row,
                    ImportCode.BEFORE_MEMORY,
                    ReadingField.DATE,
                    row.record.text(ReadingField.DATE),
                    "is before the last " + profile.mostVisits()
                            + " visits, and only these are remembered: the row may be there already",
                    "a date from " + LocalDate.ofEpochDay(machine.day(0)),
                    "raise mostVisits in the profile",
                    null);
            return;
        }
        if (visits == 0 || !counted) {
            return;
        }
        int before = machine.before(row.day);
        int after = before < visits && machine.day(before) == row.day ? before + 1 : before;
        if (after > before) {
            long most = mostPerDay(row);
            if (row.usageKey < machine.usage(before) - most || row.usageKey > machine.leastUsage(before) + most) {
                long far = row.usageKey < machine.usage(before) ? machine.usage(before) : machine.leastUsage(before);
                apart(row, far, place(machine, before));
            }
        }
        if (after < visits && row.usageKey > machine.leastUsage(after)) {
            row.opponent = machine.day(after);
            add(
                    row,
                    ImportCode.DATE_OUT_OF_ORDER,
                    ReadingField.DATE,
                    row.record.text(ReadingField.DATE),
                    "is before " + visit(machine, after) + ", when the counter showed less, "
                            + counter(row, machine.leastUsage(after)),
                    "a date from " + LocalDate.ofEpochDay(machine.day(after)),
                    orderMend(row, after),
                    null);
            return;
        }
        if (before > 0 && row.usageKey < machine.usage(before - 1)) {
            row.opponent = machine.day(before - 1);
            add(
                    row,
                    ImportCode.USAGE_BACKWARDS,
                    ReadingField.USAGE,
                    row.record.text(ReadingField.USAGE),
                    "is less than at the visit of " + visit(machine, before - 1) + ", "
                            + counter(row, machine.usage(before - 1)),
                    "a counter that does not run backwards",
                    orderMend(row, before - 1) + "; count on where the counter was replaced",
                    null);
            return;
        }
        if (after < visits) {
            boolean here = machine.isOfThisPart(after);
            add(
                    row,
                    ImportCode.EARLIER_VISIT,
                    ReadingField.DATE,
                    row.record.text(ReadingField.DATE),
                    "is before the visit of " + LocalDate.ofEpochDay(machine.day(after)) + ", which "
                            + (here ? "stands earlier in this file, " : "was imported earlier, ")
                            + place(machine, after) + "; it fits in",
                    "any order",
                    "nothing to do",
                    null);
        }
        if (before > 0) {
            jump(row, before - 1);
        }
    }

    private String visit(MachineState machine, int visit) {
        return LocalDate.ofEpochDay(machine.day(visit)) + " (" + place(machine, visit) + ")";
    }

    /** Where a row of a visit stands. */
    private String place(MachineState machine, int visit) {
        if (machine.isOfThisPart(visit)) {
            return "row " + machine.place(visit);
        }
        String of = places.get(machine.partOf(visit));
        return of.isEmpty() ? "in an earlier file" : of + " " + machine.place(visit);
    }

    private static String counter(RowReading row, long key) {
        return requireNonNull(row.counter).ofKey(key).usage().toString();
    }

    /** Which of a row and a remembered visit that exclude each other is likely wrong, and what would mend that. */
    private String orderMend(RowReading row, int visit) {
        MachineState machine = row.machine;
        if (!isFittingWithout(row, visit)) {
            return "this row is likely wrong, as other visits exclude it too: correct its date or usage";
        }
        boolean here = machine.isOfThisPart(visit);
        boolean named = !here && !places.get(machine.partOf(visit)).isEmpty();
        String there = "correct it "
                + (here || named ? "in " + place(machine, visit) : "")
                + (here ? " and " : "")
                + (named ? "" : "where it is stored")
                + ", every row of that visit: " + ranges(row, visit);
        if (machine.isSuspect(row.opponent)) {
            return "the visit of " + LocalDate.ofEpochDay(machine.day(visit))
                    + " is likely wrong, not this row: this visit and another one fit each other and all visits but that"
                    + " one; " + there + "; then import this row again";
        }
        return "one of the two is wrong, and nothing tells which: look both up; where it is this row, correct its date or"
                + " usage; where it is the visit of " + LocalDate.ofEpochDay(machine.day(visit)) + ", " + there;
    }

    /** Whether a row fits all that is remembered but one visit. */
    private static boolean isFittingWithout(RowReading row, int visit) {
        MachineState machine = row.machine;
        for (int i = 0; i < machine.visits(); i++) {
            boolean wrong = machine.day(i) < row.day
                    ? row.usageKey < machine.usage(i)
                    : machine.day(i) > row.day && row.usageKey > machine.leastUsage(i);
            if (wrong && i != visit) {
                return false;
            }
        }
        return true;
    }

    /** The dates and the usages with which a visit would fit its neighbours and a row that it excludes. */
    private static String ranges(RowReading row, int visit) {
        MachineState machine = row.machine;
        String date = LocalDate.ofEpochDay(row.day).toString();
        String usage = counter(row, row.usageKey);
        if (machine.day(visit) < row.day) {
            // before the row and more on the counter: its date belongs after the row, or its usage below the row's
            int next = machine.before(row.day + 1);
            return "a date from " + date
                    + (next < machine.visits() ? " to " + LocalDate.ofEpochDay(machine.day(next)) : "")
                    + ", or a usage "
                    + (visit == 0 ? "up to " : "of " + counter(row, machine.usage(visit - 1)) + " to ") + usage;
        }
        int last = machine.before(row.day) - 1;
        boolean latest = visit + 1 == machine.visits();
        return "a date " + (last < 0 ? "up to " : "from " + LocalDate.ofEpochDay(machine.day(last)) + " to ") + date
                + ", or a usage "
                + (latest ? "from " + usage : "of " + usage + " to " + counter(row, machine.leastUsage(visit + 1)));
    }

    /** Says of a row that two others which agree stand against it: two visits, or one and the other rows of its own visit. */
    void oddOneOut(RowReading row, RowReading one, RowReading other) {
        // rows mostly come in their order, so that what runs back from this row to the next is the likelier fault
        boolean date = row.day > other.day;
        boolean ownVisit = !row.isAgainst(one);
        String problem = date ? "is after " : "is more than at the later visit of ";
        problem += (ownVisit ? "" : one.visit() + " and ") + other.visit();
        problem += date ? ", when the counter showed more" : "";
        if (ownVisit) {
            problem += date
                    ? "; row " + one.record.row() + " has this usage on " + LocalDate.ofEpochDay(one.day)
                    : "; row " + one.record.row() + " of that day shows less";
        }
        add(
                row,
                date ? ImportCode.DATE_OUT_OF_ORDER : ImportCode.USAGE_BACKWARDS,
                date ? ReadingField.DATE : ReadingField.USAGE,
                row.record.text(date ? ReadingField.DATE : ReadingField.USAGE),
                problem,
                "a date and a usage that fit those rows, which agree with each other and with all others",
                "correct the date or the usage",
                null);
    }

    private void jump(RowReading row, int before) {
        MachineState machine = row.machine;
        int days = row.day - machine.day(before);
        double done = row.usageKey - machine.usage(before);
        Usage.Unit unit = requireNonNull(row.counter).unit();
        double day = mostPerDay(row);
        double most = day * Math.max(days, 1);
        // an own average needs a year and three visits at least
        int own = machine.day(before) - machine.day(0);
        if (before >= 2 && own >= 365) {
            // a first visit with a date that is years too early would make every later one a jump: count from the
            // second as well
            double average = Math.max(average(machine, 0, before), average(machine, 1, before));
            most = Math.min(most, profile.jumpFactor() * average * Math.max(days, 30) + day);
        }
        if (done > most) {
            add(
                    row,
                    ImportCode.USAGE_JUMP,
                    ReadingField.USAGE,
                    row.record.text(ReadingField.USAGE),
                    "is more than the machine can have done in the " + days + " days since " + visit(machine, before),
                    "at most " + Math.round((machine.usage(before) + most) / 1e6) + " "
                            + (unit.isDistance() ? "km" : "h"),
                    "look for a digit too many",
                    null);
        }
    }

    /** The most that a machine does in a day, in millionths of a kilometre or an hour. */
    long mostPerDay(RowReading row) {
        boolean distance = requireNonNull(row.counter).unit().isDistance();
        return (distance ? profile.kilometresPerDay() : profile.hoursPerDay()) * 1_000_000L;
    }

    /** Doubts a usage that is more than a day's away from that of another row of the same day. */
    void apart(RowReading row, long usage, String where) {
        add(
                row,
                ImportCode.USAGE_DIFFERS,
                ReadingField.USAGE,
                row.record.text(ReadingField.USAGE),
                "is more than a day's use away from " + counter(row, usage) + " on the same day (" + where + ")",
                "counters of one day within "
                        + requireNonNull(row.counter).ofKey(mostPerDay(row)).usage() + " of each other",
                "look up what the counter showed, and correct the wrong one of the two; look for a digit too many",
                null);
    }

    private static double average(MachineState machine, int from, int to) {
        return (machine.usage(to) - machine.usage(from)) / (double) (machine.day(to) - machine.day(from));
    }

    private void history(RowReading row) {
        MachineState machine = row.machine;
        int slot = row.slot;
        EngineView view = machine.view;
        if (view.hasShims && row.fitted > 0 && row.shim > 0) {
            arithmetic(row);
        }
        long lastShim = row.shim > 0 ? machine.shimBefore(row.day, slot) : 0;
        if (lastShim > 0 && row.shim != lastShim) {
            // a size that is not made was doubted when it was fitted
            if (view.isShimMade(slot, lastShim) && !machine.isFittedByRejected(slot, row.shim, row.day)) {
                otherShim(row, lastShim);
            }
            return;
        }
        Left left = row.leftBefore();
        if (left == null || left.high() == Span.NO_HIGH || !row.found.hasLow()) {
            return;
        }
        boolean grew = row.found.low() - left.high() > profile.loosening().nanometres();
        if (grew && view.gap(slot) != Gap.CLOSER && !machine.isAdjustedByRejected(slot, row.day)) {
            loosened(row, left.high());
        }
    }

    private void otherShim(RowReading row, long lastShim) {
        add(
                row,
                ImportCode.SHIM_NOT_AS_RECORDED,
                ReadingField.SHIM,
                row.record.text(ReadingField.SHIM),
                "is in, but the visit before left " + EngineView.text(lastShim),
                EngineView.text(lastShim),
                "measure it; a swap may be missing from the records",
                null);
    }

    private void loosened(RowReading row, long lastHigh) {
        add(
                row,
                ImportCode.LOOSENED,
                null,
                row.found.interval().toString(),
                "is more than the visit before left, at most " + EngineView.text(lastHigh)
                        + ", and no adjustment is recorded",
                "a clearance that closes up slowly, or a recorded adjustment",
                "ask who worked on it and enter the adjustment",
                null);
    }

    private void arithmetic(RowReading row) {
        if (!row.left.hasLow() && !row.left.hasHigh()) {
            return;
        }
        double sign = row.machine.view.gap(row.slot) == Gap.CLOSER ? -1 : 1;
        double change = sign * row.machine.view.shimRatio * (row.shim - row.fitted);
        double slack = profile.shimTolerance().nanometres();
        boolean below = row.left.hasHigh() && row.found.hasLow() && row.left.high() + slack < row.found.low() + change;
        boolean above = row.left.hasLow() && row.found.hasHigh() && row.left.low() - slack > row.found.high() + change;
        if (below || above) {
            add(
                    row,
                    ImportCode.SHIM_ARITHMETIC,
                    ReadingField.FITTED,
                    row.record.text(ReadingField.FITTED),
                    "does not explain the change of clearance to " + row.left.interval(),
                    "a change of " + EngineView.text(Math.round(change)) + " from " + row.found.interval(),
                    "measure the shim and the clearance again",
                    null);
        }
    }
}
