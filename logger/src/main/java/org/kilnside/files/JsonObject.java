package org.kilnside.files;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.Function;

/**
 * One JSON object in the order in which it is filled. Keys are snake_case and carry their unit: {@code temp_c},
 * {@code elapsed_s}. What is not known is null, never NaN.
 */
public final class JsonObject {
    /** Where a double is written with an exponent, and from where its digits would be too many to read anyway. */
    private static final double EXPONENT_FROM = 1e7, DIGITS_UNTIL = 1e15;

    private final Map<String, Object> members = new LinkedHashMap<>();

    public JsonObject with(String key, String value) {
        return put(key, value);
    }

    public JsonObject with(String key, long value) {
        return put(key, value);
    }

    public JsonObject with(String key, boolean value) {
        return put(key, value);
    }

    /** @throws IllegalArgumentException when the number is not finite: absence is {@link #withNull} */
    public JsonObject with(String key, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("JSON has no " + value + ", found as \"" + key + "\"");
        }
        return put(key, written(value));
    }

    /** A number with at most so many decimals: a cone to the hundredth needs no fifteen. */
    public JsonObject with(String key, double value, int decimals) {
        if (!Double.isFinite(value)) {
            return with(key, value);
        }
        return with(
                key,
                BigDecimal.valueOf(value)
                        .setScale(decimals, RoundingMode.HALF_EVEN)
                        .doubleValue());
    }

    /** In digits where a time is meant: seconds since 1970 with an exponent are read by programs, not by people. */
    private static Number written(double value) {
        boolean readable = Math.abs(value) < EXPONENT_FROM || Math.abs(value) >= DIGITS_UNTIL;
        return readable ? value : new BigDecimal(BigDecimal.valueOf(value).toPlainString());
    }

    public JsonObject with(String key, JsonObject value) {
        return put(key, value.members());
    }

    /** A list of strings, whole numbers, finite numbers, truths or {@link JsonObject}s. */
    public JsonObject with(String key, List<?> values) {
        List<Object> list = new ArrayList<>();
        for (Object value : values) {
            list.add(value instanceof JsonObject object ? object.members() : value);
        }
        return put(key, Collections.unmodifiableList(list));
    }

    public JsonObject withNull(String key) {
        return put(key, null);
    }

    /** A value that may be missing: null where it is. */
    public <T> JsonObject with(String key, Optional<T> value, Function<T, ?> written) {
        Optional<?> member = value.map(written);
        if (member.isEmpty()) {
            return withNull(key);
        }
        Object found = member.get();
        if (found instanceof Double number) {
            return with(key, (double) number);
        }
        return put(key, found instanceof JsonObject object ? object.members() : found);
    }

    public JsonObject with(String key, OptionalDouble value) {
        return value.isPresent() ? with(key, value.getAsDouble()) : withNull(key);
    }

    public JsonObject with(String key, OptionalLong value) {
        return value.isPresent() ? with(key, value.getAsLong()) : withNull(key);
    }

    public JsonObject with(String key, OptionalInt value) {
        return value.isPresent() ? with(key, value.getAsInt()) : withNull(key);
    }

    private JsonObject put(String key, Object value) {
        if (!key.matches("[a-z][a-z0-9_]*")) {
            throw new IllegalArgumentException("a key is snake_case, found \"" + key + "\"");
        }
        if (members.containsKey(key)) {
            throw new IllegalArgumentException("the key \"" + key + "\" is there already");
        }
        members.put(key, value);
        return this;
    }

    Map<String, Object> members() {
        return Collections.unmodifiableMap(members);
    }

    /** The object as one line. */
    @Override
    public String toString() {
        return JsonLines.line(this);
    }
}
