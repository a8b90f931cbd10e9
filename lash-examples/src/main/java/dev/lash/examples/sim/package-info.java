/** Simulations whose tables stand in the documentation. */
@NullMarked
package dev.lash.examples.sim;

import org.jspecify.annotations.NullMarked;
