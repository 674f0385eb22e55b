package dev.lapwing.transport.mqtt;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.security.cert.CertPathBuilderException;
import java.security.cert.CertificateException;
import java.security.cert.CertificateExpiredException;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import javax.net.ssl.SSLException;
import org.eclipse.paho.mqttv5.client.MqttClientException;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.packet.MqttReturnCode;

/** Why a broker could not be reached, in words for the user. */
final class NotLetIn {
    private NotLetIn() {}

    static String words(Exception e) {
        if (e instanceof MqttException mqtt) {
            int code = mqtt.getReasonCode();
            if (code == MqttReturnCode.RETURN_CODE_BAD_USERNAME_OR_PASSWORD
                    || code == MqttReturnCode.RETURN_CODE_NOT_AUTHORIZED
                    || code == MqttClientException.REASON_CODE_FAILED_AUTHENTICATION) {
                return "it does not accept this user name and password, or wants some and has got none";
            }
        }
        return causes(e)
                .map(NotLetIn::ofTheWay)
                .flatMap(Optional::stream)
                .findFirst()
                .orElseGet(() -> last(e));
    }

    private static Optional<String> ofTheWay(Throwable cause) {
        if (cause instanceof CertificateExpiredException) {
            return Optional.of("its certificate has expired");
        }
        if (cause instanceof CertPathBuilderException) {
            return Optional.of("nobody who is trusted here vouches for its certificate; name the file of its"
                    + " authority's certificates as 'authority', and ask for it in person, not over the same wire");
        }
        if (cause instanceof CertificateException && said(cause).contains("name")) {
            return Optional.of("its certificate is made out to another name; reach it by the name that stands in the"
                    + " certificate, if it is the right one at all");
        }
        boolean notTls = cause instanceof SSLException && said(cause).contains("unrecognized ssl message");
        if (notTls || cause instanceof EOFException || said(cause).equals("connection reset")) {
            return Optional.of(
                    "it hangs up at once; look whether the port is one with TLS ('ssl:') or without ('tcp:')");
        }
        if (cause instanceof UnknownHostException) {
            return Optional.of("there is no computer of that name");
        }
        if (cause instanceof ConnectException || cause instanceof SocketTimeoutException) {
            return Optional.of("nobody answers at that address and port (" + said(cause) + ")");
        }
        return Optional.empty();
    }

    private static Stream<Throwable> causes(Throwable e) {
        // Innermost first: it says most. No chain of a library is longer.
        Throwable[] chain = Stream.iterate(e, each -> each != null, Throwable::getCause)
                .limit(20)
                .toArray(Throwable[]::new);
        return Stream.iterate(chain.length - 1, i -> i >= 0, i -> i - 1).map(i -> chain[i]);
    }

    private static String said(Throwable cause) {
        return String.valueOf(cause.getMessage()).toLowerCase(Locale.ROOT);
    }

    private static String last(Exception e) {
        Throwable cause = e.getCause() == null ? e : e.getCause();
        return String.valueOf(cause.getMessage());
    }
}
