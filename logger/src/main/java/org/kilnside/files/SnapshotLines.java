package org.kilnside.files;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.kilnside.alarm.Measure;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.schedule.Segment;
import org.kilnside.session.Connection;
import org.kilnside.session.Findings;
import org.kilnside.session.LineView;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Snapshots as lines of JSON, for another Kilnside that follows a recorder. The curve travels once, in parts, and after that only
 * by what has been added to it, as do the lines heard; the forecast travels when there is a new one. Times of the
 * host's monotonic clock travel as ages, since two computers do not share that clock.
 *
 * <p>The format belongs to one version of the program: both ends say theirs, and a stream of another is refused.
 */
public final class SnapshotLines {
    /** Rises when the lines change so that an older copy would misread them. */
    public static final int VERSION = 12;

    /**
     * A long curve travels in so many readings a line: a house full of copies that attach at once would else need more
     * memory than a recorder on a small board has.
     */
    private static final int READINGS_A_LINE = 4_000;

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .addMixIn(Segment.class, SegmentKinds.class)
            .addMixIn(Snapshot.class, WithoutCurve.class)
            .addMixIn(Findings.class, WithoutForecast.class)
            .addMixIn(Cone.class, ByNumber.class)
            .addMixIn(Measure.class, Quantities.class)
            .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .build();

    private SnapshotLines() {}

    /** Writes one stream: remembers what the other end has of the curve and the forecast. */
    public static final class Writer {
        private OptionalLong taken = OptionalLong.empty();
        private int sent;
        private long lastMs;
        private double lastC;
        private Optional<LiveForecast> forecastSent = Optional.empty();
        private final HeardLinesInJson.Writer heard = new HeardLinesInJson.Writer();

        /** The other end is told that what it said is taken down, up to this number. */
        public void taken(long number) {
            taken = OptionalLong.of(number);
        }

        /** The next line of the stream, without its line end; of a recorder whose wire nobody asks about. */
        public String line(Snapshot snapshot, long hostNowMs) {
            return line(snapshot, LineView.NONE, hostNowMs);
        }

        /** The next line of the stream, without its line end. */
        public String line(Snapshot snapshot, LineView lines, long hostNowMs) {
            ObjectNode line = MAPPER.createObjectNode();
            line.put("version", VERSION);
            line.put("connection_age_ms", hostNowMs - snapshot.connection().sinceHostMs());
            snapshot.latest().ifPresent(latest -> line.put("reading_age_ms", hostNowMs - latest.hostMs()));
            line.set("snapshot", MAPPER.valueToTree(snapshot));
            Optional<LiveForecast> forecast = snapshot.findings().forecast();
            if (!forecast.equals(forecastSent)) {
                line.set("forecast", forecast.isPresent() ? MAPPER.valueToTree(forecast.get()) : MAPPER.nullNode());
                forecastSent = forecast;
            }
            taken.ifPresent(number -> line.put("taken", number));
            heard.write(lines, hostNowMs, line);
            Trace curve = snapshot.curve();
            if (!goesOn(curve)) {
                sent = 0;
            }
            line.put("curve_from", sent);
            ArrayNode added = line.putArray("curve");
            int until = Math.min(curve.size(), sent + READINGS_A_LINE);
            for (int i = sent; i < until; i++) {
                added.add(curve.elapsedMs(i)).add(curve.temperatureC(i));
                addOrNull(added, curve.output(i));
                addOrNull(added, curve.setpointC(i));
            }
            sent = until;
            line.put("more", sent < curve.size());
            if (sent > 0) {
                lastMs = curve.elapsedMs(sent - 1);
                lastC = curve.temperatureC(sent - 1);
            }
            return MAPPER.writeValueAsString(line);
        }

        /** Whether the other end has all of this curve: as long as it has not, the next line is wanted at once. */
        public boolean isWhole(Snapshot snapshot) {
            return sent == snapshot.curve().size();
        }

        private boolean goesOn(Trace curve) {
            return curve.size() >= sent
                    && (sent == 0 || (curve.elapsedMs(sent - 1) == lastMs && curve.temperatureC(sent - 1) == lastC));
        }

        private static void addOrNull(ArrayNode array, OptionalDouble value) {
            if (value.isPresent()) {
                array.add(value.getAsDouble());
            } else {
                array.addNull();
            }
        }
    }

    /** Reads one stream: holds the curve as far as it has come, and the newest forecast. */
    public static final class Reader {
        private Trace.Builder curve = new Trace.Builder();
        private boolean whole = true;
        private OptionalLong taken = OptionalLong.empty();
        private Optional<LiveForecast> forecast = Optional.empty();
        private final HeardLinesInJson.Reader heard = new HeardLinesInJson.Reader();

        /** Up to which number what this copy said is taken down; empty as long as nothing is. */
        public OptionalLong taken() {
            return taken;
        }

        /** The lines the recorder heard last, as of the last snapshot, with host times of this computer's clock. */
        public LineView heard() {
            return heard.view();
        }

        /**
         * The snapshot a line holds, with host times of this computer's clock.
         *
         * @throws IllegalArgumentException when the line is not one of this version's, in one plain sentence
         */
        public Snapshot snapshot(String text, long hostNowMs) {
            try {
                JsonNode line = MAPPER.readTree(text);
                int version = line.path("version").asInt(0);
                if (version != VERSION) {
                    throw new IllegalArgumentException("the recorder speaks version " + version
                            + " of the stream and this copy version " + VERSION
                            + ": use the same version of Kilnside on both");
                }
                take(line);
                if (line.has("taken")) {
                    taken = OptionalLong.of(line.get("taken").asLong());
                }
                heard.take(line, hostNowMs);
                if (line.has("forecast")) {
                    JsonNode its = line.get("forecast");
                    forecast =
                            its.isNull() ? Optional.empty() : Optional.of(MAPPER.treeToValue(its, LiveForecast.class));
                }
                Snapshot bare = MAPPER.treeToValue(line.get("snapshot"), Snapshot.class);
                return local(bare, line, hostNowMs);
            } catch (JacksonException e) {
                throw new IllegalArgumentException("the recorder's stream holds a line that is no snapshot", e);
            }
        }

        /** Whether the curve has come whole: until then a snapshot shows only its begin. */
        public boolean isWhole() {
            return whole;
        }

        private void take(JsonNode line) {
            whole = !line.path("more").asBoolean(false);
            int from = line.path("curve_from").asInt();
            if (from == 0) {
                curve = new Trace.Builder();
            }
            if (from != curve.size()) {
                throw new IllegalArgumentException(
                        "the recorder's stream skipped a part of the curve: attach again to get it whole");
            }
            JsonNode added = line.path("curve");
            for (int i = 0; i + 3 < added.size(); i += 4) {
                curve.add(
                        added.get(i).asLong(),
                        added.get(i + 1).asDouble(),
                        numberOrNone(added.get(i + 2)),
                        numberOrNone(added.get(i + 3)));
            }
        }

        private Snapshot local(Snapshot bare, JsonNode line, long hostNowMs) {
            Connection connection = new Connection(
                    bare.connection().state(),
                    hostNowMs - line.path("connection_age_ms").asLong(),
                    bare.connection().detail(),
                    bare.connection().counts());
            long readingAge = line.path("reading_age_ms").asLong();
            Optional<Snapshot.Latest> latest = bare.latest()
                    .map(there -> new Snapshot.Latest(
                            there.elapsedMs(),
                            hostNowMs - readingAge,
                            there.temperature(),
                            there.shown(),
                            there.coldJunction(),
                            there.faults(),
                            there.controller(),
                            there.outlier(),
                            there.staleAfterMs()));
            return bare.with(connection, latest, curve.view(), bare.findings().with(forecast));
        }

        private static OptionalDouble numberOrNone(JsonNode node) {
            return node.isNull() ? OptionalDouble.empty() : OptionalDouble.of(node.asDouble());
        }
    }

    @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
    @JsonSubTypes({
        @JsonSubTypes.Type(value = Segment.Ramp.class, name = "ramp"),
        @JsonSubTypes.Type(value = Segment.FreeCooling.class, name = "free_cooling")
    })
    private interface SegmentKinds {}

    @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "quantity")
    @JsonSubTypes({
        @JsonSubTypes.Type(value = Measure.OfTemperature.class, name = "temperature"),
        @JsonSubTypes.Type(value = Measure.OfDifference.class, name = "difference"),
        @JsonSubTypes.Type(value = Measure.OfRate.class, name = "rate"),
        @JsonSubTypes.Type(value = Measure.OfTime.class, name = "time"),
        @JsonSubTypes.Type(value = Measure.OfPower.class, name = "power"),
        @JsonSubTypes.Type(value = Measure.OfBytes.class, name = "bytes"),
        @JsonSubTypes.Type(value = Measure.OfPassing.class, name = "passing")
    })
    private interface Quantities {}

    @JsonIgnoreProperties("curve")
    private interface WithoutCurve {}

    @JsonIgnoreProperties("forecast")
    private interface WithoutForecast {}

    private abstract static class ByNumber {
        @JsonCreator
        static Cone parse(String text) {
            throw new UnsupportedOperationException("stands for the cone's own method, which reads " + text);
        }

        @JsonValue
        abstract String number();
    }
}
