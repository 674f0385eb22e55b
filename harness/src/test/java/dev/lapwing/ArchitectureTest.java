package dev.lapwing;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget.CodeUnitAccessTarget;
import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;

/** Which package may use which, and what no package may do: the design held by a test instead of a drawing. */
class ArchitectureTest {

    /** Raised as classes come, so that rules over an empty import cannot pass unseen. */
    private static final int CLASSES_AT_LEAST = 900;

    private static final JavaClasses HARNESS = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("dev.lapwing");

    /** Their arithmetic ends up in evidence, which must come out the same on every machine. */
    private static final String[] EVIDENCE_ARITHMETIC = Layers.patterns(
            Layers.PLANT, Layers.UNIT, Layers.SIMULATED, Layers.MEASURE, Layers.SIGNAL, Layers.UNCERTAINTY);

    /** Java lets these differ by a last digit between machines; {@link StrictMath} has the same names and does not. */
    private static final Set<String> INEXACT = Set.of(
            "exp", "expm1", "log", "log10", "log1p", "pow", "sin", "cos", "tan", "asin", "acos", "atan", "atan2",
            "sinh", "cosh", "tanh", "cbrt", "hypot");

    @Test
    void theseRulesSawTheHarness() {
        assertThat(HARNESS).hasSizeGreaterThanOrEqualTo(CLASSES_AT_LEAST);
    }

    @Test
    void arrowsPointDownTheTable() {
        check(classes().should(useOnlyWhatTheTableAllows()));
    }

    @Test
    void everyRowOfTheTableIsAPackage() {
        assertThat(Layers.values())
                .allMatch(row -> HARNESS.stream()
                        .anyMatch(type -> Layers.of(type.getPackageName()).equals(Optional.of(row))));
    }

    @Test
    void reportsSeeTheRecordAndNothingThatMadeIt() {
        String[] hidden = Layers.patternsUpTo(
                5,
                Layers.EVIDENCE,
                Layers.PLAN,
                Layers.FINDING,
                Layers.QUANTITY,
                Layers.TIME,
                Layers.SOURCE,
                Layers.NAMING,
                Layers.SIGNAL,
                Layers.UNCERTAINTY,
                Layers.PLANT);
        check(noClasses()
                .that()
                .resideInAPackage(Layers.REPORT.pattern())
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(hidden));
    }

    @Test
    void whatIsSimulatedNeverReadsAcceptance() {
        check(noClasses()
                .that()
                .resideInAnyPackage(Layers.patterns(Layers.PLANT, Layers.UNIT, Layers.SIMULATED))
                .should()
                .dependOnClassesThat(fixtureBlock("Acceptance"))
                .because("a wrong figure would otherwise cancel itself out"));
    }

    @Test
    void whatJudgesNeverReadsSimulation() {
        check(noClasses()
                .that()
                .resideInAnyPackage(
                        Layers.patterns(Layers.PLAN, Layers.MEASURE, Layers.JUDGE, Layers.FINDING, Layers.REPORT))
                .should()
                .dependOnClassesThat(fixtureBlock("Simulation"))
                .orShould()
                .dependOnClassesThat()
                .resideInAnyPackage(Layers.patterns(Layers.PLANT, Layers.UNIT, Layers.SIMULATED))
                .because("a wrong figure would otherwise cancel itself out"));
    }

    @Test
    void theRunnerKnowsABenchAndNotWhatCarriesIt() {
        check(noClasses()
                .that()
                .resideInAPackage(Layers.RUN.pattern())
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(Layers.SIMULATED.pattern(), "dev.lapwing.transport..")
                .because("what runs on the simulated bench must run on a real one"));
    }

    @Test
    void onlyAChallengeSeesTheTruth() {
        check(noClasses()
                .that()
                .resideOutsideOfPackages(Layers.patterns(Layers.SIMULATED, Layers.CHALLENGE))
                .should()
                .dependOnClassesThat(describe(
                        "are the simulated bench's truth",
                        type -> type.getName().startsWith("dev.lapwing.simulated.Truth")))
                .because("whoever judges has the bench's readings and nothing else"));
    }

    @Test
    void onlyTimeReadsAClock() {
        check(noClasses()
                .that()
                .resideOutsideOfPackage(Layers.TIME.pattern())
                .should()
                .accessTargetWhere(target("read the system clock", ArchitectureTest::readsAClock))
                .because("a clock comes in as an argument, so that a test can wind it"));
    }

    @Test
    void onlyTimeWaits() {
        check(noClasses()
                .that()
                .resideOutsideOfPackage(Layers.TIME.pattern())
                .should()
                .accessTargetWhere(target("sleep", call -> call.getName().equals("sleep")))
                .orShould()
                .callMethod("java.util.concurrent.locks.LockSupport", "parkNanos", "long")
                .because("waiting is a deadline, kept by whoever steps the code"));
    }

    @Test
    void everyRandomNumberComesFromASeed() {
        check(noClasses()
                .should()
                .accessTargetWhere(target("draw without a seed", ArchitectureTest::drawsWithoutASeed))
                .because("the same seed must give the same run"));
        check(noClasses()
                .should()
                .accessTargetWhere(target(
                        "draw a library's normal or exponential deviate",
                        call -> Set.of("nextGaussian", "nextExponential").contains(call.getName())
                                && call.getOwner().getPackageName().startsWith("java.util")))
                .because("how Java draws them differs between releases; ours does not"));
    }

    @Test
    void onlyTheCommandLinePrintsAndExits() {
        check(noClasses()
                .that()
                .resideOutsideOfPackage(Layers.CLI.pattern())
                .should(ACCESS_STANDARD_STREAMS)
                .orShould()
                .accessField(System.class, "in")
                .orShould()
                .callMethod(System.class, "console")
                .orShould()
                .callMethod(System.class, "exit", int.class));
    }

    @Test
    void evidenceArithmeticIsTheSameOnEveryMachine() {
        check(noClasses()
                .that()
                .resideInAnyPackage(EVIDENCE_ARITHMETIC)
                .should()
                .accessTargetWhere(describe(
                        "java.lang.Math may round differently on another machine (StrictMath may not)",
                        (JavaAccess<?> access) -> access.getTargetOwner().isEquivalentTo(Math.class)
                                && INEXACT.contains(access.getTarget().getName()))));
    }

    @Test
    void threadsStartOnlyInTheCommandLineAndTransports() {
        check(noClasses()
                .that()
                .resideOutsideOfPackages(Layers.CLI.pattern(), "dev.lapwing.transport..")
                .should()
                .callConstructorWhere(
                        describe("start a thread", call -> call.getTargetOwner().isAssignableTo(Thread.class)))
                .orShould()
                .dependOnClassesThat(describe("run work on other threads", ArchitectureTest::startsThreads))
                .orShould()
                .accessTargetWhere(target(
                        "stream in parallel",
                        call -> Set.of("parallel", "parallelStream").contains(call.getName()))));
    }

    @Test
    void theCoreTouchesNoFileAndNoNetwork() {
        String[] core = Layers.patternsUpTo(
                4,
                Layers.TIME,
                Layers.EVIDENCE,
                Layers.TRANSPORT_DEVICE,
                Layers.TRANSPORT_SERIAL,
                Layers.TRANSPORT_MQTT,
                Layers.TRANSPORT_MODBUS);
        check(noClasses()
                .that()
                .resideInAnyPackage(core)
                .should()
                .dependOnClassesThat(describe("read or write files or sockets", ArchitectureTest::doesIo)));
    }

    @Test
    void noFieldIsSharedAndChangeable() {
        check(fields().that().areStatic().should().beFinal());
    }

    @Test
    void everyLocaleIsStated() {
        check(noClasses()
                .should()
                .callMethod(String.class, "format", String.class, Object[].class)
                .orShould()
                .callMethod(String.class, "formatted", Object[].class)
                .orShould()
                .callMethod(String.class, "toUpperCase")
                .orShould()
                .callMethod(String.class, "toLowerCase")
                .orShould()
                .callMethod(PrintStream.class, "printf", String.class, Object[].class)
                .orShould()
                .callMethod(PrintWriter.class, "printf", String.class, Object[].class)
                .because("a decimal point must not turn into a comma on the reader's machine; say Locale.ROOT"));
    }

    @Test
    void everyCharacterSetIsStated() {
        check(noClasses()
                .should()
                .callMethod(String.class, "getBytes")
                .orShould()
                .callConstructor(String.class, byte[].class)
                .because("what bytes mean must not depend on the machine; say UTF_8 or US_ASCII"));
    }

    @Test
    void aLibraryIsSeenByTheOnePackageThatWrapsIt() {
        onlyIn("com.fazecast..", Layers.TRANSPORT_SERIAL);
        onlyIn("org.eclipse.paho..", Layers.TRANSPORT_MQTT);
        onlyIn("com.sun.jna..", Layers.TRANSPORT_SERIAL, Layers.TRANSPORT_DEVICE);
        onlyIn("com.ghgande..", Layers.TRANSPORT_MODBUS);
        onlyIn("picocli..", Layers.CLI);
        onlyIn("org.hipparchus..", Layers.UNCERTAINTY);
        onlyIn("org.yaml..", Layers.FILES);
        onlyIn("com.fasterxml.jackson.dataformat.yaml..", Layers.FILES);
        // Dense samples of the bench link are CBOR.
        onlyIn("com.fasterxml.jackson.dataformat.cbor..", Layers.LINK);
        // JSON is written where records, reports and pages are; the bench link speaks it.
        onlyIn("com.fasterxml.jackson..", Layers.LINK, Layers.FILES, Layers.EVIDENCE, Layers.REPORT);
    }

    @Test
    void namesSayWhatAThingIs() {
        check(noClasses()
                .should()
                .haveNameMatching(".*(Util|Utils|Manager|Helper|Impl|Base|Data|Info)")
                .because("such a name could stand on any class"));
    }

    private static void onlyIn(String library, Layers... wrapping) {
        check(noClasses()
                .that()
                .resideOutsideOfPackages(Layers.patterns(wrapping))
                .should()
                .dependOnClassesThat(resideInAPackage(library)));
    }

    private static void check(ArchRule rule) {
        rule.allowEmptyShould(true).check(HARNESS);
    }

    private static DescribedPredicate<JavaClass> fixtureBlock(String word) {
        return describe(
                "belong to the fixture's " + word.toLowerCase(Locale.ROOT),
                type -> type.getPackageName().startsWith("dev.lapwing.fixture")
                        && type.getName().contains(word));
    }

    /** Calls and method references alike: {@code System::nanoTime} reads the clock as much as a call does. */
    private static DescribedPredicate<JavaAccess<?>> target(String does, Predicate<CodeUnitAccessTarget> called) {
        return describe(
                does, access -> access.getTarget() instanceof CodeUnitAccessTarget target && called.test(target));
    }

    private static boolean readsAClock(CodeUnitAccessTarget call) {
        String owner = call.getOwner().getName();
        return switch (call.getName()) {
            case "nanoTime", "currentTimeMillis" -> owner.equals("java.lang.System");
            case "now" -> owner.startsWith("java.time.");
            case "system", "systemUTC", "systemDefaultZone", "tickMillis", "tickSeconds" ->
                owner.equals("java.time.Clock");
            case "systemDefault" -> owner.equals("java.time.ZoneId");
            case "<init>" ->
                owner.equals("java.util.Date") && call.getRawParameterTypes().isEmpty();
            default -> false;
        };
    }

    private static boolean drawsWithoutASeed(CodeUnitAccessTarget call) {
        String owner = call.getOwner().getName();
        boolean bare = call.getRawParameterTypes().isEmpty();
        return switch (call.getName()) {
            case "<init>" ->
                bare && Set.of("java.util.Random", "java.util.SplittableRandom").contains(owner)
                        || owner.equals("java.security.SecureRandom");
            case "random" -> owner.equals("java.lang.Math") || owner.equals("java.lang.StrictMath");
            case "current" -> owner.equals("java.util.concurrent.ThreadLocalRandom");
            case "shuffle" ->
                owner.equals("java.util.Collections")
                        && call.getRawParameterTypes().size() == 1;
            default -> false;
        };
    }

    private static boolean startsThreads(JavaClass type) {
        return Set.of(
                        "java.util.Timer",
                        "java.util.concurrent.CompletableFuture",
                        "java.util.concurrent.Executors",
                        "java.util.concurrent.ForkJoinPool",
                        "java.util.concurrent.ThreadPoolExecutor",
                        "java.util.concurrent.ScheduledThreadPoolExecutor")
                .contains(type.getName());
    }

    /** A {@code Path} is a name and may be passed on; what opens or asks for the file is named here. */
    private static boolean doesIo(JavaClass type) {
        String name = type.getName();
        return name.startsWith("java.io.File")
                || name.equals("java.io.RandomAccessFile")
                || name.equals("java.nio.file.Files")
                || name.startsWith("java.nio.file.FileSystem")
                || name.startsWith("java.nio.channels.")
                || name.startsWith("java.net.")
                || name.startsWith("java.sql.");
    }

    private static ArchCondition<JavaClass> useOnlyWhatTheTableAllows() {
        return new ArchCondition<>("use only what the table of layers allows") {
            @Override
            public void check(JavaClass user, ConditionEvents events) {
                Optional<Layers> row = Layers.of(user.getPackageName());
                if (row.isEmpty()) {
                    events.add(SimpleConditionEvent.violated(user, user.getName() + ": its package has no row"));
                    return;
                }
                for (Dependency arrow : user.getDirectDependenciesFromSelf()) {
                    Layers.of(arrow.getTargetClass().getPackageName())
                            .filter(used -> !row.get().mayUse(used))
                            .ifPresent(used -> events.add(SimpleConditionEvent.violated(
                                    arrow, row.get() + " may not use " + used + ": " + arrow.getDescription())));
                }
            }
        };
    }
}
