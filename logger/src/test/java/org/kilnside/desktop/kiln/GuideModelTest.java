package org.kilnside.desktop.kiln;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.kilnside.desktop.kiln.GuideModel.Stop;
import org.kilnside.files.LinePattern;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/** The first steps without a display, a wire or a disk. The rules are protocol.md's and job.md's. */
class GuideModelTest {
    private static final Words WORDS = Words.of(Locale.UK, Preferences.of(Locale.UK));

    private final HandWorld world = HandWorld.plugged();
    private int begun;
    private long nowMs = 1_000_000;

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
        assertThat(guide.pattern()
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
    void aWrongSpeedIsRecognisedAndTheUsualOnesAreTriedOneAfterTheOther() {
        GuideModel guide = listening();
        world.heard = HandWorld.noise();
        after(guide, 2_000);
        assertThat(step(guide).title()).isEqualTo("What comes is no text");
        choose(guide, "Try the usual speeds");
        assertThat(step(guide).text()).isEqualTo("Trying 9600 baud.");
        after(guide, 4_000);
        assertThat(step(guide).text()).isEqualTo("Trying 57600 baud.");
        world.heard = HandWorld.readings();
        after(guide, 1_000);
        assertThat(step(guide).title()).isEqualTo("Readings come");
        assertThat(guide.port().link()).isEqualTo("serial:/dev/ttyUSB0?baud=57600");
        assertThat(world.open).isZero();
    }

    @Test
    void whenNoSpeedGivesTextItSaysSoAgainInsteadOfTryingForEver() {
        GuideModel guide = listening();
        world.heard = HandWorld.noise();
        after(guide, 2_000);
        choose(guide, "Try the usual speeds");
        for (int i = 0; i < 12; i++) {
            after(guide, 4_000);
        }
        assertThat(guide.stop()).isEqualTo(Stop.NOISE);
        assertThat(world.asked).hasSize(OpenPort.SPEEDS.size());
    }

    @Test
    void silenceIsSaidAndItGoesOnListening() {
        GuideModel guide = listening();
        after(guide, 9_000);
        assertThat(step(guide).text()).startsWith("Nothing comes. Is the controller on");
        world.heard = HandWorld.readings();
        after(guide, 50_000);
        assertThat(guide.stop()).isEqualTo(Stop.FOUND);
    }

    @Test
    void aPortThatIsBusyOrForbiddenSaysWhyInPlaceAndTheListIsThereAgain() {
        GuideModel guide = listening();
        world.heard = HandWorld.refused("/dev/ttyUSB0 is used by another program: close that one.");
        after(guide, 500);
        assertThat(guide.stop()).isEqualTo(Stop.START);
        assertThat(step(guide).trouble()).contains("/dev/ttyUSB0 is used by another program: close that one.");
        assertThat(labels(guide)).contains("/dev/ttyUSB0");
    }

    @Test
    void anyTextForAPortGivesOneSentenceInPlaceAndCanBeMended() {
        GuideModel guide = guide();
        choose(guide, "Type where it is");
        guide.type("café ☕");
        world.refuses = Optional.of("\"café ☕\" is no link.");
        choose(guide, "Go on");
        assertThat(guide.stop()).isEqualTo(Stop.TYPE);
        assertThat(step(guide).trouble()).contains("\"café ☕\" is no link.");
        assertThat(step(guide).field().orElseThrow().value()).isEqualTo("café ☕");
    }

    @Test
    void aBookThatCannotBeRecordedIntoSaysSoAndNothingThatWasTypedIsLost() {
        world.known = new Wire.Known(Wire.Opening.GOES_ON, Optional.empty());
        GuideModel guide = listening();
        world.heard = HandWorld.readings();
        after(guide, 1_000);
        choose(guide, "Go on");
        choose(guide, "It corrects by itself, or I do not know");
        guide.type("Tall Drum");
        world.refuses = Optional.of("Another Kilnside records into this book.");
        choose(guide, "Record, without a plan");
        assertThat(guide.stop()).isEqualTo(Stop.ABOUT);
        assertThat(step(guide).trouble()).contains("Another Kilnside records into this book.");
        assertThat(step(guide).field().orElseThrow().value()).isEqualTo("Tall Drum");
        assertThat(begun).isZero();
    }

    @Test
    void theVirtualKilnIsOneKeyAway() {
        GuideModel guide = guide();
        choose(guide, "Try the virtual kiln first");
        assertThat(world.asked).containsExactly("begin virtual:tall-drum?speed=60&plan=bisque Tall Drum bisque");
        assertThat(begun).isEqualTo(1);
    }

    @Test
    void aMemoryThatCannotBeReadIsSaidAndOneCanLookAgainWhenItIsMended() {
        world.last = Optional.of(new Recordings.Wish("/dev/ttyUSB0", Optional.empty(), Optional.empty()));
        world.refuses = Optional.of("ports.toml: this is not a list of ports; mend it, or delete it.");
        GuideModel guide = guide();
        assertThat(step(guide).trouble()).contains("ports.toml: this is not a list of ports; mend it, or delete it.");
        world.refuses = Optional.empty();
        choose(guide, "Look for ports again");
        assertThat(labels(guide).get(0)).isEqualTo("Record from /dev/ttyUSB0 again");
        assertThat(step(guide).trouble()).isEmpty();
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
    void turningAwayWhileAPortIsListenedToClosesIt() {
        GuideModel guide = listening();
        guide.restart();
        assertThat(world.open).isZero();
        assertThat(guide.stop()).isEqualTo(Stop.START);
    }

    @Test
    void aTrialThatFindsTheKilnHotSaysSoAndLeadsOn() {
        GuideModel guide = listening();
        world.heard = HandWorld.readings();
        after(guide, 1_000);
        choose(guide, "Go on");
        choose(guide, "It corrects by itself, or I do not know");
        world.answer = Optional.of(
                new Wire.Answer(Wire.Outcome.NOT_COLD, Optional.of(Temperature.ofCelsius(312)), Optional.empty()));
        after(guide, 6_000);
        assertThat(step(guide).text()).startsWith("The kiln is at 312 °C, which is not cold");
        choose(guide, "Go on");
        assertThat(guide.stop()).isEqualTo(Stop.ABOUT);
    }

    @Test
    void everyStepHasAWayBackToTheBeginning() {
        GuideModel guide = guide();
        choose(guide, "/dev/ttyUSB0");
        assertThat(labels(guide)).contains("Back to the beginning");
        choose(guide, "It is cold: connect");
        assertThat(labels(guide)).contains("Back to the beginning");
        world.heard = HandWorld.noise();
        after(guide, 2_000);
        assertThat(labels(guide)).contains("Back to the beginning");
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

    private GuideModel guide() {
        GuideModel guide = new GuideModel(world, world, new AtOnce(), () -> begun++);
        guide.tick(nowMs);
        return guide;
    }

    /** With a port chosen and the kiln cold. */
    private GuideModel listening() {
        GuideModel guide = guide();
        choose(guide, "/dev/ttyUSB0");
        if (guide.stop() == Stop.COLD) {
            choose(guide, "It is cold: connect");
        }
        return guide;
    }

    private void after(GuideModel guide, long ms) {
        nowMs += ms;
        guide.tick(nowMs);
    }

    private static GuideStep step(GuideModel guide) {
        return GuideSteps.step(guide, WORDS);
    }

    private static List<String> labels(GuideModel guide) {
        return step(guide).options().stream().map(GuideStep.Option::label).toList();
    }

    private static void choose(GuideModel guide, String label) {
        int index = labels(guide).indexOf(label);
        assertThat(index).as("%s among %s", label, labels(guide)).isNotNegative();
        GuideSteps.choose(guide, WORDS, index);
    }

    private static Wire.Answer answer(Wire.Outcome outcome) {
        return new Wire.Answer(outcome, Optional.of(Temperature.ofCelsius(19)), Optional.empty());
    }

    /** Runs every chore at once, as if the disk took no time. */
    private static final class AtOnce implements Chores {
        @Override
        public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
            T result;
            try {
                result = work.call();
            } catch (Exception e) {
                failed.accept(e);
                return;
            }
            found.accept(result);
        }
    }
}
