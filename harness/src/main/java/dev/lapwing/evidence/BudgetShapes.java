package dev.lapwing.evidence;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonProperty.Access;
import com.fasterxml.jackson.databind.module.SimpleModule;
import dev.lapwing.finding.Finding;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Conformity;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Propagation;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What follows from a budget and stands beside it in a record all the same, so that whoever reads one can check a
 * verdict without this program. Written, and worked out anew when read.
 */
final class BudgetShapes extends SimpleModule {
    private static final long serialVersionUID = 1;

    BudgetShapes() {
        setMixInAnnotation(Estimate.class, Budget.class);
        setMixInAnnotation(Component.class, Line.class);
        setMixInAnnotation(Finding.class, Judged.class);
        setMixInAnnotation(Conformity.class, Risks.class);
        setMixInAnnotation(Propagation.class, Drawn.class);
    }

    private interface Budget {
        @JsonProperty(value = "standard-uncertainty", access = Access.READ_ONLY)
        double standardUncertainty();

        @JsonProperty(value = "degrees-of-freedom", access = Access.READ_ONLY)
        OptionalDouble degreesOfFreedom();

        @JsonProperty(value = "coverage-factor", access = Access.READ_ONLY)
        double coverageFactor();

        @JsonProperty(value = "expanded-uncertainty", access = Access.READ_ONLY)
        double expanded();
    }

    private interface Drawn {
        @JsonProperty(value = "lower", access = Access.READ_ONLY)
        double lower();

        @JsonProperty(value = "upper", access = Access.READ_ONLY)
        double upper();

        @JsonProperty(value = "settled", access = Access.READ_ONLY)
        boolean settled();
    }

    private interface Line {
        @JsonProperty(value = "sensitivity", access = Access.READ_ONLY)
        OptionalDouble sensitivity();
    }

    private interface Judged {
        @JsonProperty(value = "conformity", access = Access.READ_ONLY)
        Optional<Conformity> conformity();
    }

    private interface Risks {
        @JsonProperty(value = "consumers-risk", access = Access.READ_ONLY)
        double consumersRisk();

        @JsonProperty(value = "producers-risk", access = Access.READ_ONLY)
        double producersRisk();
    }
}
