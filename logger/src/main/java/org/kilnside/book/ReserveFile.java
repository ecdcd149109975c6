package org.kilnside.book;

import java.nio.file.Path;

/** Space kept back beside the book for the day the disk is full. */
record ReserveFile(Path file) {
    void fill() {}
}
