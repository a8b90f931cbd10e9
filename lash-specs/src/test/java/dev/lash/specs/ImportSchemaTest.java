package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import dev.lash.check.ImportCode;
import dev.lash.check.ImportFinding;
import dev.lash.check.ImportFinding.Standing;
import dev.lash.check.ReadingField;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.check.Severity;
import dev.lash.check.ValidationProfile;
import dev.lash.measure.Length;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** The documents of an import against their schemas, and the schemas against what reads and writes them. */
class ImportSchemaTest {
    private static final String MAPPING = """
            { "format": "lash-mapping/1", "delimiter": ";", "decimalComma": true, "dateOrder": "day-month-year",
              "unit": "mm", "units": { "shim": "thou" }, "usageUnit": "km", "temperatureScale": "C",
              "columns": { "machine": "Bike", "date": "Day", "usage": "km", "valve": "Valve", "goes": "Go", "shim": "Shim" },
              "valveNames": { "IN": "1-in-1" } }
            """;

    private static final String PROFILE = """
            { "format": "lash-profile/1", "largestClearance": "3 mm", "thinnestLeaf": "0.03 mm", "windowMargin": "0.02 mm",
              "historyScatter": "1 thou", "strayShare": 0.02, "slipShare": 0.002, "swapOdds": 30, "loosening": "0 mm",
              "shimTolerance": "0.05 mm", "kilometresPerDay": 400, "hoursPerDay": 12, "jumpFactor": 5.5, "windowFactor": 8, "mostVisits": 7,
              "mostOpenVisits": 8, "corrections": ["decimal-comma", "other-unit"] }
            """;

    private static List<String> words(Schemas schema, String pointer) {
        JsonNode list = schema.tree().at(pointer);
        assertThat(list.isArray()).as(pointer).isTrue();
        return list.valueStream().map(JsonNode::stringValue).toList();
    }

    // mapping

    @Test
    void aMappingIsValidAndRead() {
        assertThat(Schemas.MAPPING.errors(MAPPING)).isEmpty();
        assertThat(ImportMapping.read("mapping", MAPPING).delimiter()).isEqualTo(';');
        for (JsonNode example : Schemas.MAPPING.tree().get("examples")) {
            assertThat(ImportMapping.read("example", example.toString())).isNotNull();
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "/format | \"lash-mapping/2\"",
                "/delimiter | \"\"",
                "/delimiter | \";;\"",
                "/delimiter | \"x\"",
                "/delimiter | \"5\"",
                "/delimiter | \"\\\"\"",
                "/delimiter | \"\\n\"",
                "/decimalComma | \"yes\"",
                "/dateOrder | \"iso\"",
                "/unit | \"cm\"",
                "/units | { \"date\": \"mm\" }",
                "/units/shim | \"cm\"",
                "/usageUnit | \"m\"",
                "/temperatureScale | \"K\"",
                "/columns | []",
                "/columns/goes | 7",
                "/columns/bike | \"Bike\"",
                "/valveNames/IN | \"intake\"",
                "/guess | true"
            })
    void aBrokenMappingIsRefusedByBoth(String pointer, String value) {
        String broken = Trees.with(MAPPING, pointer, value);
        assertThat(Schemas.MAPPING.errors(broken)).isNotEmpty();
        assertThatThrownBy(() -> ImportMapping.read("mapping", broken)).isInstanceOf(DocumentException.class);
    }

    @Test
    void knowsTheFields() {
        List<String> all =
                Arrays.stream(ReadingField.values()).map(ReadingField::word).toList();
        List<String> lengths = Arrays.stream(ReadingField.values())
                .filter(ReadingField::isLength)
                .map(ReadingField::word)
                .toList();
        JsonNode defs = Schemas.MAPPING.tree().get("$defs");
        assertThat(defs.at("/columns/properties").propertyNames()).containsExactlyElementsOf(all);
        assertThat(defs.at("/units/properties").propertyNames()).containsExactlyElementsOf(lengths);
        assertThat(words(Schemas.IMPORT, "/$defs/field/enum")).containsExactlyElementsOf(all);
    }

    // profile

    @Test
    void aProfileIsValidAndRead() {
        assertThat(Schemas.PROFILE.errors(PROFILE)).isEmpty();
        assertThat(ProfileReader.read("profile", PROFILE))
                .isEqualTo(new ValidationProfile(
                        Length.ofMillimetres("3"),
                        Length.ofMillimetres("0.03"),
                        Length.ofMillimetres("0.02"),
                        Length.parse("1 thou"),
                        0.02,
                        0.002,
                        30,
                        Length.ZERO,
                        Length.ofMillimetres("0.05"),
                        400,
                        12,
                        5.5,
                        8,
                        7,
                        8,
                        Set.of(ImportCode.DECIMAL_COMMA, ImportCode.OTHER_UNIT)));
        for (JsonNode example : Schemas.PROFILE.tree().get("examples")) {
            assertThat(ProfileReader.read("example", example.toString())).isNotNull();
        }
    }

    @Test
    void whatAProfileLeavesOutIsTheDefault() {
        String nothing = "{ \"format\": \"lash-profile/1\" }";
        assertThat(Schemas.PROFILE.errors(nothing)).isEmpty();
        assertThat(ProfileReader.read("profile", nothing)).isEqualTo(ValidationProfile.defaults());
    }

    /** The name of each threshold in documents is that in code. */
    @Test
    void knowsTheThresholds() {
        List<String> names = Arrays.stream(ValidationProfile.class.getRecordComponents())
                .map(java.lang.reflect.RecordComponent::getName)
                .toList();
        assertThat(Schemas.PROFILE.tree().get("properties").propertyNames())
                .containsExactlyElementsOf(
                        java.util.stream.Stream.concat(java.util.stream.Stream.of("format"), names.stream())
                                .toList());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "/format | \"lash-profile/2\" | lash-profile/1",
                "/thinnestLeaf | 0.02 | a length with its unit",
                "/strayShare | 0 | above 0 and below 1",
                "/strayShare | 1 | above 0 and below 1",
                "/slipShare | \"0.1\" | a number such as 0.001",
                "/swapOdds | 1 | above 1",
                "/jumpFactor | 2e9 | at most 1000000000",
                "/windowFactor | 1 | above 1",
                "/kilometresPerDay | 0 | 1 to 1000000",
                "/hoursPerDay | 1000001 | 1 to 1000000",
                "/mostVisits | 100001 | 1 to 100000",
                "/mostVisits | 1.5 | whole number",
                "/mostVisits | 3000000000 | expected a whole number, 1 to 100000",
                "/kilometresPerDay | -3000000000 | expected a whole number, 1 to 1000000",
                "/mostOpenVisits | -1 | 1 to 1000000",
                "/corrections/0 | \"Guess\" | other-unit",
                "/corrections/1 | \"decimal-comma\" | each code once",
                "/corrections | \"other-unit\" | a list",
                "/lossening | \"0.05 mm\" | loosening"
            })
    void aBrokenProfileIsRefusedByBothInItsPlace(String pointer, String value, String expected) {
        String broken = Trees.with(PROFILE, pointer, value);
        assertThat(Schemas.PROFILE.errors(broken)).isNotEmpty();
        assertThatThrownBy(() -> ProfileReader.read("profile", broken))
                .isInstanceOfSatisfying(
                        DocumentException.class, e -> assertThat(e.pointer()).startsWith(pointer))
                .hasMessageContaining("profile, line ")
                .hasMessageContaining(expected);
    }

    /** A pattern cannot see how long a length is. */
    @ParameterizedTest
    @ValueSource(strings = {"largestClearance", "thinnestLeaf", "windowMargin", "historyScatter"})
    void theReaderAloneSeesThatALengthIsNothing(String name) {
        String broken = Trees.with(PROFILE, "/" + name, "\"0 mm\"");
        assertThatThrownBy(() -> ProfileReader.read("profile", broken))
                .isInstanceOfSatisfying(
                        DocumentException.class, e -> assertThat(e.pointer()).isEqualTo("/" + name))
                .hasMessageContaining("above 0 mm, at most 1000 mm");
    }

    @Test
    void aProfileNobodyCouldMeanIsRefused() {
        for (String odd :
                List.of("", "[]", "7", "{}", "{ \"format\": \"lash-profile/1\", \"format\": \"lash-profile/1\" }")) {
            assertThat(catchThrowable(() -> ProfileReader.read("profile", odd))).isInstanceOf(DocumentException.class);
        }
    }

    // summary

    @Test
    void whatAnImportCameToIsValid() {
        Imports in = new Imports();
        assertThat(Schemas.IMPORT.errors(in.session.summary().json())).isEmpty();
        in.csv(
                "Hill bike 5;2.4.2031;9120;IN;0,10;0,13;",
                "Hill bike 5;2.4.2031;9120;EX;0,20;0,17;",
                "Hill bike 5;2.4.2031;9120;EX;0,007;0,008;",
                "Hill bike 5;2.4.2031;9120;ex;0.17;0,20;",
                "Hill bike 5;2.4.2031;;IN",
                "Hill bike 5;2.4.2031;;IN;;;",
                "Lawn;2.4.2031;9120;IN;0,10;0,13;");
        String json = in.session.summary().json();
        assertThat(in.findings).hasSizeGreaterThan(6);
        assertThat(Schemas.IMPORT.errors(json)).isEmpty();
        Schemas.Part finding = Schemas.IMPORT.part("finding");
        for (ImportFinding each : in.findings) {
            assertThat(finding.errors(ImportSummary.line(each, Fate.REJECTED))).isEmpty();
        }
        for (String pointer :
                List.of("/read", "/findings", "/findings/0/code", "/findings/0/first/row", "/findings/0/first/mend")) {
            assertThat(Schemas.IMPORT.errors(Trees.with(json, pointer, "null")))
                    .as(pointer)
                    .isNotEmpty();
        }
        assertThat(Schemas.IMPORT.errors(Trees.with(json, "/more", "1"))).isNotEmpty();
        assertThat(Schemas.IMPORT.errors(Trees.with(json, "/findings/0/severity", "\"bad\"")))
                .isNotEmpty();
    }

    @Test
    void knowsTheWordsOfFindings() {
        assertThat(words(Schemas.IMPORT, "/$defs/severity/enum"))
                .containsExactlyElementsOf(
                        Arrays.stream(Severity.values()).map(Severity::word).toList());
        assertThat(words(Schemas.IMPORT, "/$defs/finding/properties/standing/enum"))
                .containsExactlyElementsOf(
                        Arrays.stream(Standing.values()).map(Standing::word).toList());
        assertThat(words(Schemas.IMPORT, "/$defs/finding/properties/fate/enum"))
                .containsExactlyElementsOf(
                        Arrays.stream(Fate.values()).map(Fate::word).toList());
        Schemas.Part code = Schemas.IMPORT.part("code");
        assertThat(Arrays.stream(ImportCode.values()).map(ImportCode::code)).allMatch(code::accepts);
    }
}
