package dev.lash.specs;

import dev.lash.adjust.InstalledShim;
import dev.lash.check.CheckSheet;
import dev.lash.check.Done;
import dev.lash.check.PastVisit;
import dev.lash.check.PastVisit.PastReading;
import dev.lash.check.ReadingField;
import dev.lash.check.ReadingRecord;
import dev.lash.check.RecordLayout;
import dev.lash.check.ValveReading;
import dev.lash.engine.Gap;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.gauge.Trial;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Turns a check sheet into rows: first the valves of its earlier checks, then its own, counted from 1. */
final class SheetRows {
    static final RecordLayout LAYOUT = RecordLayout.ofAllFields();

    private final CheckSheet sheet;

    SheetRows(CheckSheet sheet) {
        this.sheet = sheet;
    }

    List<ReadingRecord> rows() {
        List<ReadingRecord> rows = new ArrayList<>();
        for (PastVisit visit : sheet.history()) {
            for (PastReading reading : visit.valves()) {
                rows.add(past(rows.size() + 1L, visit, reading));
            }
        }
        for (ValveReading reading : sheet.valves()) {
            rows.add(today(rows.size() + 1L, reading));
        }
        return rows;
    }

    /** The sheet with the named rows only, to be mended. */
    CheckSheet only(Set<Long> wanted) {
        long row = 0;
        List<PastVisit> history = new ArrayList<>();
        for (PastVisit visit : sheet.history()) {
            List<PastReading> kept = new ArrayList<>();
            for (PastReading reading : visit.valves()) {
                row++;
                if (wanted.contains(row)) {
                    kept.add(reading);
                }
            }
            if (!kept.isEmpty()) {
                history.add(new PastVisit(visit.date(), visit.findUsage().orElse(null), kept, visit.breakIn()));
            }
        }
        CheckSheet.Builder builder = CheckSheet.builder(sheet.engine(), sheet.gauges())
                .rule(sheet.rule())
                .machine(sheet.machine())
                .history(history)
                .shimBox(sheet.shimBox())
                .symptoms(sheet.symptoms());
        sheet.date().ifPresent(builder::date);
        sheet.usage().ifPresent(builder::usage);
        sheet.engineTemperature().ifPresent(builder::engineTemperature);
        for (ValveReading reading : sheet.valves()) {
            row++;
            if (wanted.contains(row)) {
                builder.valve(reading);
            }
        }
        return builder.build();
    }

    private ReadingRecord past(long row, PastVisit visit, PastReading reading) {
        Map<ReadingField, String> texts = new EnumMap<>(ReadingField.class);
        boolean touched = !reading.left().equals(reading.found());
        texts.put(ReadingField.DATE, visit.date().toString());
        visit.findUsage().ifPresent(u -> texts.put(ReadingField.USAGE, u.toString()));
        valve(texts, reading.valve().toString(), reading.gap());
        texts.put(ReadingField.CLEARANCE, interval(reading.found()));
        texts.put(ReadingField.LEFT, touched ? interval(reading.left()) : "");
        texts.put(
                touched ? ReadingField.FITTED : ReadingField.SHIM,
                reading.findShim()
                        .flatMap(InstalledShim::size)
                        .map(Length::toString)
                        .orElse(""));
        return record(row, texts);
    }

    /** An interval without ends says nothing, and is an empty text. */
    private static String interval(LengthInterval interval) {
        return interval.lower().isEmpty() && interval.upper().isEmpty() ? "" : interval.toString();
    }

    private ReadingRecord today(long row, ValveReading reading) {
        Map<ReadingField, String> texts = new EnumMap<>(ReadingField.class);
        sheet.date().ifPresent(d -> texts.put(ReadingField.DATE, d.toString()));
        sheet.usage().ifPresent(u -> texts.put(ReadingField.USAGE, u.toString()));
        sheet.engineTemperature().ifPresent(t -> texts.put(ReadingField.TEMPERATURE, t.toString()));
        valve(texts, reading.valve().toString(), reading.gap());
        if (reading.gap() == Gap.CLOSER) {
            List<Trial> unloaded = reading.trials().isEmpty()
                    ? sheet.find(reading.valve(), Gap.OPENER)
                            .map(ValveReading::trials)
                            .orElse(List.of())
                    : reading.trials();
            texts.put(
                    ReadingField.CLEARANCE,
                    Evidence.closer(reading.loadedTrials(), unloaded, sheet.rule(), reading.turnsFree())
                            .bracket()
                            .map(Bracket::interval)
                            .map(SheetRows::interval)
                            .orElse(""));
        } else {
            texts.put(
                    ReadingField.TRIALS,
                    reading.trials().stream().map(Trial::toString).collect(Collectors.joining("; ")));
        }
        reading.findShim().flatMap(InstalledShim::size).ifPresent(s -> texts.put(ReadingField.SHIM, s.toString()));
        reading.findDone().ifPresent(done -> {
            texts.put(ReadingField.ADJUSTED, "yes");
            if (done instanceof Done.Fitted fitted) {
                texts.put(ReadingField.FITTED, fitted.shim().toString());
            }
            Evidence.of(reading.recheck(), sheet.rule())
                    .bracket()
                    .map(Bracket::interval)
                    .ifPresent(left -> texts.put(ReadingField.LEFT, interval(left)));
        });
        return record(row, texts);
    }

    private static void valve(Map<ReadingField, String> texts, String valve, Gap gap) {
        texts.put(ReadingField.VALVE, valve);
        texts.put(ReadingField.GAP, gap == Gap.ONLY ? "" : gap.word());
    }

    private ReadingRecord record(long row, Map<ReadingField, String> texts) {
        texts.put(ReadingField.MACHINE, sheet.machine());
        String[] cells = new String[LAYOUT.columns().size()];
        int i = 0;
        for (ReadingField field : ReadingField.values()) {
            cells[i] = texts.getOrDefault(field, "");
            i++;
        }
        return ReadingRecord.of(LAYOUT, row, cells);
    }
}
