/** Where a thing stands in a file, and a mistake found there. */
package dev.lapwing.source;
