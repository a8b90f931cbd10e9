package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.ClearanceWindow;
import dev.lash.engine.Pitch;
import dev.lash.engine.ShimRange;
import dev.lash.measure.Length;
import dev.lash.measure.Ratio;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import dev.lash.specs.Json.Kind;
import dev.lash.specs.PackVersion.Step;
import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What changed from one version of a pack to another, whether the version says so, and what is against the rules of a template's life.
 * A window, train or timing that changed or came is a major change of the pack, for advice may differ; any other figure is minor; words,
 * and a figure written in another way, are a patch. A template that is gone is a major change and against the rules.
 *
 * @param changes the changes, by template and place
 * @param findings what is against the rules: a template that is gone, an id that now means another engine, a figure that changed while
 *     the revision did not, a life cycle that does not fit that of the old pack
 * @param oldVersion the version of the old pack; {@code null} where its index does not say
 * @param newVersion the version of the new pack; {@code null} where its index does not say
 */
public record PackComparison(
        List<Change> changes,
        List<PackFinding> findings,
        @Nullable PackVersion oldVersion,
        @Nullable PackVersion newVersion)
        implements Serializable {
    private static final Set<String> ADVICE = Set.of(
            "train",
            "clearances",
            "setTo",
            "closerClearances",
            "closerSetTo",
            "condition",
            "valves",
            "cylinders",
            "firingOrder",
            "firingIntervals",
            "camTiming",
            "decompressor",
            "camshafts");
    private static final List<Function<String, Object>> FIGURES = List.of(
            Length::parse,
            ClearanceWindow::parse,
            ShimRange::parse,
            Pitch::parse,
            Usage::parse,
            Temperature::parse,
            Ratio::parse);
    private static final Set<String> WORDS =
            Set.of("title", "notes", "sources", "provenance", "examples", "revision", "tools");

    /**
     * Creates a comparison.
     *
     * @param changes the changes, by template and place
     * @param findings what is against the rules
     * @param oldVersion the version of the old pack; {@code null} where its index does not say
     * @param newVersion the version of the new pack; {@code null} where its index does not say
     */
    public PackComparison {
        changes = List.copyOf(changes);
        findings = List.copyOf(findings);
    }

    /**
     * One change.
     *
     * @param template the id of the template
     * @param pointer the place in it; empty for the whole
     * @param before the old value; empty where it was added
     * @param after the new value; empty where it is gone
     * @param step how large the change is
     */
    public record Change(String template, String pointer, String before, String after, Step step)
            implements Serializable {
        /**
         * Creates a change.
         *
         * @param template the id of the template
         * @param pointer the place in it; empty for the whole
         * @param before the old value; empty where it was added
         * @param after the new value; empty where it is gone
         * @param step how large the change is
         */
        public Change {
            requireNonNull(template, "template");
            requireNonNull(pointer, "pointer");
            requireNonNull(before, "before");
            requireNonNull(after, "after");
            requireNonNull(step, "step");
        }

        /** The same where nothing but the way it is written changed. */
        Change asWords() {
            return new Change(template, pointer, before, after, Step.PATCH);
        }

        /** {@return the change in one line} */
        @Override
        public String toString() {
            return template + pointer + ": " + (before.isEmpty() ? "(none)" : before) + " -> "
                    + (after.isEmpty() ? "(gone)" : after);
        }
    }

    /**
     * Compares two folders.
     *
     * @param before the old pack
     * @param after the new pack
     * @return the comparison
     * @throws IOException if a folder cannot be read
     * @throws DocumentException if a template cannot be read
     */
    public static PackComparison of(Path before, Path after) throws IOException {
        PackFolder old = whole(before);
        PackFolder now = whole(after);
        Map<String, PackFolder.Entry> then = byId(old);
        Map<String, PackFolder.Entry> there = byId(now);
        PackVersion from = version(old).orElse(null);
        PackVersion to = version(now).orElse(null);
        List<Change> changes = new ArrayList<>();
        PackLives lives = new PackLives(from, to);
        Set<String> ids = new TreeSet<>(then.keySet());
        ids.addAll(there.keySet());
        for (String id : ids) {
            PackFolder.Entry was = then.get(id);
            PackFolder.Entry is = there.get(id);
            if (is == null) {
                changes.add(new Change(id, "", "a template", "", Step.MAJOR));
                lives.gone(requireNonNull(was));
            } else if (was == null) {
                changes.add(new Change(id, "", "", "a template", Step.MINOR));
                lives.came(is);
            } else {
                List<Change> here = new ArrayList<>();
                compare(id, "", was.document().root(), is.document().root(), here);
                boolean fireAlike = was.template()
                        .spec()
                        .firingOrder()
                        .equals(is.template().spec().firingOrder());
                here.replaceAll(
                        change -> fireAlike && change.pointer().startsWith("/firing") ? change.asWords() : change);
                changes.addAll(here);
                lives.compare(was, is, here);
            }
        }
        return new PackComparison(changes, lives.findings(), from, to);
    }

    private static PackFolder whole(Path folder) throws IOException {
        PackFolder read = PackFolder.read(folder);
        if (!read.findings().isEmpty()) {
            throw read.findings().get(0).inFolder(folder);
        }
        return read;
    }

    private static Map<String, PackFolder.Entry> byId(PackFolder folder) {
        return folder.entries().stream()
                .collect(Collectors.toMap(e -> e.template().id(), e -> e, (a, b) -> a, TreeMap::new));
    }

    private static Optional<PackVersion> version(PackFolder folder) {
        return folder.index()
                .flatMap(index -> index.find("/version").map(v -> index.read(v, "a version", PackVersion::parse)));
    }

    private static void compare(String id, String pointer, Json a, Json b, List<Change> changes) {
        if (a.kind() == Kind.OBJECT && b.kind() == Kind.OBJECT) {
            Set<String> names = new TreeSet<>(a.members().keySet());
            names.addAll(b.members().keySet());
            for (String name : names) {
                String at = pointer + JsonDocument.step(name);
                Json x = a.members().get(name);
                Json y = b.members().get(name);
                if (x == null || y == null) {
                    changes.add(new Change(id, at, x == null ? "" : words(x), y == null ? "" : words(y), step(at)));
                } else {
                    compare(id, at, x, y, changes);
                }
            }
        } else if (!words(a).equals(words(b))) {
            Step step = isSame(a, b) ? Step.PATCH : step(pointer);
            changes.add(new Change(id, pointer, words(a), words(b), step));
        }
    }

    /** Whether two texts are one figure written in two ways, such as {@code 0.5 mm} and {@code 0.50 mm}. */
    private static boolean isSame(Json a, Json b) {
        return a.kind() == b.kind()
                && FIGURES.stream().anyMatch(figure -> TemplateExample.isSame(a.text(), b.text(), figure));
    }

    private static Step step(String pointer) {
        String field = pointer.substring(1).split("/", -1)[0];
        if (WORDS.contains(field)) {
            return Step.PATCH;
        }
        return ADVICE.contains(field) ? Step.MAJOR : Step.MINOR;
    }

    private static String words(Json value) {
        return switch (value.kind()) {
            case OBJECT ->
                value.members().entrySet().stream()
                        .map(m -> m.getKey() + ": " + words(m.getValue()))
                        .collect(Collectors.joining(", ", "{", "}"));
            case ARRAY -> value.items().stream().map(PackComparison::words).collect(Collectors.joining(", ", "[", "]"));
            case TEXT, NUMBER, TRUTH, NULL -> value.text();
        };
    }

    /** {@return how large the step between the versions must be} */
    public Step needed() {
        return changes.stream().map(Change::step).max(Enum::compareTo).orElse(Step.NONE);
    }

    /**
     * Whether the version tells the truth.
     *
     * @return whether the new version is as far from the old one as the changes need; false where it is lower than the old one, or
     *     where a version is not known
     */
    public boolean isHonest() {
        return oldVersion != null
                && newVersion != null
                && newVersion.compareTo(oldVersion) >= 0
                && oldVersion.to(newVersion).compareTo(needed()) >= 0;
    }

    /** {@return whether the version is honest and nothing is against the rules} */
    public boolean isSound() {
        return isHonest() && findings.isEmpty();
    }
}
