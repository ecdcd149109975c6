package org.kilnside.report;

import org.kilnside.wording.ProgramCard;

/** The card of what to key into the controller, as a page any browser prints: A4 or letter, large enough for the wall. */
public final class CardPage {
    private CardPage() {}

    /** The page as HTML; stands alone. */
    public static String html(ProgramCard card, String language) {
        StringBuilder page = new StringBuilder();
        page.append("<!DOCTYPE html>\n<html lang=\"")
                .append(escaped(language))
                .append("\">\n<head>\n")
                .append("<meta charset=\"utf-8\">\n<title>")
                .append(escaped(card.title()))
                .append("</title>\n<style>\n")
                .append("@page { margin: 18mm; }\n")
                .append("body { font: 14pt/1.35 sans-serif; color: #000; background: #fff; max-width: 180mm; }\n")
                .append("h1 { font-size: 28pt; margin: 0; }\n")
                .append("p.under { margin: 2mm 0 6mm; font-size: 16pt; }\n")
                .append("table { border-collapse: collapse; width: 100%; }\n")
                .append(
                        "th { text-align: left; font-size: 11pt; border-bottom: 1.5pt solid #000; padding: 1mm 3mm; }\n")
                .append(
                        "td { font-size: 20pt; border-bottom: .5pt solid #888; padding: 2.2mm 3mm; white-space: nowrap; }\n")
                .append("td.box { text-align: center; }\n")
                .append("tr { break-inside: avoid; }\n")
                .append("li { margin: 1.5mm 0; }\n")
                .append("</style>\n</head>\n<body>\n<h1>")
                .append(escaped(card.title()))
                .append("</h1>\n<p class=\"under\">");
        card.kiln().ifPresent(kiln -> page.append(escaped(kiln)).append(" · "));
        page.append(escaped(card.unit())).append("</p>\n<table>\n<tr>");
        card.heads().forEach(head -> page.append("<th>").append(escaped(head)).append("</th>"));
        page.append("<th></th></tr>\n");
        for (ProgramCard.Step step : card.steps()) {
            page.append("<tr><td>").append(step.number()).append("</td><td>");
            page.append(step.cools() ? "↓ " : "").append(escaped(step.rate())).append("</td><td>");
            page.append(escaped(step.target())).append("</td><td>");
            page.append(escaped(step.hold())).append("</td><td class=\"box\">☐ ☐</td></tr>\n");
        }
        page.append("</table>\n<ul>\n");
        card.remarks()
                .forEach(remark -> page.append("<li>").append(escaped(remark)).append("</li>\n"));
        return page.append("</ul>\n</body>\n</html>\n").toString();
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
