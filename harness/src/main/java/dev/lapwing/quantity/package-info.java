/** Units and values: reading, converting and printing them. Start with {@link dev.lapwing.quantity.Quantity}. */
package dev.lapwing.quantity;
