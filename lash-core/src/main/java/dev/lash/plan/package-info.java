/**
 * Planning: which leaf to offer next.
 *
 * <pre>{@code
 * Optional<NextLeaf> next = NextLeaf.towardsVerdict(bracket, window, gauges);
 * next.map(NextLeaf::leaf);          // what to offer
 * next.map(NextLeaf::owned);         // false: a leaf to borrow
 * }</pre>
 *
 * <p>Every value is immutable, thread-safe and {@link java.io.Serializable}.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.plan;

import org.jspecify.annotations.NullMarked;
