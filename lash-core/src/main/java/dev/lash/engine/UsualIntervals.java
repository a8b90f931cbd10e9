package dev.lash.engine;

import dev.lash.measure.Usage;
import java.util.Map;

/**
 * How often valves are checked, by the kind of train: from memory, with room on both sides, so that only a slip lies outside. Screws of
 * small engines are seen often, buckets rarely; bridges and graded buckets are of engines that run far.
 */
record UsualIntervals(Usage leastDistance, Usage mostDistance, Usage leastHours, Usage mostHours) {
    private static final UsualIntervals SCREWS = of("1000 km", "40000 km", "20 h", "1000 h");
    private static final UsualIntervals PUSHRODS = of("1000 km", "40000 km", "50 h", "3000 h");
    private static final UsualIntervals BUCKETS = of("1000 km", "60000 km", "10 h", "1000 h");
    private static final Map<String, UsualIntervals> OF_TRAIN = Map.ofEntries(
            Map.entry("rocker-screw", SCREWS),
            Map.entry("rocker-forked", SCREWS),
            Map.entry("pushrod-screw", PUSHRODS),
            Map.entry("pushrod-threaded", PUSHRODS),
            Map.entry("stud-nut", PUSHRODS),
            Map.entry("tappet-screw", of("1000 km", "20000 km", "50 h", "1000 h")),
            Map.entry("bridge", of("10000 km", "150000 km", "250 h", "6000 h")),
            Map.entry("eccentric", of("5000 km", "60000 km", "100 h", "3000 h")),
            Map.entry("bucket-shim-over", BUCKETS),
            Map.entry("bucket-shim-under", BUCKETS),
            Map.entry("follower-shim", BUCKETS),
            Map.entry("bucket-graded", of("10000 km", "160000 km", "100 h", "3000 h")),
            Map.entry("desmodromic", of("5000 km", "40000 km", "20 h", "500 h")),
            Map.entry("fixed", of("5000 km", "60000 km", "100 h", "2000 h")));
    private static final UsualIntervals ANY = of("1000 km", "160000 km", "10 h", "6000 h");

    private static UsualIntervals of(String leastDistance, String mostDistance, String leastHours, String mostHours) {
        return new UsualIntervals(
                Usage.parse(leastDistance), Usage.parse(mostDistance), Usage.parse(leastHours), Usage.parse(mostHours));
    }

    /** The intervals of a kind of train. */
    static UsualIntervals of(String train) {
        return OF_TRAIN.getOrDefault(train, ANY);
    }

    private Usage least(Usage interval) {
        return interval.unit().isDistance() ? leastDistance : leastHours;
    }

    private Usage most(Usage interval) {
        return interval.unit().isDistance() ? mostDistance : mostHours;
    }

    /** Whether an interval is one of these. */
    boolean contains(Usage interval) {
        return interval.compareAmount(least(interval)) >= 0 && interval.compareAmount(most(interval)) <= 0;
    }

    /** What an interval that counts as this one does may be. */
    String words(Usage interval) {
        return least(interval) + " to " + most(interval);
    }
}
