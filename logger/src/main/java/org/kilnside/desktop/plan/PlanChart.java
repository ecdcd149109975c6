package org.kilnside.desktop.plan;

import java.awt.BasicStroke;
import java.awt.Cursor;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Rectangle2D;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.JComponent;
import org.kilnside.chart.ChartContent;
import org.kilnside.chart.ChartGeometry;
import org.kilnside.chart.ChartView;
import org.kilnside.chart.FiringChart;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.firing.Trace;
import org.kilnside.outlook.Estimate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.tracking.PlanPosition.PlanPoint;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/** The plan as a curve with corners to pull, over the way this kiln is expected to go. */
final class PlanChart extends JComponent {
    private static final long serialVersionUID = 1L;
    private static final double STEP_C = 5;
    private static final double STEP_F = 10 / 1.8;
    private static final long STEP_MS = 300_000;

    /** The drawing ends no later than this part of the time to the probable cracking of the lid. */
    private static final double WIDEST = 4.0 / 3;

    private final transient PlansModel model;
    private final transient FiringChart chart = new FiringChart();
    private transient ChartContent content = ChartContent.EMPTY;
    private transient List<PlanCorner> corners = List.of();
    private transient Words words;
    private int picked;
    private transient Optional<Pull> pull = Optional.empty();

    /** A corner under the mouse, and where and how the drawing was when it was taken. */
    private record Pull(PlanCorner corner, int x, int y, double msPerPixel, double degreesPerPixel, Schedule before) {}

    PlanChart(PlansModel model, Words words) {
        this.model = model;
        this.words = words;
        setFocusable(true);
        Hand hand = new Hand();
        addMouseListener(hand);
        addMouseMotionListener(hand);
        addFocusListener(new FocusAdapter() {
            @Override
            public void focusGained(FocusEvent event) {
                tell();
                repaint();
            }

            @Override
            public void focusLost(FocusEvent event) {
                model.left();
                repaint();
            }
        });
    }

    void show(Words language, boolean quartz) {
        words = language;
        corners = PlanCorner.of(model.plan());
        picked = Math.max(0, Math.min(picked, corners.size() - 1));
        content = new ChartContent(
                Trace.EMPTY,
                points(),
                expected(),
                OptionalLong.empty(),
                Optional.empty(),
                quartz,
                OptionalLong.empty(),
                Optional.empty());
        getAccessibleContext().setAccessibleName(words.text("plans.chart"));
        repaint();
    }

    private List<PlanPoint> points() {
        List<PlanPoint> points = new ArrayList<>();
        points.add(new PlanPoint(0, PlanCorner.LIT_AT.celsius()));
        corners.forEach(corner -> points.add(new PlanPoint(corner.atMs(), corner.celsius())));
        return points;
    }

    /**
     * How the kiln is expected to go, down to where its lid may be cracked at the latest, where that is not so late that
     * the plan, whose corners are pulled, would shrink.
     */
    private List<ForecastFan.Point> expected() {
        return model.outlook().answer().map(LiveOutlook.Answer::outlook).stream()
                .flatMap(outlook -> outlook.fan().stream()
                        .filter(point -> outlook.crack()
                                .filter(crack -> point.elapsedMs() > shownUntilMs(crack))
                                .isEmpty()))
                .toList();
    }

    private static double shownUntilMs(Estimate<Duration> crack) {
        return Math.min(crack.to().toMillis(), crack.probable().toMillis() * WIDEST);
    }

    /** The next corner or the one before. */
    void pick(int by) {
        picked = Math.max(0, Math.min(corners.size() - 1, picked + by));
        model.left();
        model.select(corners.get(picked).segment());
        tell();
        repaint();
    }

    /** Moves the picked corner by steps of temperature and time. */
    void nudge(int degreeSteps, int timeSteps) {
        PlanCorner corner = corners.get(picked);
        TemperatureUnit unit = words.preferences().unit();
        double step = unit == TemperatureUnit.CELSIUS ? STEP_C : STEP_F;
        corner.pulledTo(model.plan(), corner.atMs() + timeSteps * STEP_MS, corner.celsius() + degreeSteps * step, unit)
                .ifPresent(model::pulled);
        tell();
    }

    private void tell() {
        if (!corners.isEmpty()) {
            PlanCorner corner = corners.get(picked);
            getAccessibleContext()
                    .setAccessibleDescription(words.text(
                            "plans.corner",
                            corner.segment(),
                            words.temperature(Temperature.ofCelsius(corner.celsius())),
                            words.duration(Duration.ofMillis(corner.atMs()))));
        }
    }

    @Override
    public Dimension getPreferredSize() {
        int line = getFontMetrics(Theme.font(1)).getHeight();
        return new Dimension(line * 24, line * 13);
    }

    @Override
    public Dimension getMinimumSize() {
        int line = getFontMetrics(Theme.font(1)).getHeight();
        return new Dimension(line * 14, line * 8);
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        chart.draw(
                g,
                new Rectangle2D.Double(0, 0, getWidth(), getHeight()),
                content,
                ChartView.WHOLE,
                Theme.chart(),
                words);
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        double size = getFontMetrics(Theme.font(1)).getHeight() * 0.5;
        for (int i = 0; i < corners.size(); i++) {
            boolean isPicked = isFocusOwner() && i == picked;
            double radius = isPicked ? size : size * 0.7;
            Ellipse2D dot = new Ellipse2D.Double(
                    x(corners.get(i)) - radius, y(corners.get(i)) - radius, 2 * radius, 2 * radius);
            g.setPaint(Theme.colour("chart.surface"));
            g.fill(dot);
            g.setPaint(Theme.colour(isPicked ? "ember" : "chart.plan"));
            g.setStroke(new BasicStroke(isPicked ? 3f : 2f));
            g.draw(dot);
        }
        if (isFocusOwner()) {
            g.setPaint(Theme.colour("ember"));
            g.setStroke(new BasicStroke(1));
            g.drawRect(0, 0, getWidth() - 1, getHeight() - 1);
        }
        g.dispose();
    }

    private double x(PlanCorner corner) {
        return chart.geometry()
                .map(its -> its.area().getX()
                        + its.area().getWidth()
                                * (corner.atMs() - its.span().fromMs())
                                / (double) its.span().lengthMs())
                .orElse(0.0);
    }

    private double y(PlanCorner corner) {
        return chart.y(Temperature.ofCelsius(corner.celsius()));
    }

    private OptionalInt under(MouseEvent event) {
        double reach = getFontMetrics(Theme.font(1)).getHeight() * 0.9;
        double best = reach;
        int found = -1;
        for (int i = 0; i < corners.size(); i++) {
            double away = Math.hypot(x(corners.get(i)) - event.getX(), y(corners.get(i)) - event.getY());
            if (away <= best) {
                best = away;
                found = i;
            }
        }
        return found < 0 ? OptionalInt.empty() : OptionalInt.of(found);
    }

    @Override
    public AccessibleContext getAccessibleContext() {
        if (accessibleContext == null) {
            accessibleContext = new AccessibleJComponent() {
                private static final long serialVersionUID = 1L;

                @Override
                public AccessibleRole getAccessibleRole() {
                    return AccessibleRole.CANVAS;
                }
            };
        }
        return accessibleContext;
    }

    /** The mouse on the chart. */
    private final class Hand extends MouseAdapter {
        @Override
        public void mouseMoved(MouseEvent event) {
            setCursor(
                    Cursor.getPredefinedCursor(under(event).isPresent() ? Cursor.MOVE_CURSOR : Cursor.DEFAULT_CURSOR));
        }

        @Override
        public void mousePressed(MouseEvent event) {
            requestFocusInWindow();
            OptionalInt found = under(event);
            if (found.isPresent() && chart.geometry().isPresent()) {
                picked = found.getAsInt();
                PlanCorner corner = corners.get(picked);
                ChartGeometry geometry = chart.geometry().get();
                double hundredPixels = chart.y(Temperature.ofCelsius(0)) - chart.y(Temperature.ofCelsius(100));
                pull = Optional.of(new Pull(
                        corner,
                        event.getX(),
                        event.getY(),
                        geometry.span().lengthMs() / geometry.area().getWidth(),
                        100 / hundredPixels,
                        model.plan()));
                model.left();
                model.select(corner.segment());
                repaint();
            }
        }

        @Override
        public void mouseDragged(MouseEvent event) {
            pull.ifPresent(its -> {
                PlanCorner corner = its.corner();
                // A pull is up and down or along, whichever goes further, so that the other stays as it was.
                int right = event.getX() - its.x();
                int up = its.y() - event.getY();
                boolean along = Math.abs(right) > Math.abs(up);
                corner.pulledTo(
                                its.before(),
                                corner.atMs() + (along ? Math.round(right * its.msPerPixel()) : 0),
                                corner.celsius() + (along ? 0 : up * its.degreesPerPixel()),
                                words.preferences().unit())
                        .ifPresent(model::pulled);
            });
        }

        @Override
        public void mouseReleased(MouseEvent event) {
            pull = Optional.empty();
            model.left();
        }
    }
}
