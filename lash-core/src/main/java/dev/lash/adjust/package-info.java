/**
 * Adjustment: what to do about a verdict.
 *
 * <p>An {@link dev.lash.adjust.Adjuster} turns a judged reading, the valve train, the leaves and the shims at hand into one
 * {@link dev.lash.adjust.Adjustment}: leave it, set it to a leaf, turn a screw by so much, fit a shim, measure further, or
 * inspect first. Certainty is worked out in exact numbers and rounded outward: a shim that is called certain keeps the
 * clearance in the window for every clearance in the bracket.
 *
 * <pre>{@code
 * Adjustment adjustment = Adjuster.withDefaults()
 *         .advise(AdjustmentTask.of(spec.train(), clearance, judgement, gauges));
 * adjustment.kind();          // "set-to-leaf"
 * }</pre>
 *
 * <p>Every value is immutable, thread-safe and {@link java.io.Serializable}.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.adjust;

import org.jspecify.annotations.NullMarked;
