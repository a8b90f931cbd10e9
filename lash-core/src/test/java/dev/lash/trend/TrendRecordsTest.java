package dev.lash.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lash.engine.Gap;
import dev.lash.engine.ValveId;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Usage;
import dev.lash.trend.CheckBy.Reason;
import dev.lash.trend.Forecast.Side;
import java.util.List;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What the records of a trend refuse. */
class TrendRecordsTest {
    private static final Usage USE = Usage.parse("6000 km");
    private static final ValveId VALVE = ValveId.parse("1-in-1");

    private static void refused(ThrowingCallable call, String value) {
        assertThatThrownBy(call).isInstanceOfSatisfying(RejectedValueException.class, e -> {
            assertThat(e.getMessage()).contains(value);
            assertThat(e.mend()).isNotBlank();
        });
    }

    private static Forecast forecast(double risk, double leftNow) {
        return new Forecast(USE, risk, leftNow, null, null, null, Side.TIGHT, List.of());
    }

    private static WearTrend trend(
            int checks,
            double clearance,
            double drift,
            double error,
            @Nullable Double scatter,
            @Nullable Double likelihood) {
        return new WearTrend(
                TrendMethod.WITH_PRIORS, checks, USE, clearance, drift, error, scatter, likelihood, false, "by hand");
    }

    @ParameterizedTest
    @ValueSource(doubles = {-0.01, 1.01, Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void refuseWhatIsNoProbability(double value) {
        String text = String.valueOf(value);
        refused(() -> new CheckBy(USE, value, Reason.NO_LIMIT, null, null), text);
        refused(() -> new Forecast.Point(USE, value, 0), text);
        refused(() -> new Forecast.Point(USE, 0, value), text);
        refused(() -> forecast(value, 0), text);
        refused(() -> forecast(0.05, value), text);
    }

    @Test
    void takeTheEndsOfTheRange() {
        assertThatCode(() -> {
                    new Forecast.Point(USE, 0, 1);
                    forecast(0, 1);
                    new CheckBy(USE, 0, Reason.VALVE, VALVE, Gap.ONLY);
                })
                .doesNotThrowAnyException();
    }

    @Test
    void aLimitSetByAValveNamesIt() {
        refused(() -> new CheckBy(USE, 0.05, Reason.VALVE, null, Gap.ONLY), "VALVE");
        refused(() -> new CheckBy(USE, 0.05, Reason.VALVE, VALVE, null), "1-in-1");
    }

    @ParameterizedTest
    @EnumSource(value = Reason.class, mode = EnumSource.Mode.EXCLUDE, names = "VALVE")
    void anotherLimitNeedsNoValve(Reason reason) {
        assertThat(new CheckBy(USE, 0.05, reason, null, null).findValve()).isEmpty();
    }

    @Test
    void refuseATrendThatIsNoNumber() {
        refused(() -> trend(2, Double.NaN, 0, 0, null, null), "NaN");
        refused(() -> trend(2, 0.1, Double.NEGATIVE_INFINITY, 0, null, null), "-Infinity");
        refused(() -> trend(2, 0.1, 0, Double.NaN, null, null), "NaN");
        refused(() -> trend(2, 0.1, 0, -0.001, null, null), "-0.001");
        refused(() -> trend(2, 0.1, 0, 0.001, Double.NaN, null), "NaN");
        refused(() -> trend(2, 0.1, 0, 0.001, -0.001, null), "-0.001");
        refused(() -> trend(2, 0.1, 0, 0.001, 0.006, Double.POSITIVE_INFINITY), "Infinity");
        refused(() -> trend(-1, 0.1, 0, 0.001, 0.006, null), "-1");
    }

    /** A drift that readings do not bound: the middle of the window, and no clearance is sure to last. */
    @Test
    void aDriftThatIsNotBoundedAimsAtTheMiddle() {
        WearTrend unbounded = trend(1, 0.15, 0, Double.POSITIVE_INFINITY, null, null);

        assertThat(LastingAim.of(unbounded)).hasToString("0.5");
    }
}
