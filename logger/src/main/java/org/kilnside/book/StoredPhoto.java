package org.kilnside.book;

import java.util.Arrays;

/**
 * A photo in a firing's record, as its row in a list shows it.
 *
 * @param number its number in the book
 * @param name what its file was called
 * @param thumbnail a small JPEG
 */
public record StoredPhoto(long number, String name, byte[] thumbnail) {
    @Override
    public boolean equals(Object other) {
        return other instanceof StoredPhoto photo
                && number == photo.number
                && name.equals(photo.name)
                && Arrays.equals(thumbnail, photo.thumbnail);
    }

    @Override
    public int hashCode() {
        return Long.hashCode(number);
    }

    @Override
    public String toString() {
        return "photo " + number + " " + name;
    }
}
