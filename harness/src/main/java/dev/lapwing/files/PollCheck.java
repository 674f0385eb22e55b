package dev.lapwing.files;

import dev.lapwing.bench.LineTiming;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Polled;
import dev.lapwing.bench.RegisterBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Locale;

/** Whether a Modbus line can carry what is asked of it: the bytes alone, with modules that answer at once. */
final class PollCheck {
    private final Reading reading;
    private final LinkChoice.Modbus link;
    private final LineTiming line;

    PollCheck(Reading reading, LinkChoice.Modbus link) {
        this.reading = reading;
        this.link = link;
        this.line = new LineTiming(link.baud());
    }

    /** Between two polls there is room for one order of outputs. */
    void check(List<Stream> streams, Place poll, Place roundTrip) {
        List<Polled> polled = Polled.of(link, streams);
        double orderUs =
                RegisterBlock.of(link.registers().stream()
                                .filter(register -> register.table().driven())
                                .toList())
                        .stream()
                        .mapToDouble(block -> line.roundTripUs(block) + line.silenceUs())
                        .max()
                        .orElse(0);
        double longestUs = polled.stream()
                .mapToDouble(each -> line.roundTripUs(each.blocks()))
                .max()
                .orElse(0);
        least(link.pollUs(), line.pollUs(polled) + orderUs, poll, "reading everything and one order of outputs");
        least(link.roundTripUs(), longestUs + orderUs, roundTrip, "the longest reading and an order before it");
    }

    private void least(long saidUs, double leastUs, Place place, String what) {
        if (saidUs < leastUs) {
            String least = String.format(Locale.ROOT, "%.1f ms", Math.ceil(leastUs / 100) / 10);
            reading.mistake(
                    place,
                    what + " takes " + least + " at " + link.baud() + " baud",
                    "at least " + least + ", and more for modules that do not answer at once",
                    "a higher baud rate, fewer points, or addresses that follow each other take less");
        }
    }
}
