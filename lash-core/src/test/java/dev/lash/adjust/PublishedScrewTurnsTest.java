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
import dev.lash.engine.ScrewHead;
import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Turns for a gap, counted from where the play is just taken up; the gap is a window of one figure. */
class PublishedScrewTurnsTest {
    private static Turn turn(String pitch, ScrewHead head, String gap) {
        String[] parts = gap.split(" ", 2);
        AdjustmentTask task = withPad(
                task(
                        screw(pitch, head),
                        parts[0] + ".." + parts[0] + " " + parts[1],
                        leaves("0.05"),
                        read("0.05 mm drags")),
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
