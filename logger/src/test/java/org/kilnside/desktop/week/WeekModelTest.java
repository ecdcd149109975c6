package org.kilnside.desktop.week;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.desktop.week.HandWeek.BOWLS;
import static org.kilnside.desktop.week.HandWeek.FRIDAY;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.session.Connection;
import org.kilnside.week.Load;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Week;
import org.kilnside.wording.SampleSnapshots;

class WeekModelTest {
    private static HandWeek desk() {
        return new HandWeek(Optional.of(BOWLS));
    }

    private static String said(HandWeek desk) {
        WeekLines lines = desk.lines();
        return (lines.sentence() + " " + lines.next() + " " + String.join(" ", lines.more())).replace('\u00a0', ' ');
    }

    @Test
    void withoutAWeekOneCanBeginWithOneLoadWhichIsOnDiskAtOnce() {
        HandWeek desk = new HandWeek(Optional.empty());
        assertThat(desk.model.isOpen()).isFalse();
        desk.model.loads().begin();
        assertThat(desk.model.isOpen()).isTrue();
        assertThat(desk.onDisk()).isEqualTo(desk.week());
        assertThat(desk.week().loads()).extracting(Load::planName).containsExactly("bisque");
        // Nobody is there by night unless somebody says so.
        assertThat(desk.week().there().hours()).hasSize(1);
    }

    @Test
    void orWithACopyOfTheExample() {
        HandWeek desk = new HandWeek(Optional.empty());
        desk.model.loads().beginWithExample();
        assertThat(desk.onDisk().loads()).hasSize(3);
    }

    @Test
    void aWeekThatIsThereIsNotBegunAnew() {
        HandWeek desk = desk();
        desk.model.loads().begin();
        desk.model.loads().beginWithExample();
        assertThat(desk.week().name()).isEqualTo("For the café");
        assertThat(desk.file).contains(BOWLS);
    }

    @Test
    void eachChangeIsOnDiskAtOnceAndCanBeTakenBack() {
        HandWeek desk = desk();
        Week before = desk.week();
        desk.type(WeekField.DUE, "Thu 12:00");
        desk.model.left();
        desk.model.select(1);
        desk.type(WeekField.PLAN, "slow-bisque");
        assertThat(desk.onDisk()).isEqualTo(desk.week());
        assertThat(desk.week().due()).contains(Instant.parse("2026-12-03T11:00:00Z"));
        assertThat(desk.week().loads().get(0).plan().name()).isEqualTo("Slow bisque");
        desk.model.undo();
        desk.model.undo();
        assertThat(desk.week()).isEqualTo(before);
        assertThat(desk.onDisk()).isEqualTo(before);
        desk.model.redo();
        assertThat(desk.onDisk().due()).isPresent();
    }

    @Test
    void whatIsNoMomentIsRefusedInOneSentenceAndStaysToBeMended() {
        HandWeek desk = desk();
        desk.type(WeekField.DUE, "soonish");
        WeekModel.Rejected rejected =
                desk.model.rejected(new WeekModel.Place(WeekField.DUE, 0)).orElseThrow();
        assertThat(rejected.text()).isEqualTo("soonish");
        assertThat(rejected.sentence()).startsWith("Found \"soonish\", expected a day and a time such as");
        assertThat(desk.file).contains(BOWLS);
        desk.model.undo();
        assertThat(desk.model.rejected(new WeekModel.Place(WeekField.DUE, 0))).isEmpty();
    }

    @Test
    void aLoadsNewNameGoesAlongToWhatWaitsForIt() {
        HandWeek desk = desk();
        desk.model.select(1);
        desk.type(WeekField.LOAD_NAME, "Bowls");
        assertThat(desk.week().loads().get(1).after().orElseThrow().load()).isEqualTo("Bowls");
        desk.type(WeekField.LOAD_NAME, "Soup bowls, glazed");
        assertThat(desk.model
                        .rejected(new WeekModel.Place(WeekField.LOAD_NAME, 1))
                        .orElseThrow()
                        .sentence())
                .contains("another load called Soup bowls, glazed");
    }

    @Test
    void nothingWaitsForItselfByWayOfOthers() {
        HandWeek desk = desk();
        assertThat(WeekEdits.mayWaitFor(desk.week(), 1)).isEmpty();
        assertThat(WeekEdits.mayWaitFor(desk.week(), 2)).containsExactly("Soup bowls, raw");
    }

    @Test
    void oneLoadStandsInTheKilnAndWaitsForNothing() {
        HandWeek desk = desk();
        desk.model.select(2);
        desk.type(WeekField.PACKED, WeekTexts.YES);
        assertThat(desk.week().loads().get(1).after()).isEmpty();
        desk.model.select(1);
        desk.type(WeekField.PACKED, WeekTexts.YES);
        assertThat(desk.onDisk().loads()).extracting(Load::packed).containsExactly(true, false);
    }

    @Test
    void loadsAreAddedMovedAndTakenOut() {
        HandWeek desk = desk();
        desk.model.select(1);
        desk.model.loads().add();
        assertThat(desk.model.selected()).isEqualTo(2);
        assertThat(desk.week().loads())
                .extracting(Load::name)
                .containsExactly("Soup bowls, raw", "Load 3", "Soup bowls, glazed");
        desk.model.loads().move(1);
        assertThat(desk.model.load().orElseThrow().name()).isEqualTo("Load 3");
        assertThat(desk.onDisk().loads().get(2).name()).isEqualTo("Load 3");
        desk.model.loads().remove();
        assertThat(desk.onDisk().loads()).hasSize(2);
        for (int i = 0; i < 8; i++) {
            desk.model.loads().add();
        }
        assertThat(desk.week().loads()).hasSize(Week.MOST_LOADS);
        assertThat(desk.model.notice().orElseThrow().text(HandWeek.words())).contains("at most 8 loads");
    }

    @Test
    void theLoadLookedAtStaysSoWhereTheListIsTurnedBack() {
        HandWeek desk = desk();
        desk.model.select(2);
        desk.model.loads().move(-1);
        desk.model.undo();
        assertThat(desk.model.load().orElseThrow().name()).isEqualTo("Soup bowls, glazed");
    }

    @Test
    void theLastLoadStays() {
        HandWeek desk = new HandWeek(Optional.empty());
        desk.model.loads().begin();
        desk.model.select(1);
        desk.model.loads().remove();
        assertThat(desk.week().loads()).hasSize(1);
        assertThat(desk.model.notice().orElseThrow().isTrouble()).isTrue();
    }

    @Test
    void whatWaitedForALoadTakenOutIsDryFromTheTimeThatWasPlanned() {
        HandWeek desk = desk();
        desk.think();
        PlannedFiring raw = desk.model
                .live()
                .answer()
                .orElseThrow()
                .firing("Soup bowls, raw")
                .orElseThrow();
        desk.model.select(1);
        desk.model.loads().remove();
        assertThat(desk.week().loads().get(0).ready()).contains(raw.out().plus(Duration.ofHours(24)));
        assertThat(desk.model.notice().orElseThrow().text(HandWeek.words()))
                .contains("Soup bowls, glazed (")
                .contains("counts as dry");
        assertThat(desk.onDisk()).isEqualTo(desk.week());
    }

    @Test
    void aFileThatCannotBeReadIsSaidWithItsLineAndNeverWrittenOver() {
        HandWeek desk = new HandWeek(Optional.of(BOWLS.replace("\"bisque\"", "\"bisk\"")));
        assertThat(desk.model.keeping().broken().orElseThrow()).startsWith("my-week.toml:12");
        desk.model.loads().begin();
        desk.model.loads().add();
        desk.model.undo();
        assertThat(desk.file.orElseThrow()).contains("bisk");
        desk.file = Optional.of(BOWLS);
        desk.model.keeping().look();
        assertThat(desk.model.isOpen()).isTrue();
    }

    @Test
    void whatIsChangedElsewhereIsTakenAndUndoBringsBackWhatWasHere() {
        HandWeek desk = desk();
        desk.file = Optional.of(BOWLS.replace("36 kg", "30 kg"));
        desk.model.keeping().look();
        assertThat(desk.week().loads().get(0).kg()).hasValue(30);
        desk.model.undo();
        assertThat(desk.onDisk().loads().get(0).kg()).hasValue(36);
    }

    @Test
    void aFileThatBreaksWhileTheWindowIsOpenIsLeftAlone() {
        HandWeek desk = desk();
        desk.file = Optional.of("name = ");
        desk.model.keeping().look();
        desk.type(WeekField.NAME, "For the market");
        assertThat(desk.model.isOpen()).isFalse();
        assertThat(desk.file).contains("name = ");
    }

    @Test
    void changesDuringASaveAreWrittenAfterItOverWhatItWrote() {
        HandWeek desk = desk();
        desk.diskAtOnce = false;
        desk.type(WeekField.NAME, "For the market");
        desk.type(WeekField.ROOM, "2");
        desk.type(WeekField.ROOM, "3");
        boolean[] left = new boolean[1];
        assertThat(desk.model.keeping().isSettled(() -> left[0] = true)).isFalse();
        desk.drain();
        assertThat(desk.lastRead).hasSize(2);
        assertThat(desk.onDisk().room().orElseThrow().celsius()).isEqualTo(3);
        assertThat(left[0]).isTrue();
    }

    @Test
    void whatCannotBeWrittenIsSaidAndTheNextChangeTriesAgain() {
        HandWeek desk = desk();
        desk.broken = Optional.of("the disk is full");
        desk.type(WeekField.NAME, "For the market");
        assertThat(desk.model.notice().orElseThrow().text(HandWeek.words())).isEqualTo("Not saved: the disk is full");
        desk.broken = Optional.empty();
        desk.type(WeekField.ROOM, "2");
        assertThat(desk.onDisk().name()).isEqualTo("For the market");
    }

    @Test
    void onlyTheNewestOfManyChangesIsPlanned() {
        HandWeek desk = desk();
        desk.type(WeekField.ROOM, "1");
        desk.type(WeekField.ROOM, "2");
        desk.type(WeekField.ROOM, "3");
        desk.think();
        assertThat(desk.planned)
                .extracting(Week::room)
                .hasSize(2)
                .last()
                .isEqualTo(desk.week().room());
        assertThat(said(desk))
                .startsWith("All in time: the last load is out")
                .contains("Next, Soup bowls, raw: Light it");
    }

    @Test
    void aPlanOfTheWeekBeforeAChangeIsSaidToBeThat() {
        HandWeek desk = desk();
        desk.think();
        desk.type(WeekField.ROOM, "2");
        assertThat(said(desk))
                .contains("This is of the week before your last change")
                .doesNotContain("Next,");
        assertThat(desk.lines().rows()).extracting(WeekLines.Row::line).contains("…");
    }

    @Test
    void aTimeToLightThatHasGoneByIsNotShownAsIfStillAhead() {
        HandWeek desk = desk();
        desk.think();
        Instant light =
                desk.model.live().answer().orElseThrow().plan().firings().get(0).light();
        desk.now = light.plusSeconds(1);
        assertThat(said(desk))
                .contains("The time to light Soup bowls, raw")
                .contains("has gone by")
                .doesNotContain("Next,");
        desk.model.tick(SampleSnapshots.nothingYet(Connection.State.CONNECTING));
        desk.think();
        assertThat(desk.model
                        .live()
                        .answer()
                        .orElseThrow()
                        .plan()
                        .firings()
                        .get(0)
                        .light())
                .isAfter(light);
        assertThat(said(desk)).contains("Next, Soup bowls, raw");
    }

    @Test
    void timeGoesOnAndTheDaysArePlannedAnewEveryQuarterOfAnHour() {
        HandWeek desk = desk();
        desk.think();
        int before = desk.planned.size();
        desk.now = FRIDAY.plus(Duration.ofMinutes(14));
        desk.model.tick(SampleSnapshots.nothingYet(Connection.State.CONNECTING));
        assertThat(desk.thoughts).isEmpty();
        desk.now = FRIDAY.plus(Duration.ofMinutes(15));
        desk.model.tick(SampleSnapshots.nothingYet(Connection.State.CONNECTING));
        desk.think();
        assertThat(desk.planned).hasSize(before + 1);
    }

    @Test
    void whileItsKilnIsFiredNothingIsPlannedBeforeTheLateEndOfItsCooling() {
        HandWeek desk = desk();
        desk.now = SampleSnapshots.BEGAN.plusMillis(SampleSnapshots.HOST_MS);
        desk.model.tick(SampleSnapshots.coolingForecast());
        desk.think();
        desk.model.tick(SampleSnapshots.coolingForecast());
        desk.think();
        Instant until = desk.model.taken().until().orElseThrow();
        LiveWeek.Answer answer = desk.model.live().answer().orElseThrow();
        assertThat(answer.plan().firings().get(0).light()).isAfterOrEqualTo(until);
        assertThat(said(desk)).contains("Tall Drum is being fired now: planned from");
        // The file says nothing of it.
        assertThat(desk.onDisk().kilnFree()).isEmpty();
    }

    @Test
    void theLoadThatIsInTheKilnNowIsOutWhenThatIsCool() {
        HandWeek desk = desk();
        desk.now = SampleSnapshots.BEGAN.plusMillis(SampleSnapshots.HOST_MS);
        desk.model.tick(SampleSnapshots.coolingForecast());
        desk.think();
        desk.model.tick(SampleSnapshots.coolingForecast());
        desk.think();
        Instant until = desk.model.taken().until().orElseThrow();
        desk.model.select(1);
        desk.model.loads().remove();
        assertThat(desk.week().loads().get(0).ready()).contains(until.plus(Duration.ofHours(24)));
    }

    @Test
    void aLoadThereIsNoTimeForSaysWhy() {
        HandWeek desk = desk();
        // Nobody is ever there long enough for a top and its doubt.
        desk.type(WeekField.THERE, "Mon 07:00-07:30");
        desk.think();
        desk.model.select(1);
        WeekLines lines = desk.lines();
        assertThat(lines.isTrouble()).isTrue();
        assertThat(lines.detail().light()).startsWith("No time is found for Soup bowls, raw");
        assertThat(lines.rows().get(1).line()).isEqualTo("not planned");
        desk.model.select(2);
        assertThat(desk.lines().detail().light()).contains("has to wait for Soup bowls, raw");
    }
}
