package org.kilnside.desktop.week;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.util.Optional;
import javax.swing.BorderFactory;
import javax.swing.JLabel;
import javax.swing.JTextField;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Labels;

/** A field of the week that is typed into: hands on what stands in it when it is left, and on Enter; Escape puts it back. */
final class WeekInput extends JTextField {
    private static final long serialVersionUID = 1L;

    private final transient WeekModel model;
    private final JLabel beside = Labels.quiet("");
    private transient WeekModel.Place place;

    /** What was last shown here, so that what a person is typing is told from it. */
    private String shown = "";

    WeekInput(WeekModel model, WeekModel.Place place) {
        super(6);
        this.model = model;
        this.place = place;
        beside.setBorder(BorderFactory.createEmptyBorder(0, 4, 0, 6));
        putClientProperty(FlatClientProperties.TEXT_FIELD_TRAILING_COMPONENT, beside);
        addFocusListener(new FocusAdapter() {
            @Override
            public void focusGained(FocusEvent event) {
                selectAll();
                scrollRectToVisible(new java.awt.Rectangle(0, 0, getWidth(), getHeight()));
            }

            @Override
            public void focusLost(FocusEvent event) {
                commit();
                model.left();
            }
        });
        KeyRow.bindHere(this, "ENTER", this::commit);
        KeyRow.bindHere(this, "ESCAPE", this::putBack);
    }

    /** Hands on what stands here, where it is not handed on yet. */
    void commit() {
        String typed = getText();
        if (!typed.equals(shown)) {
            shown = typed;
            model.typed(place, typed);
        }
    }

    private void putBack() {
        model.forget(place);
        shown = null;
        setText("");
        model.changed();
    }

    /**
     * Shows what the model has, unless a person is writing here.
     *
     * @param hint what may be written, where nothing is
     * @param remark stands beside the value, such as the day of a date
     */
    void show(WeekModel.Place its, String value, String name, String hint, String remark) {
        if (!its.equals(place)) {
            commit();
            place = its;
            shown = getText();
        }
        Optional<WeekModel.Rejected> rejected = model.rejected(place);
        String wanted = rejected.map(WeekModel.Rejected::text).orElse(value);
        boolean isWriting = isFocusOwner() && shown != null && !getText().equals(shown);
        if (!isWriting && !getText().equals(wanted)) {
            setText(wanted);
            setCaretPosition(0);
        }
        if (!isWriting) {
            shown = wanted;
        }
        beside.setText(rejected.isPresent() || isWriting ? "" : remark);
        putClientProperty(
                FlatClientProperties.OUTLINE, rejected.isPresent() ? FlatClientProperties.OUTLINE_ERROR : null);
        putClientProperty(FlatClientProperties.PLACEHOLDER_TEXT, hint);
        getAccessibleContext().setAccessibleName(name);
        getAccessibleContext()
                .setAccessibleDescription(
                        rejected.map(WeekModel.Rejected::sentence).orElse(null));
        setToolTipText(name);
    }
}
