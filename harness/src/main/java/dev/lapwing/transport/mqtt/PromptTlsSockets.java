package dev.lapwing.transport.mqtt;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import javax.net.ssl.SSLSocketFactory;

/** As {@link PromptSockets}, with TLS. */
final class PromptTlsSockets extends SSLSocketFactory {
    private final SSLSocketFactory plain;

    /** @param plain knows whom to trust */
    PromptTlsSockets(SSLSocketFactory plain) {
        this.plain = plain;
    }

    @Override
    public String[] getDefaultCipherSuites() {
        return plain.getDefaultCipherSuites();
    }

    @Override
    public String[] getSupportedCipherSuites() {
        return plain.getSupportedCipherSuites();
    }

    @Override
    public Socket createSocket() throws IOException {
        return PromptSockets.prompt(plain.createSocket());
    }

    @Override
    public Socket createSocket(Socket below, String host, int port, boolean autoClose) throws IOException {
        return plain.createSocket(PromptSockets.prompt(below), host, port, autoClose);
    }

    @Override
    public Socket createSocket(String host, int port) throws IOException {
        return PromptSockets.prompt(plain.createSocket(host, port));
    }

    @Override
    public Socket createSocket(String host, int port, InetAddress local, int localPort) throws IOException {
        return PromptSockets.prompt(plain.createSocket(host, port, local, localPort));
    }

    @Override
    public Socket createSocket(InetAddress host, int port) throws IOException {
        return PromptSockets.prompt(plain.createSocket(host, port));
    }

    @Override
    public Socket createSocket(InetAddress host, int port, InetAddress local, int localPort) throws IOException {
        return PromptSockets.prompt(plain.createSocket(host, port, local, localPort));
    }
}
