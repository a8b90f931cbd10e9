/**
 * Exact measures: lengths in integer nanometres, intervals of length with open, closed or missing ends, usage
 * (distance or running hours), temperature, and exact ratios.
 *
 * <p>Every value here is immutable, thread-safe, {@link java.io.Serializable}, rejects {@code null}, and is read back by
 * {@code parse} from what {@code toString} wrote. No method here rounds unless its name or its comment says so; a metric
 * leaf (0.01 mm = 10&nbsp;000 nm) and an inch leaf (0.001 in = 25&nbsp;400 nm) are both whole numbers of nanometres, so
 * mixed sets compare exactly. The inch is 25.4 mm exactly (international yard and pound agreement, 1959).
 *
 * <p>What is refused is refused with a {@link dev.lash.measure.RejectedValueException}, which carries the value, what
 * was expected and how to mend it.
 *
 * <pre>{@code
 * Length leaf = Length.parse("0.004 in");
 * leaf.toString();                                  // "0.1016 mm"
 * leaf.toString(LengthUnit.INCH);                   // "0.004 in"
 * LengthInterval.parse("(0.12, 0.15] mm").contains(Length.parse("0.15 mm"));   // true
 * }</pre>
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.measure;

import org.jspecify.annotations.NullMarked;
