package org.kilnside.wording;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.review.Advice;
import org.kilnside.review.Amount;
import org.kilnside.review.CauseCode;
import org.kilnside.review.Evidence;
import org.kilnside.review.Extent;
import org.kilnside.review.Remark;
import org.kilnside.review.Review;
import org.kilnside.review.Sureness;

/** Says a review: the verdict first, then what each part cost, what made it so, what to change, what to do with the load. */
public final class ReviewWords {
    /** Less than this from the wanted cone is that cone. */
    private static final double AT_CONE = 0.15;

    /** Cones are said in tenths, the whole as its parts. */
    private static final int SAID_PER_CONE = 10;

    /** Less than this would be said as nothing, cones. */
    private static final double LEAST_SAID = 0.5 / SAID_PER_CONE;

    private final Words words;
    private final ConeWords cones;
    private final Optional<Instant> startedAt;
    private final long firstMs;

    /**
     * Words for a review.
     *
     * @param startedAt the clock at elapsed time 0; without it times are said as elapsed since the first reading
     * @param firstMs when that was, on the recording's clock
     */
    public ReviewWords(Words words, Optional<Instant> startedAt, long firstMs, Review review) {
        this.words = words;
        this.cones = new ConeWords(words, ConeTable.of(review.series()));
        this.startedAt = startedAt;
        this.firstMs = firstMs;
    }

    /** The whole review, a line each; headings end in a colon and what stands under them is indented. */
    public List<String> lines(Review review) {
        List<String> lines = new ArrayList<>(verdict(review));
        section(lines, "review.heading.parts", parts(review));
        List<String> causes = new ArrayList<>();
        for (Review.Cause cause : review.causes()) {
            causes.add(causeLine(cause));
            cause.evidence().forEach(seen -> causes.add("  " + evidence(seen)));
        }
        section(lines, "review.heading.causes", causes);
        section(
                lines,
                "review.heading.next",
                review.advice().stream().map(this::advice).toList());
        section(
                lines,
                "review.heading.remarks",
                review.remarks().stream().map(this::remark).toList());
        return lines;
    }

    /** What each part cost, and what those too small to name come to together, so that the tenths add up. */
    private List<String> parts(Review review) {
        List<String> lines = new ArrayList<>();
        long missing = Math.round(review.shortOfPlan().orElse(0) * SAID_PER_CONE);
        for (Review.Cost cost : review.sharesInSteps(SAID_PER_CONE)) {
            if (isWorthNaming(cost, review) && !saysTheSameTwice(cost)) {
                lines.add(part(cost));
                missing -= Math.round(cost.cones() * SAID_PER_CONE);
            }
        }
        if (missing != 0) {
            lines.add(words.text(
                    "review.part.line", signed((double) missing / SAID_PER_CONE), words.text("review.part.too_small")));
        }
        return lines;
    }

    /** A part that is nothing by itself is not made a tenth only for the tenths to add up. */
    private static boolean isWorthNaming(Review.Cost rounded, Review review) {
        return review.shares().stream()
                .anyMatch(exact -> exact.code() == rounded.code() && Math.abs(exact.cones()) >= LEAST_SAID);
    }

    private void section(List<String> lines, String heading, List<String> under) {
        if (!under.isEmpty()) {
            lines.add(words.text(heading) + ":");
            under.forEach(line -> lines.add("  " + line));
        }
    }

    /** The verdict: one sentence, a second where the load wants a cone of its own. */
    public List<String> verdict(Review review) {
        List<String> sentences = new ArrayList<>();
        String came = came(review);
        sentences.add(
                review.extent() == Extent.TOP_HIDDEN && review.provenReached().isPresent()
                        ? words.text(
                                "review.verdict.at_least",
                                cones.position(review.provenReached().get()),
                                came)
                        : came);
        wanted(review).ifPresent(sentences::add);
        return sentences;
    }

    private String came(Review review) {
        if (review.extent() == Extent.NO_FIRING) {
            return words.text("review.verdict.no_firing");
        }
        if (review.planReaches().isEmpty()) {
            return words.text("review.verdict.no_plan_cone");
        }
        String planned = cones.position(review.planReaches().get());
        if (review.extent() == Extent.NO_CONE_NAMED) {
            return words.text("review.verdict.no_cone_named", planned);
        }
        if (review.extent() == Extent.ENDS_ON_THE_WAY) {
            return words.text("review.verdict.ends_on_the_way", planned);
        }
        if (review.reached().isEmpty()) {
            return words.text("review.verdict.nothing", planned);
        }
        String reached = cones.position(review.reached().get());
        if (review.isAsPlanned()) {
            return words.text("review.verdict.as_planned", reached, planned);
        }
        double shortBy = review.shortOfPlan().getAsDouble();
        if (Math.abs(shortBy) < LEAST_SAID) {
            String from = words.number(review.from().getAsDouble(), 1);
            String to = words.number(review.to().getAsDouble(), 1);
            return planned.equals(reached)
                    ? words.text("review.verdict.even_same", planned, from, to)
                    : words.text("review.verdict.even", planned, reached, from, to);
        }
        boolean over = shortBy < 0;
        return words.text(
                over ? "review.verdict.over" : "review.verdict.short",
                number(Math.abs(shortBy)),
                words.number(over ? -review.to().getAsDouble() : review.from().getAsDouble(), 1),
                words.number(over ? -review.from().getAsDouble() : review.to().getAsDouble(), 1),
                planned,
                reached);
    }

    private Optional<String> wanted(Review review) {
        if (review.wanted().isEmpty() || review.shortOfWanted().isEmpty()) {
            return Optional.empty();
        }
        double by = review.shortOfWanted().getAsDouble();
        String cone = cones.cone(review.wanted().get());
        if (Math.abs(by) < AT_CONE) {
            return Optional.of(words.text("review.verdict.wanted_met", cone));
        }
        return Optional.of(words.text(
                by > 0 ? "review.verdict.wanted_short" : "review.verdict.wanted_over", cone, number(Math.abs(by))));
    }

    /** What one part cost: its sign says whether it took from the firing (−) or gave to it (+). */
    public String part(Review.Cost cost) {
        return words.text("review.part.line", signed(cost.cones()), detail(cost));
    }

    private String signed(double cones) {
        return (cones > 0 ? "\u2212" : "+") + words.number(Math.abs(cones), 1);
    }

    /** What was done against what was planned; where both read alike, that the difference is too small for that. */
    public String detail(Review.Cost cost) {
        return saysTheSameTwice(cost)
                ? words.text("review.part.too_small")
                : filled(partText(cost.code()), cost.amounts());
    }

    /** Whether what was done and what was planned read alike: that is no cause to name. */
    private boolean saysTheSameTwice(Review.Cost cost) {
        return switch (cost.code()) {
            case SENSOR_READS_HIGH, SENSOR_READS_LOW, COOLING_FAST, COOLING_SLOW -> false;
            default -> said(cost.amounts().get(0)).equals(said(cost.amounts().get(1)));
        };
    }

    private static String partText(CauseCode code) {
        return switch (code) {
            case TOP_LOW -> "review.part.top_low";
            case OVER_FIRED_TOP -> "review.part.over_fired_top";
            case HOLD_SHORT -> "review.part.hold_short";
            case OVER_FIRED_HOLD -> "review.part.over_fired_hold";
            case RAMP_FAST -> "review.part.ramp_fast";
            case RAMP_SLOW -> "review.part.ramp_slow";
            case COOLING_FAST -> "review.part.cooling_fast";
            case COOLING_SLOW -> "review.part.cooling_slow";
            case SENSOR_READS_HIGH -> "review.part.sensor_reads_high";
            case SENSOR_READS_LOW -> "review.part.sensor_reads_low";
            default -> throw new IllegalArgumentException(code + " is no part of a firing");
        };
    }

    /** A cause with how sure it is. */
    public String causeLine(Review.Cause cause) {
        return words.text("review.cause_line", cause(cause.code()), sure(cause.sure()));
    }

    public String cause(CauseCode code) {
        return words.named("review.cause", code);
    }

    public String sure(Sureness sure) {
        return words.named("review.sure", sure);
    }

    public String evidence(Evidence seen) {
        return filled("review.evidence." + seen.kind().name(), seen.amounts());
    }

    public String advice(Advice advice) {
        return filled("review.advice." + advice.kind().name(), advice.amounts());
    }

    public String remark(Remark remark) {
        return filled("review.remark." + remark.kind().name(), remark.amounts());
    }

    private String filled(String key, List<Amount> amounts) {
        return words.text(key, amounts.stream().map(this::said).toArray());
    }

    private String said(Amount amount) {
        if (amount instanceof Amount.Degrees degrees) {
            return words.temperature(degrees.temperature());
        } else if (amount instanceof Amount.Span span) {
            return words.span(span.difference());
        } else if (amount instanceof Amount.Lasting lasting) {
            return words.duration(lasting.duration());
        } else if (amount instanceof Amount.At at) {
            return startedAt
                    .map(start -> words.atClock(words.time(start.plusMillis(at.elapsedMs()))))
                    .orElseGet(() -> words.after(Duration.ofMillis(at.elapsedMs() - firstMs)));
        } else if (amount instanceof Amount.Speed speed) {
            return words.speed(speed.rate());
        } else if (amount instanceof Amount.Part part) {
            return words.percent(part.share());
        } else if (amount instanceof Amount.Named named) {
            return named.cone().number();
        } else if (amount instanceof Amount.Count count) {
            return Integer.toString(count.count());
        } else if (amount instanceof Amount.Word word) {
            return word.word().isEmpty() ? "?" : word.word();
        }
        throw new IllegalArgumentException("nobody has said how to say " + amount);
    }

    private String number(double conesShort) {
        return words.number(conesShort, 1);
    }

    /** A place on the scale in words. */
    public String position(ConePosition position) {
        return cones.position(position);
    }

    /** A cone with its temperature. */
    public String cone(Cone cone) {
        return cones.cone(cone);
    }
}
