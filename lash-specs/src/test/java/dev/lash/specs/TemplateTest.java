package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;

import dev.lash.engine.EngineSpec;
import dev.lash.specs.Template.Source;
import dev.lash.specs.Template.SourceKind;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class TemplateTest {
    private static final Template.LifeCycle LIFE = new Template.LifeCycle(Template.Status.ACTIVE, "0.1.0", "", "");
    private static final Template.Features FEATURES = new Template.Features("", List.of());

    private final Template template = SpecPack.bundled().get("follower-single");

    /** A copy through serialisation. */
    static Object copied(Object value) throws IOException, ClassNotFoundException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
            out.writeObject(value);
        }
        try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
            return in.readObject();
        }
    }

    @Test
    void refusesNull() {
        EngineSpec spec = template.spec();

        assertThatNullPointerException()
                .isThrownBy(() -> new Template(null, 1, List.of(), Map.of(), Map.of(), LIFE, FEATURES, List.of()));
        assertThatNullPointerException()
                .isThrownBy(() -> new Template(spec, 1, null, Map.of(), Map.of(), LIFE, FEATURES, List.of()));
        assertThatNullPointerException()
                .isThrownBy(() -> new Template(spec, 1, List.of(), null, Map.of(), LIFE, FEATURES, List.of()));
        assertThatNullPointerException()
                .isThrownBy(() -> new Template(spec, 1, List.of(), Map.of(), null, LIFE, FEATURES, List.of()));
        assertThatNullPointerException().isThrownBy(() -> new Source(null, "", 0, Map.of()));
        assertThatNullPointerException().isThrownBy(() -> new Source(SourceKind.SHOP, null, 0, Map.of()));
        assertThatNullPointerException().isThrownBy(() -> new Source(SourceKind.SHOP, "", 0, null));
    }

    @Test
    void keepsItsOwnCopies() {
        List<String> notes = new ArrayList<>(List.of("a"));
        Map<String, String> details = new HashMap<>(Map.of("note", "b"));
        Source source = new Source(SourceKind.SHOP, "", 0, details);
        Template made =
                new Template(template.spec(), 1, notes, Map.of("own", source), Map.of(), LIFE, FEATURES, List.of());
        notes.add("c");
        details.clear();

        assertThat(made.notes()).containsExactly("a").isUnmodifiable();
        assertThat(source.details()).containsEntry("note", "b");
        assertThat(made.id()).isEqualTo(template.spec().id());
    }

    @Test
    void namesTheKindsOfSource() {
        assertThat(SourceKind.values())
                .extracting(SourceKind::word)
                .containsExactly("common-practice", "from-memory", "published", "shop");
    }

    @Test
    void serialises() throws IOException, ClassNotFoundException {
        assertThat(copied(template)).isEqualTo(template).hasSameHashCodeAs(template);
    }
}
