/**
 * How each valve's clearance moves with use, and when the engine must come back: histories of brackets, lines through them, and
 * forecasts. The only package that reckons in {@code double}; nothing here decides a verdict.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.trend;

import org.jspecify.annotations.NullMarked;
