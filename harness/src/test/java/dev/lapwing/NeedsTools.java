package dev.lapwing;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.platform.commons.support.AnnotationSupport;

/**
 * What a test needs on the path. Where it is missing the test is skipped with that reason, or fails if the environment
 * says {@code LAPWING_REQUIRE_ALL=1}. Every tool named here stands in {@code harness/test} and {@code .ci/run} too.
 */
@Target({ElementType.TYPE, ElementType.METHOD})
@Retention(RetentionPolicy.RUNTIME)
@ExtendWith(NeedsTools.Condition.class)
public @interface NeedsTools {

    String[] value();

    /** Looks for the tools when JUnit asks whether to run the test. */
    final class Condition implements ExecutionCondition {
        @Override
        public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
            List<String> missing = AnnotationSupport.findAnnotation(context.getElement(), NeedsTools.class).stream()
                    .flatMap(needs -> Stream.of(needs.value()))
                    .filter(tool -> !isOnThePath(tool))
                    .toList();
            if (missing.isEmpty()) {
                return ConditionEvaluationResult.enabled("every tool is here");
            }
            String reason = "not on the path: " + String.join(", ", missing);
            if ("1".equals(System.getenv("LAPWING_REQUIRE_ALL"))) {
                throw new IllegalStateException(reason + ", and LAPWING_REQUIRE_ALL=1");
            }
            return ConditionEvaluationResult.disabled(reason);
        }

        private static boolean isOnThePath(String tool) {
            return Stream.of(System.getenv("PATH").split(":"))
                    .anyMatch(folder -> Files.isExecutable(Path.of(folder, tool)));
        }
    }
}
