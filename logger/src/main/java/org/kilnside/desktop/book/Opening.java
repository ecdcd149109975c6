package org.kilnside.desktop.book;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.review.Review;

/**
 * Opens firings: first their curves, one after the other, then what follows from all readings of the first, then why it
 * came out as it did. Can be given up at any time; an answer to a wish given up is dropped. Confined to the Swing thread,
 * but for the work itself.
 */
final class Opening {
    private final BookAccess book;
    private final Errands errands;
    private final Answers answers;
    private int wish;
    private boolean opening;

    /** What comes back, on the Swing thread. */
    interface Answers {
        void opened(List<OpenedFiring> firings);

        void studied(FiringStudy study);

        void reviewed(Review review);

        void failed(Exception failure);
    }

    Opening(BookAccess book, Errands errands, Answers answers) {
        this.book = book;
        this.errands = errands;
        this.answers = answers;
    }

    void open(List<Long> numbers) {
        opening = true;
        openNext(numbers, new ArrayList<>(), ++wish);
    }

    /** One after the other, so that it can be given up in between. */
    private void openNext(List<Long> numbers, List<OpenedFiring> done, int asked) {
        if (done.size() == numbers.size()) {
            opening = false;
            answers.opened(done);
            study(done.get(0));
            return;
        }
        long number = numbers.get(done.size());
        errands.run(
                () -> book.open(number),
                firing -> {
                    if (asked == wish) {
                        done.add(firing);
                        openNext(numbers, done, asked);
                    }
                },
                failure -> fail(failure, asked));
    }

    /** Works out what follows from a firing's readings, and why it came out so: anew where its witness cones are others. */
    void study(OpenedFiring firing) {
        int asked = wish;
        errands.run(
                () -> book.study(firing),
                study -> {
                    if (asked == wish) {
                        answers.studied(study);
                        review(firing);
                    }
                },
                failure -> fail(failure, asked));
    }

    private void review(OpenedFiring firing) {
        int asked = wish;
        errands.run(
                () -> book.review(firing),
                found -> {
                    if (asked == wish) {
                        found.ifPresent(answers::reviewed);
                    }
                },
                failure -> fail(failure, asked));
    }

    private void fail(Exception failure, int asked) {
        if (asked == wish) {
            opening = false;
            answers.failed(failure);
        }
    }

    void giveUp() {
        wish++;
        opening = false;
    }

    boolean isOpening() {
        return opening;
    }
}
