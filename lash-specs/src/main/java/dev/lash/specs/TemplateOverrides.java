package dev.lash.specs;

import static java.util.Objects.requireNonNull;

import dev.lash.engine.EngineSpec;
import java.io.IOException;
import java.nio.file.Path;

/**
 * Figures that a shop lays over a template, as the {@code engine} of a check sheet has them beside {@code template}: {@code train},
 * {@code clearances}, {@code setTo}, {@code firingOrder}, {@code firingIntervals}, {@code condition}, {@code checkInterval},
 * {@code camTiming}, {@code decompressor}, {@code camshafts}, {@code wearPrior}, for a desmodromic train {@code closerClearances} and
 * {@code closerSetTo}, and {@code confirmedFrom}, where the shop read them. Lengths are texts with their unit. Immutable.
 */
public final class TemplateOverrides {
    private final JsonDocument document;

    private TemplateOverrides(JsonDocument document) {
        this.document = document;
        document.fields(document.root());
    }

    /** {@return no figures: the template stays as it is} */
    public static TemplateOverrides none() {
        return parse("no overrides", "{}");
    }

    /**
     * Reads figures from text. Whether they fit a template shows when they are laid over it, {@link SpecPack#resolve}.
     *
     * @param source the name to use in errors
     * @param json an object with the figures; {@code {}} for none
     * @return the figures
     * @throws DocumentException if it is no JSON object, or larger than 8 MiB
     */
    public static TemplateOverrides parse(String source, String json) {
        return new TemplateOverrides(
                JsonDocument.parse(requireNonNull(source, "source"), requireNonNull(json, "json")));
    }

    /**
     * Reads figures from a file of UTF-8.
     *
     * @param file the file
     * @return the figures
     * @throws IOException if the file cannot be read
     * @throws DocumentException if it is no JSON object, or larger than 8 MiB
     */
    public static TemplateOverrides read(Path file) throws IOException {
        return new TemplateOverrides(JsonDocument.read(file));
    }

    EngineSpec over(EngineSpec template) {
        return SheetEngineReader.overlaid(document, template);
    }
}
