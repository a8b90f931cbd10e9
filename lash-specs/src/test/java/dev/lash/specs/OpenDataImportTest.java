package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.Correction;
import dev.lash.check.ImportCode;
import dev.lash.check.ImportFinding;
import dev.lash.check.ImportedMachine;
import dev.lash.check.ImportedReading;
import dev.lash.check.ReadingValidator;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.check.Severity;
import dev.lash.check.ValidationProfile;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import java.io.IOException;
import java.io.InputStream;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * Open data with two columns swapped in one row goes through the same door: the data set {@code Davis} of the R package carData 3.0-5, from
 * C. Davis (1990), Appetite 15, 13-21. Row 12 has 166 kg and 57 cm as measured, and 56 kg and 163 cm as the
 * person reported, so that the first two are in each other's place.
 */
class OpenDataImportTest {
    /** Common adult weights, 40 to 120 kg, and heights, 145 to 200 cm, in the scale of the file; from memory, not from the data. */
    private static final EngineSpec ENGINE = EngineSpec.builder("scales", "Scales and measuring stick")
            .valves("1-in-1", "1-ex-1")
            .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.040..0.120 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.145..0.200 mm"))
            .build();

    private static final ImportMapping MAPPING = ImportMapping.read("mapping", """
            { "format": "lash-mapping/1", "delimiter": ",", "unit": "mm",
              "columns": { "machine": "machine", "date": "date", "usage": "usage", "valve": "valve",
                           "clearance": "clearance" } }
            """);

    private final List<ImportedReading> accepted = new ArrayList<>();
    private final List<ImportFinding> findings = new ArrayList<>();

    private ImportSummary read(ValidationProfile profile) throws IOException {
        ImportedMachine machine = ImportedMachine.of(ENGINE);
        ImportSession session = new ImportSession(
                ReadingValidator.of(name -> Optional.of(machine), profile, LocalDate.of(2031, 6, 1)),
                accepted::add,
                rows -> {});
        ImportSession.Output output = new ImportSession.Output() {
            @Override
            public void header(String text) {
                // the findings tell
            }

            @Override
            public void rejected(long row, String text) {
                // the findings tell
            }

            @Override
            public void finding(ImportFinding finding, Fate fate) {
                findings.add(finding);
            }
        };
        try (InputStream file = Objects.requireNonNull(getClass().getResourceAsStream("swapped-columns.csv"))) {
            session.csv("swapped-columns.csv", file, MAPPING, output);
        }
        return session.summary();
    }

    @Test
    void theSwappedRowIsNamedAndNoOther() throws IOException {
        ImportSummary summary = read(ValidationProfile.defaults());
        assertThat(summary.read()).isEqualTo(400);
        assertThat(summary.accepted()).isEqualTo(398);
        assertThat(findings).hasSize(2).allSatisfy(f -> {
            assertThat(f.code()).isEqualTo(ImportCode.ROLES_SWAPPED);
            assertThat(f.severity()).isEqualTo(Severity.ERROR);
        });
        // each person has two lines, after the header
        assertThat(findings.stream().map(ImportFinding::row)).containsExactly(24L, 25L);
        assertThat(findings.stream().map(f -> f.findCorrection().orElseThrow()).map(Correction::text))
                .containsExactly("1-ex-1", "1-in-1");
    }

    @Test
    void theCorrectionPutsItRight() throws IOException {
        read(ValidationProfile.defaults().withCorrections(Set.of(ImportCode.ROLES_SWAPPED)));
        assertThat(accepted).hasSize(400);
        assertThat(accepted.stream().filter(r -> r.machine().equals("Row 12")))
                .extracting(r -> r.valve() + " " + r.found())
                .containsExactlyInAnyOrder("1-in-1 [0.057, 0.057] mm", "1-ex-1 [0.166, 0.166] mm");
    }
}
