package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The launcher as a process, in a small copy of the tree. In place of Maven stands a script that writes down that it
 * was called and lays a ready jar where a build would: what is tested is when the launcher builds, not the build.
 */
class LauncherIT {

    private static final Path BUILT = Path.of("harness/target").toAbsolutePath();

    @TempDir
    Path home;

    private Path calls;

    private record Ended(int exit, String out, String err) {}

    @BeforeEach
    void aFreshClone() throws IOException {
        calls = home.resolve("calls of mvn");
        Files.createDirectories(home.resolve("harness/src/main/java"));
        Files.createDirectories(home.resolve("elsewhere"));
        Files.copy(Path.of("pom.xml"), home.resolve("pom.xml"));
        Files.copy(Path.of("harness/lapwing"), home.resolve("harness/lapwing"), StandardCopyOption.COPY_ATTRIBUTES);
        Files.createSymbolicLink(home.resolve("elsewhere/link"), Path.of("../harness/lapwing"));
        mavenThatSays("""
                mkdir -p "$HOME_UNDER_TEST/harness/target"
                cp -r "%1$s/lib" "$HOME_UNDER_TEST/harness/target/"
                cp "%1$s/lapwing.jar" "$HOME_UNDER_TEST/harness/target/lapwing.jar"
                echo "something on standard output"
                """.formatted(BUILT));
    }

    @Test
    void standardOutputIsTheHarnessesAloneEvenWhenItBuildsFirst() throws Exception {
        Ended first = launcher("--version");

        assertThat(first.out).matches("lapwing [0-9.]+\\R");
        assertThat(first.err).contains("building");
        assertThat(first.exit).isZero();
    }

    @Test
    void itBuildsOnceAndAgainOnlyWhenASourceIsNewer() throws Exception {
        launcher("--version");
        Ended second = launcher("--version");
        assertThat(second.err).isEmpty();
        assertThat(calls).content().hasLineCount(1);

        Files.writeString(home.resolve("harness/src/main/java/Newer.java"), "");
        Ended third = launcher("--version");
        assertThat(third.out).matches("lapwing [0-9.]+\\R");
        assertThat(calls).content().hasLineCount(2);
    }

    @Test
    void twoStartedAtOnceBuildOnce() throws Exception {
        List<Process> both = List.of(start("--version"), start("--version"));

        for (Process one : both) {
            assertThat(ended(one).out).matches("lapwing [0-9.]+\\R");
        }
        assertThat(calls).content().hasLineCount(1);
    }

    @Test
    void aFailedBuildSaysWhyAndStartsNothing() throws Exception {
        mavenThatSays("echo '[ERROR] Some.java:[1,2] a semicolon is missing'; exit 1");
        Ended ended = launcher("--version");

        assertThat(ended.exit).isEqualTo(70);
        assertThat(ended.out).isEmpty();
        assertThat(ended.err).contains("a semicolon is missing", "build.log", "mvn package");
        assertThat(home.resolve("harness/target/build.log")).content().contains("a semicolon is missing");
    }

    @Test
    void theExitCodeAndTheArgumentsAreTheHarnesses() throws Exception {
        Ended ended = launcher("--no such option");

        assertThat(ended.exit).isNotZero().isNotEqualTo(70);
        assertThat(ended.err).contains("'--no such option'");
    }

    private void mavenThatSays(String script) throws IOException {
        Path mvn = Files.createDirectories(home.resolve("bin")).resolve("mvn");
        Files.writeString(mvn, "#!/usr/bin/env bash\necho called >>\"$CALLS\"\n" + script, UTF_8);
        assertThat(mvn.toFile().setExecutable(true)).isTrue();
    }

    private Ended launcher(String... arguments) throws IOException, InterruptedException {
        return ended(start(arguments));
    }

    /** Started through a link and from another folder, as a user would. */
    private Process start(String... arguments) throws IOException {
        List<String> command =
                new ArrayList<>(List.of(home.resolve("elsewhere/link").toString()));
        command.addAll(List.of(arguments));
        ProcessBuilder process =
                new ProcessBuilder(command).directory(home.resolve("elsewhere").toFile());
        process.environment().put("PATH", home.resolve("bin") + ":" + System.getenv("PATH"));
        process.environment().put("CALLS", calls.toString());
        process.environment().put("HOME_UNDER_TEST", home.toString());
        return process.start();
    }

    private static Ended ended(Process process) throws IOException, InterruptedException {
        String out = new String(process.getInputStream().readAllBytes(), UTF_8);
        String err = new String(process.getErrorStream().readAllBytes(), UTF_8);
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        return new Ended(process.exitValue(), out, err);
    }
}
