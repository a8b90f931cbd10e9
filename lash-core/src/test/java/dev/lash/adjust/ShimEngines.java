package dev.lash.adjust;

import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.engine.ValveRole;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.Ratio;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;

/** Random engines with their boxes of shims, small enough to try everything. */
final class ShimEngines {
    private static final List<String> CAMSHAFTS = List.of("front", "middle", "rear", "");

    private ShimEngines() {}

    /** An engine and the spare shims. */
    record Engine(List<ShimSlot> slots, ShimBox box) {}

    static Arbitrary<Engine> small() {
        return Arbitraries.randomValue(ShimEngines::small);
    }

    static Engine small(Random random) {
        // what an engine has at all is drawn first, so that plain engines and odd ones both come up
        int slots = Math.min(random.nextInt(12), 6);
        int camshafts = random.nextInt(4);
        boolean types = random.nextInt(4) == 0;
        boolean odd = random.nextInt(3) == 0;
        boolean wide = random.nextInt(2) == 0;
        boolean tolerances = random.nextInt(4) == 0;
        boolean ratios = random.nextInt(4) == 0;
        boolean setWindows = random.nextInt(3) == 0;
        boolean gaps = random.nextInt(3) == 0;
        int grid = 2 + random.nextInt(4);
        int made = Math.max(0, random.nextInt(6) - 2);
        int thinnest = 240 + grid * random.nextInt(4);
        ShimRange sizes = new ShimRange(hundredths(thinnest), hundredths(thinnest + grid * made), hundredths(grid));
        ClearanceWindow check =
                ClearanceWindow.parse(pick(random, "0.15..0.25 mm", "0.16..0.22 mm", "0.00..0.06 mm", "0.10..0.30 mm"));
        ClearanceWindow setTo =
                setWindows ? new ClearanceWindow(check.lower().plus(hundredths(2)), check.upper()) : check;
        // shims that were once in order and have changed places: there swapping helps
        boolean mixedUp = random.nextInt(3) == 0;
        List<Integer> once = new ArrayList<>();
        for (int i = 0; i < slots; i++) {
            once.add(240 + grid * random.nextInt(6));
        }
        List<Integer> now = new ArrayList<>(once);
        Collections.shuffle(now, random);
        List<ShimSlot> engine = new ArrayList<>();
        for (int i = 0; i < slots; i++) {
            if (mixedUp && random.nextInt(8) > 0) {
                engine.add(mixedUp(random, i, once.get(i), now.get(i), new ClearanceSpec(check, setTo, ""), sizes)
                        .withCamshaft(camshafts == 0 ? "" : CAMSHAFTS.get(random.nextInt(camshafts))));
                continue;
            }
            InstalledShim shim = new InstalledShim(
                    odd && random.nextInt(4) == 0 ? null : hundredths(240 + grid * random.nextInt(6)),
                    odd && random.nextInt(3) == 0 ? hundredths(240 + random.nextInt(21)) : null,
                    tolerances ? Length.ofNanometres(random.nextInt(3) * 5_000L) : Length.ZERO,
                    types ? pick(random, "7.5", "9.5") : "");
            ShimSlot slot = ShimSlot.of(
                            new ValveId(1 + i / 2, i % 2 == 0 ? ValveRole.INTAKE : ValveRole.EXHAUST, 1),
                            bracket(random, odd, wide && random.nextBoolean() ? 25 : 4, check),
                            new ClearanceSpec(check, setTo, ""),
                            shim,
                            sizes)
                    .withCamshaft(camshafts == 0 ? "" : CAMSHAFTS.get(random.nextInt(camshafts + 1)));
            if (gaps) {
                slot = slot.withGap("opener");
            }
            if (ratios) {
                slot = slot.withRatio(Ratio.parse(pick(random, "1.5", "0.85", "4/3")));
            }
            engine.add(random.nextInt(10) == 0 ? slot.withAim(Ratio.of(random.nextInt(4), 3)) : slot);
        }
        List<ShimBox.Lot> lots = new ArrayList<>();
        int left = random.nextInt(9);
        while (left > 0) {
            int count = Math.min(left, random.nextInt(3));
            left -= Math.max(count, 1);
            lots.add(new ShimBox.Lot(
                    hundredths(240 + grid * random.nextInt(6)), count, types ? pick(random, "7.5", "9.5") : ""));
        }
        return new Engine(engine, new ShimBox(lots));
    }

    private static ShimSlot mixedUp(Random random, int i, int once, int now, ClearanceSpec clearance, ShimRange sizes) {
        long low = clearance.setTo().lower().nanometres() / 10_000 + random.nextInt(4) + once - now;
        LengthInterval bracket = LengthInterval.open(
                hundredths((int) Math.max(1, low)), hundredths((int) Math.max(1, low) + 1 + random.nextInt(3)));
        return ShimSlot.of(
                new ValveId(1 + i / 2, i % 2 == 0 ? ValveRole.INTAKE : ValveRole.EXHAUST, 1),
                bracket,
                clearance,
                InstalledShim.marked(hundredths(now)),
                sizes);
    }

    private static LengthInterval bracket(Random random, boolean odd, int widest, ClearanceWindow check) {
        int middle = (int) (check.lower().plus(check.upper()).nanometres() / 20_000);
        int low = Math.max(0, middle - 13 + random.nextInt(16));
        int width = random.nextInt(widest);
        if (odd) {
            switch (random.nextInt(8)) {
                case 0 -> {
                    return LengthInterval.below(hundredths(low + width + 1));
                }
                case 1 -> {
                    return LengthInterval.above(hundredths(low));
                }
                case 2 -> {
                    return random.nextBoolean()
                            ? LengthInterval.any()
                            : LengthInterval.point(Length.ofNanometres(low * 10_000L + 1));
                }
                default -> {}
            }
        }
        return width == 0
                ? LengthInterval.point(hundredths(low))
                : LengthInterval.of(
                        hundredths(low), random.nextInt(3) == 0, hundredths(low + width), random.nextInt(3) == 0);
    }

    private static Length hundredths(int number) {
        return Length.ofNanometres(number * 10_000L);
    }

    private static String pick(Random random, String... values) {
        return values[random.nextInt(values.length)];
    }
}
