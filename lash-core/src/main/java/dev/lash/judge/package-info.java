/**
 * The decision: a bracket against a clearance window.
 *
 * <p>A {@link dev.lash.judge.Judgement} holds the verdict together with what it was drawn from: the bracket (with its trials
 * and rule) and the window. "Undecided" is a verdict, and says which verdicts are still possible.
 *
 * <pre>{@code
 * Judgement judgement = Judgement.of(bracket, ClearanceWindow.parse("0.08..0.13 mm"));
 * judgement.verdict();        // WITHIN, TIGHT, LOOSE or UNDECIDED
 * judgement.possible();       // the verdicts that the bracket leaves open
 * }</pre>
 *
 * <p>Every value is immutable, thread-safe and {@link java.io.Serializable}.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.judge;

import org.jspecify.annotations.NullMarked;
