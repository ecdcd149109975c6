package org.kilnside.desktop.plan;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.util.Optional;
import java.util.function.Predicate;
import javax.swing.JTextField;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;

/** A field of the editor: hands on what is typed letter by letter, and shows what the model has where nobody types. */
final class PlanField extends JTextField {
    private static final long serialVersionUID = 1L;
    private final transient PlansModel model;
    private final transient PlansModel.Place place;
    private boolean filling;
    private boolean typing;

    PlanField(PlansModel model, PlansModel.Place place, int columns) {
        super(columns);
        this.model = model;
        this.place = place;
        getDocument().addDocumentListener(new DocumentListener() {
            @Override
            public void insertUpdate(DocumentEvent event) {
                typed();
            }

            @Override
            public void removeUpdate(DocumentEvent event) {
                typed();
            }

            @Override
            public void changedUpdate(DocumentEvent event) {
                // Only styled text changes so.
            }
        });
        addFocusListener(new FocusAdapter() {
            @Override
            public void focusGained(FocusEvent event) {
                if (place.segment() > 0) {
                    model.select(place.segment());
                    selectAll();
                }
            }

            @Override
            public void focusLost(FocusEvent event) {
                model.left();
            }
        });
        addActionListener(event -> transferFocus());
    }

    private void typed() {
        if (!filling) {
            typing = true;
            model.typed(place, getText());
            typing = false;
        }
    }

    /**
     * Shows a value, unless what stands here means the same, or is no value and still to be mended.
     *
     * @param means whether a text means the value
     */
    void show(String value, Predicate<String> means) {
        Optional<PlansModel.Rejected> rejected = model.rejected(place);
        putClientProperty(
                FlatClientProperties.OUTLINE, rejected.isPresent() ? FlatClientProperties.OUTLINE_ERROR : null);
        getAccessibleContext()
                .setAccessibleDescription(
                        rejected.map(PlansModel.Rejected::sentence).orElse(null));
        // What is being written is not mended under the person's hands.
        if (typing || (rejected.isPresent() && rejected.get().text().equals(getText()))) {
            return;
        }
        boolean same = isFocusOwner() ? means.test(getText()) : getText().equals(value);
        if (!same) {
            filling = true;
            setText(value);
            filling = false;
        }
    }

    /** What the field is, for the eye that does not see it. */
    void named(String name) {
        getAccessibleContext().setAccessibleName(name);
        setToolTipText(name);
    }
}
