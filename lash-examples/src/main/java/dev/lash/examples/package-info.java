/**
 * The runnable bench program. It shows how the library is used; its classes are examples and promise no compatibility.
 */
@NullMarked
package dev.lash.examples;

import org.jspecify.annotations.NullMarked;
