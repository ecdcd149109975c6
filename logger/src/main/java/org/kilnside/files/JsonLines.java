package org.kilnside.files;

import java.io.IOException;
import java.io.UncheckedIOException;
import tools.jackson.databind.json.JsonMapper;

/** Objects as lines of JSON, one object a line, for programs that read what a command prints. */
public final class JsonLines {
    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private final Appendable out;

    /** @param out where the lines go; each is whole, so that a reader may take them as they come */
    public JsonLines(Appendable out) {
        this.out = out;
    }

    /** Writes one object and the line's end. */
    public void write(JsonObject object) {
        try {
            out.append(line(object)).append('\n');
        } catch (IOException e) {
            throw new UncheckedIOException("the answer could not be written: " + e.getMessage(), e);
        }
    }

    static String line(JsonObject object) {
        return MAPPER.writeValueAsString(object.members());
    }
}
