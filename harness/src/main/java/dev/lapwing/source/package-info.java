/** Where a thing stands in a file, and a mistake found there. Start with {@link dev.lapwing.source.Mistake}. */
@NullMarked
package dev.lapwing.source;

import org.jspecify.annotations.NullMarked;
