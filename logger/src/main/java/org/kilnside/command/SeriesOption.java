package org.kilnside.command;

import java.util.Optional;
import org.kilnside.firing.ConeSeries;
import picocli.CommandLine.Option;

/** Which kind of cone is meant, where a person says so. */
final class SeriesOption {
    @Option(
            names = "--series",
            paramLabel = "SERIES",
            description =
                    "Which cones are meant: self-supporting, large or small. Unless given, those of the firing or the kiln"
                            + " where one is named, else self-supporting.")
    private Optional<String> series = Optional.empty();

    /** What was said, or else this. */
    ConeSeries or(ConeSeries otherwise) {
        return series.map(word -> ConeSeries.ofWord(word)
                        .orElseThrow(() -> new Complaint(
                                Complaint.ExitCode.USAGE,
                                "--series knows self-supporting, large and small, found \"" + word + "\": choose one")))
                .orElse(otherwise);
    }
}
