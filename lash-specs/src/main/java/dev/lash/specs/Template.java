package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.EngineSpec;
import dev.lash.engine.Figure;
import dev.lash.engine.Origin;
import java.io.Serializable;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A generic engine of the pack. Its figures are typical values: a shop confirms them from the maker's manual before relying
 * on them.
 *
 * @param spec the engine
 * @param revision the revision of the template, from 1
 * @param notes facts worth knowing
 * @param sources the sources by their short names
 * @param provenance for each figure, by its JSON pointer, the short name of its source
 * @param lifeCycle since when it is there, and whether it should still be used
 * @param features what kind of machine it is for
 * @param examples worked examples, which the build runs
 */
public record Template(
        EngineSpec spec,
        int revision,
        List<String> notes,
        Map<String, Source> sources,
        Map<String, String> provenance,
        LifeCycle lifeCycle,
        Features features,
        List<TemplateExample> examples)
        implements Serializable {
    private static final String OWN = ", the shop's own, ";

    /**
     * Creates a template.
     *
     * @param spec the engine
     * @param revision the revision of the template, from 1
     * @param notes facts worth knowing
     * @param sources the sources by their short names
     * @param provenance for each figure, by its JSON pointer, the short name of its source
     * @param lifeCycle since when it is there, and whether it should still be used
     * @param features what kind of machine it is for
     * @param examples worked examples, which the build runs
     */
    public Template {
        requireNonNull(spec, "spec");
        requireNonNull(lifeCycle, "lifeCycle");
        requireNonNull(features, "features");
        examples = List.copyOf(examples);
        notes = List.copyOf(notes);
        sources = Collections.unmodifiableMap(new LinkedHashMap<>(sources));
        provenance = Collections.unmodifiableMap(new LinkedHashMap<>(provenance));
    }

    /** Whether the name of a template, as an engine has it, tells that it came from a folder of the shop's. */
    static boolean isOfFolder(String name) {
        return name.contains(OWN);
    }

    /**
     * This template with the shop's figures laid over it. Each is then the shop's own ({@link EngineSpec#origin}), the others keep their
     * sources, and {@link EngineSpec#overridden} tells what was replaced.
     *
     * @param overrides the shop's figures
     * @return the engine
     * @throws DocumentException if a figure cannot be read, contradicts another, or makes the template another engine
     */
    public EngineSpec resolve(TemplateOverrides overrides) {
        return overrides.over(spec);
    }

    /** The same as a shop's own, from that file: its engine and the origin of each figure say so in every report. */
    Template asShops(String file) {
        String name = id() + ", revision " + revision + OWN + file;
        Map<Figure, Origin> origins = new EnumMap<>(Figure.class);
        spec.origins().forEach((figure, o) -> origins.put(figure, new Origin(o.kind(), o.title(), o.place(), name)));
        return new Template(
                spec.toBuilder().template(name).origins(origins).build(),
                revision,
                notes,
                sources,
                provenance,
                lifeCycle,
                features,
                examples);
    }

    /** {@return whether it is a shop's own, from a folder that was laid over the pack; the name of its engine then tells the file} */
    public boolean isShopsOwn() {
        return spec.template().filter(Template::isOfFolder).isPresent();
    }

    /** {@return the short name, the same as the engine's} */
    public String id() {
        return spec.id();
    }

    /** Whether a template should still be used. */
    public enum Status {
        /** Use it. */
        ACTIVE,
        /** Another one is better. */
        DEPRECATED,
        /** It was wrong; it stays so that old sheets can be read. */
        WITHDRAWN;

        /** {@return the word in documents, such as {@code "active"}} */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * The life of a template: its id is never used again, and it is never deleted.
     *
     * @param status whether it should still be used
     * @param addedIn the version of the pack that it came in
     * @param deprecatedIn the version that advised against it; empty while it is active
     * @param replacedBy the id of the better one; empty where there is none
     */
    public record LifeCycle(Status status, String addedIn, String deprecatedIn, String replacedBy)
            implements Serializable {
        /**
         * Creates a life cycle.
         *
         * @param status whether it should still be used
         * @param addedIn the version of the pack that it came in
         * @param deprecatedIn the version that advised against it; empty while it is active
         * @param replacedBy the id of the better one; empty where there is none
         */
        public LifeCycle {
            requireNonNull(status, "status");
            requireNonNull(addedIn, "addedIn");
            requireNonNull(deprecatedIn, "deprecatedIn");
            requireNonNull(replacedBy, "replacedBy");
        }
    }

    /**
     * What kind of machine a template is for, to find it by.
     *
     * @param cooling {@code air}, {@code oil} or {@code liquid}; empty where it does not matter
     * @param uses such as {@code motorcycle}, {@code quad}, {@code generator}
     */
    public record Features(String cooling, List<String> uses) implements Serializable {
        /** The kinds of cooling. */
        public static final List<String> COOLING = List.of("air", "oil", "liquid");

        /** The kinds of use. */
        public static final List<String> USES = List.of(
                "motorcycle",
                "scooter",
                "quad",
                "mower",
                "generator",
                "pump",
                "outboard",
                "tractor",
                "car",
                "industrial");

        /**
         * Creates features.
         *
         * @param cooling {@code air}, {@code oil} or {@code liquid}; empty where it does not matter
         * @param uses such as {@code motorcycle}, {@code quad}, {@code generator}
         */
        public Features {
            requireNonNull(cooling, "cooling");
            uses = List.copyOf(uses);
        }
    }

    /** What kind of source a figure has. */
    public enum SourceKind {
        /** A habit of the trade. */
        COMMON_PRACTICE("common-practice"),
        /** Recalled, not checked. */
        FROM_MEMORY("from-memory"),
        /** Read in a publication. */
        PUBLISHED("published"),
        /** A shop's own figure. */
        SHOP("shop");

        private final String word;

        SourceKind(String word) {
            this.word = word;
        }

        /** {@return the word in documents, such as {@code "from-memory"}} */
        public String word() {
            return word;
        }
    }

    /**
     * Where a figure comes from.
     *
     * @param kind what kind of source it is
     * @param title its title; empty where it has none
     * @param year its year; 0 where it has none
     * @param details publisher, edition, place in it, reliability and note, as far as given, by field name
     */
    public record Source(SourceKind kind, String title, int year, Map<String, String> details) implements Serializable {
        /**
         * Creates a source.
         *
         * @param kind what kind of source it is
         * @param title its title; empty where it has none
         * @param year its year; 0 where it has none
         * @param details publisher, edition, place in it, reliability and note, as far as given, by field name
         */
        public Source {
            requireNonNull(kind, "kind");
            requireNonNull(title, "title");
            details = Collections.unmodifiableMap(new LinkedHashMap<>(details));
        }

        /** The origin of a figure that a template of that name takes from here. */
        Origin origin(String template) {
            String place = Stream.of("publisher", "edition", "locator")
                    .flatMap(detail -> Optional.ofNullable(details.get(detail)).stream())
                    .collect(Collectors.joining(", "));
            String dated = year == 0 ? title : (title + " (" + year + ")").strip();
            return new Origin(Origin.Kind.valueOf(kind.name()), dated, place, template);
        }
    }
}
