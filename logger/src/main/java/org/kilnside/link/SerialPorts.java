package org.kilnside.link;

import com.fazecast.jSerialComm.SerialPort;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * The serial ports this computer has. Looking at the list opens no USB port. On Linux the library opens the sockets
 * built into the computer (ttyS…, by the driver serial8250) for an instant, to see whether there is a chip behind them:
 * a controller on such a socket, with DTR wired to RESET, is restarted by that.
 */
public final class SerialPorts {
    private SerialPorts() {}

    /**
     * One port.
     *
     * @param path what to type for it
     * @param description what the system calls what is plugged in there
     */
    public record Found(String path, String description) {}

    /** All ports, by path. Pseudo-terminals and links made by hand are not listed by the system; their paths work. */
    public static List<Found> list() {
        return Arrays.stream(SerialPort.getCommPorts())
                .map(port -> new Found(port.getSystemPortPath(), port.getDescriptivePortName()))
                .sorted(Comparator.comparing(Found::path))
                .toList();
    }
}
