package dev.lash.adjust;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.adjust.ShimPlan.Origin;
import dev.lash.adjust.ShimPlan.Source;
import dev.lash.adjust.ShimPlan.Totals;
import dev.lash.engine.ClearanceSpec;
import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.ShimRange;
import dev.lash.engine.ValveId;
import dev.lash.measure.Length;
import dev.lash.measure.LengthInterval;
import dev.lash.measure.RejectedValueException;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class ShimPlanTest {
    private static ShimPlan plan(String bracket, ShimBox box) {
        ClearanceSpec window = ClearanceSpec.typical(ClearanceWindow.parse("0.16..0.22 mm"));
        ShimRange kit = ShimRange.parse("1.20..3.50 mm step 0.05 mm");
        InstalledShim shim = InstalledShim.marked(Length.ofMillimetres("2.45"));
        return ShimPlanner.withDefaults()
                .withSurvival((slot, clearances) -> 1)
                .plan(
                        List.of(
                                ShimSlot.of(ValveId.parse("1-in-1"), LengthInterval.parse(bracket), window, shim, kit),
                                ShimSlot.of(
                                                ValveId.parse("1-ex-1"),
                                                LengthInterval.parse("< 0.05 mm"),
                                                window,
                                                shim,
                                                kit)
                                        .withGap("opener")
                                        .withCamshaft("exhaust")),
                        box);
    }

    static Object copied(Object value) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
            out.writeObject(value);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
        try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
            return in.readObject();
        } catch (IOException | ClassNotFoundException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void survivesSerialisation() {
        ShimPlan plan = plan("(0.15, 0.16) mm", ShimBox.empty());
        assertThat(copied(plan)).isEqualTo(plan).hasSameHashCodeAs(plan).hasToString(plan.toString());
    }

    @Test
    void plansAreEqualWhenTheySayTheSame() {
        ShimPlan plan = plan("(0.15, 0.16) mm", ShimBox.empty());
        assertThat(plan).isEqualTo(plan("(0.15, 0.16) mm", ShimBox.empty())).isNotEqualTo(null);
        ShimBox box = new ShimBox(List.of(new ShimBox.Lot(Length.ofMillimetres("2.40"), 1, "")));
        assertThat(plan).isNotEqualTo(plan("(0.15, 0.16) mm", box)).isNotEqualTo(plan("(0.16, 0.17) mm", box));
    }

    @Test
    void saysItselfInALine() {
        assertThat(plan("(0.15, 0.16) mm", ShimBox.empty()))
                .hasToString(
                        "[1-in-1: 2.40 mm (buy), then (0.20, 0.21) mm, within, 1-ex-1 opener: 2.45 mm (stays), then "
                                + "< 0.05 mm, tight], Totals[notCertain=1, camshaftsLifted=0, shimsBought=1, sizesChanged=1, "
                                + "halfNanometresOffAim=0]");
    }

    @Test
    void listsCannotBeChanged() {
        ShimPlan plan = plan("(0.15, 0.16) mm", ShimBox.empty());
        for (List<?> list : List.of(
                plan.moves(),
                plan.buy(),
                plan.fromBox(),
                plan.toBox(),
                plan.findings(),
                plan.steps(),
                plan.camshafts())) {
            assertThatThrownBy(() -> list.remove(0)).isInstanceOf(UnsupportedOperationException.class);
        }
    }

    @Test
    void totalsCompareRankByRank() {
        List<Totals> ascending = Stream.of(
                        new Totals(0, 1, 9, 9, 9),
                        new Totals(1, 0, 9, 9, 9),
                        new Totals(1, 1, 0, 9, 9),
                        new Totals(1, 1, 1, 0, 9),
                        new Totals(1, 1, 1, 1, 0),
                        new Totals(1, 1, 1, 1, 1))
                .toList();
        assertThat(ascending).isSorted();
        assertThatThrownBy(() -> new Totals(0, 0, -1, 0, 0))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContainingAll("-1", "from 0 up");
    }

    @Test
    void sourcesNameAValveOrNone() {
        ValveId valve = ValveId.parse("1-in-2");
        assertThat(new Source(Origin.VALVE, valve, "")).hasToString("1-in-2");
        assertThat(new Source(Origin.VALVE, valve, "closer")).hasToString("1-in-2 closer");
        assertThat(new Source(Origin.BOX, null, "")).hasToString("box");
        assertThat(new Source(Origin.BUY, null, "").findValve()).isEmpty();
        assertThatThrownBy(() -> new Source(Origin.VALVE, null, ""))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("valve without a valve");
        assertThatThrownBy(() -> new Source(Origin.BOX, valve, ""))
                .isInstanceOf(RejectedValueException.class)
                .hasMessageContaining("box with valve 1-in-2");
    }
}
