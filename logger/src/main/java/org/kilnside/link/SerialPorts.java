package org.kilnside.link;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The serial ports this computer has. Looking at the list opens none of them: opening one can restart a controller. On
 * Linux the library would open the sockets built into the computer for an instant, to see whether there is a chip
 * behind them; the kernel's own list is read there instead.
 */
public final class SerialPorts {
    private static final Path KERNELS_LIST = Path.of("/sys/class/tty");

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
        if (Files.isDirectory(KERNELS_LIST)) {
            return inKernelsList(KERNELS_LIST);
        }
        return Arrays.stream(SerialPort.getCommPorts())
                .map(port -> new Found(port.getSystemPortPath(), port.getDescriptivePortName()))
                .sorted(Comparator.comparing(Found::path))
                .toList();
    }

    /** The ports in a folder laid out as the kernel's: an entry with a device behind it, and a chip where it says of one. */
    static List<Found> inKernelsList(Path folder) {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.filter(entry -> Files.exists(entry.resolve("device")))
                    // A built-in socket of type 0 has no chip behind it (Linux: include/uapi/linux/serial.h,
                    // PORT_UNKNOWN).
                    .filter(entry -> !text(entry.resolve("type")).equals(Optional.of("0")))
                    .map(entry -> new Found("/dev/" + entry.getFileName(), description(entry)))
                    .sorted(Comparator.comparing(Found::path))
                    .toList();
        } catch (IOException e) {
            throw new BadLinkException("The system's list of serial ports, " + folder + ", cannot be read ("
                    + e.getMessage() + "): type the port's own path, such as /dev/ttyUSB0.");
        }
    }

    /** What a USB device calls itself; else that it is built in. */
    private static String description(Path entry) {
        Path device = entry.resolve("device");
        // The adapter's own name stands one level above its interface, or two above where a port lies between.
        for (String above : new String[] {"..", "../.."}) {
            Optional<String> product = text(device.resolve(above).resolve("product"));
            if (product.isPresent()) {
                return product.get();
            }
        }
        return "serial port " + entry.getFileName();
    }

    private static Optional<String> text(Path file) {
        try {
            return Optional.of(
                    Files.readString(file.toRealPath(), StandardCharsets.UTF_8).strip());
        } catch (IOException e) {
            // The kernel gives each kind of port its own files: one that is not there says nothing.
            return Optional.empty();
        }
    }
}
