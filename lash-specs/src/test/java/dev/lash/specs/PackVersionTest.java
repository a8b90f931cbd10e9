package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import dev.lash.measure.RejectedValueException;
import dev.lash.specs.PackVersion.Step;
import java.io.IOException;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PackVersionTest {
    private static final int MOST = 999_999_999;

    @Property(tries = 300)
    void parseTurnsToStringBack(
            @ForAll @IntRange(max = MOST) int major,
            @ForAll @IntRange(max = MOST) int minor,
            @ForAll @IntRange(max = MOST) int patch) {
        PackVersion version = new PackVersion(major, minor, patch);

        assertThat(PackVersion.parse(version.toString())).isEqualTo(version).isEqualByComparingTo(version);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "1",
                "1.2",
                "1.2.3.4",
                "01.2.3",
                "1.02.3",
                "1.2.03",
                "-1.2.3",
                "1.2.-3",
                "1.2.3-rc",
                "1.2.3 ",
                " 1.2.3",
                "1,2,3",
                "v1.2.3",
                "1.2.x",
                "1.2.1000000000",
                "99999999999999999999.0.0",
                "１.2.3",
                "1.2.3\n"
            })
    void refusesWhatIsNoVersion(String text) {
        RejectedValueException refused =
                catchThrowableOfType(RejectedValueException.class, () -> PackVersion.parse(text));

        assertThat(refused.what()).isEqualTo("version");
        assertThat(refused.value()).isEqualTo(text);
        assertThat(refused.problem()).isEqualTo("is not a version");
        assertThat(refused.expected()).isEqualTo("three whole numbers such as 1.2.3");
    }

    @Test
    void refusesNumbersThatItCouldNotRead() {
        for (int[] parts : List.of(new int[] {-1, 0, 0}, new int[] {0, -1, 0}, new int[] {0, 0, MOST + 1})) {
            RejectedValueException refused = catchThrowableOfType(
                    RejectedValueException.class, () -> new PackVersion(parts[0], parts[1], parts[2]));
            assertThat(refused.value()).isEqualTo(parts[0] + "." + parts[1] + "." + parts[2]);
            assertThat(refused.expected()).contains("0 to 999999999");
        }
        assertThatNullPointerException()
                .isThrownBy(() -> PackVersion.parse(null))
                .withMessage("text");
    }

    /** The order of precedence of Semantic Versioning 2.0.0, item 11, for versions without pre-release. */
    @Test
    void ordersByMajorThenMinorThenPatch() {
        List<PackVersion> ordered =
                List.of("0.0.9", "0.1.0", "0.9.0", "0.10.0", "1.0.0", "2.0.0", "2.1.0", "2.1.1").stream()
                        .map(PackVersion::parse)
                        .toList();
        for (int i = 0; i < ordered.size(); i++) {
            for (int j = 0; j < ordered.size(); j++) {
                assertThat(Integer.signum(ordered.get(i).compareTo(ordered.get(j))))
                        .isEqualTo(Integer.signum(Integer.compare(i, j)));
            }
        }
    }

    @ParameterizedTest
    @CsvSource({
        "1.2.3, 1.2.3, NONE",
        "1.2.3, 1.2.2, NONE",
        "1.2.3, 0.9.9, NONE",
        "1.2.3, 1.2.4, PATCH",
        "1.2.3, 1.3.0, MINOR",
        "1.2.3, 2.0.0, MAJOR",
        "0.2.3, 0.2.4, PATCH",
        "0.2.3, 0.3.0, MAJOR",
        "0.2.3, 1.0.0, MAJOR"
    })
    void saysHowLargeAStepIs(String from, String to, Step step) {
        assertThat(PackVersion.parse(from).to(PackVersion.parse(to))).isEqualTo(step);
    }

    @Test
    void serialises() throws IOException, ClassNotFoundException {
        PackVersion version = PackVersion.parse("1.2.3");

        assertThat(TemplateTest.copied(version)).isEqualTo(version).hasSameHashCodeAs(version);
    }
}
