package org.kilnside.desktop.kiln;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.files.LinePattern;
import org.kilnside.sensor.Amplifier;

/** The first steps without a display, a wire or a disk. The rules are protocol.md's and job.md's. */
class GuideModelTest extends GuideDesk {
    @Test
    void withNothingSetUpItOffersThePortsTheVirtualKilnAndATypedOneAndOpensNone() {
        GuideModel guide = guide();

        assertThat(step(guide).title()).isEqualTo("Which kiln shall be watched?");
        assertThat(labels(guide))
                .containsExactly(
                        "/dev/ttyUSB0", "Try the virtual kiln first", "Type where it is", "Look for ports again");
        assertThat(world.asked).isEmpty();
    }

    @Test
    void fourKeysLeadFromAPortToARecordingWhenTheControllerSpeaksTheProtocol() {
        GuideModel guide = guide();
        choose(guide, "/dev/ttyUSB0");
        assertThat(step(guide).caution()).contains("Do not connect for the first time during a firing.");
        choose(guide, "It is cold: connect");
        world.heard = HandWorld.readings();
        after(guide, 1_000);
        assertThat(step(guide).title()).isEqualTo("Readings come");
        assertThat(step(guide).facts())
                .contains(
                        new GuideStep.Fact("In the kiln", "19 °C"),
                        new GuideStep.Fact("Controller", "Rook Lane 1"),
                        new GuideStep.Fact("Thermocouple", "type K, MAX31855"));
        choose(guide, "Go on");
        choose(guide, "It corrects by itself, or I do not know");
        world.answer = Optional.of(answer(Wire.Outcome.GOES_ON));
        after(guide, 15_000);
        assertThat(step(guide).title()).isEqualTo("Connecting leaves the controller running");
        choose(guide, "Go on");
        guide.type("  Tall Drum ");
        choose(guide, "Record, following bisque");

        assertThat(world.asked)
                .containsExactly(
                        "listen serial:/dev/ttyUSB0?baud=115200",
                        "try serial:/dev/ttyUSB0?baud=115200",
                        "begin serial:/dev/ttyUSB0?baud=115200 Tall Drum bisque");
        assertThat(begun).isEqualTo(1);
        assertThat(world.open).as("links left open").isZero();
    }

    @Test
    void whileTheKilnFiresNothingIsOpenedBeforeTheRecordingItself() {
        GuideModel guide = guide();
        choose(guide, "/dev/ttyUSB0");
        choose(guide, "It is firing: connect once, at my own risk");
        assertThat(world.asked).isEmpty();
        choose(guide, "Record, without a plan");
        assertThat(world.asked).containsExactly("begin serial:/dev/ttyUSB0?baud=115200 - -");
    }

    @Test
    void aPortKnownToLeaveTheControllerRunningIsListenedToWithoutAQuestionAndNotTriedAgain() {
        world.known = new Wire.Known(Wire.Opening.GOES_ON, Optional.empty());
        GuideModel guide = guide();
        choose(guide, "/dev/ttyUSB0");
        assertThat(guide.stop()).isEqualTo(Stop.LISTEN);
        world.heard = HandWorld.readings();
        after(guide, 1_000);
        choose(guide, "Go on");
        choose(guide, "It corrects by itself, or I do not know");
        assertThat(guide.stop()).isEqualTo(Stop.ABOUT);
        assertThat(world.asked).noneMatch(asked -> asked.startsWith("try"));
    }

    @Test
    void aPortKnownToRestartItsControllerIsNotOpenedBeforeThePersonSaysTheKilnIsCold() {
        world.known = new Wire.Known(Wire.Opening.RESTARTS, Optional.of(java.time.LocalDate.of(2026, 11, 25)));
        GuideModel guide = guide();
        choose(guide, "/dev/ttyUSB0");
        assertThat(step(guide).caution().orElseThrow())
                .contains("restarts its controller")
                .contains("25 Nov");
        assertThat(world.asked).isEmpty();
    }

    @Test
    void linesOfAControllersOwnAreShownAsNumbersWithTheirMeaningAndReadWithOneKey() {
        GuideModel guide = listening();
        world.heard = HandWorld.foreign();
        after(guide, 6_000);

        assertThat(step(guide).title()).isEqualTo("Your controller has lines of its own");
        assertThat(step(guide).facts())
                .contains(new GuideStep.Fact("Number 2", "temperature in the kiln, °C; just now 22 °C"));
        assertThat(labels(guide).get(0)).isEqualTo("These are right: read them so");
        choose(guide, "These are right: read them so");
        choose(guide, "MAX31855 with type K, its number as it is");

        assertThat(world.asked)
                .endsWith("save my controller MAX31855", "listen serial:/dev/ttyUSB0?baud=115200&lines=my-controller");
    }

    @Test
    void theUnitOfAProposalIsChangedWithOneKeyAndTheNumberWithIt() {
        GuideModel guide = listening();
        world.heard = HandWorld.foreign();
        after(guide, 6_000);
        choose(guide, "The temperatures are in °F");
        assertThat(step(guide).facts())
                .contains(new GuideStep.Fact("Number 2", "temperature in the kiln, °F; just now −6 °C"));
        assertThat(labels(guide)).contains("The temperatures are in °C");
    }

    @Test
    void whereTheProposalTakesTheWrongNumberForTheTemperatureAnotherIsOneKeyAway() {
        GuideModel guide = listening();
        world.heard = HandWorld.foreign();
        after(guide, 6_000);
        choose(guide, "Number 3 is the temperature in the kiln");
        assertThat(step(guide).facts())
                .contains(new GuideStep.Fact("Number 3", "temperature in the kiln, °C; just now 650 °C"))
                .noneMatch(fact -> fact.value().startsWith("set-point"));
        choose(guide, "Number 4 is the temperature in the kiln");
        choose(guide, "Number 1 is the temperature in the kiln");
        choose(guide, "Number 2 is the temperature in the kiln");
        assertThat(guide.lines()
                        .pattern()
                        .orElseThrow()
                        .places()
                        .get(LinePattern.Quantity.TEMPERATURE)
                        .at())
                .isEqualTo("2");
    }

    @Test
    void whenItsLinesCarryNoUptimeThePersonIsAskedWhatTheControllersDisplayDid() {
        GuideModel guide = listening();
        world.heard = HandWorld.readings();
        after(guide, 1_000);
        choose(guide, "Go on");
        choose(guide, "It corrects by itself, or I do not know");
        world.answer = Optional.of(answer(Wire.Outcome.NO_UPTIME));
        after(guide, 15_000);
        choose(guide, "It started anew");
        assertThat(world.asked).contains("remember serial:/dev/ttyUSB0?baud=115200 true");
        assertThat(guide.stop()).isEqualTo(Stop.ABOUT);
    }

    @Test
    void theVirtualKilnIsOneKeyAway() {
        GuideModel guide = guide();
        choose(guide, "Try the virtual kiln first");
        assertThat(world.asked).containsExactly("begin virtual:tall-drum?speed=60&plan=bisque Tall Drum bisque");
        assertThat(begun).isEqualTo(1);
    }

    @Test
    void theLastRecordingIsOfferedFirstButNothingIsOpenedByItself() {
        world.last = Optional.of(new Recordings.Wish(
                "serial:/dev/ttyUSB0?baud=115200", Optional.of("Tall Drum"), Optional.of("bisque")));
        world.known = new Wire.Known(Wire.Opening.RESTARTS, Optional.empty());
        GuideModel guide = guide();
        GuideStep step = step(guide);
        assertThat(step.options().get(0))
                .isEqualTo(new GuideStep.Option("Record from /dev/ttyUSB0 again", "Tall Drum, bisque"));
        assertThat(step.caution().orElseThrow()).startsWith("Connecting to this port restarts its controller.");
        assertThat(world.asked).isEmpty();
        GuideSteps.choose(guide, WORDS, 0);
        assertThat(world.asked).containsExactly("begin serial:/dev/ttyUSB0?baud=115200 Tall Drum bisque");
    }

    @Test
    void whereAnotherKilnsideRecordsTheWindowSaysThatTheConnectionIsChangedThere() {
        world.role = Recordings.Role.ELSEWHERE;
        GuideModel guide = guide();
        assertThat(step(guide).text()).startsWith("Another Kilnside records into this book");
        assertThat(labels(guide)).containsExactly("Show the firing");
    }

    @Test
    void whileThisWindowRecordsAnotherPortIsChosenOnlyWithTheWordThatItEndsTheRecording() {
        world.role = Recordings.Role.HERE;
        world.here = Optional.of(
                new Recordings.Wish("serial:/dev/ttyUSB1?baud=115200", Optional.of("Tall Drum"), Optional.empty()));
        GuideModel guide = guide();
        assertThat(step(guide).text())
                .isEqualTo("This window records from /dev/ttyUSB1. Choosing another below ends that recording.");
        assertThat(labels(guide).get(0)).isEqualTo("Show the firing");
        choose(guide, "/dev/ttyUSB0");
        assertThat(world.asked).containsExactly("end");
        assertThat(guide.stop()).isEqualTo(Stop.COLD);
    }

    @Test
    void aControllerThatSendsDegreesOfItsOwnIsAskedWhetherTheyAreAChipsAndTheBookIsTold() {
        world.known = new Wire.Known(Wire.Opening.GOES_ON, Optional.empty());
        GuideModel guide = guide();
        choose(guide, "/dev/ttyUSB0");
        world.heard = HandWorld.readingsOf(Amplifier.CELSIUS);
        after(guide, 1_000);
        choose(guide, "Go on");
        assertThat(step(guide).title()).isEqualTo("How does your controller get its °C?");
        assertThat(labels(guide)).contains("MAX6675 with type K, its number as it is");
        choose(guide, "MAX31855 with type K, its number as it is");
        guide.type("Tall Drum");
        choose(guide, "Record, without a plan");
        assertThat(world.told.orElseThrow().uncorrected()).contains(Amplifier.MAX31855);
        assertThat(world.told.orElseThrow().probe().amplifier()).isEqualTo(Amplifier.CELSIUS);
    }

    @Test
    void aChipThatFollowsTheCurveItselfNeedsNoQuestion() {
        world.known = new Wire.Known(Wire.Opening.GOES_ON, Optional.empty());
        GuideModel guide = guide();
        choose(guide, "/dev/ttyUSB0");
        world.heard = HandWorld.readingsOf(Amplifier.MAX31856);
        after(guide, 1_000);
        choose(guide, "Go on");
        assertThat(guide.stop()).isEqualTo(Stop.ABOUT);
    }
}
