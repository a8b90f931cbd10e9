/** Small classes to copy into one's own software. */
@NullMarked
package dev.lash.examples.embed;

import org.jspecify.annotations.NullMarked;
