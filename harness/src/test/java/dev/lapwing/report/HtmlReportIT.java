package dev.lapwing.report;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.evidence.SampleRun;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.quantity.PressureDisplay;
import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.By;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;

/** The page as a browser shows it. */
@NeedsTools({"chromium", "chromedriver"})
class HtmlReportIT {
    /** On a busy machine a browser takes its time. */
    private static final Duration STARTS_WITHIN = Duration.ofMinutes(2);

    @TempDir
    static Path folder;

    private static ChromeDriver browser;

    @BeforeAll
    static void open() throws Exception {
        Path page = Files.writeString(
                folder.resolve("report.html"),
                new HtmlReport(PressureDisplay.PSI)
                        .of(WholeRun.of(List.of(SampleRun.record(10, 1), SampleRun.record(4, 2)))));
        ChromeOptions options = new ChromeOptions();
        options.setBinary(onThePath("chromium"));
        options.addArguments("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage");
        browser = new ChromeDriver(
                new ChromeDriverService.Builder()
                        .usingDriverExecutable(onThePath("chromedriver"))
                        .withTimeout(STARTS_WITHIN)
                        .build(),
                options);
        browser.get(page.toUri().toString());
    }

    @AfterAll
    static void close() {
        if (browser != null) {
            browser.quit();
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {420, 600, 700, 760, 800, 900, 901, 1080, 1400})
    void nothingRunsOverTheEdgeOfAScreenOfThatWidth(int pixels) {
        asWideAs(pixels);

        assertThat(asked("return document.documentElement.scrollWidth"))
                .as("width that the page takes, px")
                .isLessThanOrEqualTo(pixels);
    }

    @ParameterizedTest
    @ValueSource(ints = {420, 800, 1400})
    void everyVerdictAndEveryFindingIsSeen(int pixels) {
        asWideAs(pixels);

        assertThat(browser.findElements(By.cssSelector(".verdict, .id, tr.one td.n[data-h]")))
                .hasSizeGreaterThan(20)
                .allMatch(WebElement::isDisplayed);
    }

    @ParameterizedTest
    @ValueSource(ints = {420, 700, 900, 1080})
    void norDoesWhatIsFoldedAwayOnceItIsOpened(int pixels) {
        asWideAs(pixels);
        browser.executeScript("document.querySelectorAll('details').forEach(details => details.open = true)");
        long taken = asked("return document.documentElement.scrollWidth");
        browser.executeScript("document.querySelectorAll('details').forEach(details => details.open = false)");

        assertThat(taken).as("width that the page takes, px").isLessThanOrEqualTo(pixels);
    }

    @ParameterizedTest
    @ValueSource(ints = {420, 800, 1400})
    void everyLineOfAnOpenedBudgetNamesItsSource(int pixels) {
        asWideAs(pixels);
        browser.executeScript("document.querySelectorAll('details').forEach(details => details.open = true)");
        List<WebElement> sources =
                browser.findElements(By.cssSelector(".budget th:first-child, .budget td:first-child"));
        boolean seen = sources.stream().allMatch(WebElement::isDisplayed);
        browser.executeScript("document.querySelectorAll('details').forEach(details => details.open = false)");

        assertThat(sources).isNotEmpty();
        assertThat(seen).isTrue();
    }

    @Test
    void whatIsFoldedAwayOpensWithoutAScript() {
        asWideAs(1400);
        WebElement details = browser.findElement(By.cssSelector("tr.more details"));
        WebElement inside = details.findElement(By.cssSelector("p"));
        assertThat(inside.isDisplayed()).isFalse();

        details.findElement(By.tagName("summary")).click();

        assertThat(inside.isDisplayed()).isTrue();
    }

    private static void asWideAs(int pixels) {
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", pixels, "height", 900, "deviceScaleFactor", 1, "mobile", false));
    }

    private static long asked(String script) {
        return ((Number) browser.executeScript(script)).longValue();
    }

    private static File onThePath(String program) {
        return Stream.of(System.getenv("PATH").split(":"))
                .map(place -> new File(place, program))
                .filter(File::canExecute)
                .findFirst()
                .orElseThrow();
    }
}
