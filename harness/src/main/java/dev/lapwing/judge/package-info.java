/**
 * From the plan, the recording and the course of a run to its findings. Start with {@link dev.lapwing.judge.Judge}.
 * Pure: a stored record can be judged again at any time.
 */
@NullMarked
package dev.lapwing.judge;

import org.jspecify.annotations.NullMarked;
