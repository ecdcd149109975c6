package org.kilnside.desktop.book;

import com.formdev.flatlaf.FlatClientProperties;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Fold;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/** Where the firings laid over each other meet: at their begin, or at a temperature the person writes. */
final class CommonPane extends JPanel {
    private static final long serialVersionUID = 1L;

    /** Where they meet when nobody has said another: red heat, past all water. */
    private static final double USUAL_C = 600;

    private final JLabel label = Labels.quiet("");
    private final KeyButton start = new KeyButton();
    private final KeyButton temperature = new KeyButton();
    private final JTextField degrees = new JTextField(5);
    private final JLabel unit = Labels.quiet("");
    private final transient Consumer<OptionalDouble> layOver;
    private transient Words words;
    private final transient Fold fold;
    private transient OptionalDouble now = OptionalDouble.empty();
    private double chosenC = USUAL_C;

    CommonPane(Words words, Consumer<OptionalDouble> layOver) {
        MigLayout layout = new MigLayout("insets 0 4 4 4, fillx, gap 6, novisualpadding", "[][][][][grow]", "");
        setLayout(layout);
        this.words = words;
        this.layOver = layOver;
        setOpaque(false);
        start.addActionListener(event -> layOver.accept(OptionalDouble.empty()));
        temperature.addActionListener(event -> layOver.accept(OptionalDouble.of(chosenC)));
        KeyRow.bindHere(degrees, "ENTER", this::take);
        degrees.addFocusListener(new java.awt.event.FocusAdapter() {
            @Override
            public void focusLost(java.awt.event.FocusEvent event) {
                take();
            }
        });
        JComponent[] parts = {label, start, temperature, degrees, unit};
        for (JComponent part : parts) {
            add(part);
        }
        fold = new Fold(this, () -> beside(parts), narrow -> {
            layout.setComponentConstraints(label, narrow ? "cell 0 0 5 1, wmin 0" : "cell 0 0");
            for (int i = 1; i < parts.length; i++) {
                layout.setComponentConstraints(parts[i], narrow ? "cell " + (i - 1) + " 1" : "cell " + i + " 0");
            }
        });
    }

    private static int beside(JComponent... parts) {
        int width = 0;
        for (JComponent part : parts) {
            width += part.getPreferredSize().width + 8;
        }
        return width;
    }

    @Override
    public void doLayout() {
        fold.settle();
        super.doLayout();
    }

    /** From one way of laying them over each other to the other. */
    void toggle() {
        layOver.accept(now.isPresent() ? OptionalDouble.empty() : OptionalDouble.of(chosenC));
    }

    /** To write at which temperature they meet. */
    void write() {
        layOver.accept(OptionalDouble.of(chosenC));
        degrees.requestFocusInWindow();
        degrees.selectAll();
    }

    private void take() {
        Optional<Temperature> written =
                temperature(degrees.getText(), words.preferences().unit());
        boolean wrong = written.isEmpty();
        degrees.putClientProperty(FlatClientProperties.OUTLINE, wrong ? FlatClientProperties.OUTLINE_ERROR : null);
        if (wrong) {
            degrees.setToolTipText(words.text("overlay.temperature_expected", degrees.getText()));
            degrees.getAccessibleContext().setAccessibleDescription(degrees.getToolTipText());
            return;
        }
        degrees.setToolTipText(null);
        double celsius = written.get().celsius();
        if (Math.abs(celsius - chosenC) > 0.01) {
            chosenC = celsius;
            layOver.accept(OptionalDouble.of(chosenC));
        }
    }

    /** A whole or decimal number of the unit's degrees between 0 and 1400 °C; empty for anything else. */
    static Optional<Temperature> temperature(String text, TemperatureUnit unit) {
        String plain = text.strip().replace(',', '.').replaceAll("\\s*°?[CF]?$", "");
        if (!plain.matches("\\d{1,4}(\\.\\d{1,2})?")) {
            return Optional.empty();
        }
        double number = Double.parseDouble(plain);
        Temperature written =
                unit == TemperatureUnit.CELSIUS ? Temperature.ofCelsius(number) : Temperature.ofFahrenheit(number);
        return written.celsius() >= 0 && written.celsius() <= 1400 ? Optional.of(written) : Optional.empty();
    }

    void show(OptionalDouble common, Words language) {
        words = language;
        now = common;
        label.setText(words.text("overlay.meet"));
        start.say(words.text("overlay.at_begin"), common.isEmpty() ? "" : "ctrl T", words);
        temperature.say(words.text("overlay.at_temperature"), common.isPresent() ? "" : "ctrl T", words);
        for (JComponent button : new JComponent[] {start, temperature}) {
            boolean front = (button == start) == common.isEmpty();
            button.putClientProperty(
                    FlatClientProperties.STYLE,
                    "margin: 2,6,2,6; " + (front ? "font: bold; borderColor: $Kilnside.ember" : ""));
        }
        degrees.setEnabled(common.isPresent());
        degrees.getAccessibleContext().setAccessibleName(words.text("overlay.at_temperature"));
        unit.setText(words.unit());
        if (!degrees.isFocusOwner()) {
            common.ifPresent(celsius -> chosenC = celsius);
            degrees.setText(words.degrees(Temperature.ofCelsius(chosenC)));
        }
    }
}
