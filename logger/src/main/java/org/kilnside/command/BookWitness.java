package org.kilnside.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.book.Book;
import org.kilnside.book.BookEdit;
import org.kilnside.book.KilnHistory;
import org.kilnside.book.NotedCone;
import org.kilnside.book.RecordedFiring;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The witness cones of a firing. */
@Command(
        name = "witness",
        mixinStandardHelpOptions = true,
        description = {
            "Notes what the witness cones of a firing showed, a pack a shelf, and says what the book has; they calibrate the"
                    + " sensor for the firings after it.",
            "For example: kilnside book witness 12 \"middle 5:90 6:35 7:0\" \"top 6@21:10\" (degrees of bend, 90 with the tip"
                    + " level with the base; or when a cone was seen down)."
        })
final class BookWitness implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Mixin
    private BookCommand.Which which;

    @Parameters(index = "0", paramLabel = "FIRING", description = "The firing's number, as book list shows it.")
    private long number;

    @Parameters(index = "1..*", arity = "0..*", paramLabel = "PACK", description = "A shelf and its cones.")
    private List<String> packs = List.of();

    @Mixin
    private SeriesOption series;

    @Option(names = "--strike", paramLabel = "NUMBER", description = "Strikes out one cone, by the number shown here.")
    private Optional<Long> strike = Optional.empty();

    @Override
    public Integer call() {
        try (Book book = which.open(around.err())) {
            RecordedFiring firing = book.firing(number);
            strike.ifPresent(cone -> strikeOut(book, cone));
            List<NotedCone> read = read(
                    firing,
                    series.or(NotedCone.judging(
                            book.witnessCones(number), firing.start().series())));
            if (!read.isEmpty()) {
                book.addWitnessCones(number, read);
            }
            show(book, firing);
        }
        return Complaint.ExitCode.DONE.code();
    }

    private List<NotedCone> read(RecordedFiring firing, ConeSeries meant) {
        ReviewedFiring reviewed = ReviewedFiring.plain(firing);
        List<NotedCone> cones = new ArrayList<>();
        for (String text : packs) {
            WitnessPack pack;
            try {
                pack = WitnessPack.parse(text, reviewed.dayClock());
            } catch (IllegalArgumentException e) {
                throw new Complaint(Complaint.ExitCode.USAGE, e.getMessage());
            }
            for (WitnessCone seen : pack.cones()) {
                if (!ConeTable.of(meant).cones().contains(seen.cone())) {
                    throw new Complaint(
                            Complaint.ExitCode.USAGE,
                            "in \"" + text + "\": the " + meant.word() + " series has no " + seen.cone()
                                    + "; name another, or another --series");
                }
                cones.add(new NotedCone(0, pack.shelf(), meant, seen.cone(), seen.degrees(), seen.seenDownMs()));
            }
        }
        return cones;
    }

    private void strikeOut(Book book, long cone) {
        NotedCone found = book.witnessCones(number).stream()
                .filter(each -> each.number() == cone)
                .findFirst()
                .orElseThrow(() -> new Complaint(
                        Complaint.ExitCode.INPUT,
                        "firing " + number + " has no cone of the number " + cone + ": \"kilnside book witness "
                                + number + "\" shows those it has."));
        book.apply(new BookEdit.Witness(number, Optional.of(found), Optional.empty()));
    }

    private void show(Book book, RecordedFiring firing) {
        Words words = around.words();
        StateWords state = new StateWords(words);
        List<NotedCone> cones = book.witnessCones(number);
        if (cones.isEmpty()) {
            around.out().println(words.text("witness.none"));
            return;
        }
        List<String[]> rows = new ArrayList<>();
        for (NotedCone cone : cones) {
            String bend = cone.degrees().isPresent()
                    ? words.text("witness.bent", words.number(cone.degrees().getAsDouble(), 0))
                    : "";
            String seen = cone.seenDownMs().isPresent()
                    ? words.text(
                            "witness.seen_down",
                            state.momentWithDay(
                                    cone.seenDownMs().getAsLong(),
                                    Optional.of(firing.wallClock()
                                            .zeroFor(cone.seenDownMs().getAsLong())),
                                    1))
                    : "";
            rows.add(new String[] {
                Long.toString(cone.number()),
                cone.shelf(),
                new ConeWords(words, ConeTable.of(cone.series())).cone(cone.cone()),
                bend + seen
            });
        }
        Table.print(around.out(), rows);
        around.out()
                .println(firing.start()
                        .kiln()
                        .map(kiln -> offset(book.history(kiln))
                                .map(offset -> said(offset.offset(), words))
                                .orElseGet(() -> words.text("witness.leave_open", Long.toString(number))))
                        .orElseGet(() -> words.text("witness.no_kiln")));
    }

    private static String said(WitnessOffset offset, Words words) {
        return words.text(
                said(offset),
                words.difference(TemperatureDifference.ofKelvin(offset.correctionK())),
                words.temperature(Temperature.ofCelsius(offset.atC())),
                words.span(TemperatureDifference.ofKelvin(offset.halfWidthK())));
    }

    private static String said(WitnessOffset offset) {
        if (offset.disagree()) {
            return "witness.disagree";
        }
        return Math.round(offset.correctionK()) == 0 ? "witness.right" : "witness.offset";
    }

    private Optional<KilnHistory.OffsetOfFiring> offset(KilnHistory history) {
        return history.sensors().stream()
                .flatMap(sensor -> history.offsets(sensor).stream())
                .filter(offset -> offset.firing() == number)
                .findFirst();
    }
}
