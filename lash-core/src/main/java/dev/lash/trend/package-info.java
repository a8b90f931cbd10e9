/**
 * How each valve's clearance moves with use, and when the engine must come back. The only package that reckons in {@code double};
 * nothing here decides a verdict.
 *
 * <p>Readings are brackets, few and coarse. {@link dev.lash.trend.WearTrendFitter} takes the history of each valve and gives trends,
 * forecasts and the time to check, with a prior by default. {@link dev.lash.trend.IntervalRegression} fits a line by maximum
 * likelihood and says so when there is no maximum; {@link dev.lash.trend.FeasibleLines} gives all lines that pass through every
 * bracket, exactly.
 *
 * <pre>{@code
 * ClearanceHistory history = ClearanceHistory.builder(ValveId.parse("1-in-1"), Gap.ONLY)
 *         .read(Usage.parse("0 km"), LengthInterval.parse("(0.15, 0.17) mm"))
 *         .read(Usage.parse("12000 km"), LengthInterval.parse("(0.13, 0.15) mm"))
 *         .build();
 * EngineTrend trend = WearTrendFitter.withDefaults()
 *         .withInterval(Usage.parse("6000 km"))
 *         .fit(List.of(new TrendTask(history, clearance)), WearPrior.BY_DISTANCE, Usage.parse("12000 km"));
 * trend.checkBy().usage();    // 18000 km
 * trend.checkBy().reason();   // MAKERS_INTERVAL
 * }</pre>
 *
 * <p>Every value is immutable and thread-safe.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.trend;

import org.jspecify.annotations.NullMarked;
