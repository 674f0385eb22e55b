package dev.lapwing.signal;

import java.util.List;

/** A part of a formula at work: takes samples, and gives its value at each of them in turn as soon as it is known. */
abstract class FormulaNode {
    private final Witnessed out = new Witnessed();

    static FormulaNode of(Formula formula, SampleTimes times) {
        if (formula instanceof Formula.Atom atom) {
            return new AtomNode(atom.number());
        } else if (formula instanceof Formula.Not not) {
            return new NotNode(of(not.of(), times));
        } else if (formula instanceof Formula.AllOf all) {
            return new ManyNode(true, of(all.parts(), times));
        } else if (formula instanceof Formula.AnyOf any) {
            return new ManyNode(false, of(any.parts(), times));
        } else if (formula instanceof Formula.Always always) {
            return new BoundedNode(times, always.fromUs(), always.toUs(), List.of(of(always.holds(), times)), true);
        } else if (formula instanceof Formula.Eventually soon) {
            return new BoundedNode(times, soon.fromUs(), soon.toUs(), List.of(of(soon.holds(), times)), false);
        }
        Formula.Until until = (Formula.Until) formula;
        List<FormulaNode> both = List.of(of(until.holds(), times), of(until.then(), times));
        return new BoundedNode(times, until.fromUs(), until.toUs(), both, false);
    }

    private static List<FormulaNode> of(List<Formula> parts, SampleTimes times) {
        return parts.stream().map(part -> of(part, times)).toList();
    }

    /** Values not taken yet, oldest first. */
    final Witnessed out() {
        return out;
    }

    abstract void sample(long sinceFirstUs, double[] values);

    /** Works out what can be. */
    abstract void pump();

    private static final class AtomNode extends FormulaNode {
        private final int number;

        AtomNode(int number) {
            this.number = number;
        }

        @Override
        void sample(long sinceFirstUs, double[] values) {
            out().add(values[number], Witnessed.witness(number, sinceFirstUs));
        }

        @Override
        void pump() {
            // Its value is the sample's.
        }
    }

    private static final class NotNode extends FormulaNode {
        private final FormulaNode of;

        NotNode(FormulaNode of) {
            this.of = of;
        }

        @Override
        void sample(long sinceFirstUs, double[] values) {
            of.sample(sinceFirstUs, values);
        }

        @Override
        void pump() {
            of.pump();
            for (; of.out().size() > 0; of.out().drop()) {
                out().add(-of.out().value(), Witnessed.turned(of.out().witness()));
            }
        }
    }

    private static final class ManyNode extends FormulaNode {
        private final boolean all;
        private final List<FormulaNode> parts;

        ManyNode(boolean all, List<FormulaNode> parts) {
            this.all = all;
            this.parts = parts;
        }

        @Override
        void sample(long sinceFirstUs, double[] values) {
            for (FormulaNode part : parts) {
                part.sample(sinceFirstUs, values);
            }
        }

        @Override
        void pump() {
            int ready = Integer.MAX_VALUE;
            for (FormulaNode part : parts) {
                part.pump();
                ready = Math.min(ready, part.out().size());
            }
            for (; ready > 0; ready--) {
                combine();
            }
        }

        private void combine() {
            double value = parts.get(0).out().value();
            long witness = parts.get(0).out().witness();
            for (FormulaNode part : parts) {
                double other = part.out().value();
                if (all ? other < value : other > value) {
                    value = other;
                    witness = part.out().witness();
                }
                part.out().drop();
            }
            out().add(value, witness);
        }
    }
}
