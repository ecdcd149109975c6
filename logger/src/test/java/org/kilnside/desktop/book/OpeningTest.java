package org.kilnside.desktop.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.Test;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.review.Review;

/** Opening a firing from a slow disk, and giving it up. */
class OpeningTest {
    private final CountDownLatch reads = new CountDownLatch(1);
    private final CountDownLatch disk = new CountDownLatch(1);
    private final List<String> said = new ArrayList<>();

    private final class Said implements Opening.Answers {
        @Override
        public void opened(List<OpenedFiring> firings) {
            said.add("opened");
        }

        @Override
        public void studied(FiringStudy study) {
            said.add("studied");
        }

        @Override
        public void reviewed(Review review) {
            said.add("reviewed");
        }

        @Override
        public void failed(Exception failure) {
            said.add("failed");
        }
    }

    @Test
    void whatWasGivenUpIsNeitherShownNorComplainedOf() throws Exception {
        Errands errands = new Errands();
        Opening opening = new Opening(new SlowBook(reads, disk), errands, new Said());
        SwingUtilities.invokeAndWait(() -> opening.open(List.of(1L, 2L)));
        assertThat(reads.await(20, TimeUnit.SECONDS)).isTrue();
        SwingUtilities.invokeAndWait(() -> assertThat(opening.isOpening()).isTrue());
        SwingUtilities.invokeAndWait(opening::giveUp);
        SwingUtilities.invokeAndWait(() -> assertThat(opening.isOpening()).isFalse());
        disk.countDown();
        CountDownLatch over = new CountDownLatch(1);
        errands.run(() -> Optional.empty(), done -> over.countDown(), failure -> said.add("last failed"));
        assertThat(over.await(20, TimeUnit.SECONDS)).isTrue();
        SwingUtilities.invokeAndWait(() -> assertThat(said).isEmpty());
        errands.close();
    }
}
