package dev.lapwing.evidence;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4) in lower-case hexadecimal. */
public final class Sha256 {
    private Sha256() {}

    static MessageDigest start() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform must have SHA-256", e);
        }
    }

    public static String of(byte[] bytes) {
        return HexFormat.of().formatHex(start().digest(bytes));
    }

    /** Of what went in so far; more may follow. */
    static String peek(MessageDigest digest) {
        try {
            return HexFormat.of().formatHex(((MessageDigest) digest.clone()).digest());
        } catch (CloneNotSupportedException e) {
            throw new IllegalStateException("SHA-256 of this platform cannot be copied", e);
        }
    }
}
