package dev.lash.testing;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.gauge.Evidence;
import dev.lash.gauge.ReadingRule;
import dev.lash.gauge.Trial;
import dev.lash.measure.LengthInterval;
import java.util.List;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;

/** The generators reach what the properties that use them are about. */
@Domain(Generators.Trade.class)
class GeneratorsProperties {
    @Property
    @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
    void intervalsOfEveryKindComeOften(@ForAll LengthInterval a, @ForAll LengthInterval b) {
        Statistics.label("ends").collect(a.lower().isPresent(), a.upper().isPresent());
        Statistics.label("ends").coverage(coverage -> {
            coverage.check(true, true).percentage(p -> p > 20);
            coverage.check(true, false).percentage(p -> p > 5);
            coverage.check(false, true).percentage(p -> p > 5);
            coverage.check(false, false).count(c -> c > 0);
        });
        Statistics.label("meet").collect(a.intersects(b));
        Statistics.label("meet").coverage(coverage -> {
            coverage.check(true).percentage(p -> p > 20);
            coverage.check(false).percentage(p -> p > 20);
        });
    }

    @Property
    void honestTrialsNeverContradict(@ForAll("honest") List<Trial> trials) {
        assertThat(Evidence.of(trials, ReadingRule.simple()).bracket()).isPresent();
    }

    @Provide
    Arbitrary<List<Trial>> honest() {
        return Generators.honestTrials();
    }
}
