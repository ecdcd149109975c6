package org.kilnside.desktop.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.book.Book;
import org.kilnside.book.ListedFiring;
import org.kilnside.book.NotedCone;
import org.kilnside.book.RookLaneBook;
import org.kilnside.desktop.book.FiringList.Filter;
import org.kilnside.desktop.book.FiringList.Order;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.Cone;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.DayText;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/** Searching and sorting a book of real tables; what is expected follows from how RookLaneBook writes it: own output. */
class FiringListTest {
    private static final Words WORDS = Words.of(
            Language.ENGLISH,
            new Preferences(
                    TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), Opening.LID));

    @TempDir
    static Path folder;

    private static FiringList list;

    @BeforeAll
    static void readTheBook() {
        Path path = folder.resolve("rook-lane.book");
        RookLaneBook.write(path, 30, 300_000);
        RookLaneBook.describeLoads(path);
        try (Book book = Book.open(path)) {
            list = FiringList.EMPTY.with(book.list());
        }
    }

    private static List<ListedFiring> found(String words) {
        return list.with(new Filter(words, Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty()))
                .visible(WORDS);
    }

    @Test
    void theNewestStandsFirst() {
        List<ListedFiring> all = list.visible(WORDS);
        assertThat(all).hasSize(30);
        assertThat(all.get(0).startedAt()).isAfter(all.get(29).startedAt());
    }

    @Test
    void everyWordMustBeFoundSomewhereInTheRecord() {
        assertThat(found("planters"))
                .isNotEmpty()
                .allMatch(firing -> firing.searched().contains("planters"));
        assertThat(found("iron moth ran")).isNotEmpty();
        assertThat(found("iron moth nowhere")).isEmpty();
        assertThat(found("SALTMARSH")).hasSize(2);
        assertThat(found("  ")).hasSize(30);
    }

    @Test
    void aNumberFindsItsFiringAndADateItsDays() {
        assertThat(found("17")).extracting(ListedFiring::number).contains(17L);
        assertThat(found("2026-11"))
                .isNotEmpty()
                .allMatch(firing -> firing.startedAt().toString().startsWith("2026-11")
                        || firing.startedAt().toString().startsWith("2026-10-31"));
        assertThat(found("nov 2026")).hasSameSizeAs(found("2026-11"));
    }

    @Test
    void kilnPlanConeAndYearNarrowTheList() {
        Filter thimble = new Filter("", Optional.of("Thimble"), Optional.empty(), Optional.empty(), Optional.empty());
        assertThat(list.with(thimble).visible(WORDS))
                .hasSize(3)
                .allMatch(firing -> firing.kiln().equals(Optional.of("Thimble")));
        Filter bisque = new Filter("", Optional.empty(), Optional.of("Bisque"), Optional.empty(), Optional.empty());
        assertThat(list.with(bisque).visible(WORDS)).hasSize(15);
        for (String cone : list.cones()) {
            Filter its = new Filter("", Optional.empty(), Optional.empty(), Optional.of(cone), Optional.empty());
            assertThat(list.with(its).visible(WORDS)).as("cone " + cone).isNotEmpty();
        }
        assertThat(list.cones()).contains("06").doesNotContain("6.0");
    }

    @Test
    void theDaysItBeganOnNarrowTheList() {
        List<ListedFiring> all = list.all();
        LocalDate first =
                all.get(0).startedAt().atZone(ZoneId.of("Europe/Amsterdam")).toLocalDate();
        Filter that = new Filter(
                "",
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.of(new DayText.Days(Optional.of(first), Optional.of(first.plusDays(1)))));
        assertThat(list.with(that).visible(WORDS))
                .isNotEmpty()
                .allSatisfy(firing -> assertThat(firing.startedAt()
                                .atZone(ZoneId.of("Europe/Amsterdam"))
                                .toLocalDate())
                        .isEqualTo(first))
                .hasSizeLessThan(all.size());
    }

    @Test
    void sortedBySomethingTwiceItRunsTheOtherWay() {
        FiringList byPeak = list.by(Order.PEAK);
        List<ListedFiring> falling = byPeak.visible(WORDS);
        assertThat(falling.get(0).peak().orElseThrow().celsius())
                .isGreaterThan(falling.get(29).peak().orElseThrow().celsius());
        List<ListedFiring> rising = byPeak.by(Order.PEAK).visible(WORDS);
        assertThat(rising.get(0)).isEqualTo(falling.get(29));
        List<ListedFiring> byCone = list.by(Order.CONE).visible(WORDS);
        assertThat(FiringList.nearest(byCone.get(0)).orElseThrow())
                .isGreaterThan(FiringList.nearest(byCone.get(29)).orElseThrow());
        assertThat(list.by(Order.KILN).visible(WORDS).get(0).kiln()).contains("Tall Drum");
    }

    @Test
    void aLineSaysAConeWithItsTemperatureAndIsReadOutWhole() {
        ListedFiring bisque = list.with(new Filter(
                        "", Optional.of("Tall Drum"), Optional.of("Bisque"), Optional.of("06"), Optional.empty()))
                .visible(WORDS)
                .get(0);
        FiringLine line = FiringLine.of(bisque, true, WORDS);
        assertThat(line.cone()).isEqualTo("cone 06 (998 °C)");
        assertThat(line.spoken(WORDS))
                .startsWith("firing " + bisque.number() + ", marked, ")
                .contains("Bisque");
    }

    @Test
    void firingsOfAnotherKindOfConeAreNamedFoundAndListedApart() {
        Path path = folder.resolve("two-kinds.book");
        RookLaneBook.write(path, 6, 300_000);
        FiringList both;
        try (Book book = Book.open(path)) {
            book.addWitnessCones(
                    1,
                    List.of(new NotedCone(
                            0,
                            "top",
                            ConeSeries.LARGE,
                            Cone.parse("06"),
                            OptionalDouble.of(90),
                            OptionalLong.empty())));
            for (ListedFiring firing : book.list()) {
                book.sketch(firing.number());
            }
            both = FiringList.EMPTY.with(book.list());
        }
        ListedFiring large = both.all().get(5);
        String nearest = FiringList.nearest(large).orElseThrow().number();
        assertThat(FiringLine.of(large, false, WORDS).cone()).startsWith("large cone " + nearest + " (");
        assertThat(both.cones()).contains(nearest).last().isEqualTo(nearest + " large");
        assertThat(FiringLine.cone(nearest + " large", WORDS)).startsWith("large cone " + nearest + " (");
        Filter onlyLarge =
                new Filter("", Optional.empty(), Optional.empty(), Optional.of(nearest + " large"), Optional.empty());
        assertThat(both.with(onlyLarge).visible(WORDS)).containsExactly(large);
        Filter usual = new Filter("", Optional.empty(), Optional.empty(), Optional.of(nearest), Optional.empty());
        assertThat(both.with(usual).visible(WORDS)).isNotEmpty().doesNotContain(large);
    }

    @Test
    void anyTextCanBeLookedFor() {
        for (String text :
                new String[] {"(", "%", "\\", "'; DROP TABLE", "<html>", "\u0000", "💥", "a".repeat(100_000)}) {
            assertThat(found(text)).isEmpty();
        }
    }
}
