package org.kilnside.host;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Whether this computer runs on its battery. May take a second; not for threads that must not wait. */
final class Battery {
    private static final Logger LOG = LoggerFactory.getLogger(Battery.class);
    private static final Path SUPPLIES = Path.of("/sys/class/power_supply");

    private Battery() {}

    /** Empty when the system does not say, as on a board without a battery. */
    static Optional<Boolean> inUse() {
        String system = System.getProperty("os.name");
        if (system.startsWith("Linux")) {
            return inUse(SUPPLIES);
        }
        if (system.startsWith("Mac")) {
            return said("pmset", "-g", "batt").map(text -> text.contains("Battery Power"));
        }
        if (system.startsWith("Windows")) {
            // 1 = discharging (Win32_Battery); nothing where there is no battery.
            return said(
                            "powershell",
                            "-NoProfile",
                            "-NonInteractive",
                            "-Command",
                            "(Get-CimInstance Win32_Battery).BatteryStatus")
                    .map(String::strip)
                    .filter(text -> !text.isEmpty())
                    .map(text -> text.startsWith("1") && !text.matches("1\\d.*"));
        }
        return Optional.empty();
    }

    /** By the kernel's own files (Linux, Documentation/ABI/testing/sysfs-class-power). */
    static Optional<Boolean> inUse(Path supplies) {
        boolean mains = false;
        boolean discharging = false;
        boolean known = false;
        try (DirectoryStream<Path> found = Files.newDirectoryStream(supplies)) {
            for (Path supply : found) {
                String type = read(supply.resolve("type"));
                // A mouse has a battery too; it is of scope "Device".
                if (type.equals("Battery") && !read(supply.resolve("scope")).equals("Device")) {
                    known = true;
                    discharging |= read(supply.resolve("status")).equals("Discharging");
                } else if (type.equals("Mains") || type.startsWith("USB")) {
                    mains |= read(supply.resolve("online")).equals("1");
                }
            }
        } catch (IOException e) {
            LOG.debug("no word of the power supply", e);
            return Optional.empty();
        }
        return known ? Optional.of(discharging && !mains) : Optional.empty();
    }

    private static String read(Path file) {
        try {
            return Files.readString(file, StandardCharsets.UTF_8).strip();
        } catch (IOException e) {
            // Not every supply has every file.
            return "";
        }
    }

    private static Optional<String> said(String... words) {
        try {
            Process process =
                    new ProcessBuilder(List.of(words)).redirectErrorStream(true).start();
            process.getOutputStream().close();
            if (!process.waitFor(10, TimeUnit.SECONDS)) {
                process.destroyForcibly();
                return Optional.empty();
            }
            return Optional.of(new String(process.getInputStream().readNBytes(4_000), StandardCharsets.UTF_8));
        } catch (IOException e) {
            LOG.debug("no word of the battery", e);
            return Optional.empty();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        }
    }
}
