package strokewright;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.BooleanSupplier;

/**
 * A line from a window to the service that can be cut: what a browser's switch for "offline" lets
 * through while pages change, this does not. It listens on this machine alone.
 */
public final class Line implements AutoCloseable {

    private final ServerSocket entrance;
    private final int servicePort;
    private final Set<Socket> ends = ConcurrentHashMap.newKeySet();
    private volatile boolean cut;
    private volatile boolean answersLost;

    private Line(int servicePort) throws IOException {
        this.entrance = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        this.servicePort = servicePort;
    }

    public static Line to(int servicePort) {
        try {
            Line line = new Line(servicePort);
            inBackground(line::accept);
            return line;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public int port() {
        return entrance.getLocalPort();
    }

    /** From here on nothing passes, in either direction. */
    public void cut() {
        cut = true;
        ends.forEach(Line::end);
    }

    /** From here on what is asked arrives, and what is answered does not. */
    public void loseAnswers() {
        answersLost = true;
    }

    public void mend() {
        cut = false;
        answersLost = false;
    }

    @Override
    public void close() {
        cut();
        end(entrance);
    }

    private void accept() throws IOException {
        while (true) {
            Socket window = entrance.accept();
            if (cut) {
                end(window);
                continue;
            }
            Socket service = new Socket(InetAddress.getLoopbackAddress(), servicePort);
            ends.add(window);
            ends.add(service);
            if (cut) {
                cut();
            }
            inBackground(() -> pass(window, service, () -> false));
            inBackground(() -> pass(service, window, () -> answersLost));
        }
    }

    private void pass(Socket from, Socket to, BooleanSupplier lost) throws IOException {
        byte[] block = new byte[8192];
        try (from;
                to;
                InputStream in = from.getInputStream();
                OutputStream out = to.getOutputStream()) {
            for (int n = in.read(block); n >= 0 && !lost.getAsBoolean(); n = in.read(block)) {
                out.write(block, 0, n);
            }
        } finally {
            ends.remove(from);
            ends.remove(to);
        }
    }

    private static void end(AutoCloseable end) {
        try {
            end.close();
        } catch (Exception e) {
            throw new IllegalStateException(e);
        }
    }

    private interface Work {
        void run() throws IOException;
    }

    /** Ends by itself when an end of it is closed. */
    private static void inBackground(Work work) {
        Thread thread =
                new Thread(
                        () -> {
                            try {
                                work.run();
                            } catch (IOException e) {
                                // cut or closed
                            }
                        },
                        "line");
        thread.setDaemon(true);
        thread.start();
    }
}
