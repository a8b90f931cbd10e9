package dev.lash.check;

import static dev.lash.testing.Readings.interval;
import static dev.lash.testing.Readings.mm;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.adjust.InstalledShim;
import dev.lash.check.PastVisit.PastReading;
import dev.lash.engine.ValveId;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Usage;
import dev.lash.testing.Contracts;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class PastVisitTest {
    private static final LocalDate DAY = LocalDate.of(2030, 5, 11);
    private static final ValveId VALVE = ValveId.parse("1-in-1");
    private static final LengthInterval FOUND = interval("(0.12, 0.15) mm");
    private static final PastReading READING = new PastReading(VALVE, FOUND, interval("[0.15, 0.15] mm"), mm("2.45"));

    @Test
    void keepsWhatWasFoundAndLeft() {
        PastVisit visit = new PastVisit(DAY, Usage.parse("12010 km"), List.of(READING));
        assertThat(visit.findUsage()).contains(Usage.parse("12010 km"));
        assertThat(visit.valves()).containsExactly(READING);
        assertThat(READING.findShim()).contains(InstalledShim.marked(mm("2.45")));
        assertThat(READING.left()).isEqualTo(interval("[0.15, 0.15] mm"));
    }

    @Test
    void whatWasNotRecordedIsEmpty() {
        assertThat(new PastVisit(DAY, null, List.of()).findUsage()).isEmpty();
        assertThat(new PastReading(VALVE, FOUND, FOUND, null).findShim()).isEmpty();
    }

    @Test
    void theListCannotBeChanged() {
        List<PastReading> readings = new ArrayList<>(List.of(READING));
        PastVisit visit = new PastVisit(DAY, null, readings);
        readings.clear();
        assertThat(visit.valves()).hasSize(1).isUnmodifiable();
    }

    @Test
    void equalityAndSerialisation() {
        PastVisit visit = new PastVisit(DAY, Usage.parse("12010 km"), List.of(READING));
        Contracts.equality(
                visit,
                new PastVisit(DAY, Usage.parse("12010.0 km"), List.of(READING)),
                List.of(new PastVisit(DAY, null, List.of(READING)), new PastVisit(DAY, null, List.of())));
        Contracts.serialises(visit);
    }

    @Test
    void nullIsRefused() {
        Contracts.refuseNull(
                () -> new PastVisit(null, null, List.of()),
                () -> new PastVisit(DAY, null, null),
                () -> new PastReading(null, FOUND, FOUND, null),
                () -> new PastReading(VALVE, null, FOUND, null),
                () -> new PastReading(VALVE, FOUND, null, null));
    }
}
