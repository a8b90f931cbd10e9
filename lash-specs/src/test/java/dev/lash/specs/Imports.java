package dev.lash.specs;

import dev.lash.check.ImportFinding;
import dev.lash.check.ImportedMachine;
import dev.lash.check.ImportedReading;
import dev.lash.check.ReadingValidator;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.check.ValidationProfile;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Pitch;
import dev.lash.engine.ValveRole;
import dev.lash.engine.ValveTrain;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A session whose output is kept in lists. */
final class Imports implements ImportSession.Output {
    static final EngineSpec ENGINE = EngineSpec.builder("hill-bike", "Hill bike, training single")
            .valves("1-in-1", "1-ex-1")
            .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
            .build();
    static final ImportMapping MAPPING = ImportMapping.read("mapping", """
            { "format": "lash-mapping/1", "delimiter": ";", "decimalComma": true, "dateOrder": "day-month-year",
              "unit": "mm", "usageUnit": "km", "temperatureScale": "C", "valveNames": { "IN": "1-in-1", "EX": "1-ex-1" },
              "columns": { "machine": "Bike", "date": "Day", "usage": "km", "valve": "Valve", "goes": "Go",
                           "refuses": "No go", "confirmed": "ok" } }
            """);
    static final String HEADER = "Bike;Day;km;Valve;Go;No go;Remark";

    final List<ImportedReading> accepted = new ArrayList<>();
    final List<String> rejected = new ArrayList<>();
    final List<ImportFinding> findings = new ArrayList<>();
    final ImportSession session = new ImportSession(
            ReadingValidator.of(
                    name -> name.startsWith("Hill bike") ? Optional.of(ImportedMachine.of(ENGINE)) : Optional.empty(),
                    ValidationProfile.defaults(),
                    LocalDate.of(2033, 1, 1)),
            accepted::add,
            rows -> {});

    @Override
    public void header(String text) {
        rejected.add(text);
    }

    @Override
    public void rejected(long row, String text) {
        rejected.add(text);
    }

    @Override
    public void finding(ImportFinding finding, Fate fate) {
        findings.add(finding);
    }

    static ByteArrayInputStream utf8(String text) {
        return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
    }

    Imports csv(String... rows) {
        return csv(utf8(HEADER + "\r\n" + String.join("\r\n", rows)).readAllBytes());
    }

    Imports csv(byte[] file) {
        try {
            session.csv("file.csv", new ByteArrayInputStream(file), MAPPING, this);
        } catch (IOException impossible) {
            throw new AssertionError(impossible);
        }
        return this;
    }

    Imports jsonLines(byte[] file) {
        try {
            session.jsonLines("file.jsonl", new ByteArrayInputStream(file), ImportMapping.own(), this);
        } catch (IOException impossible) {
            throw new AssertionError(impossible);
        }
        return this;
    }

    List<String> codes() {
        return findings.stream()
                .map(f -> f.code().code())
                .filter(c -> !c.equals("valves-not-read"))
                .toList();
    }
}
