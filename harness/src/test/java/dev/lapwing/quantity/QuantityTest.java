package dev.lapwing.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Figures with their units: as people write them, and as they are printed. */
class QuantityTest {

    @ParameterizedTest
    @CsvSource({
        "50 psi, 50, PSI",
        "50psi, 50, PSI",
        "'  -3.4   bar ', -3.4, BAR",
        "+.5 bar, 0.5, BAR",
        "1.2e3 kPa, 1200, KILOPASCAL",
        "2E-3 s, 0.002, SECOND",
        "14.7 psi  abs, 14.7, PSI_ABSOLUTE",
        "60 %, 60, PERCENT",
        "60%, 60, PERCENT",
        "1 degree, 1, DEGREE",
        "1 time, 1, TIMES",
        "-32768 counts, -32768, COUNTS",
        "2.6 dm3/(s.bar), 2.6, DM3_PER_S_BAR"
    })
    void aFigureIsReadInItsUnit(String text, double figure, Unit unit) throws UnreadableQuantity {
        assertThat(Quantity.parse(text)).isEqualTo(Quantity.of(figure, unit));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "psi", "- 5 psi", "--5 psi", ". psi", "e5 psi", "NaN psi", "±5 psi"})
    void whatIsNoFigureIsRefused(String text) {
        assertThatThrownBy(() -> Quantity.parse(text))
                .isInstanceOfSatisfying(
                        UnreadableQuantity.class,
                        no -> assertThat(no.unknownUnit()).isEmpty())
                .hasMessage("'" + text + "' is not a figure with a unit");
    }

    @ParameterizedTest
    @ValueSource(strings = {"5", "-0.5", "1e3", " 7 "})
    void aFigureWithoutUnitIsNone(String text) {
        assertThatThrownBy(() -> Quantity.parse(text))
                .isInstanceOf(UnreadableQuantity.class)
                .hasMessage("'" + text + "' has no unit");
    }

    /** Letter case counts, as in the SI: a megasecond is no millisecond. */
    @ParameterizedTest
    @CsvSource({
        "5 Psi, Psi",
        "5 Ms, Ms",
        "5 furlongs, furlongs",
        "5 psi psi, psi psi",
        "5. psi, . psi",
        "1-2 psi, -2 psi",
        "5 \u00b5s, \u00b5s"
    })
    void anUnknownUnitIsNamed(String text, String unit) {
        assertThatThrownBy(() -> Quantity.parse(text))
                .isInstanceOfSatisfying(
                        UnreadableQuantity.class,
                        no -> assertThat(no.unknownUnit()).isEqualTo(unit))
                .hasMessage("'" + unit + "' is not a known unit");
    }

    /** What it would mean is left to who wrote it. */
    @ParameterizedTest
    @ValueSource(strings = {"1,5 bar", "-0,25s", "1,000 psi", "1,000.5 psi"})
    void aCommaIsNeitherAPointNorNothing(String text) {
        assertThatThrownBy(() -> Quantity.parse(text))
                .isInstanceOfSatisfying(
                        UnreadableQuantity.class,
                        no -> assertThat(no.unknownUnit()).isEmpty())
                .hasMessage("'" + text + "' has a comma; a point parts decimals, and nothing parts thousands");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e400 s", "-1e999999999 bar", "1e308 psi"})
    void whatNoNumberHoldsIsTooLarge(String text) {
        assertThatThrownBy(() -> Quantity.parse(text))
                .isInstanceOf(UnreadableQuantity.class)
                .hasMessage("'" + text + "' is too large a figure");
    }

    @Test
    void whatIsNotFiniteIsNoQuantity() {
        for (double bad : new double[] {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY}) {
            assertThatThrownBy(() -> new Quantity(bad, Dimension.TIME)).isInstanceOf(IllegalArgumentException.class);
        }
    }

    @ParameterizedTest
    @EnumSource
    void whatWasWrittenIsPrintedAsItWasAndReadBackTheSame(Unit unit) throws UnreadableQuantity {
        SplittableRandom random = new SplittableRandom(unit.name().hashCode());
        for (int i = 0; i < 500; i++) {
            BigDecimal figure = figure(random);
            for (String spelling : unit.spellings()) {
                Quantity read = Quantity.parse(figure.toPlainString() + " " + spelling);
                assertThat(read.dimension()).isEqualTo(unit.dimension());
                assertThat(read.digits(unit)).isEqualTo(plain(figure));
                assertThat(Quantity.parse(read.written(unit))).isEqualTo(read);
            }
        }
    }

    /** What only comes of converting is told to four digits, and is off by half of the last at most. */
    @Test
    void aConvertedFigureIsToldToFourDigits() {
        SplittableRandom random = new SplittableRandom(811);
        for (int i = 0; i < 1000; i++) {
            Quantity psi = Quantity.of(figure(random).doubleValue(), Unit.PSI);
            BigDecimal told = new BigDecimal(psi.digits(Unit.BAR));
            assertThat(told.precision() - Math.max(0, -told.scale())).isLessThanOrEqualTo(6);
            assertThat(told.doubleValue())
                    .isCloseTo(psi.in(Unit.BAR), within(0.5e-3 * Math.abs(psi.in(Unit.BAR)) + 1e-300));
        }
        assertThat(Quantity.of(50, Unit.PSI).written(Unit.BAR)).isEqualTo("3.447 bar");
        assertThat(Quantity.of(3.5, Unit.BAR).written(Unit.KILOPASCAL)).isEqualTo("350 kPa");
    }

    @ParameterizedTest
    @CsvSource({
        "48.7812, 4, 48.78 psi",
        "48.785, 2, 49 psi",
        "-0.00012345, 3, -0.000123 psi",
        "120000, 2, 120000 psi",
        "0, 4, 0 psi",
        "-0.0, 4, 0 psi",
        "99.996, 4, 100 psi"
    })
    void aPrintedFigureHasNoMoreDigitsThanAskedForAndItsUnit(double psi, int digits, String printed) {
        assertThat(Quantity.of(psi, Unit.PSI).print(Unit.PSI, digits)).isEqualTo(printed);
    }

    @Test
    void noFigureIsToldInAUnitOfAnotherKind() {
        Quantity pressure = Quantity.of(1, Unit.BAR);
        for (Unit unit : List.of(Unit.BAR_ABSOLUTE, Unit.BAR_A_SECOND, Unit.SECOND)) {
            assertThatThrownBy(() -> pressure.print(unit, 3)).isInstanceOf(IllegalArgumentException.class);
        }
    }

    @Test
    void whatBeginsAsAFigureDoesIsNoName() {
        assertThat(List.of("5", "-.5 bar", "+3", " 12 psi", ".5")).allMatch(Quantity::looksLikeFigure);
        assertThat(List.of("lapping-tolerance", "", "-", "e5", ".")).noneMatch(Quantity::looksLikeFigure);
    }

    @ParameterizedTest
    @EnumSource
    void everyReaderHasAUnitForEveryKindOfFigure(PressureDisplay display) {
        for (Dimension dimension : Dimension.values()) {
            assertThat(display.unitFor(dimension).dimension()).isEqualTo(dimension);
        }
    }

    /** Up to six digits, of either sign, from thousandths to thousands. */
    private static BigDecimal figure(SplittableRandom random) {
        BigDecimal figure = BigDecimal.valueOf(random.nextInt(-999_999, 1_000_000), random.nextInt(0, 8));
        return figure.round(new MathContext(6));
    }

    private static String plain(BigDecimal figure) {
        return figure.signum() == 0 ? "0" : figure.stripTrailingZeros().toPlainString();
    }
}
