package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.signal.Formula;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * A condition taken apart: its levels and wires, and the formula that holds them together.
 *
 * @param formula its atoms are numbered as in {@code atoms}
 * @param atoms   levels and wires, in the order in which they stand
 * @param turned  numbers of those that make it less true where they are truer
 */
record Atoms(Formula formula, List<PlannedCondition> atoms, Set<Integer> turned) {

    static Atoms of(PlannedCondition condition) {
        Apart apart = new Apart();
        Formula formula = apart.formula(condition, false);
        return new Atoms(formula, List.copyOf(apart.atoms), Set.copyOf(apart.turned));
    }

    /** The same at every instant of that time. */
    Atoms throughout(long overUs) {
        return new Atoms(new Formula.Always(0, overUs, formula), atoms, turned);
    }

    private static final class Apart {
        private final List<PlannedCondition> atoms = new ArrayList<>();
        private final Set<Integer> turned = new HashSet<>();

        private Formula formula(PlannedCondition condition, boolean not) {
            if (condition instanceof PlannedCondition.AllOf all) {
                return new Formula.AllOf(formulas(all.parts(), not));
            } else if (condition instanceof PlannedCondition.AnyOf any) {
                return new Formula.AnyOf(formulas(any.parts(), not));
            } else if (condition instanceof PlannedCondition.Not turn) {
                return new Formula.Not(formula(turn.condition(), !not));
            } else if (condition instanceof PlannedCondition.Always always) {
                return new Formula.Always(us(always.from()), us(always.to()), formula(always.holds(), not));
            } else if (condition instanceof PlannedCondition.Eventually soon) {
                return new Formula.Eventually(us(soon.from()), us(soon.to()), formula(soon.holds(), not));
            } else if (condition instanceof PlannedCondition.Until until) {
                Formula holds = formula(until.holds(), not);
                return new Formula.Until(us(until.from()), us(until.to()), holds, formula(until.then(), not));
            }
            if (not) {
                turned.add(atoms.size());
            }
            atoms.add(condition);
            return new Formula.Atom(atoms.size() - 1);
        }

        private List<Formula> formulas(List<PlannedCondition> parts, boolean not) {
            return parts.stream().map(part -> formula(part, not)).toList();
        }
    }

    static long us(double seconds) {
        return Math.round(seconds * 1e6);
    }

    /** The signal that an atom reads. */
    Signal signal(int atom) {
        return atoms.get(atom).signals().get(0);
    }

    /** How far a reading is from changing the atom's truth: a level in its unit, a wire without a measure. */
    double value(int atom, double reading) {
        PlannedCondition of = atoms.get(atom);
        if (of instanceof PlannedCondition.Above above) {
            return reading - above.level();
        } else if (of instanceof PlannedCondition.Below below) {
            return below.level() - reading;
        }
        boolean so = reading > 0.5 == ((PlannedCondition.WireIs) of).on();
        return so ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
    }

    /** The level of an atom that has one. */
    double level(int atom) {
        PlannedCondition of = atoms.get(atom);
        return of instanceof PlannedCondition.Above above ? above.level() : ((PlannedCondition.Below) of).level();
    }

    /** 1 where a higher reading makes it truer, -1 where a lower one does. */
    int sense(int atom) {
        return atoms.get(atom) instanceof PlannedCondition.Below ? -1 : 1;
    }
}
