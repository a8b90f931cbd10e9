package dev.lash.testing;

import static dev.lash.testing.Readings.window;

import dev.lash.adjust.AdjustmentTask;
import dev.lash.adjust.InstalledShim;
import dev.lash.adjust.ShimBox;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.engine.ValveTrain.ShimPlace;
import dev.lash.gauge.Bracket;
import dev.lash.gauge.GaugeSet;
import dev.lash.judge.Judgement;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import java.util.Arrays;

/** Short ways to write what an adjustment depends on. */
public final class Tasks {
    private Tasks() {}

    /** A screw with a lock nut at the valve tip. */
    public static ValveTrain screw(String pitch, ScrewHead head) {
        return new ValveTrain.Screw(ScrewPlace.ROCKER_TIP, Pitch.parse(pitch), Ratio.ONE, head);
    }

    /** A screw or nut anywhere, with a hexagon. */
    public static ValveTrain.Screw screw(ScrewPlace place, String pitch, String ratio) {
        return new ValveTrain.Screw(place, Pitch.parse(pitch), Ratio.parse(ratio), ScrewHead.HEXAGON);
    }

    /** Shims under a finger follower. */
    public static ValveTrain follower(String range, String ratio) {
        return new ValveTrain.Shim(ShimPlace.FOLLOWER, ShimRange.parse(range), Ratio.parse(ratio));
    }

    /** Shims under a bucket. */
    public static ValveTrain shims(String range) {
        return ValveTrain.Shim.bucket(ShimPlace.UNDER_BUCKET, ShimRange.parse(range));
    }

    /** A task with one window for checking and setting. */
    public static AdjustmentTask task(ValveTrain train, String windowText, GaugeSet gauges, Bracket reading) {
        return task(train, windowText, windowText, gauges, reading);
    }

    /** A task with a window to check against and a window to set to. */
    public static AdjustmentTask task(ValveTrain train, String check, String setTo, GaugeSet gauges, Bracket reading) {
        ClearanceSpec clearance = new ClearanceSpec(window(check), window(setTo), "");
        return AdjustmentTask.of(train, clearance, Judgement.of(reading, window(check)), gauges);
    }

    /** The same task with an installed shim of a marked size and no spares. */
    public static AdjustmentTask withShim(AdjustmentTask task, String marked) {
        return task.withShims(InstalledShim.marked(Length.ofMillimetres(marked)), ShimBox.empty());
    }

    /** The same task with another state of pad and tip. */
    public static AdjustmentTask withPad(AdjustmentTask task, AdjustmentTask.Pad pad) {
        return task.withPad(pad);
    }

    /** A box with one shim of each size. */
    public static ShimBox box(String... sizes) {
        return new ShimBox(Arrays.stream(sizes)
                .map(size -> new ShimBox.Lot(Length.ofMillimetres(size), 1, ""))
                .toList());
    }
}
