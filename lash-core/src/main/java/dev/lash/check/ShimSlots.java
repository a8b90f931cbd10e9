package dev.lash.check;

import dev.lash.adjust.Adjuster;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimSlot;
import dev.lash.engine.Camshafts;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.Gap;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveTrain;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.Evidence;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import java.util.List;
import java.util.Optional;

/** The places for shims of a checked engine, as a shim planner takes them. */
final class ShimSlots {
    private static final InstalledShim UNKNOWN = new InstalledShim(null, null, Length.ZERO, "");

    private ShimSlots() {}

    /**
     * A slot for each reading on the sheet, as the valve stands after what was done; empty where the train has no shims. A reading
     * that is not used says nothing.
     */
    static List<ShimSlot> of(CheckSheet sheet, List<ValveCheck> checks) {
        return checks.stream().flatMap(check -> slot(sheet, check).stream()).toList();
    }

    private static Optional<ShimSlot> slot(CheckSheet sheet, ValveCheck check) {
        Optional<ClearanceSpec> clearance = check.clearance();
        Optional<ShimRange> sizes = sheet.engine().train().shims(check.reading().gap());
        if (clearance.isEmpty() || sizes.isEmpty()) {
            return Optional.empty();
        }
        ValveReading reading = check.reading();
        ShimSlot slot = ShimSlot.of(
                        reading.valve(),
                        LengthInterval.any(),
                        clearance.get(),
                        reading.findShimNow().orElse(UNKNOWN),
                        sizes.get())
                .withGap(reading.gap() == Gap.ONLY ? "" : reading.gap().word())
                .withCamshaft(camshaft(sheet.engine(), reading));
        slot = clearances(check)
                .filter(bracket -> !bracket.equals(LengthInterval.any()))
                .map(slot::withBracket)
                .orElse(slot.withoutReading(unread(sheet, check)));
        if (sheet.engine().train() instanceof ValveTrain.Shim train) {
            slot = slot.withRatio(train.ratio());
        }
        // the closer opens up as the seat wears, so it is aimed at from the other side
        return Optional.of(
                reading.gap() == Gap.CLOSER
                        ? slot.withAim(Ratio.ONE.minus(Adjuster.withDefaults().aim()))
                        : slot);
    }

    /** The clearances as the valve stands now: after what was done, those of the recheck. A dished pad lets no leaf read. */
    private static Optional<LengthInterval> clearances(ValveCheck check) {
        ValveReading reading = check.reading();
        if (reading.pad() == Pad.DISHED || isDoubted(check)) {
            return Optional.empty();
        }
        return evidenceNow(check).flatMap(Evidence::bracket).map(Bracket::interval);
    }

    private static Optional<Evidence> evidenceNow(ValveCheck check) {
        return check.reading().findDone().isPresent() ? check.recheck() : Optional.of(check.evidence());
    }

    private static boolean isDoubted(ValveCheck check) {
        return check.findings().stream().anyMatch(f -> f.code() == FindingCode.DECOMPRESSOR_HOLDS);
    }

    private static String unread(CheckSheet sheet, ValveCheck check) {
        ValveReading reading = check.reading();
        if (reading.pad() == Pad.DISHED) {
            return "the pad or valve tip is dished and leaves read too small: dress or renew the part, then measure";
        }
        if (isDoubted(check)) {
            return "it was read where the decompressor may hold it: measure clear of that";
        }
        if (evidenceNow(check).filter(e -> e.bracket().isEmpty()).isPresent()) {
            return "its trials contradict each other: repeat them";
        }
        return reading.findDone()
                .map(done -> done.toString(sheet.gauges().unit())
                        + ", and not checked again: turn the engine over by hand twice, then measure")
                .orElse("");
    }

    /**
     * A camshaft is lifted for shims under buckets and for graded buckets; for those under followers where the engine names its
     * camshafts, since many a follower slides or swings aside with the camshaft in place.
     */
    private static String camshaft(EngineSpec engine, ValveReading reading) {
        boolean camOut = engine.train() instanceof ValveTrain.Shim shim
                && switch (shim.place()) {
                    case UNDER_BUCKET, GRADED_BUCKET -> true;
                    case FOLLOWER -> !engine.camshafts().equals(Camshafts.ONE_PER_ROLE);
                    case OVER_BUCKET -> false;
                };
        return camOut ? engine.camshafts().over(reading.valve()) : "";
    }
}
