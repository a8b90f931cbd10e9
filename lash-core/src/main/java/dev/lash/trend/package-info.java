/**
 * How each valve's clearance moves with use, and when the engine must come back. The only package that reckons in {@code double};
 * nothing here decides a verdict.
 *
 * <p>Readings are brackets, few and coarse. {@link dev.lash.trend.WearTrendFitter} takes the history of each valve and gives trends,
 * forecasts and the time to check, with a prior by default. {@link dev.lash.trend.IntervalRegression} fits a line by maximum
 * likelihood and says so when there is no maximum; {@link dev.lash.trend.FeasibleLines} gives all lines that pass through every
 * bracket, exactly.
 *
 * <p>Every value is immutable and thread-safe.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.trend;

import org.jspecify.annotations.NullMarked;
