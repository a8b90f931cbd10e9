package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.EngineSpec;
import java.io.Serializable;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A generic engine of the pack. Its figures are typical values: a shop confirms them from the maker's manual before relying
 * on them.
 *
 * @param spec the engine
 * @param revision the revision of the template, from 1
 * @param notes facts worth knowing
 * @param sources the sources by their short names
 * @param provenance for each figure, by its JSON pointer, the short name of its source
 */
public record Template(
        EngineSpec spec, int revision, List<String> notes, Map<String, Source> sources, Map<String, String> provenance)
        implements Serializable {
    /**
     * Creates a template.
     *
     * @param spec the engine
     * @param revision the revision of the template, from 1
     * @param notes facts worth knowing
     * @param sources the sources by their short names
     * @param provenance for each figure, by its JSON pointer, the short name of its source
     */
    public Template {
        requireNonNull(spec, "spec");
        notes = List.copyOf(notes);
        sources = Collections.unmodifiableMap(new LinkedHashMap<>(sources));
        provenance = Collections.unmodifiableMap(new LinkedHashMap<>(provenance));
    }

    /** {@return the short name, the same as the engine's} */
    public String id() {
        return spec.id();
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
    }
}
