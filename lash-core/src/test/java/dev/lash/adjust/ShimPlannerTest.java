package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.adjust.ShimPlan.Action;
import dev.lash.adjust.ShimPlan.Finding;
import dev.lash.adjust.ShimPlan.FindingKind;
import dev.lash.adjust.ShimPlan.Move;
import dev.lash.adjust.ShimPlan.Origin;
import dev.lash.adjust.ShimPlan.Step;
import dev.lash.adjust.ShimPlan.Totals;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.judge.Verdict;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.Ratio;
import dev.lash.measure.RejectedValueException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;

class ShimPlannerTest {
    private static final ShimPlanner PLANNER = ShimPlanner.withDefaults();
    private static final ShimRange KIT = ShimRange.parse("1.20..3.50 mm step 0.05 mm");
    /** Only one size is made, and it is of no use here. */
    private static final ShimRange NOTHING_TO_BUY = ShimRange.parse("9.00..9.00 mm step 0.05 mm");

    private static Length mm(String number) {
        return Length.ofMillimetres(number);
    }

    private static ClearanceSpec window(String text) {
        return ClearanceSpec.typical(ClearanceWindow.parse(text));
    }

    /** An intake valve with the window 0.16 to 0.22 mm. */
    private static ShimSlot slot(String valve, String bracket, String shim) {
        return slot(valve, bracket, shim, KIT);
    }

    private static ShimSlot slot(String valve, String bracket, String shim, ShimRange sizes) {
        return ShimSlot.of(
                ValveId.parse(valve),
                LengthInterval.parse(bracket),
                window("0.16..0.22 mm"),
                InstalledShim.marked(mm(shim)),
                sizes);
    }

    private static ShimBox box(String... sizes) {
        return new ShimBox(
                Arrays.stream(sizes).map(s -> new ShimBox.Lot(mm(s), 1, "")).toList());
    }

    private static List<String> shims(ShimPlan plan) {
        return plan.moves().stream()
                .map(m -> m.findShim()
                                .map(s -> s.millimetres().stripTrailingZeros().toPlainString())
                                .orElse("?") + " " + m.source())
                .toList();
    }

    private static List<String> lots(List<ShimBox.Lot> lots) {
        return lots.stream()
                .map(lot -> lot.count() + " x " + lot.size() + (lot.type().isEmpty() ? "" : " " + lot.type()))
                .toList();
    }

    /**
     * The road trainer of the riding school: four cylinders, sixteen valves, shims under buckets, an intake and an exhaust
     * camshaft. Worked by hand.
     */
    @Nested
    class RoadTrainer {
        private final List<ShimSlot> slots = List.of(
                in("1-in-1", "(0.15, 0.16) mm", "2.45"),
                in("1-in-2", "(0.15, 0.16) mm", "2.35"),
                ex("1-ex-1", "(0.20, 0.22) mm", "2.40"),
                ex("1-ex-2", "(0.22, 0.25) mm", "2.35"),
                in("2-in-1", "(0.20, 0.22) mm", "2.50"),
                in("2-in-2", "(0.12, 0.15) mm", "2.65"),
                ex("2-ex-1", "< 0.04 mm", "2.50"),
                ex("2-ex-2", "(0.20, 0.22) mm", "2.65"),
                in("3-in-1", "(0.12, 0.15) mm", "2.40"),
                in("3-in-2", "(0.20, 0.22) mm", "2.35"),
                ex("3-ex-1", "(0.25, 0.28) mm", "2.65"),
                ex("3-ex-2", "(0.20, 0.22) mm", "2.50"),
                in("4-in-1", "(0.12, 0.15) mm", "2.45"),
                in("4-in-2", "(0.12, 0.15) mm", "2.45"),
                ex("4-ex-1", "(0.25, 0.28) mm", "2.55"),
                ex("4-ex-2", "(0.25, 0.28) mm", "2.45"));
        private final ShimBox box = box("2.25", "2.20", "2.20", "2.40");
        private final ShimPlan plan = PLANNER.plan(slots, box);

        private static ShimSlot in(String valve, String bracket, String shim) {
            return slot(valve, bracket, shim).withCamshaft("intake");
        }

        private static ShimSlot ex(String valve, String bracket, String shim) {
            return ShimSlot.of(
                            ValveId.parse(valve),
                            LengthInterval.parse(bracket),
                            window("0.25..0.31 mm"),
                            InstalledShim.marked(mm(shim)),
                            KIT)
                    .withCamshaft("exhaust");
        }

        /*
         * A size s is certain where b + old - 0.22 <= s <= a + old - 0.16 (exhaust 0.31 and 0.25). That leaves one size of the
         * kit for each valve out of its window:
         *   1-in-1 2.39..2.44 -> 2.40   1-in-2 2.29..2.34 -> 2.30   2-in-2 2.58..2.61 -> 2.60   3-in-1 2.33..2.36 -> 2.35
         *   4-in-1 2.38..2.41 -> 2.40   4-in-2 2.38..2.41 -> 2.40
         *   1-ex-1 2.31..2.35 -> 2.35   1-ex-2 2.29..2.32 -> 2.30   2-ex-2 2.56..2.60 -> 2.60   3-ex-2 2.41..2.45 -> 2.45
         * 2-ex-1 has no lower end and keeps its shim. Valves are out of their windows on both camshafts, so both are lifted.
         * Wanted: 2.40 three times, 2.30, 2.35 and 2.60 twice, 2.45 once. The valves that change give up 2.35 twice (1-in-2,
         * 1-ex-2), 2.40 twice (1-ex-1, 3-in-1), 2.45 three times (1-in-1, 4-in-1, 4-in-2), 2.50 (3-ex-2) and 2.65 twice (2-in-2,
         * 2-ex-2); the box has one 2.40. So 2.30 and 2.60 are bought, two of each. Could a valve that is in order give up a size
         * that is wanted? None has a 2.30 or 2.60.
         */
        @Test
        void shimsGoWhereTheyAreWanted() {
            assertThat(shims(plan))
                    .containsExactly(
                            "2.4 1-ex-1",
                            "2.3 buy",
                            "2.35 1-in-2",
                            "2.3 buy",
                            "2.5 stays",
                            "2.6 buy",
                            "2.5 stays",
                            "2.6 buy",
                            "2.35 1-ex-2",
                            "2.35 stays",
                            "2.65 stays",
                            "2.45 1-in-1",
                            "2.4 3-in-1",
                            "2.4 box",
                            "2.55 stays",
                            "2.45 stays");
        }

        /*
         * Aims: 0.205 and 0.295. Middles then: 1-in-1 0.205, 1-in-2 0.205, 1-ex-1 0.26, 1-ex-2 0.285, 2-in-1 0.21, 2-in-2 0.185,
         * 2-ex-2 0.26, 3-in-1 0.185, 3-in-2 0.21, 3-ex-1 0.265, 3-ex-2 0.26, 4-in-1 0.185, 4-in-2 0.185, 4-ex-1 0.265, 4-ex-2
         * 0.265. Off, in thousandths: 0 0 35 10 5 20 35 20 5 30 35 20 20 30 30 = 295, that is 590 000 half nanometres.
         */
        @Test
        void totalsAreAsCounted() {
            assertThat(plan.totals()).isEqualTo(new Totals(1, 2, 4, 10, 590_000));
            assertThat(plan.camshafts()).containsExactly("intake", "exhaust");
            assertThat(lots(plan.buy())).containsExactly("2 x 2.30 mm", "2 x 2.60 mm");
            assertThat(lots(plan.fromBox())).containsExactly("1 x 2.40 mm");
            assertThat(lots(plan.toBox())).containsExactly("2 x 2.45 mm", "1 x 2.50 mm", "2 x 2.65 mm");
        }

        @Test
        void everyMoveSaysWhatComesOfIt() {
            Move first = plan.moves().get(0);
            assertThat(first.resulting()).isEqualTo(LengthInterval.parse("(0.20, 0.21) mm"));
            assertThat(first.verdict()).isEqualTo(Verdict.WITHIN);
            assertThat(first.certain()).isTrue();
            assertThat(first.why())
                    .isEqualTo("brings (0.15, 0.16) mm to (0.20, 0.21) mm, in the window of 0.16..0.22 mm");
            Move tight = plan.moves().get(6);
            assertThat(tight.certain()).isFalse();
            assertThat(tight.verdict()).isEqualTo(Verdict.TIGHT);
            assertThat(tight.why()).contains("no lower end");
        }

        @Test
        void theOneThatCannotBePlannedIsToBeMeasuredFirst() {
            assertThat(plan.findings()).hasSize(1);
            Finding finding = plan.findings().get(0);
            assertThat(finding.kind()).isEqualTo(FindingKind.MEASURE_FURTHER);
            assertThat(finding.valve()).hasToString("2-ex-1");
            // with 0 < c < 0.04 known exactly, c + 2.50 - s in 0.25..0.31 asks for 2.25 or 2.30 at most: the box has
            // the 2.25
            assertThat(finding.findAtBest()).contains(new Totals(0, 2, 4, 11, 0));
            assertThat(finding.text()).contains("valves not certain 0 in place of 1");
        }

        @Test
        void stepsCanBeFollowed() {
            assertThat(plan.steps().stream().map(Step::text))
                    .containsExactly(
                            "buy 2 x 2.30 mm",
                            "buy 2 x 2.60 mm",
                            "take from the box: 1 x 2.40 mm",
                            "lift the camshaft: intake",
                            "lift the camshaft: exhaust",
                            "take out of 2-in-2: 2.65 mm, for the box",
                            "put into 2-in-2: 2.60 mm, new",
                            "take out of 2-ex-2: 2.65 mm, for the box",
                            "put into 2-ex-2: 2.60 mm, new",
                            "take out of 3-ex-2: 2.50 mm, for the box",
                            "take out of 1-in-1: 2.45 mm, for 3-ex-2",
                            "put into 3-ex-2: 2.45 mm, from 1-in-1",
                            "take out of 1-ex-1: 2.40 mm, for 1-in-1",
                            "put into 1-in-1: 2.40 mm, from 1-ex-1",
                            "take out of 1-in-2: 2.35 mm, for 1-ex-1",
                            "put into 1-ex-1: 2.35 mm, from 1-in-2",
                            "put into 1-in-2: 2.30 mm, new",
                            "take out of 4-in-1: 2.45 mm, for the box",
                            "take out of 3-in-1: 2.40 mm, for 4-in-1",
                            "put into 4-in-1: 2.40 mm, from 3-in-1",
                            "take out of 1-ex-2: 2.35 mm, for 3-in-1",
                            "put into 3-in-1: 2.35 mm, from 1-ex-2",
                            "put into 1-ex-2: 2.30 mm, new",
                            "take out of 4-in-2: 2.45 mm, for the box",
                            "put into 4-in-2: 2.40 mm, from the box",
                            "put the camshaft back by the service manual, with its timing, cap order and torque: intake",
                            "put the camshaft back by the service manual, with its timing, cap order and torque: exhaust",
                            "turn the engine over twice by hand, then measure again: 1-in-1, 1-in-2, 1-ex-1, 1-ex-2, 2-in-2, "
                                    + "2-ex-2, 3-in-1, 3-ex-2, 4-in-1, 4-in-2");
        }

        /** Without swaps the wanted sizes come from the box and the shop: one 2.40 from the box, nine bought. */
        @Test
        void newShimsOnlyWhereTheMakerWantsThat() {
            ShimPlan bought = PLANNER.withSwaps(false).plan(slots, box);
            assertThat(bought.totals()).isEqualTo(new Totals(1, 2, 9, 10, 590_000));
            assertThat(bought.moves()).noneMatch(m -> m.source().origin() == Origin.VALVE);
        }

        @Test
        void samePlanEachTime() {
            ShimPlan again = PLANNER.plan(new ArrayList<>(slots), box("2.40", "2.20", "2.25", "2.20"));
            assertThat(again).isEqualTo(plan).hasSameHashCodeAs(plan).hasToString(plan.toString());
            assertThat(again.steps()).isEqualTo(plan.steps());
        }
    }

    // ---- ranks ------------------------------------------------------------------------------------------------------

    /** 2.40 is wanted at 1-in-1; the one in the box saves buying. */
    @Test
    void boxComesBeforeTheShop() {
        ShimPlan plan = PLANNER.plan(List.of(slot("1-in-1", "(0.15, 0.16) mm", "2.45")), box("2.40"));
        assertThat(shims(plan)).containsExactly("2.4 box");
        assertThat(plan.totals()).isEqualTo(new Totals(0, 0, 0, 1, 0));
    }

    /** The 2.40 that 1-in-1 wants is at 1-ex-1, which is in order with it and with 2.35. Fetching it lifts a camshaft more. */
    @Test
    void noCamshaftIsLiftedToSaveAShim() {
        ShimSlot tight = slot("1-in-1", "(0.15, 0.16) mm", "2.45").withCamshaft("intake");
        ShimSlot inOrder = slot("1-ex-1", "[0.17, 0.17] mm", "2.40").withCamshaft("exhaust");
        assertThat(shims(PLANNER.plan(List.of(tight, inOrder), box("2.35")))).containsExactly("2.4 buy", "2.4 stays");
        // under one camshaft, or with the cam in place, it is fetched
        assertThat(shims(PLANNER.plan(List.of(tight, inOrder.withCamshaft("intake")), box("2.35"))))
                .containsExactly("2.4 1-ex-1", "2.35 box");
        assertThat(shims(PLANNER.plan(List.of(tight.withCamshaft(""), inOrder.withCamshaft("")), box("2.35"))))
                .containsExactly("2.4 1-ex-1", "2.35 box");
    }

    /** Only the shim of the other camshaft's valve is certain, and none can be bought: certainty comes before labour. */
    @Test
    void camshaftIsLiftedForAValveMadeCertain() {
        ShimSlot tight =
                slot("1-in-1", "(0.15, 0.16) mm", "2.45", NOTHING_TO_BUY).withCamshaft("intake");
        ShimSlot inOrder =
                slot("1-ex-1", "[0.17, 0.17] mm", "2.40", NOTHING_TO_BUY).withCamshaft("exhaust");
        ShimPlan plan = PLANNER.plan(List.of(tight, inOrder), box("2.35"));
        assertThat(shims(plan)).containsExactly("2.4 1-ex-1", "2.35 box");
        assertThat(plan.totals().camshaftsLifted()).isEqualTo(2);
        assertThat(plan.moves().get(1).why()).endsWith("its own is needed at 1-in-1");
    }

    /** Two valves have changed places; a third has the size of one of them and is in order. */
    @Test
    void likeSizesDoNotMove() {
        ShimSlot a = slot("1-in-1", "(0.10, 0.11) mm", "2.50").withCamshaft("front");
        ShimSlot b = slot("1-in-2", "(0.27, 0.28) mm", "2.40").withCamshaft("front");
        ShimSlot like = slot("2-in-1", "(0.18, 0.19) mm", "2.50").withCamshaft("rear");
        ShimPlan plan = PLANNER.plan(List.of(like, a, b), ShimBox.empty());
        assertThat(shims(plan)).containsExactly("2.5 stays", "2.4 1-in-2", "2.5 1-in-1");
        assertThat(plan.camshafts()).containsExactly("front");
        // nor when its camshaft is up anyway
        ShimPlan together = PLANNER.plan(List.of(like.withCamshaft("front"), a, b), ShimBox.empty());
        assertThat(shims(together)).containsExactly("2.5 stays", "2.4 1-in-2", "2.5 1-in-1");
        // a ring: one shim in the hand, then the other straight across
        assertThat(plan.steps().stream().filter(s -> s.action() == Action.TAKE_OUT || s.action() == Action.PUT_IN))
                .extracting(Step::text)
                .containsExactly(
                        "take out of 1-in-1: 2.50 mm, keep it for 1-in-2",
                        "take out of 1-in-2: 2.40 mm, for 1-in-1",
                        "put into 1-in-1: 2.40 mm, from 1-in-2",
                        "put into 1-in-2: 2.50 mm, from 1-in-1");
    }

    /** 2.35 and 2.40 are both certain; the aim decides, and of two as near the thinner. */
    @Test
    void aimDecidesThenTheThinner() {
        ShimSlot slot = ShimSlot.of(
                ValveId.parse("1-in-1"),
                LengthInterval.parse("[0.10, 0.10] mm"),
                window("0.15..0.20 mm"),
                InstalledShim.marked(mm("2.45")),
                ShimRange.parse("2.35..2.40 mm step 0.05 mm"));
        // 0.15 and 0.20, aims 0.15, 0.1875 and in the middle 0.175
        assertThat(shims(PLANNER.plan(List.of(slot.withAim(Ratio.ZERO)), ShimBox.empty())))
                .containsExactly("2.4 buy");
        assertThat(shims(PLANNER.plan(List.of(slot), ShimBox.empty()))).containsExactly("2.35 buy");
        assertThat(shims(PLANNER.withAim(Ratio.ZERO).plan(List.of(slot), ShimBox.empty())))
                .containsExactly("2.4 buy");
        assertThat(shims(PLANNER.plan(List.of(slot.withAim(Ratio.of(1, 2))), ShimBox.empty())))
                .containsExactly("2.35 buy");
    }

    @Test
    void survivalDecidesBeforeTheAim() {
        ShimSlot slot = ShimSlot.of(
                ValveId.parse("1-in-1"),
                LengthInterval.parse("[0.10, 0.10] mm"),
                window("0.15..0.20 mm"),
                InstalledShim.marked(mm("2.45")),
                ShimRange.parse("2.35..2.40 mm step 0.05 mm"));
        // this valve opens up: the tighter setting lasts longer
        ShimPlanner opensUp = PLANNER.withSurvival((s, c) ->
                s.clearance().check().upper().minus(c.upper().orElseThrow()).nanometres());
        ShimPlan plan = opensUp.plan(List.of(slot), ShimBox.empty());
        assertThat(shims(plan)).containsExactly("2.4 buy");
        assertThat(plan.smallestScore()).hasValue(50_000);
        assertThat(PLANNER.plan(List.of(slot), ShimBox.empty()).smallestScore()).isEmpty();
        // where all that matters is equal, the aim decides
        assertThat(shims(PLANNER.withSurvival((s, c) -> 1).plan(List.of(slot), ShimBox.empty())))
                .containsExactly("2.35 buy");
    }

    // ---- what may be fitted -----------------------------------------------------------------------------------------

    /** Repair manual RM1046E and others: a shim that comes out may go to another follower, if it fits there. */
    @Test
    void typesAreNeverSwapped() {
        ShimSlot a = typed("1-in-1", "(0.10, 0.11) mm", "2.50", "7.5");
        ShimSlot b = typed("1-in-2", "(0.27, 0.28) mm", "2.40", "9.5");
        ShimBox box = new ShimBox(List.of(new ShimBox.Lot(mm("2.40"), 1, "9.5"), new ShimBox.Lot(mm("2.50"), 1, "")));
        ShimPlan plan = PLANNER.plan(List.of(a, b), box);
        assertThat(shims(plan)).containsExactly("2.5 stays", "2.4 stays");
        assertThat(plan.totals().notCertain()).isEqualTo(2);
        assertThat(shims(PLANNER.plan(List.of(a, typed("1-in-2", "(0.27, 0.28) mm", "2.40", "7.5")), box)))
                .containsExactly("2.4 1-in-2", "2.5 1-in-1");
    }

    private static ShimSlot typed(String valve, String bracket, String shim, String type) {
        return ShimSlot.of(
                ValveId.parse(valve),
                LengthInterval.parse(bracket),
                window("0.16..0.22 mm"),
                new InstalledShim(mm(shim), null, Length.ZERO, type),
                NOTHING_TO_BUY);
    }

    /** The mark says 2.45, the micrometer 2.43: certain is 2.37..2.42 then, so 2.40 still, but 2.45 would have allowed 2.40..2.44. */
    @Test
    void measuredWinsOverMarked() {
        ShimRange fine = ShimRange.parse("2.30..2.50 mm step 0.01 mm");
        ShimSlot marked = slot("1-in-1", "(0.15, 0.16) mm", "2.45", fine);
        ShimSlot measured = ShimSlot.of(
                marked.valve(),
                marked.bracket(),
                marked.clearance(),
                new InstalledShim(mm("2.45"), mm("2.43"), Length.ZERO, ""),
                fine);
        // aim 0.205, so old - new = 0.05
        assertThat(shims(PLANNER.plan(List.of(marked), ShimBox.empty()))).containsExactly("2.4 buy");
        assertThat(shims(PLANNER.plan(List.of(measured), ShimBox.empty()))).containsExactly("2.38 buy");
    }

    /** Size errors of both shims count where one is fitted, none where it stays. */
    @Test
    void sizeErrorsCountUnlessTheShimStays() {
        InstalledShim rough = new InstalledShim(mm("2.45"), null, mm("0.01"), "");
        ShimSlot slot = ShimSlot.of(
                ValveId.parse("1-in-1"), LengthInterval.parse("(0.12, 0.13) mm"), window("0.16..0.22 mm"), rough, KIT);
        ShimSlot other = ShimSlot.of(
                ValveId.parse("1-in-2"),
                LengthInterval.parse("(0.20, 0.21) mm"),
                window("0.16..0.22 mm"),
                new InstalledShim(mm("2.385"), null, mm("0.005"), ""),
                NOTHING_TO_BUY);
        ShimPlan bought = PLANNER.plan(List.of(slot, other), ShimBox.empty());
        assertThat(bought.moves().get(0).resulting()).isEqualTo(LengthInterval.parse("(0.16, 0.19) mm"));
        assertThat(bought.moves().get(1).resulting()).isEqualTo(other.bracket());
        // both errors: 0.12 + 2.44 - 2.39 = 0.17, 0.13 + 2.46 - 2.38 = 0.21
        ShimPlan swapped = PLANNER.plan(
                List.of(
                        ShimSlot.of(slot.valve(), slot.bracket(), slot.clearance(), rough, NOTHING_TO_BUY),
                        other.withBracket(LengthInterval.parse("(0.24, 0.25) mm"))),
                ShimBox.empty());
        assertThat(shims(swapped)).containsExactly("2.385 1-in-2", "2.45 1-in-1");
        assertThat(swapped.moves().get(0).resulting()).isEqualTo(LengthInterval.parse("(0.17, 0.21) mm"));
        assertThat(swapped.moves().get(1).resulting()).isEqualTo(LengthInterval.parse("(0.16, 0.20) mm"));
    }

    /** Volvo 940 service manual 1995: checked 0.30 to 0.40, set 0.35 to 0.40. */
    @Test
    void checkedAgainstOneWindowSetToTheOther() {
        ClearanceSpec both =
                new ClearanceSpec(ClearanceWindow.parse("0.30..0.40 mm"), ClearanceWindow.parse("0.35..0.40 mm"), "");
        ShimRange sizes = ShimRange.parse("3.30..4.50 mm step 0.05 mm");
        ShimSlot inOrder = ShimSlot.of(
                ValveId.parse("1-in-1"),
                LengthInterval.parse("(0.31, 0.32) mm"),
                both,
                InstalledShim.marked(mm("3.70")),
                sizes);
        ShimPlan stays = PLANNER.plan(List.of(inOrder), ShimBox.empty());
        assertThat(stays.totals()).isEqualTo(new Totals(0, 0, 0, 0, 145_000));
        assertThat(stays.moves().get(0).why()).isEqualTo("in its window of 0.30..0.40 mm: the shim stays");
        ShimSlot tight = inOrder.withBracket(LengthInterval.parse("(0.26, 0.27) mm"));
        ShimPlan set = PLANNER.plan(List.of(tight), ShimBox.empty());
        // 3.65 would do for checking (0.31), only 3.60 does for setting (0.36)
        assertThat(shims(set)).containsExactly("3.6 buy");
        assertThat(set.moves().get(0).resulting()).isEqualTo(LengthInterval.parse("(0.36, 0.37) mm"));
    }

    /** A follower with ratio 1.5: 0.05 of shim are 0.075 of clearance; ends that are no whole nanometres go outward. */
    @Test
    void followerRatioCounts() {
        ShimSlot slot = slot("1-in-1", "(0.10, 0.11) mm", "2.45").withRatio(Ratio.parse("1.5"));
        ShimPlan plan = PLANNER.plan(List.of(slot), ShimBox.empty());
        assertThat(shims(plan)).containsExactly("2.4 buy");
        assertThat(plan.moves().get(0).resulting()).isEqualTo(LengthInterval.parse("(0.175, 0.185) mm"));
        ShimPlan thirds = PLANNER.plan(List.of(slot.withRatio(Ratio.of(4, 3))), ShimBox.empty());
        // 0.05 x 4/3 = 0.0666...
        assertThat(thirds.moves().get(0).resulting()).isEqualTo(LengthInterval.parse("(0.166666, 0.176667) mm"));
        // a ratio with large numbers gives the same as its small neighbour, rounded outward
        Ratio large = Ratio.parse("13333333333333333333/10000000000000000000");
        assertThat(PLANNER.plan(List.of(slot.withRatio(large)), ShimBox.empty())
                        .moves()
                        .get(0)
                        .resulting())
                .isEqualTo(LengthInterval.parse("(0.166666, 0.176667) mm"));
    }

    @Test
    void withoutLowerEndNothingIsFitted() {
        for (String bracket : List.of("< 0.10 mm", "any")) {
            ShimSlot slot = slot("1-in-1", bracket, "2.45");
            ShimPlan plan = PLANNER.plan(List.of(slot), box("2.30", "2.40"));
            assertThat(shims(plan)).containsExactly("2.45 stays");
            assertThat(plan.totals().notCertain()).isEqualTo(1);
            assertThat(plan.findings()).extracting(Finding::kind).containsExactly(FindingKind.MEASURE_FURTHER);
        }
    }

    /** Nor is its shim taken: 1-in-2 wants 2.45 and must do without. */
    @Test
    void shimOfAnUnreadableValveStays() {
        ShimSlot unread = slot("1-in-1", "< 0.10 mm", "2.45", NOTHING_TO_BUY);
        ShimSlot loose = slot("1-in-2", "(0.25, 0.26) mm", "2.40", NOTHING_TO_BUY);
        ShimPlan plan = PLANNER.plan(List.of(unread, loose), box("2.40"));
        assertThat(shims(plan)).containsExactly("2.45 stays", "2.4 stays");
        assertThat(plan.findings()).hasSize(2);
        // if 1-in-1 turned out to be, say, 0.09, 2.35 and 2.36 would be wanted there, 2.40 would leave it no worse:
        // 1-in-2 gains
        assertThat(plan.findings().get(0).findAtBest()).contains(new Totals(1, 0, 0, 2, 0));
        assertThat(plan.findings().get(1).kind()).isEqualTo(FindingKind.NO_SHIM_FITS);
    }

    /** Above 0.20, no telling how far: a thicker shim that keeps the lower end at 0.16 makes it no worse and frees 2.40. */
    @Test
    void withoutUpperEndOnlyWhatMakesItNoLarger() {
        ShimSlot open = slot("1-in-1", "> 0.20 mm", "2.40", NOTHING_TO_BUY);
        ShimSlot tight = slot("1-in-2", "(0.11, 0.16) mm", "2.45", NOTHING_TO_BUY);
        ShimPlan plan = PLANNER.plan(List.of(open, tight), box("2.44", "2.35"));
        assertThat(shims(plan)).containsExactly("2.44 box", "2.4 1-in-1");
        assertThat(plan.moves().get(0).resulting()).isEqualTo(LengthInterval.parse("> 0.16 mm"));
        assertThat(plan.moves().get(0).certain()).isFalse();
        assertThat(plan.moves().get(0).why())
                .isEqualTo("brings > 0.20 mm to > 0.16 mm, not certain, but with no end further outside the window of "
                        + "0.16..0.22 mm; its own is needed at 1-in-2");
        // 2.45 would take the lower end to 0.15, 2.35 would let the clearance grow
        assertThat(shims(PLANNER.plan(List.of(open, tight), box("2.46", "2.35"))))
                .containsExactly("2.4 stays", "2.45 stays");
    }

    /** (0.12, 0.20) mm is wider than the window: the lower end may come up until the upper reaches 0.22. 1-in-2 wants 2.39 or 2.40. */
    @Test
    void wideReadingMayBeMadeNoWorse() {
        ShimSlot wide = slot("1-in-1", "(0.12, 0.20) mm", "2.40", NOTHING_TO_BUY);
        ShimSlot tight = slot("1-in-2", "(0.11, 0.16) mm", "2.45", NOTHING_TO_BUY);
        assertThat(shims(PLANNER.plan(List.of(wide, tight), box("2.38")))).containsExactly("2.38 box", "2.4 1-in-1");
        assertThat(shims(PLANNER.plan(List.of(wide, tight), box("2.37")))).containsExactly("2.4 stays", "2.45 stays");
        assertThat(shims(PLANNER.plan(List.of(wide, tight), box("2.41")))).containsExactly("2.4 stays", "2.45 stays");
    }

    @Test
    void unknownSizeStaysAndIsToBeRead() {
        ShimSlot unknown = ShimSlot.of(
                ValveId.parse("1-in-1"),
                LengthInterval.parse("(0.10, 0.11) mm"),
                window("0.16..0.22 mm"),
                new InstalledShim(null, null, Length.ZERO, ""),
                KIT);
        ShimPlan plan = PLANNER.plan(List.of(unknown), box("2.40"));
        assertThat(shims(plan)).containsExactly("? stays");
        assertThat(plan.findings()).extracting(Finding::kind).containsExactly(FindingKind.READ_SHIM);
        assertThat(plan.steps()).isEmpty();
    }

    // ---- findings ---------------------------------------------------------------------------------------------------

    /** 1-ex-1 may be in order; if it is, its camshaft stays where it is and no shim is bought. */
    @Test
    void undecidedValveIsWorthALeafMore() {
        ShimSlot tight = slot("1-in-1", "(0.15, 0.16) mm", "2.45").withCamshaft("intake");
        ShimSlot undecided = slot("1-ex-1", "(0.15, 0.18) mm", "2.45").withCamshaft("exhaust");
        ShimPlan plan = PLANNER.plan(List.of(tight, undecided), box("2.40"));
        // (0.15, 0.18) with 2.40 is (0.20, 0.23): too wide; with 2.45 it may be tight: with no size certain it stays
        assertThat(shims(plan)).containsExactly("2.4 box", "2.45 stays");
        ShimSlot narrow = undecided.withBracket(LengthInterval.parse("(0.15, 0.17) mm"));
        ShimPlan both = PLANNER.plan(List.of(tight, narrow), box("2.40"));
        assertThat(both.totals()).isEqualTo(new Totals(0, 2, 1, 2, 10_000));
        assertThat(both.findings()).hasSize(1);
        assertThat(both.findings().get(0).findAtBest()).contains(new Totals(0, 1, 0, 1, 0));
        assertThat(both.findings().get(0).text())
                .isEqualTo(
                        "1-ex-1: measure further before the work; with the clearance known better than (0.15, 0.17) mm, at "
                                + "best camshafts lifted 1 in place of 2, shims bought 0 in place of 1, sizes changed 1 in place of 2");
    }

    /** Where there is no reading at all, nothing is known "better than" it, and why there is none is said. */
    @Test
    void whyThereIsNoReadingIsSaid() {
        ShimSlot plain = slot("1-in-1", "(0.15, 0.16) mm", "2.45").withBracket(LengthInterval.any());
        ShimPlan plan = PLANNER.plan(List.of(plain), box("2.40"));
        assertThat(plan.moves().get(0).why()).isEqualTo("not measured, so the shim stays");
        assertThat(plan.findings().get(0).text())
                .isEqualTo("1-in-1: measure before the work; with the clearance known, at best valves not certain 0 in "
                        + "place of 1");
        ShimPlan dished =
                PLANNER.plan(List.of(plain.withoutReading("dished pad: dress it, then measure")), box("2.40"));
        assertThat(dished.moves().get(0).why()).isEqualTo("dished pad: dress it, then measure; the shim stays");
        assertThat(dished.findings().get(0).text())
                .startsWith(
                        "1-in-1: dished pad: dress it, then measure, before the work; with the clearance known, at best");
    }

    /**
     * The window of 1-in-1 is narrower than what is known of its shim's size, so no shim is certain there. If it were 0.25 or
     * more, the 2.45 of 1-in-2 would make it no worse, and the two could change places.
     */
    @Test
    void looseValveMayGiveUpItsShimOnceItIsMeasured() {
        InstalledShim rough = new InstalledShim(mm("2.40"), null, mm("0.01"), "");
        ShimSlot loose = ShimSlot.of(
                ValveId.parse("1-in-1"),
                LengthInterval.parse("(0.20, 0.40) mm"),
                window("0.19..0.20 mm"),
                rough,
                NOTHING_TO_BUY);
        ShimSlot tight = slot("1-in-2", "(0.13, 0.15) mm", "2.45", NOTHING_TO_BUY);
        ShimPlan plan = PLANNER.plan(List.of(loose, tight), ShimBox.empty());
        assertThat(plan.totals().notCertain()).isEqualTo(2);
        assertThat(plan.findings().get(0).kind()).isEqualTo(FindingKind.MEASURE_FURTHER);
        assertThat(plan.findings().get(0).findAtBest()).contains(new Totals(1, 0, 0, 2, 0));
        ShimSlot measured = loose.withBracket(LengthInterval.parse("(0.25, 0.40) mm"));
        assertThat(shims(PLANNER.plan(List.of(measured, tight), ShimBox.empty())))
                .containsExactly("2.45 1-in-2", "2.4 1-in-1");
    }

    /** SH300i service manual, page 4-10: past the end of the range it is the seat's turn. */
    @Test
    void endOfTheSizesIsSaid() {
        ShimSlot worn = slot("1-in-1", "(0.05, 0.06) mm", "1.20", ShimRange.parse("1.200..2.900 mm step 0.025 mm"));
        ShimPlan plan = PLANNER.plan(List.of(worn), ShimBox.empty());
        assertThat(plan.findings()).hasSize(1);
        assertThat(plan.findings().get(0).text())
                .startsWith("1-in-1: even the thinnest shim that is made, 1.20 mm,")
                .contains("valve or seat may be finished");
        ShimSlot loose = slot("1-in-1", "(0.35, 0.36) mm", "2.90", ShimRange.parse("1.200..2.900 mm step 0.025 mm"));
        assertThat(PLANNER.plan(List.of(loose), ShimBox.empty())
                        .findings()
                        .get(0)
                        .text())
                .contains("even the thickest shim that is made, 2.90 mm,");
    }

    @Test
    void kitTooCoarseForTheWindowIsSaid() {
        ShimSlot narrow = ShimSlot.of(
                ValveId.parse("1-in-1"),
                LengthInterval.parse("[0.13, 0.13] mm"),
                window("0.16..0.17 mm"),
                InstalledShim.marked(mm("2.45")),
                KIT);
        assertThat(PLANNER.plan(List.of(narrow), ShimBox.empty())
                        .findings()
                        .get(0)
                        .text())
                .contains("sizes that step by 0.05 mm are coarse for a window of 0.16..0.17 mm");
    }

    // ---- over the bucket --------------------------------------------------------------------------------------------

    @Test
    void withTheCamInPlaceNothingIsLiftedButCareIsSaid() {
        ShimSlot a = slot("1-in-1", "(0.10, 0.11) mm", "2.50");
        ShimSlot b = slot("1-in-2", "(0.27, 0.28) mm", "2.40");
        ShimPlan plan = PLANNER.plan(List.of(a, b), ShimBox.empty());
        assertThat(plan.totals().camshaftsLifted()).isZero();
        assertThat(plan.steps()).extracting(Step::action).doesNotContain(Action.LIFT, Action.REFIT);
        assertThat(plan.steps().stream().filter(step -> step.action() == Action.TAKE_OUT))
                .extracting(Step::text)
                .containsExactly(
                        "take out of 1-in-1: 2.50 mm, keep it for 1-in-2; put another in meanwhile before the engine is turned",
                        "take out of 1-in-2: 2.40 mm, for 1-in-1");
    }

    // ---- settings and limits ----------------------------------------------------------------------------------------

    @Test
    void nothingToPlanIsAPlan() {
        ShimPlan plan = PLANNER.plan(List.of(), box("2.40"));
        assertThat(plan.moves()).isEmpty();
        assertThat(plan.steps()).isEmpty();
        assertThat(plan.totals()).isEqualTo(new Totals(0, 0, 0, 0, 0));
    }

    @Test
    void textsComeInTheUnitAskedFor() {
        ShimSlot inch = ShimSlot.of(
                ValveId.parse("1-in-1"),
                LengthInterval.parse("(0.006, 0.007) in"),
                window("0.008..0.012 in"),
                InstalledShim.marked(Length.ofInches("0.120")),
                ShimRange.parse("0.085..0.140 in step 0.001 in"));
        ShimPlan plan = PLANNER.withUnit(LengthUnit.INCH).plan(List.of(inch), ShimBox.empty());
        assertThat(plan.moves().get(0).why())
                .isEqualTo("brings (0.006, 0.007) in to (0.011, 0.012) in, in the window of 0.008..0.012 in");
    }

    /** The most slots with the widest figures: ranks must not run into each other. */
    @Test
    void largestPlanDoesNotOverflow() {
        List<ShimSlot> slots = IntStream.range(0, ShimPlanner.MOST_SLOTS)
                .mapToObj(i -> ShimSlot.of(
                                ValveId.parse((1 + i % 64) + (i < 64 ? "-in-1" : "-ex-1")),
                                LengthInterval.closed(mm("24.9"), mm("25")),
                                window("0.00..5.00 mm"),
                                InstalledShim.marked(mm("19")),
                                ShimRange.parse("19.10..20 mm step 0.10 mm"))
                        .withRatio(Ratio.of(1, 10))
                        .withAim(Ratio.ZERO)
                        .withCamshaft(i % 2 == 0 ? "a" : "b"))
                .toList();
        ShimPlan plan = PLANNER.plan(slots, ShimBox.empty());
        // no shim makes 25 mm certain, so every one stays
        assertThat(plan.totals()).isEqualTo(new Totals(128, 0, 0, 0, 128 * 49_900_000L));
        List<ShimSlot> one = new ArrayList<>(slots);
        one.set(77, slots.get(77).withBracket(LengthInterval.parse("[5.05, 5.05] mm")));
        ShimPlan better = PLANNER.plan(one, ShimBox.empty());
        assertThat(better.totals().notCertain()).isEqualTo(127);
        assertThat(better.camshafts()).containsExactly("b");
    }

    @Test
    void wrongInputIsRefusedWithTheMend() {
        ShimSlot slot = slot("1-in-1", "(0.15, 0.16) mm", "2.45");
        assertThatThrownBy(() -> PLANNER.plan(List.of(slot, slot), ShimBox.empty()))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("1-in-1", "is given twice", "each gap of each valve once", "name the gaps");
        List<ShimSlot> many = IntStream.rangeClosed(0, 128)
                .mapToObj(i -> slot((1 + i % 65) + (i < 65 ? "-in-1" : "-ex-1"), "(0.15, 0.16) mm", "2.45"))
                .toList();
        assertThatThrownBy(() -> PLANNER.plan(many, ShimBox.empty()))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("129", "at most 128", "one by one");
        List<ShimSlot> camshafts = IntStream.range(0, 9)
                .mapToObj(i -> many.get(i).withCamshaft("camshaft " + i))
                .toList();
        assertThatThrownBy(() -> PLANNER.plan(camshafts, ShimBox.empty()))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("camshafts", "9", "at most 8");
        assertThatThrownBy(() -> PLANNER.withAim(Ratio.parse("1.01")))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("1.01", "0 to 1");
        assertThatThrownBy(() -> PLANNER.withSurvival((s, c) -> Double.NaN).plan(List.of(slot), ShimBox.empty()))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("survival of 1-in-1", "NaN", "withSurvival");
        assertThatThrownBy(() -> PLANNER.plan(null, ShimBox.empty())).isInstanceOf(NullPointerException.class);
        assertThatThrownBy(() -> PLANNER.plan(List.of(), null)).isInstanceOf(NullPointerException.class);
    }

    @Test
    void settingsAreKept() {
        assertThat(PLANNER.aim())
                .isEqualTo(Ratio.of(3, 4))
                .isEqualTo(Adjuster.withDefaults().aim());
        assertThat(PLANNER.withAim(Ratio.ZERO)
                        .withSwaps(false)
                        .withUnit(LengthUnit.INCH)
                        .aim())
                .isEqualTo(Ratio.ZERO);
    }
}
