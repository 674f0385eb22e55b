package dev.lapwing.cli;

import java.lang.reflect.Proxy;
import java.util.List;

/**
 * Passes Ctrl-C, SIGTERM and SIGHUP on instead of letting them end the process. The machine's signal interface is
 * reached by name: it is there in every JDK, but the compiler warns of each use.
 */
final class StopSignals {
    private StopSignals() {}

    /**
     * From now on each of these signals runs {@code onStop} on a thread of the machine's.
     *
     * @return false if this machine has no such interface; the process then simply ends
     */
    static boolean passTo(Runnable onStop) {
        boolean all = true;
        for (String name : List.of("INT", "TERM", "HUP")) {
            all &= pass(name, onStop);
        }
        return all;
    }

    private static boolean pass(String name, Runnable onStop) {
        try {
            Class<?> signal = Class.forName("sun.misc.Signal");
            Class<?> handler = Class.forName("sun.misc.SignalHandler");
            Object hears = Proxy.newProxyInstance(
                    StopSignals.class.getClassLoader(), new Class<?>[] {handler}, (proxy, method, arguments) -> {
                        if (method.getName().equals("handle")) {
                            onStop.run();
                        }
                        return null;
                    });
            signal.getMethod("handle", signal, handler)
                    .invoke(null, signal.getConstructor(String.class).newInstance(name), hears);
            return true;
        } catch (ReflectiveOperationException | RuntimeException e) {
            return false;
        }
    }
}
