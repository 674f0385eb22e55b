package dev.lapwing.transport.mqtt;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import javax.net.SocketFactory;

/** Sockets that send each message at once: with the usual gathering of small ones a round trip takes 40 ms and more. */
final class PromptSockets extends SocketFactory {
    @Override
    public Socket createSocket() throws IOException {
        return prompt(new Socket());
    }

    @Override
    public Socket createSocket(String host, int port) throws IOException {
        return prompt(new Socket(host, port));
    }

    @Override
    public Socket createSocket(String host, int port, InetAddress local, int localPort) throws IOException {
        return prompt(new Socket(host, port, local, localPort));
    }

    @Override
    public Socket createSocket(InetAddress host, int port) throws IOException {
        return prompt(new Socket(host, port));
    }

    @Override
    public Socket createSocket(InetAddress host, int port, InetAddress local, int localPort) throws IOException {
        return prompt(new Socket(host, port, local, localPort));
    }

    static Socket prompt(Socket socket) throws IOException {
        socket.setTcpNoDelay(true);
        return socket;
    }
}
