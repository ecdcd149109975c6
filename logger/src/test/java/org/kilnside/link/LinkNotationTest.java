package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LinkNotationTest {
    @Test
    void aSerialPortWithItsSpeed() {
        assertThat(LinkNotation.parse("serial:/dev/ttyUSB0?baud=9600"))
                .isEqualTo(new LinkNotation.Serial("/dev/ttyUSB0", 9600, Optional.empty()));
    }

    @ParameterizedTest
    @ValueSource(strings = {"/dev/ttyACM1", "serial:/dev/ttyACM1", " /dev/ttyACM1 ", "/dev/ttyACM1?baud=115200"})
    void aBarePathIsASerialPortAtTheUsualSpeed(String text) {
        assertThat(LinkNotation.parse(text))
                .isEqualTo(new LinkNotation.Serial("/dev/ttyACM1", 115_200, Optional.empty()));
    }

    @Test
    void aWindowsPortIsWrittenByItsName() {
        assertThat(LinkNotation.parse("COM3")).isEqualTo(new LinkNotation.Serial("COM3", 115_200, Optional.empty()));
    }

    @Test
    void aNetworkAdapter() {
        assertThat(LinkNotation.parse("tcp:studio.local:4403"))
                .isEqualTo(new LinkNotation.Tcp("studio.local", 4403, Optional.empty()));
        assertThat(LinkNotation.parse("tcp:[fe80::1]:4403"))
                .isEqualTo(new LinkNotation.Tcp("fe80::1", 4403, Optional.empty()));
    }

    @Test
    void aCapturedStreamWithALinePattern() {
        assertThat(LinkNotation.parse("replay:logs/night.txt?speed=60&lines=own.toml"))
                .isEqualTo(new LinkNotation.Replay(Path.of("logs/night.txt"), 60, Optional.of("own.toml")));
        assertThat(LinkNotation.parse("replay:night.txt?speed=max"))
                .isEqualTo(new LinkNotation.Replay(Path.of("night.txt"), LinkNotation.UNPACED, Optional.empty()));
    }

    @Test
    void theVirtualKilnWithAPlan() {
        assertThat(LinkNotation.parse("virtual:Tall Drum?speed=600&plan=bisque.toml"))
                .isEqualTo(new LinkNotation.Virtual("Tall Drum", 600, Optional.of("bisque.toml")));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "serial:/dev/ttyUSB0?baud=115200",
                "serial:/dev/ttyUSB0?baud=9600&lines=own.toml",
                "tcp:studio.local:4403",
                "tcp:[fe80::1]:4403?lines=own.toml",
                "replay:night.txt?speed=0.5",
                "replay:night.txt?speed=max",
                "virtual:demo?speed=600&plan=bisque.toml"
            })
    void theFullNotationReadsBackAsItself(String text) {
        assertThat(LinkNotation.parse(text).text()).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "''                              | No link is given",
                "kiln                            | is no link",
                "usb:/dev/ttyUSB0                | no kind of link called \"usb\"",
                "serial:                         | the port is missing",
                "serial:/dev/tty;reboot          | a port is a path",
                "serial:/dev/ttyUSB0?baud=fast   | baud is a whole number from 300 to 4000000, found \"fast\"",
                "serial:/dev/ttyUSB0?baud=99     | baud is a whole number",
                "serial:/dev/ttyUSB0?speed=60    | there is no option speed; this kind of link takes baud and lines",
                "serial:/dev/ttyUSB0?baud        | options such as speed=60, found \"baud\"",
                "serial:/dev/ttyUSB0?baud=9600&baud=9600 | baud is given twice",
                "tcp:studio.local                | after the host stands a port",
                "tcp:studio.local:0              | a port from 1 to 65535, found \"0\"",
                "tcp:studio.local:70000          | a port from 1 to 65535",
                "tcp::4403                       | the host is missing",
                "replay:                         | the file is missing",
                "replay:a.txt?speed=0            | speed is a number above 0",
                "replay:a.txt?speed=-1           | speed is a number above 0",
                "replay:a.txt?speed=1e9          | speed is a number above 0",
                "virtual:                        | the kiln's name is missing",
                "virtual:demo?baud=9600          | there is no option baud; this kind of link takes speed and plan",
            })
    void aBadNotationGetsOneSentenceOnWhatIsWrong(String text, String sentence) {
        assertThatThrownBy(() -> LinkNotation.parse(text))
                .isInstanceOf(BadLinkException.class)
                .hasMessageContaining(sentence)
                .hasMessageEndingWith(".");
    }
}
