package dev.lapwing.files;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Register;
import dev.lapwing.bench.Register.Table;
import dev.lapwing.quantity.Dimension;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads where a point is found on Modbus modules, and refuses that where there are none. */
final class RegisterReader {
    static final String MODULE = "module";
    /** How late a relay's contact follows its coil, and how far that may be off. */
    static final List<String> CONTACT = List.of("operate", "release", "spread");

    private static final Range CONTACT_TIME = new Range(0, 1);
    private static final int WORD_MIN = -32_768;
    private static final int SIGNED_MAX = 32_767;
    private static final int WORD_MAX = 65_535;

    private final Reading reading;
    private final Figures figures;
    /** Empty if it could not be read; then nothing is known of what must stand here. */
    private final Optional<LinkChoice> link;

    private final List<Register> registers = new ArrayList<>();

    RegisterReader(Reading reading, Optional<LinkChoice> link) {
        this.reading = reading;
        this.figures = new Figures(reading);
        this.link = link;
    }

    /** The link, now with where each point is found. */
    Optional<LinkChoice> link() {
        return link.map(choice -> choice instanceof LinkChoice.Modbus modbus ? with(modbus) : choice);
    }

    private LinkChoice with(LinkChoice.Modbus link) {
        return new LinkChoice.Modbus(
                link.device(), link.baud(), link.parity(), link.pollUs(), link.roundTripUs(), registers);
    }

    /** Keys of a point of that kind that say where it is found. */
    static String[] keys(PointKind kind) {
        List<String> keys = new ArrayList<>();
        Table.of(kind).ifPresent(table -> keys.addAll(List.of(MODULE, table.text())));
        if (kind == PointKind.DIGITAL_OUT) {
            keys.addAll(CONTACT);
        }
        return keys.toArray(String[]::new);
    }

    void read(String point, PointKind kind, Form form) {
        if (link.isEmpty()) {
            return;
        }
        if (link.get() instanceof LinkChoice.Modbus) {
            Table.of(kind).ifPresentOrElse(table -> read(point, table, form), () -> {
                String found = "a point of kind '" + kind.text() + "' is on no Modbus module";
                reading.mistake(form.place(), found);
            });
            return;
        }
        for (String key : keys(kind)) {
            if (form.has(key)) {
                reading.mistake(form.place(key), "'" + key + "' stands with a link over Modbus alone");
            }
        }
    }

    private void read(String point, Table table, Form form) {
        Optional<Integer> module = whole(form, MODULE, 1, Register.MODULE_MAX, "the address of a module");
        Optional<Integer> address =
                whole(form, table.text(), 0, Register.ADDRESS_MAX, "an address as sent in requests");
        if (module.isEmpty() || address.isEmpty()) {
            return;
        }
        for (Register other : registers) {
            if (other.module() == module.get() && other.table() == table && other.address() == address.get()) {
                String found = "this " + table.text() + " of module " + module.get() + " is point '" + other.point()
                        + "' already";
                reading.mistake(form.place(table.text()), found, "one for each point", "");
                return;
            }
        }
        registers.add(new Register(point, module.get(), table, address.get(), contact(table, form)));
    }

    private Register.Contact contact(Table table, Form form) {
        if (table != Table.COIL) {
            return Register.Contact.AT_ONCE;
        }
        long[] us = CONTACT.stream()
                .mapToLong(key -> form.value(key)
                        .flatMap(node -> figures.figure(node, CONTACT_TIME, Dimension.TIME))
                        .map(time -> Math.round(time.base() * 1e6))
                        .orElse(0L))
                .toArray();
        return new Register.Contact(us[0], us[1], us[2]);
    }

    private Optional<Integer> whole(Form form, String key, int least, int most, String expected) {
        if (!form.has(key)) {
            reading.mistake(form.place(), "'" + key + "' is missing: the link is over Modbus");
            return Optional.empty();
        }
        return form.value(key).flatMap(node -> reading.whole(node, least, most, expected));
    }

    /** A register has 16 bits, with a sign where the range goes below 0. */
    void checkRange(int min, int max, Form form) {
        boolean fits = min >= WORD_MIN && max <= (min < 0 ? SIGNED_MAX : WORD_MAX);
        if (link.filter(LinkChoice.Modbus.class::isInstance).isPresent() && !fits) {
            String expected = "from 0 to " + WORD_MAX + " counts, or from " + WORD_MIN + " to " + SIGNED_MAX
                    + " counts with a sign";
            reading.mistake(form.place("max"), "the range does not fit into a register", expected, "");
        }
    }
}
