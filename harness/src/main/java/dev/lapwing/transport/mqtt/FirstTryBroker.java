package dev.lapwing.transport.mqtt;

import java.io.File;
import java.io.IOException;
import java.net.MalformedURLException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.ServiceLoader;

/**
 * A broker from a library, for a first try on one machine: no user names, no encryption, nobody else's. It is optional:
 * its libraries lie in a folder of their own and are looked at only when it is asked for.
 */
public interface FirstTryBroker extends AutoCloseable {

    /**
     * Starts it on the loopback address.
     *
     * @param port of TCP
     * @throws IOException if it cannot be started
     */
    void start(int port) throws IOException;

    @Override
    void close();

    /**
     * The one that is there.
     *
     * @param folder where its libraries lie
     * @return empty if they do not lie there, nor on the class path
     */
    static Optional<FirstTryBroker> in(Path folder) {
        Optional<FirstTryBroker> known =
                ServiceLoader.load(FirstTryBroker.class).findFirst();
        return known.isPresent()
                ? known
                : ServiceLoader.load(FirstTryBroker.class, loader(folder)).findFirst();
    }

    /** Never closed: what it loaded is needed until the process ends. */
    private static ClassLoader loader(Path folder) {
        List<URL> libraries = new ArrayList<>();
        File[] jars = folder.toFile().listFiles((dir, name) -> name.endsWith(".jar"));
        try {
            for (File jar : jars == null ? new File[0] : jars) {
                libraries.add(jar.toURI().toURL());
            }
        } catch (MalformedURLException e) {
            throw new IllegalStateException(e);
        }
        return new URLClassLoader(libraries.toArray(URL[]::new), FirstTryBroker.class.getClassLoader());
    }
}
