package dev.lash.check;

import static java.util.Objects.requireNonNull;

import java.time.LocalDate;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;

/**
 * Checks readings that another system hands over, row by row: what cannot be used is rejected, what is doubtful is said, and nothing
 * is guessed. Immutable and thread-safe; each import has a {@linkplain #begin run} of its own.
 *
 * <pre>{@code
 * ReadingValidator validator = ReadingValidator.of(
 *         machine -> Optional.ofNullable(engines.get(machine)), ValidationProfile.defaults(), LocalDate.of(2031, 6, 1));
 * ValidationRun run = validator.begin(outcome -> outcome.findReading().ifPresent(readings::add));
 * records.forEach(run::accept);
 * run.finish();
 * }</pre>
 *
 * <p><b>Which of two visits is wrong.</b> Two visits exclude each other where the later day has less on the counter. One of them is
 * wrong, and no one can tell which from the two alone; the one that was read first is not the better one. So the last {@value
 * MachineState#MOST_HELD} accepted visits of a machine are on hold: what became of their rows is told when as many visits follow. A row
 * that only its date or usage speaks against is held as well, until the next visit has spoken:
 *
 * <ul>
 *   <li>Where a second visit stands against the same visit, and the two agree with each other and with all that is remembered but
 *       that one, that one is rejected, and they are accepted. The other rows of its own visit count as a visit, so that a single row
 *       with a wrong date or usage is told from them at once.
 *   <li>Where a visit is accepted that stands against neither, or none follows, the one that was read first stays and the other is
 *       rejected; its finding names the first by date and row, as it may be the wrong one.
 *   <li>What was told as accepted is not taken back: a visit of an earlier file, or older than those on hold. Two visits which agree
 *       make it the suspect: they are rejected, as all others that it shuts out, and their findings say that it is
 *       likely wrong, name its place where {@link ValidationRun#from} was told it, and what date or usage would mend it.
 * </ul>
 *
 * <p>What is accepted always has an order, so that it is accepted again in another run. A row that was rejected for what it stood
 * against is judged anew where that is rejected itself soon after. Held are at most the rows of nine visits of a machine, and of no
 * more machines than {@link ValidationProfile#mostOpenVisits()}; of the one that was quiet for longest they are told then. Within a
 * visit that is on hold a wrong value that fits between its neighbours is not noticed.
 *
 * <p>A run remembers, of each machine, a bounded number of visits: their days, the counter, a row, a fingerprint of 32 bits of each
 * reading and what it left. A row is held against what the visit before its own left, so that it makes no difference which later
 * visits are known. A reading that is there already is told by its fingerprint. Two readings of one gap and day that differ have the
 * same one about once in four thousand million times.
 */
public final class ReadingValidator {
    private final Function<String, Optional<ImportedMachine>> machines;
    private final ValidationProfile profile;
    private final LocalDate today;

    private ReadingValidator(
            Function<String, Optional<ImportedMachine>> machines, ValidationProfile profile, LocalDate today) {
        this.machines = requireNonNull(machines, "machines");
        this.profile = requireNonNull(profile, "profile");
        this.today = requireNonNull(today, "today");
    }

    /**
     * Creates a validator.
     *
     * @param machines what is known of a machine by its name, which has no blanks around it whatever the rows have; must be a pure
     *     function, and be thread-safe where runs are made in several threads
     * @param profile the thresholds
     * @param today the day of the import; no reading is later
     * @return the validator
     */
    public static ReadingValidator of(
            Function<String, Optional<ImportedMachine>> machines, ValidationProfile profile, LocalDate today) {
        return new ReadingValidator(machines, profile, today);
    }

    /**
     * Starts an import.
     *
     * @param outcomes is given what became of each row, exactly once for each row; a visit is judged as a whole and held while later
     *     ones may speak against it, so rows come some visits later, or when the run is finished or the machine forgotten; the accepted
     *     ones of one visit come in their order; where it throws, the run is of no more use, and rows on hold are not told
     * @return the run, for one thread
     */
    public ValidationRun begin(Consumer<RowOutcome> outcomes) {
        return new ValidationRun(machines, profile, today, outcomes);
    }
}
