package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.RejectedValueException;
import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.time.DateTimeException;
import java.util.EnumSet;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.Tuple.Tuple2;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsReport;

/** The schema of sheets and the library read the same texts. */
class SchemaProperties {
    /** What a pattern cannot see: how large a number is, how fine, and which of two is the larger. */
    private static final EnumSet<Reason> BEYOND_A_PATTERN =
            EnumSet.of(Reason.OUT_OF_RANGE, Reason.TOO_FINE, Reason.WRONG_ORDER, Reason.TOO_LONG);

    @Provide
    Arbitrary<Tuple2<SchemaForm, String>> right() {
        return Arbitraries.of(SchemaForm.ALL)
                .flatMap(form -> form.right().map(text -> Tuple.of(form, text)))
                .withoutEdgeCases();
    }

    @Property(tries = 3000)
    void bothReadWhatIsRight(@ForAll("right") Tuple2<SchemaForm, String> sample) {
        String text = sample.get2();

        assertThat(sample.get1().read(text)).isNotNull();
        assertThat(sample.get1().schemaAccepts(text)).as("the schema accepts").isTrue();
    }

    /** What the schema lets through, the library reads, or refuses for what no pattern can see. */
    @Property(tries = 5000)
    @StatisticsReport(onFailureOnly = true)
    void theLibraryReadsTheFormsThatTheSchemaAccepts(
            @ForAll("right") Tuple2<SchemaForm, String> sample, @ForAll Random random) {
        String text = changed(sample.get2(), random);
        boolean accepted = sample.get1().schemaAccepts(text);
        Statistics.label("accepted").collect(accepted).coverage(found -> {
            found.check(true).percentage(share -> share > 10);
            found.check(false).percentage(share -> share > 10);
        });
        if (!accepted) {
            return;
        }
        try {
            assertThat(sample.get1().read(text)).isNotNull();
        } catch (TextParseException refused) {
            assertThat(refused.reason())
                    .as("%s: %s", text, refused.getMessage())
                    .isIn(BEYOND_A_PATTERN);
        } catch (RejectedValueException outOfRange) {
            assertThat(outOfRange.problem()).containsAnyOf("is out of range", "is reversed", "does not fit");
        } catch (DateTimeException noDate) {
            throw new AssertionError("the schema accepts the date " + text, noDate);
        }
    }

    /** One or two characters taken out, put in, replaced or said twice. */
    private static String changed(String text, Random random) {
        String characters = "0123456789.,+-/()[]<>= mincHhtoukxesdgrfABTDCpy°µ\"″\n\t\u00a0";
        StringBuilder out = new StringBuilder(text);
        for (int changes = 1 + random.nextInt(2); changes > 0; changes--) {
            int at = random.nextInt(out.length() + 1);
            char with = characters.charAt(random.nextInt(characters.length()));
            boolean inside = at < out.length();
            switch (random.nextInt(4)) {
                case 0 -> out.insert(at, with);
                case 1 -> out.replace(at, Math.min(at + 1, out.length()), String.valueOf(with));
                case 2 -> out.delete(at, inside ? at + 1 : at);
                default -> out.insert(at, inside ? out.charAt(at) : ' ');
            }
        }
        return out.toString();
    }
}
