package dev.lash.adjust;

import static dev.lash.testing.Readings.leaves;
import static dev.lash.testing.Readings.read;
import static dev.lash.testing.Tasks.screw;
import static dev.lash.testing.Tasks.task;
import static dev.lash.testing.Tasks.withPad;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lash.adjust.Adjustment.Inspect;
import dev.lash.adjust.Adjustment.Turn;
import dev.lash.adjust.Adjustment.TurnFrom;
import dev.lash.adjust.AdjustmentTask.Pad;
import dev.lash.adjust.TurnRange.FlatRange;
import dev.lash.engine.Pitch;
import dev.lash.engine.ScrewHead;
import dev.lash.engine.ValveTrain;
import dev.lash.engine.ValveTrain.ScrewPlace;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.testing.Tasks;
import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Turns for a gap, counted from where the play is just taken up; the gap is a window of one figure. */
class PublishedScrewTurnsTest {
    private static Turn turn(String pitch, ScrewHead head, String gap) {
        return turn(screw(pitch, head), gap);
    }

    private static Turn turn(ValveTrain train, String gap) {
        String[] parts = gap.split(" ", 2);
        AdjustmentTask task = withPad(
                task(train, parts[0] + ".." + parts[0] + " " + parts[1], leaves("0.05"), read("0.05 mm drags")),
                Pad.DISHED);
        return (Turn)
                ((Inspect) Adjuster.withDefaults().advise(task)).findThen().orElseThrow();
    }

    /**
     * "Valve Adjustment", a workshop note on 26 tpi adjusters: one turn is taken as 0.040 in, so 0.020 in is half a turn off contact, a
     * quarter turn (one flat of a square) 0.010 in, an eighth 0.005 in. Exactly, 1/26 in a turn makes 187.2, 93.6 and 46.8
     * degrees (derived): the rule of thumb is 4 % short.
     */
    @ParameterizedTest
    @CsvSource({"0.020 in, 180, 187.2, 2.08", "0.010 in, 90, 93.6, 1.04", "0.005 in, 45, 46.8, 0.52"})
    void twentySixThreadsAnInch(String gap, double byRuleOfThumb, String exact, String flats) {
        Turn turn = turn("26 tpi", ScrewHead.SQUARE, gap);
        assertThat(turn.from()).isEqualTo(TurnFrom.NO_PLAY);
        assertThat(turn.degrees()).isEqualTo(new TurnRange(new BigDecimal(exact), new BigDecimal(exact)));
        assertThat(turn.findFlats()).contains(new FlatRange(new BigDecimal(flats), new BigDecimal(flats)));
        assertThat(byRuleOfThumb * 1.04).isCloseTo(turn.degrees().from().doubleValue(), within(1e-9));
    }

    /** The same note: one turn of 26 tpi is said to be 0.040 in. It is 1/26 in, 0.97692 mm: the rule of thumb is 4 % too much. */
    @Test
    void theRuleOfThumbForTwentySixThreadsIsFourPerCentOff() {
        Ratio exact = ValveTrain.Screw.atValveTip(Pitch.parse("26 tpi")).nanometresPerTurn();
        assertThat(exact).isEqualTo(Ratio.of(25_400_000, 26));
        assertThat(exact.floor(-1)).isEqualByComparingTo("976920");
        Ratio thumb = Ratio.nanometresOf(Length.ofInches("0.040"));
        assertThat(thumb.dividedBy(exact)).isEqualTo(Ratio.parse("1.04"));
    }

    /**
     * A nut on the stud moves the fulcrum: 1 + ratio at the valve. 3/8-24, ratio 1.5, a quarter turn: 0.0104167 in at the nut,
     * 0.0260417 in at the valve (derived from the geometry of the lever).
     */
    @Test
    void aQuarterTurnOfAStudNut() {
        ValveTrain.Screw nut = Tasks.screw(ScrewPlace.FULCRUM_NUT, "24 tpi", "1.5");
        assertThat(inches(nut.pitch().nanometresPerTurn().times(QUARTER))).isEqualTo("0.0104167");
        assertThat(inches(nut.nanometresPerTurn().times(QUARTER))).isEqualTo("0.0260417");
        // 661 458.3 nm: a nanometre either way is a hair less or more than the quarter turn, and is held from both
        // sides.
        assertThat(turn(nut, "0.661458 mm").degrees()).isEqualTo(degrees("89.9", "90"));
        assertThat(turn(nut, "0.661459 mm").degrees()).isEqualTo(degrees("90", "90.1"));
    }

    /**
     * A screw at the pushrod end: valve arm over pushrod arm, ratios of 1.5 and 1.6 as printed in a study guide on valve-train
     * installation; the rule is derived. A quarter turn of 24 tpi is 0.0104167 in at the screw.
     */
    @ParameterizedTest
    @CsvSource({"1.5, 0.0156250", "1.6, 0.0166667"})
    void aQuarterTurnAtThePushrodEnd(String ratio, String inches) {
        for (ScrewPlace place : List.of(ScrewPlace.PUSHROD_END, ScrewPlace.THREADED_PUSHROD)) {
            ValveTrain.Screw screw = Tasks.screw(place, "24 tpi", ratio);
            assertThat(inches(screw.nanometresPerTurn().times(QUARTER))).isEqualTo(inches);
        }
        assertThat(inches(Tasks.screw(ScrewPlace.ROCKER_TIP, "24 tpi", "1")
                        .nanometresPerTurn()
                        .times(QUARTER)))
                .as("one to one on the valve side")
                .isEqualTo("0.0104167");
    }

    private static final Ratio QUARTER = Ratio.of(1, 4);

    private static TurnRange degrees(String from, String to) {
        return new TurnRange(new BigDecimal(from), new BigDecimal(to));
    }

    /** To seven decimals of an inch, as the figures above are written. */
    private static String inches(Ratio nanometres) {
        return nanometres
                .dividedBy(Ratio.of(25_400_000, 1))
                .plus(Ratio.of(5, 100_000_000))
                .floor(7)
                .toPlainString();
    }

    /** Movement in one turn: arithmetic on the definition of threads an inch, with the inch of 25.4 mm (1959 agreement). */
    @ParameterizedTest
    @CsvSource({
        "20 tpi,  0.050 in,   360",
        "20 tpi,  1.27 mm,    360",
        "24 tpi,  0.125 in,   1080",
        "32 tpi,  0.79375 mm, 360",
        "28 tpi,  0.125 in,   1260",
        "0.5 mm,  0.05 mm,    36",
        "0.75 mm, 0.05 mm,    24",
        "1 mm,    0.05 mm,    18",
    })
    void oneTurn(String pitch, String gap, String degrees) {
        assertThat(turn(pitch, ScrewHead.NOT_STATED, gap).degrees())
                .isEqualTo(new TurnRange(new BigDecimal(degrees), new BigDecimal(degrees)));
    }

    @Test
    void aGapThatIsNoWholeTenthOfADegreeIsHeldFromBothSides() {
        // 0.10 mm at 26 tpi is 36.850... degrees.
        assertThat(turn("26 tpi", ScrewHead.NOT_STATED, "0.10 mm").degrees())
                .isEqualTo(new TurnRange(new BigDecimal("36.8"), new BigDecimal("36.9")));
    }
}
