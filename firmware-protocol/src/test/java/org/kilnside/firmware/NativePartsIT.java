package org.kilnside.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.kilnside.testing.NativeBuild;

/** What is not Java here has its own tests; this runs them, so that one command runs all. */
class NativePartsIT {
    /** Flash and RAM are printed, so that a build's log shows them. */
    @Test
    void theLibraryTheFirmwareAndTheTablesPassTheirOwnTests() {
        NativeBuild.program("line_test");
        String said = NativeBuild.run("verify.sh", Boolean.getBoolean("kilnside.long") ? "5000000" : "200000");
        System.out.println(said);
        assertThat(said)
                .contains("check-fields: version 1 holds")
                .containsPattern("vectors_test: \\d+ checks, 0 failed")
                .containsPattern("kept_test: \\d+ checks, 0 failed")
                .containsPattern("fuzz_test: \\d+ checks, 0 failed")
                .contains("| firmware, MAX31855 |");
    }
}
