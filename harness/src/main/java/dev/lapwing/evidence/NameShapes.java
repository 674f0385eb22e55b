package dev.lapwing.evidence;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JsonSerializer;
import com.fasterxml.jackson.databind.KeyDeserializer;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import com.fasterxml.jackson.databind.module.SimpleModule;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import java.io.IOException;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/** Signals and actuators stand in a record by their keys, sets in a fixed order. */
final class NameShapes extends SimpleModule {
    private static final long serialVersionUID = 1;

    NameShapes() {
        addSerializer(Signal.class, writing((signal, to) -> to.writeString(signal.key())));
        addSerializer(Actuator.class, writing((actuator, to) -> to.writeString(actuator.key())));
        addKeySerializer(Actuator.class, writing((actuator, to) -> to.writeFieldName(actuator.key())));
        addSerializer(Set.class, new SortedSetWriter());
        addDeserializer(Signal.class, new Named<>(Signal.class, Keys::signal));
        addDeserializer(
                Signal.Wire.class,
                new Named<>(
                        Signal.Wire.class,
                        key -> Keys.signal(key)
                                .filter(Signal.Wire.class::isInstance)
                                .map(Signal.Wire.class::cast)));
        addDeserializer(Actuator.class, new Named<>(Actuator.class, Keys::actuator));
        addKeyDeserializer(Actuator.class, new ActuatorKey());
    }

    private interface Writing<T> {
        void write(T value, JsonGenerator to) throws IOException;
    }

    private static <T> JsonSerializer<T> writing(Writing<T> how) {
        return new JsonSerializer<>() {
            @Override
            public void serialize(T value, JsonGenerator to, SerializerProvider provider) throws IOException {
                how.write(value, to);
            }
        };
    }

    /** A set has no order of its own; its members are written in the order of their names. */
    @SuppressWarnings("rawtypes")
    private static final class SortedSetWriter extends JsonSerializer<Set> {
        @Override
        public void serialize(Set value, JsonGenerator to, SerializerProvider provider) throws IOException {
            to.writeStartArray();
            for (Object member : sorted(value)) {
                provider.defaultSerializeValue(member, to);
            }
            to.writeEndArray();
        }

        private static Object[] sorted(Set<?> set) {
            Object[] members = set.toArray();
            Arrays.sort(members, Comparator.comparing(Object::toString));
            return members;
        }
    }

    private static final class Named<T> extends StdDeserializer<T> {
        private static final long serialVersionUID = 1;

        private final transient Function<String, Optional<T>> find;

        Named(Class<T> type, Function<String, Optional<T>> find) {
            super(type);
            this.find = find;
        }

        @Override
        public T deserialize(JsonParser from, DeserializationContext context) throws IOException {
            String key = from.getText();
            Optional<T> found = find.apply(key);
            return found.isPresent()
                    ? found.get()
                    : context.reportInputMismatch(
                            this, "'%s' names no %s", key, handledType().getSimpleName());
        }
    }

    private static final class ActuatorKey extends KeyDeserializer {
        @Override
        public Object deserializeKey(String key, DeserializationContext context) throws IOException {
            Optional<Actuator> found = Keys.actuator(key);
            return found.isPresent()
                    ? found.get()
                    : context.reportInputMismatch(Actuator.class, "'%s' names no actuator", key);
        }
    }
}
