package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The kernel's list of ports as it lays it out: published in the kernel's documentation, ABI/testing/sysfs-tty. */
class SerialPortsTest {
    @TempDir
    private Path folder;

    private Path list;

    private Path entry(String name) throws IOException {
        list = Files.createDirectories(folder.resolve("class"));
        return Files.createDirectories(list.resolve(name));
    }

    private void behind(Path entry, Path device) throws IOException {
        Files.createDirectories(device);
        Files.createSymbolicLink(entry.resolve("device"), device);
    }

    @Test
    void aUsbAdapterIsListedByTheNameItGivesItself() throws IOException {
        Path adapter = Files.createDirectories(folder.resolve("usb/1-1"));
        Files.writeString(adapter.resolve("product"), "Isolated USB Serial\n");
        behind(entry("ttyUSB0"), adapter.resolve("1-1:1.0/ttyUSB0"));
        behind(entry("ttyACM0"), adapter.resolve("1-1:1.1"));
        assertThat(SerialPorts.inKernelsList(list))
                .containsExactly(
                        new SerialPorts.Found("/dev/ttyACM0", "Isolated USB Serial"),
                        new SerialPorts.Found("/dev/ttyUSB0", "Isolated USB Serial"));
    }

    @Test
    void aBuiltInSocketIsListedOnlyWithAChipBehindIt() throws IOException {
        Path first = entry("ttyS0");
        Files.writeString(first.resolve("type"), "4\n");
        behind(first, folder.resolve("platform/serial8250/0"));
        Path second = entry("ttyS1");
        Files.writeString(second.resolve("type"), "0\n");
        behind(second, folder.resolve("platform/serial8250/1"));
        assertThat(SerialPorts.inKernelsList(list))
                .extracting(SerialPorts.Found::path)
                .containsExactly("/dev/ttyS0");
    }

    @Test
    void consolesWithoutADeviceAreNoPorts() throws IOException {
        entry("tty1");
        entry("console");
        assertThat(SerialPorts.inKernelsList(list)).isEmpty();
    }

    @Test
    void aListThatCannotBeReadIsSaidWithWhatToTypeInstead() {
        assertThatThrownBy(() -> SerialPorts.inKernelsList(folder.resolve("nowhere")))
                .isInstanceOf(BadLinkException.class)
                .hasMessageContaining("/dev/ttyUSB0");
    }

    @Test
    void lookingAtTheListOfThisComputerWorks() {
        assertThat(SerialPorts.list())
                .allSatisfy(found -> assertThat(found.path()).isNotBlank());
    }
}
