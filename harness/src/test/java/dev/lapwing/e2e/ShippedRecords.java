package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.uncertainty.Estimate;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What a process that has ended left in its record. */
final class ShippedRecords {
    private ShippedRecords() {}

    /** Of the one record below a folder, by their ids. */
    static Map<String, Finding> findings(Path records) throws Exception {
        return one(records).findings().stream().collect(Collectors.toMap(Finding::id, Function.identity()));
    }

    /** The one record below a folder. */
    static RunRecord one(Path records) throws Exception {
        try (Stream<Path> found = Files.walk(records)) {
            return RunRecord.open(found.filter(Files::isRegularFile)
                    .map(Path::getParent)
                    .filter(ShippedRecords::isRecord)
                    .findFirst()
                    .orElseThrow());
        }
    }

    private static boolean isRecord(Path directory) {
        try (Stream<Path> files = Files.list(directory)) {
            return files.anyMatch(file -> file.getFileName().toString().startsWith("run"));
        } catch (IOException e) {
            return false;
        }
    }

    /** The same was measured, and each quantity lies within both stated uncertainties (k = 2) of the other. */
    static void assertAgree(Map<String, Finding> real, Map<String, Finding> dry) {
        assertThat(dry).hasSameSizeAs(real);
        dry.forEach((id, finding) -> {
            assertThat(real.get(id).measured().isPresent())
                    .as(id)
                    .isEqualTo(finding.measured().isPresent());
            if (finding.measured().isEmpty()) {
                return;
            }
            Estimate there = finding.measured().get();
            Estimate here = real.get(id).measured().orElseThrow();
            double doubt = Math.hypot(there.expanded(), here.expanded());
            assertThat(Math.abs(there.value() - here.value())).as(id).isLessThanOrEqualTo(doubt);
        });
    }
}
