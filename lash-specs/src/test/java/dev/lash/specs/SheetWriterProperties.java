package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.check.CheckSheet;
import dev.lash.gauge.ReadingRule;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;
import tools.jackson.databind.JsonNode;

/** What the writer writes, the reader reads back, and the schema allows. */
@Domain(Sheets.Trade.class)
class SheetWriterProperties {
    private static final SheetReader READER = new SheetReader(SpecPack.bundled());

    @Property(tries = 400)
    void readsBackWhatWasWritten(@ForAll CheckSheet sheet) throws IOException {
        String json = SheetWriter.write(sheet);

        assertThat(READER.read("written.json", json)).isEqualTo(sheet);
        assertThat(READER.read("written.json", new ByteArrayInputStream(BadInput.utf8(json))))
                .isEqualTo(sheet);
    }

    @Property(tries = 200)
    void writesValidSheets(@ForAll CheckSheet sheet) {
        String json = SheetWriter.write(sheet);

        assertThat(Schemas.SHEET.errors(json)).as(json).isEmpty();
    }

    @Property(tries = 100)
    void writesTheSameAgain(@ForAll CheckSheet sheet) {
        String json = SheetWriter.write(sheet);

        assertThat(SheetWriter.write(READER.read("written.json", json))).isEqualTo(json);
    }

    /** The generator reaches what the other properties are about; always the same sheets, so that none is missing by chance. */
    @Property(tries = 400, seed = "20310402")
    @StatisticsReport(onFailureOnly = true)
    void theSheetsAreOfEveryKind(@ForAll CheckSheet sheet) {
        Statistics.label("train").collect(sheet.engine().train().kind()).coverage(found -> {
            for (String kind : kinds()) {
                found.check(kind).count(count -> count > 0);
            }
        });
        often("in inches", sheet.gauges().unit().isInch());
        often("guarded", sheet.rule() instanceof ReadingRule.Guarded);
        often(
                "something done",
                sheet.valves().stream().anyMatch(v -> v.findDone().isPresent()));
        often("with history", !sheet.history().isEmpty());
    }

    /** Both happen in a fifth of the sheets at least. */
    private static void often(String label, boolean is) {
        Statistics.label(label).collect(is).coverage(found -> {
            found.check(true).percentage(share -> share > 20);
            found.check(false).percentage(share -> share > 20);
        });
    }

    private static List<String> kinds() {
        return Schemas.SHEET
                .tree()
                .at("/$defs/train/properties/kind/enum")
                .valueStream()
                .map(JsonNode::stringValue)
                .toList();
    }
}
