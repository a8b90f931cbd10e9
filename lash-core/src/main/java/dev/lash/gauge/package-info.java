/**
 * Evidence: what feeler leaves tell of a gap.
 *
 * <p>A {@link dev.lash.gauge.Trial} is one leaf, or a stack of leaves, offered to one gap, with the {@link
 * dev.lash.gauge.Fit} that the hand felt. A {@link dev.lash.gauge.ReadingRule} says which clearances a trial allows; the
 * trials of one gap together are its {@link dev.lash.gauge.Evidence}: either a {@link dev.lash.gauge.Bracket}, the
 * interval in which the clearance lies with the trials and the rule behind it, or a {@link
 * dev.lash.gauge.Contradiction}, which names the two trials that cannot both be true.
 *
 * <pre>{@code
 * Evidence evidence = Evidence.of(
 *         List.of(Trial.parse("0.10 mm goes"), Trial.parse("0.13 mm forced")), ReadingRule.simple());
 * String text = evidence.match(
 *         bracket -> bracket.interval().toString(),        // "(0.10, 0.13) mm"
 *         contradiction -> contradiction.toString());
 * }</pre>
 *
 * <p>Every value is immutable, thread-safe and {@link java.io.Serializable}.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.gauge;

import org.jspecify.annotations.NullMarked;
