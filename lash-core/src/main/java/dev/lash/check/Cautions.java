package dev.lash.check;

import dev.lash.engine.Decompressor;
import dev.lash.engine.EngineSpec;
import dev.lash.engine.ValveTrain;
import java.util.ArrayList;
import java.util.List;

/** The cautions that every report carries (common practice, as service manuals print them). */
final class Cautions {
    private static final List<String> ALWAYS = List.of(
            "The maker's service manual and local codes come first; if in doubt, a qualified technician does the work.",
            "Engine cold unless the maker says otherwise. Ignition off, key out; isolate plug lead and battery as the maker says.",
            "Stand the machine upright and support it so that it cannot fall or roll. Drain or shut off the fuel; no flame.",
            "Turn the engine by hand, in the maker's direction, never with the starter. Fingers clear of chain, gears and cam.",
            "Make sure of compression TDC: the follower must be on the base circle, slack, before a leaf goes in.",
            "Drop nothing into the head: rags in the openings. Leaves are thin and sharp: no force.",
            "Torque values and the order of cam-cap bolts come from the service manual.",
            "Before starting: turn the engine over by hand twice and check again. Nothing left inside, covers on.",
            "Run the engine outdoors: exhaust gas kills.");

    private Cautions() {}

    static List<String> of(EngineSpec engine) {
        List<String> all = new ArrayList<>(ALWAYS);
        if (engine.train() instanceof ValveTrain.Screw) {
            all.add("Hold the screw while the nut is tightened: the nut pulls the screw. Check again after locking.");
        }
        if (engine.train().shimRatio().isPresent()) {
            all.add(
                    "Measure every valve before a camshaft comes out; keep each part with its valve. Measure shims with a "
                            + "micrometer. Wear eye protection where compressed air lifts a shim.");
        }
        engine.decompressor()
                .filter(Decompressor::isKnown)
                .ifPresent(d -> all.add("A decompressor holds " + d.valve() + " from "
                        + d.findBefore().orElseThrow() + " degrees before compression TDC to "
                        + d.findAfter().orElseThrow() + " after: no reading there counts."));
        all.addAll(engine.cautions());
        return List.copyOf(all);
    }
}
