package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.engine.Origin.Kind;
import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.testing.Contracts;
import org.junit.jupiter.api.Test;

/** What a figure was before the shop laid its own over it. */
class OverriddenTest {
    private static final LengthUnit MM = LengthUnit.MILLIMETRE;
    private static final Origin MEMORY = new Origin(Kind.FROM_MEMORY, "", "", "ridge-single, revision 2");
    private static final EngineSpec TEMPLATE = EngineSpec.builder("ridge-single", "Ridge single")
            .valves("1-in-1", "1-ex-1")
            .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
            .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
            .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
            .checkInterval(Usage.parse("5000 km"))
            .decompressor(Decompressor.ofUnknownAngles(ValveId.parse("1-ex-1")))
            .template("ridge-single, revision 2")
            .origin(Figure.PITCH, MEMORY)
            .origin(Figure.INTAKE_WINDOW, MEMORY)
            .build();

    private static EngineSpec pitch(EngineSpec engine, String pitch) {
        return engine.toBuilder()
                .train(ValveTrain.Screw.atValveTip(Pitch.parse(pitch)))
                .build();
    }

    @Test
    void anEngineRemembersWhatItsTemplateGave() {
        EngineSpec engine = pitch(TEMPLATE, "1 mm");

        assertThat(TEMPLATE.overridden()).isEmpty();
        assertThat(engine.overridden())
                .containsExactly(new Overridden(Figure.PITCH, "0.75 mm", MEMORY))
                .isUnmodifiable();
        assertThat(engine.origin(Figure.PITCH)).isEqualTo(Origin.STATED);
        assertThat(engine).isNotEqualTo(pitch(TEMPLATE, "1.25 mm"));
        assertThat(Overridden.texts(engine, MM)).containsExactly("pitch 1.00 mm in place of 0.75 mm (from memory)");
    }

    @Test
    void theFirstThatWasThereCounts() {
        EngineSpec twice = pitch(pitch(TEMPLATE, "1 mm"), "1.25 mm");

        assertThat(twice.overridden()).containsExactly(new Overridden(Figure.PITCH, "0.75 mm", MEMORY));
        assertThat(pitch(twice, "0.75 mm").overridden()).as("as it was").isEmpty();
    }

    @Test
    void tellsWhatWasAddedAndWhatWasTakenAway() {
        EngineSpec engine = TEMPLATE.toBuilder()
                .camTiming(CamTiming.GENERIC)
                .withoutDecompressor()
                .build();

        assertThat(engine.decompressor()).isEmpty();
        assertThat(Overridden.texts(engine, MM))
                .containsExactly(
                        "cam timing intake 15 deg BTDC to 50 deg ABDC, exhaust 50 deg BBDC to 15 deg ATDC, where none was given",
                        "decompressor none in place of 1-ex-1, angles not known");
    }

    @Test
    void aWindowIsToldInTheUnitOfTheReport() {
        EngineSpec inches = TEMPLATE.toBuilder()
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.003..0.005 in"))
                .origin(Figure.INTAKE_WINDOW, MEMORY)
                .build();
        EngineSpec engine = inches.toBuilder()
                .window(ValveRole.INTAKE, ClearanceWindow.parse("0.004..0.006 in"))
                .build();

        assertThat(engine.overridden()).as("the window to set to follows").hasSize(1);
        assertThat(Overridden.texts(engine, LengthUnit.INCH))
                .containsExactly("intake window 0.004..0.006 in in place of 0.003..0.005 in (from memory)");
        assertThat(engine.overridden().get(0).was(MM)).isEqualTo("0.0762..0.127 mm");
    }

    @Test
    void nothingIsToldOfAnEngineWithoutTemplate() {
        EngineSpec own = TEMPLATE.toBuilder().template("").build();

        assertThat(pitch(own, "1 mm").overridden()).isEmpty();
    }

    @Test
    void aFigureWithAnOriginOfItsOwnIsNoShops() {
        Origin other = new Origin(Kind.PUBLISHED, "Manual", "page 3", "");
        EngineSpec engine = TEMPLATE.toBuilder()
                .train(ValveTrain.Screw.atValveTip(Pitch.parse("1 mm")))
                .origin(Figure.PITCH, other)
                .build();

        assertThat(engine.overridden()).isEmpty();
    }

    @Test
    void isAValue() {
        Overridden pitch = new Overridden(Figure.PITCH, "0.75 mm", MEMORY);

        Contracts.serialises(pitch);
        Contracts.serialises(pitch(TEMPLATE, "1 mm"));
        assertThat(pitch).hasToString("pitch was 0.75 mm, from memory (template ridge-single, revision 2)");
        assertThat(new Overridden(Figure.CAM_TIMING, "", Origin.STATED)).hasToString("cam timing was not given");
        assertThat(TEMPLATE.toBuilder().overridden(pitch).build().overridden())
                .as("it has just that")
                .isEmpty();
        assertThatThrownBy(() -> new Overridden(Figure.INTAKE_WINDOW, "wide", MEMORY))
                .isInstanceOf(RejectedValueException.class);
        assertThatNullPointerException().isThrownBy(() -> new Overridden(null, "", MEMORY));
        assertThatNullPointerException().isThrownBy(() -> new Overridden(Figure.PITCH, null, MEMORY));
        assertThatNullPointerException().isThrownBy(() -> new Overridden(Figure.PITCH, "", null));
    }
}
