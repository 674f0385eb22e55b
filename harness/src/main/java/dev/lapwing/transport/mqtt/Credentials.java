package dev.lapwing.transport.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.bench.BenchFailure;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermission;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What a broker asks for, if it does, and whom to believe that it is the right one. User name and password are never
 * part of a record, a message or a sentence.
 *
 * @param user      empty where the broker lets everybody in
 * @param password  empty where there is none
 * @param authority file of certificates, in PEM, of who vouches for a broker with TLS; empty for those that this Java
 *                  trusts
 */
public record Credentials(Optional<String> user, Optional<String> password, Optional<Path> authority) {
    public static final Credentials NONE = new Credentials(Optional.empty(), Optional.empty());

    private static final String USER = "user:";
    private static final String PASSWORD = "password:";

    public Credentials(Optional<String> user, Optional<String> password) {
        this(user, password, Optional.empty());
    }

    /**
     * From a file with a line {@code user: …} and a line {@code password: …}; empty lines and lines that begin with
     * {@code #} are left aside.
     *
     * @throws BenchFailure if it cannot be read, everybody on this machine may read it, or it says something else; what
     *     stands in it is not repeated
     */
    public static Credentials of(Path file) throws BenchFailure {
        List<String> lines;
        try {
            if (everybodyReads(file)) {
                throw new BenchFailure("the file with the broker's user name and password may be read by everybody on"
                        + " this computer, and whoever knows them drives the bench: take that right away with"
                        + " 'chmod o-r " + file + "'");
            }
            lines = new ArrayList<>(Files.readAllLines(file, UTF_8));
        } catch (IOException e) {
            throw new BenchFailure("the file with the broker's user name and password cannot be read: " + file, e);
        }
        lines.removeIf(line -> line.isBlank() || line.stripLeading().startsWith("#"));
        boolean good = lines.stream().allMatch(line -> line.startsWith(USER) || line.startsWith(PASSWORD));
        Optional<String> user = after(USER, lines);
        if (!good || lines.size() > 2 || user.isEmpty()) {
            throw new BenchFailure(file + " must hold one line 'user: NAME', one line 'password: WORD', and no other");
        }
        return new Credentials(user, after(PASSWORD, lines));
    }

    /** Never where this machine's files know no such right. */
    private static boolean everybodyReads(Path file) throws IOException {
        return Files.getFileStore(file).supportsFileAttributeView(PosixFileAttributeView.class)
                && Files.getPosixFilePermissions(file).contains(PosixFilePermission.OTHERS_READ);
    }

    private static Optional<String> after(String key, List<String> lines) {
        return lines.stream()
                .filter(line -> line.startsWith(key))
                .map(line -> line.substring(key.length()).strip())
                .filter(word -> !word.isEmpty())
                .findFirst();
    }

    /** The same, with a broker that these certificates vouch for. */
    public Credentials vouchedBy(Path certificates) {
        return new Credentials(user, password, Optional.of(certificates));
    }

    @Override
    public String toString() {
        return user.isPresent() ? "credentials of a user" : "no credentials";
    }
}
