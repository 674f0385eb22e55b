/** Where a thing stands in a file, and a mistake found there. */
@NullMarked
package dev.lapwing.source;

import org.jspecify.annotations.NullMarked;
