/** Benchmarks whose table stands in DEVELOPERS.md; run by hand, never as a test. */
@NullMarked
package dev.lash.examples.bench;

import org.jspecify.annotations.NullMarked;
