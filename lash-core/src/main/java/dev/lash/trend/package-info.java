/**
 * Wear trends: how a clearance moves with use.
 *
 * <p>Readings are brackets, few and coarse. {@link dev.lash.trend.IntervalRegression} fits a line to them by maximum
 * likelihood and says so when there is no maximum; {@link dev.lash.trend.FeasibleLines} gives all lines that pass through
 * every bracket, exactly.
 *
 * <p>Every value is immutable and thread-safe.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.trend;

import org.jspecify.annotations.NullMarked;
