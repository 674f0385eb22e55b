/**
 * The resolved run ({@link dev.lapwing.plan.Plan}), the pure resolver that makes it from sequence, fixture and bench
 * file, and the course of what then happened. Start with {@link dev.lapwing.plan.Resolver}.
 */
@NullMarked
package dev.lapwing.plan;

import org.jspecify.annotations.NullMarked;
