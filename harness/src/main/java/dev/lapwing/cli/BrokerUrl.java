package dev.lapwing.cli;

import dev.lapwing.bench.LinkChoice;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A broker's URL on the command line; one with more in it is refused, and not repeated: a password may stand there. */
final class BrokerUrl implements ITypeConverter<String> {
    @Override
    public String convert(String url) {
        if (!url.matches(LinkChoice.BROKER)) {
            throw new TypeConversionException("this is no URL of a broker, such as tcp://localhost:1883, or"
                    + " ssl://localhost:8883 with TLS; user name and password come from the environment or a file");
        }
        return url;
    }
}
