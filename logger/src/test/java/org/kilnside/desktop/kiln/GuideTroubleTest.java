package org.kilnside.desktop.kiln;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.quantity.Temperature;

/** What can go wrong in the first steps, and how one goes on from it. */
class GuideTroubleTest extends GuideDesk {
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
}
