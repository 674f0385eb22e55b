/**
 * Reads the three kinds of YAML file into their models and reports every mistake of a file in one go, each with
 * its place. Start with {@link dev.lapwing.files.FileKind}, or with the loader of one kind:
 * {@link dev.lapwing.files.SequenceFiles}, {@link dev.lapwing.files.PartsFiles},
 * {@link dev.lapwing.files.FixtureFiles}, {@link dev.lapwing.files.BenchFiles}. No type of the YAML library leaves this
 * package.
 */
@NullMarked
package dev.lapwing.files;

import org.jspecify.annotations.NullMarked;
