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
 * <p>A run remembers, of each machine, a bounded number of visits: their days, the counter, a fingerprint of 32 bits of each reading,
 * and what was left last. A reading that is there already is told by its fingerprint. Two readings of one gap and day that differ have
 * the same one about once in four thousand million times.
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
     * @param machines what is known of a machine by its name; must be a pure function, and be thread-safe where runs are made in
     *     several threads
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
     * @param outcomes is given what became of each row, exactly once for each row; a visit is judged as a whole, so rows come when
     *     their visit is complete, those of one visit in their order
     * @return the run, for one thread
     */
    public ValidationRun begin(Consumer<RowOutcome> outcomes) {
        return new ValidationRun(machines, profile, today, outcomes);
    }
}
