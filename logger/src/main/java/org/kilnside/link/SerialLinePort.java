package org.kilnside.link;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributes;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.locks.LockSupport;
import org.kilnside.wording.Words;

/**
 * A serial port, 8N1, opened for this program alone.
 *
 * <p>DTR and RTS, which on many boards pull RESET when they are asserted: on Windows both are held off from before the
 * port is opened. On Linux and macOS the system itself raises both with every opening, and nothing a program does can
 * prevent that; what restarts a board is the step from low to high. So there hang-up is taken off the port ({@code
 * clearDTR} before opening does it), which leaves the lines up when the port is closed, and a later opening makes no
 * step. The first opening after plugging in can still restart a board: {@link Reopening} watches for it.
 */
final class SerialLinePort implements Port {
    private static final int READ_TIMEOUT_MS = 100;

    // Numbers of errno on Linux and macOS, from errno.h.
    private static final int NO_PERMISSION = 13;
    private static final int BUSY = 16;
    private static final int LOCKED_ON_LINUX = 11;
    private static final int LOCKED_ON_MACOS = 35;

    /** The library's own number for a port this very process has open; as errno it would be a missing file. */
    private static final int OPEN_HERE = 2;

    /** How long to wait when the library has gone before this program has, ns. */
    private static final long ENDING_PAUSE_NS = 20_000_000;

    /** Whether this JVM is at its end: the library then takes its ports away, which is no cable pulled. */
    private static final AtomicBoolean ENDING = new AtomicBoolean();

    static {
        // The library runs this to its end before it cleans up after itself.
        SerialPort.addShutdownHook(new Thread(() -> ENDING.set(true), "serial ports end"));
    }

    private final LinkNotation.Serial link;
    private final Words words;

    SerialLinePort(LinkNotation.Serial link, Words words) {
        this.words = words;
        this.link = link;
    }

    @Override
    public ByteStream open() throws LinkTroubleException {
        refuseWhatIsNoPort();
        SerialPort port;
        try {
            // A new one each time: the library follows a symbolic link once, and USB ports come back under new names.
            port = SerialPort.getCommPort(link.path());
        } catch (SerialPortInvalidPortException e) {
            throw missing();
        }
        port.setComPortParameters(link.baud(), 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        port.clearDTR();
        port.clearRTS();
        // Semi-blocking: a blocking read of many bytes loses the last ones when the cable is pulled.
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_TIMEOUT_MS, 0);
        if (!port.openPort(0)) {
            throw refused(port.getLastErrorCode());
        }
        return new Stream(port);
    }

    @Override
    public String title() {
        return link.path();
    }

    @Override
    public boolean mayRestartController() {
        return true;
    }

    @Override
    public String noiseAdvice(Words its) {
        String other = "serial:" + link.path() + "?baud=" + (link.baud() == 9600 ? 115_200 : 9600);
        return its.text("wire.other_speed", String.valueOf(link.baud()), other);
    }

    private void refuseWhatIsNoPort() throws LinkTroubleException {
        if (!link.path().startsWith("/")) {
            return;
        }
        Path path = Path.of(link.path());
        if (!Files.exists(path)) {
            throw missing();
        }
        if (Files.isDirectory(path) || Files.isRegularFile(path)) {
            throw LinkTroubleException.hopeless(link.path() + " is a "
                    + (Files.isDirectory(path) ? "folder" : "file")
                    + ", not a serial port; to replay a captured stream write replay:" + link.path() + ".");
        }
        if (!Files.isReadable(path) || !Files.isWritable(path)) {
            throw noPermission();
        }
    }

    private LinkTroubleException missing() {
        return LinkTroubleException.passing(words.text("wire.no_port", link.path()));
    }

    private LinkTroubleException refused(int error) {
        if (error == OPEN_HERE && link.path().startsWith("/") && !Files.exists(Path.of(link.path()))) {
            return missing();
        }
        return switch (error) {
            case NO_PERMISSION -> noPermission();
            case BUSY, LOCKED_ON_LINUX, LOCKED_ON_MACOS, OPEN_HERE ->
                LinkTroubleException.passing(words.text("wire.busy", link.path()));
            default -> LinkTroubleException.passing(words.text("wire.not_opened", link.path(), error));
        };
    }

    private LinkTroubleException noPermission() {
        String group = group();
        return LinkTroubleException.hopeless(
                words.text("wire.no_permission", link.path(), group, System.getProperty("user.name")));
    }

    private String group() {
        try {
            return Files.readAttributes(Path.of(link.path()).toRealPath(), PosixFileAttributes.class, new LinkOption[0])
                    .group()
                    .getName();
        } catch (IOException | UnsupportedOperationException e) {
            // The usual group of serial ports, where the system does not tell.
            return "dialout";
        }
    }

    private final class Stream implements ByteStream {
        private final SerialPort port;

        Stream(SerialPort port) {
            this.port = port;
        }

        @Override
        public int read(byte[] buffer) {
            int length = port.readBytes(buffer, buffer.length);
            if (length < 0 && ENDING.get()) {
                LockSupport.parkNanos(ENDING_PAUSE_NS);
                return 0;
            }
            return length < 0 ? END : length;
        }

        @Override
        public void write(byte[] bytes) throws LinkTroubleException {
            if (port.writeBytes(bytes, bytes.length) < 0 && !ENDING.get()) {
                throw LinkTroubleException.passing(words.text("wire.not_written", link.path()));
            }
        }

        @Override
        public void close() {
            port.closePort();
        }
    }
}
