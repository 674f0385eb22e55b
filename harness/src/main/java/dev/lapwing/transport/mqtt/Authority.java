package dev.lapwing.transport.mqtt;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.util.Collection;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocketFactory;
import javax.net.ssl.TrustManagerFactory;

/** Who vouches for a broker: nobody but those whose certificates stand in a file. */
final class Authority {
    private Authority() {}

    /**
     * Sockets that trust them alone.
     *
     * @throws IOException with words for the user if the file cannot be read or holds no certificate
     */
    static SSLSocketFactory sockets(Path file) throws IOException {
        try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
            Collection<? extends Certificate> certificates =
                    CertificateFactory.getInstance("X.509").generateCertificates(in);
            if (certificates.isEmpty()) {
                throw new IOException(file + " holds no certificate");
            }
            KeyStore trusted = KeyStore.getInstance(KeyStore.getDefaultType());
            trusted.load(null, null);
            for (Certificate certificate : certificates) {
                trusted.setCertificateEntry("authority-" + trusted.size(), certificate);
            }
            TrustManagerFactory trust = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
            trust.init(trusted);
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(null, trust.getTrustManagers(), null);
            return context.getSocketFactory();
        } catch (GeneralSecurityException e) {
            throw new IOException(file + " cannot be read as certificates in PEM", e);
        } catch (IOException e) {
            String why = e.getMessage() != null && e.getMessage().endsWith("holds no certificate")
                    ? e.getMessage()
                    : "the certificates of the broker's authority cannot be read: " + file;
            throw new IOException(why, e);
        }
    }
}
