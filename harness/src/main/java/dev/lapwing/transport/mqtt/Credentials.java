package dev.lapwing.transport.mqtt;

import java.util.Optional;

/**
 * What a broker asks for, if it does. Never part of a record or a message.
 *
 * @param user     empty where the broker lets everybody in
 * @param password empty where there is none
 */
public record Credentials(Optional<String> user, Optional<String> password) {
    public static final Credentials NONE = new Credentials(Optional.empty(), Optional.empty());

    @Override
    public String toString() {
        return user.isPresent() ? "credentials of a user" : "no credentials";
    }
}
