package dev.lapwing.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Factors of units against their published values. */
class UnitReferenceTest {

    /**
     * Source: NIST SP 811 (2008), appendix B.8, in its form of seven digits (from memory): psi 6.894 757 E+03 Pa, bar
     * 1.0 E+05 Pa, litre 1.0 E-03 m3, kilometre per hour 2.777 778 E-01 m/s, minute 6.0 E+01 s.
     */
    @ParameterizedTest
    @CsvSource({
        "PSI, 6.894757E+03",
        "BAR, 1.0E+05",
        "KILOPASCAL, 1.0E+03",
        "LITRE, 1.0E-03",
        "KILOMETRE_AN_HOUR, 2.777778E-01",
        "MINUTE, 6.0E+01"
    })
    void factorsAreThoseOfTheGuide(Unit unit, double factor) {
        assertThat(unit.toBase(1)).isCloseTo(factor, within(0.5e-6 * factor));
    }

    /**
     * Source: the definitions: international pound 0.453 592 37 kg, standard gravity 9.806 65 m/s2, inch 0.0254 m, all
     * exact (NIST SP 811 (2008), appendix B, from memory).
     */
    @Test
    void aPsiIsAPoundForceOnASquareInch() {
        double pascals = 0.45359237 * 9.80665 / (0.0254 * 0.0254);
        assertThat(Unit.PSI.toBase(1)).isCloseTo(pascals, within(1e-12 * pascals));
        assertThat(Unit.PSI_ABSOLUTE.toBase(1)).isEqualTo(Unit.PSI.toBase(1));
    }

    /** Source: arithmetic: 5 bar are 72.519 psi, 3 psi/min are 344.738 Pa/s, 100 psi 6.894 757 bar. */
    @Test
    void pressuresAndRatesAgreeWithEachOther() {
        assertThat(Quantity.of(5, Unit.BAR).in(Unit.PSI)).isCloseTo(72.519, within(5e-4));
        assertThat(Quantity.of(100, Unit.PSI).in(Unit.BAR)).isCloseTo(6.894757, within(5e-7));
        assertThat(Unit.PSI_A_MINUTE.toBase(3)).isCloseTo(344.738, within(5e-4));
        assertThat(Unit.PSI_A_MINUTE.toBase(60)).isCloseTo(Unit.PSI_A_SECOND.toBase(1), within(1e-9));
        assertThat(Unit.BAR_A_MINUTE.toBase(60)).isCloseTo(Unit.BAR_A_SECOND.toBase(1), within(1e-9));
        assertThat(Unit.KILOPASCAL_A_MINUTE.toBase(60)).isCloseTo(Unit.KILOPASCAL_A_SECOND.toBase(1), within(1e-9));
    }

    /** Source: ISO 6358-1 (from memory) states a sonic conductance in m3/(s.Pa); dm3/(s.bar) is 1E-3/1E5 of it. */
    @Test
    void aSonicConductanceIsAVolumePerTimeAndPressure() {
        assertThat(Unit.DM3_PER_S_BAR.toBase(1)).isCloseTo(1e-3 / 1e5, within(1e-20));
    }

    @ParameterizedTest
    @EnumSource
    void everyDimensionHasABaseUnitOfItsSymbolOrOnlyOneUnit(Dimension dimension) {
        assertThat(Unit.of(dimension)).isNotEmpty();
        Unit.of(dimension).stream()
                .filter(unit -> unit.symbol().equals(dimension.baseUnit()))
                .forEach(unit -> assertThat(unit.toBase(1)).isEqualTo(1));
    }

    @Test
    void noSpellingMeansTwoUnits() {
        Set<String> all = new HashSet<>();
        for (Unit unit : Unit.values()) {
            for (String spelling : unit.spellings()) {
                assertThat(all.add(spelling)).as(spelling).isTrue();
                assertThat(Unit.spelled(spelling)).contains(unit);
            }
        }
    }
}
