package dev.lash.specs;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Checks a folder of templates, for those who keep the pack or lay a folder of their own over it. */
public final class PackCheck {
    private PackCheck() {}

    /**
     * Everything that is wrong with the templates of a folder, file by file in the order of their names: all that keeps a file from
     * being read (of a file that is no JSON, the place where it stops being so), then what does not make sense, as far as it does not
     * hang on what cannot be read, or else what is not in the canonical form; and at last an index, where there is one, that does not
     * fit the files. A template may name one of the bundled pack.
     *
     * @param folder the folder
     * @return the findings; none where all is well
     * @throws IOException if the folder cannot be read
     * @throws DocumentException if it is no folder, or holds too many files
     */
    public static List<PackFinding> of(Path folder) throws IOException {
        PackFolder read = PackFolder.read(folder);
        List<PackFinding> findings = new ArrayList<>(read.findings());
        Set<String> others = new HashSet<>(beneath());
        // a file that cannot be read is there all the same
        findings.forEach(finding -> others.add(PackFolder.id(finding.file())));
        findings.addAll(TemplateRules.check(
                Stream.concat(read.entries().stream(), read.rests().stream()).toList(), others, true));
        read.index().ifPresent(index -> index(index, read, findings));
        return findings.stream()
                .sorted(Comparator.comparing(
                                (PackFinding finding) -> finding.file().equals(PackFolder.INDEX))
                        .thenComparing(PackFinding::file))
                .toList();
    }

    /**
     * How many templates a folder holds, those included that cannot be read.
     *
     * @param folder the folder
     * @return the number of plain files in the folder itself whose names end in {@code .json}, an index left out
     * @throws IOException if the folder cannot be read
     * @throws DocumentException if it is no folder, or holds too many files
     */
    public static int count(Path folder) throws IOException {
        return PackFolder.count(folder);
    }

    /**
     * Everything that is wrong with one template that is not in a folder yet.
     *
     * @param file the name that its file would have
     * @param json the template
     * @return the findings; none where all is well
     */
    public static List<PackFinding> of(String file, String json) {
        List<PackFinding> findings = new ArrayList<>();
        try {
            JsonDocument document = JsonDocument.parse(file, json);
            PackFolder.entry(file, document, json, "", findings)
                    .map(entry -> TemplateRules.check(List.of(entry), beneath(), true))
                    .ifPresent(findings::addAll);
        } catch (DocumentException broken) {
            findings.add(PackFinding.of(broken));
        }
        return List.copyOf(findings);
    }

    private static Set<String> beneath() {
        return Set.copyOf(SpecPack.bundled().ids());
    }

    /**
     * A template in the canonical form.
     *
     * @param file the name that its file would have, for a message
     * @param json the template
     * @return the template as the pack writes it
     * @throws DocumentException if it is not JSON
     */
    public static String canonical(String file, String json) {
        return Canonical.text(JsonDocument.parse(file, json).root());
    }

    private static void index(JsonDocument index, PackFolder read, List<PackFinding> findings) {
        Json root = index.root();
        Json templates = root.members().get("templates");
        List<Json> listed = templates == null ? List.of() : templates.items();
        for (PackFolder.Entry entry : read.entries()) {
            if (listed.stream().noneMatch(l -> isOf(l, entry))) {
                findings.add(new PackFinding(
                        PackRule.INDEX_CURRENT,
                        PackFolder.INDEX,
                        templates == null ? root.line() : templates.line(),
                        "/templates",
                        entry.name(),
                        "is not in the index as it is now",
                        "its id, file, revision and checksum",
                        "write the index anew; never type a checksum"));
            }
        }
        Set<String> ids = read.entries().stream().map(e -> e.template().id()).collect(Collectors.toSet());
        for (Json entry : listed) {
            String id = text(entry, "id");
            if (read.findings().isEmpty() && !ids.contains(id)) {
                findings.add(new PackFinding(
                        PackRule.INDEX_FILE,
                        PackFolder.INDEX,
                        entry.line(),
                        entry.pointer(),
                        id,
                        "is in the index but not in the folder",
                        "a template for each entry",
                        "put the template back, for none is ever deleted; or write the index anew"));
            }
        }
    }

    private static boolean isOf(Json listed, PackFolder.Entry entry) {
        return text(listed, "id").equals(entry.template().id())
                && text(listed, "file").equals(entry.name())
                && text(listed, "revision")
                        .equals(String.valueOf(entry.template().revision()))
                && text(listed, "sha256").equals(entry.sha256());
    }

    private static String text(Json object, String name) {
        Json value = object.members().get(name);
        return value == null ? "" : value.text();
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
                // written beside it first, so that the file is whole at every moment; with the rights that new files
                // have
                Path whole = folder.resolve("." + entry.name() + ".lash-part");
                // one that is there already is not ours to write or to remove
                Files.createFile(whole);
                try {
                    Files.writeString(whole, text, StandardOpenOption.WRITE);
                    Files.move(whole, folder.resolve(entry.name()), StandardCopyOption.REPLACE_EXISTING);
                } finally {
                    Files.deleteIfExists(whole);
                }
                written.add(entry.name());
            }
        }
        return List.copyOf(written);
    }
}
