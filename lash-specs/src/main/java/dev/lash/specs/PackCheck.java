package dev.lash.specs;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** Checks a folder of templates, for those who keep the pack or lay a folder of their own over it. */
public final class PackCheck {
    private PackCheck() {}

    /**
     * Everything that is wrong with the templates of a folder: what cannot be read, then what does not make sense, then what is not in
     * the canonical form; and an index, where there is one, that does not fit the files.
     *
     * @param folder the folder
     * @return the findings; none where all is well
     * @throws IOException if the folder cannot be read
     * @throws DocumentException if it is no folder, or holds too many files
     */
    public static List<PackFinding> of(Path folder) throws IOException {
        PackFolder read = PackFolder.read(folder);
        List<PackFinding> findings = new ArrayList<>(read.findings());
        findings.addAll(TemplateRules.check(read.entries(), Set.of(), true));
        read.index().ifPresent(index -> index(index, read, findings));
        return List.copyOf(findings);
    }

    private static void index(JsonDocument index, PackFolder read, List<PackFinding> findings) {
        for (PackFolder.Entry entry : read.entries()) {
            String sum = entry.sha256();
            boolean listed = index.root().members().containsKey("templates")
                    && index.root().members().get("templates").items().stream()
                            .map(Json::members)
                            .anyMatch(m -> m.containsKey("sha256")
                                    && m.get("sha256").text().equals(sum)
                                    && m.containsKey("id")
                                    && m.get("id")
                                            .text()
                                            .equals(entry.template().id()));
            if (!listed) {
                findings.add(new PackFinding(
                        PackFolder.INDEX,
                        1,
                        "/templates",
                        entry.name(),
                        "is not in the index as it is now",
                        "its id, revision and checksum",
                        "write the index anew; never type a checksum"));
            }
        }
    }

    /**
     * Writes every readable template of a folder in the canonical form.
     *
     * @param folder the folder
     * @return the names of the files that were written
     * @throws IOException if a file cannot be read or written
     */
    public static List<String> write(Path folder) throws IOException {
        List<String> written = new ArrayList<>();
        for (PackFolder.Entry entry : PackFolder.read(folder).entries()) {
            String text = Canonical.text(entry.document().root());
            if (!text.equals(entry.text())) {
                Path whole = Files.createTempFile(folder, entry.name(), ".tmp");
                Files.writeString(whole, text);
                Files.move(whole, folder.resolve(entry.name()), StandardCopyOption.REPLACE_EXISTING);
                written.add(entry.name());
            }
        }
        return List.copyOf(written);
    }
}
