/** Units and values: reading, converting and printing them. Start with {@link dev.lapwing.quantity.Quantity}. */
@NullMarked
package dev.lapwing.quantity;

import org.jspecify.annotations.NullMarked;
