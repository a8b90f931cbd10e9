package dev.lash.examples;

import dev.lash.engine.ValveId;
import dev.lash.gauge.LeafStack;
import dev.lash.measure.Length;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A mechanic at an engine whose clearances are known to the test: reads the screen, answers truly, follows the advice, and now and
 * then takes an answer back or skips a valve. Every answer is noted, with the sheet as it was on the disk when it was asked for.
 */
final class Mechanic implements Talk {
    private static final Pattern VALVE = Pattern.compile("Valve \\d+ of \\d+: (\\S+), ");
    private static final Pattern OFFER = Pattern.compile("(?:Offer|Again) (.*): g goes.*");
    private static final Pattern ADVISED = Pattern.compile("Done\\? y yes, (set with|fitted shim) (.*); o otherwise.*");

    private final Map<ValveId, Length> clearances;
    private final Map<ValveId, Length> shims;
    private final Map<ValveId, Length> after = new HashMap<>();
    private final Random whim;
    private final Map<Whim, Integer> oneIn = new EnumMap<>(Whim.class);
    private final Supplier<String> disk;
    private final List<String> answers = new ArrayList<>();
    private final List<String> sheets = new ArrayList<>();
    private final Set<ValveId> skipped = new HashSet<>();
    private String valve = "";
    private boolean rechecking;
    private boolean borrowing;

    /** What the mechanic may do beside answering. */
    enum Whim {
        UNDO,
        SKIP,
        SHIM_NOT_KNOWN
    }

    Mechanic(Map<ValveId, Length> clearances, Map<ValveId, Length> shims, long seed, Supplier<String> disk) {
        this.clearances = clearances;
        this.shims = shims;
        this.whim = new Random(seed);
        this.disk = disk;
    }

    Mechanic with(Whim what, int onceIn) {
        oneIn.put(what, onceIn);
        return this;
    }

    /** The answers, as they are typed into a pipe. */
    List<String> answers() {
        return answers;
    }

    /** The sheet on the disk when each answer was asked for. */
    List<String> sheets() {
        return sheets;
    }

    Set<ValveId> skipped() {
        return skipped;
    }

    private boolean fancies(Whim what) {
        return oneIn.containsKey(what) && whim.nextInt(oneIn.get(what)) == 0;
    }

    @Override
    public void print(String text) {
        Matcher announced = VALVE.matcher(text);
        if (announced.find()) {
            valve = announced.group(1);
        }
        if (text.contains("Known: ") || text.contains("After the adjustment: ")) {
            rechecking = text.contains("After the adjustment: ");
            borrowing = false;
        }
        borrowing |= text.contains("Borrow ") || text.contains("No leaf settles this");
    }

    @Override
    public Optional<Character> key(String prompt) {
        sheets.add(disk.get());
        char key = choose(prompt.strip());
        answers.add(String.valueOf(key));
        return Optional.of(key);
    }

    private char choose(String prompt) {
        if (prompt.contains("e end with the report")) {
            return 'e';
        }
        if (fancies(Whim.UNDO)) {
            return 'u';
        }
        if (borrowing || fancies(Whim.SKIP)) {
            skipped.add(ValveId.parse(valve));
            return 's';
        }
        Matcher offer = OFFER.matcher(prompt);
        if (offer.matches()) {
            return fit(LeafStack.parse(offer.group(1)).thickness());
        }
        Matcher advised = ADVISED.matcher(prompt);
        if (!advised.matches()) {
            skipped.add(ValveId.parse(valve));
            return 'n';
        }
        ValveId id = ValveId.parse(valve);
        Length size = Length.parse(advised.group(2));
        after.put(
                id,
                advised.group(1).equals("set with")
                        ? size
                        : clearances.get(id).plus(shims.get(id)).minus(size));
        return 'y';
    }

    private char fit(Length leaf) {
        ValveId id = ValveId.parse(valve);
        Length clearance = rechecking ? after.get(id) : clearances.get(id);
        if (clearance.equals(leaf)) {
            return 'd';
        }
        return clearance.isMoreThan(leaf) ? 'g' : whim.nextBoolean() ? 'f' : 'r';
    }

    @Override
    public Optional<String> line(String prompt) {
        sheets.add(disk.get());
        Length shim = shims.get(ValveId.parse(valve));
        String text = fancies(Whim.SHIM_NOT_KNOWN) ? "" : shim.toString();
        // the first line end belongs to the key before
        answers.add((text.isEmpty() ? "\n" : "") + text + "\n");
        return Optional.of(text);
    }

    @Override
    public void close() {
        // nothing is held
    }
}
