package org.kilnside.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;

/** Random messages over the whole range of every field. */
public final class SomeMessages {
    private static final String TEXT = "ABCXYZabcxyz0189._-";

    private final Random random;

    public SomeMessages(long seed) {
        random = new Random(seed);
    }

    public Message next() {
        int sequence = random.nextInt(Message.SEQUENCE_MAX + 1);
        long uptimeMs = random.nextLong() & Message.UPTIME_MAX_MS;
        return switch (random.nextInt(6)) {
            case 0 -> hello(sequence, uptimeMs);
            case 1 ->
                new KeptLine(
                        sequence,
                        uptimeMs,
                        within(Field.KEPT_MINUTE),
                        within(Field.SPAN),
                        channels(1),
                        maybe(Field.OUTPUT),
                        maybe(Field.SETPOINT),
                        maybe(Field.SEGMENT));
            case 2 -> new KeptEnd(sequence, uptimeMs, within(Field.ASKED_MINUTE), within(Field.LINES_SENT));
            default ->
                new ReadingLine(
                        sequence,
                        uptimeMs,
                        channels(2),
                        maybe(Field.OUTPUT),
                        maybe(Field.SETPOINT),
                        maybe(Field.SEGMENT));
        };
    }

    private Hello hello(int sequence, long uptimeMs) {
        List<Hello.HelloChannel> channels = new ArrayList<>();
        for (int number = 1; number <= ChannelCodes.MOST && channels.size() < 2; number++) {
            if (random.nextBoolean()) {
                channels.add(new Hello.HelloChannel(
                        number,
                        Optional.of("BEJKNRST".substring(number, number + 1)),
                        random.nextBoolean() ? Optional.of("MAX31855") : Optional.empty()));
            }
        }
        return new Hello(
                sequence,
                uptimeMs,
                within(Field.VERSION),
                random.nextBoolean() ? Optional.of(text(12)) : Optional.empty(),
                random.nextBoolean() ? Optional.of(text(12)) : Optional.empty(),
                maybe(Field.CHANNELS),
                channels,
                maybe(Field.LINE_INTERVAL),
                maybe(Field.MINUTES_KEPT),
                maybe(Field.RESET_CAUSE));
    }

    private List<ChannelCodes> channels(int most) {
        List<ChannelCodes> channels = new ArrayList<>();
        for (int number = 1; number <= ChannelCodes.MOST && channels.size() < most; number++) {
            if (random.nextInt(3) > 0) {
                OptionalInt thermocouple = maybe(Field.THERMOCOUPLE);
                OptionalInt coldJunction = maybe(Field.COLD_JUNCTION);
                OptionalInt faults = switch (random.nextInt(4)) {
                    case 0 -> OptionalInt.empty();
                    case 1 -> OptionalInt.of(1 + random.nextInt(127));
                    default -> ChannelCodes.NO_FAULT;
                };
                if (thermocouple.isPresent() || coldJunction.isPresent() || !faults.equals(ChannelCodes.NO_FAULT)) {
                    channels.add(new ChannelCodes(number, thermocouple, coldJunction, faults));
                }
            }
        }
        return channels;
    }

    private String text(int longest) {
        int length = 1 + random.nextInt(longest);
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < length; i++) {
            text.append(TEXT.charAt(random.nextInt(TEXT.length())));
        }
        return text.toString();
    }

    private OptionalInt maybe(Field field) {
        return random.nextInt(3) == 0 ? OptionalInt.empty() : OptionalInt.of(within(field));
    }

    private int within(Field field) {
        return switch (random.nextInt(8)) {
            case 0 -> field.minimum;
            case 1 -> field.maximum;
            default -> field.minimum + random.nextInt(field.maximum - field.minimum + 1);
        };
    }
}
