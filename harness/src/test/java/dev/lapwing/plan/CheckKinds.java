package dev.lapwing.plan;

import java.util.List;
import java.util.stream.Stream;

/** Every kind of check that there is. */
public final class CheckKinds {
    private CheckKinds() {}

    public static List<Class<?>> all() {
        return Stream.<Class<?>>of(Check.class.getDeclaredClasses())
                .filter(Class::isRecord)
                .filter(Check.class::isAssignableFrom)
                .toList();
    }
}
