package dev.lash.examples;

import dev.lash.check.ImportFinding;
import dev.lash.check.RowOutcome.Fate;
import dev.lash.specs.ImportSession;
import dev.lash.specs.ImportSummary;
import java.io.BufferedOutputStream;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.CopyOption;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The rejected rows and the findings of one file, beside it and in its order; each is there when it is whole, and only where there is
 * something to write.
 *
 * <p>A side file may have been mended by hand, so that none is lost: the same rows keep the file that they have, the last one is
 * written anew only where all its lines stand in the new one as well, and else the next number is taken. Findings are the program's own,
 * and go with the rows that they are about.
 */
final class SideFiles implements ImportSession.Output, AutoCloseable {
    private static final Pattern SIDE_FILE = Pattern.compile("(.+)\\.rejected(?:-(\\d{1,6}))?");

    private final Path file;
    private final Path folder;
    private final String stem;
    private final String ending;

    /** The number of the file itself where it is a side file, else 0. */
    private final int own;

    /** The highest number that is taken. */
    private int highest;

    private final RowOrder rejected;
    private final RowOrder findings;
    private @Nullable String header;
    private @Nullable Path rejectedPath;
    private @Nullable Path findingsPath;
    private boolean asBefore;
    private boolean whole;

    /** The files of the same import, which are to be read as they were. */
    private final Set<Path> inputs;

    SideFiles(Path file, Set<Path> inputs) {
        this.file = file;
        this.inputs = inputs;
        String name = String.valueOf(file.getFileName());
        int dot = name.lastIndexOf('.');
        String before = dot > 0 ? name.substring(0, dot) : name;
        ending = dot > 0 ? name.substring(dot) : "";
        Matcher earlier = SIDE_FILE.matcher(before);
        boolean isSideFile = earlier.matches();
        // the side file of a side file is the next one of the same file
        stem = isSideFile ? earlier.group(1) : before;
        own = !isSideFile ? 0 : earlier.group(2) == null ? 1 : Integer.parseInt(earlier.group(2));
        Path parent = file.toAbsolutePath().getParent();
        folder = parent == null ? file.toAbsolutePath() : parent;
        rejected = new RowOrder(folder);
        findings = new RowOrder(folder);
    }

    /** Whether a file of this name is read as delimited text. */
    static boolean isDelimited(String name) {
        String lower = name.toLowerCase(Locale.ROOT);
        return !lower.endsWith(".json") && !lower.endsWith(".jsonl");
    }

    @Override
    public void header(String text) {
        header = text;
    }

    @Override
    public void rejected(long row, String text) throws IOException {
        rejected.add(row, text);
    }

    @Override
    public void finding(ImportFinding finding, Fate fate) throws IOException {
        findings.add(finding.row(), ImportSummary.line(finding, fate));
    }

    /** Says that the file is one document, which is kept byte for byte where it is rejected. */
    void keepWhole() {
        whole = true;
    }

    /** Where the rejected rows are, or {@code null} where there are none. */
    @Nullable
    Path rejectedPath() {
        return rejectedPath;
    }

    /** Where the findings are, or {@code null} where there are none. */
    @Nullable
    Path findingsPath() {
        return findingsPath;
    }

    /** Whether the rejected rows are those of an earlier import, in the file that they were in. */
    boolean isAsBefore() {
        return asBefore;
    }

    /** Puts the files where they belong, once all is told. */
    void finish() throws IOException {
        if (rejected.isEmpty() && findings.isEmpty()) {
            return;
        }
        highest = last();
        int number;
        if (rejected.isEmpty()) {
            int last = highest;
            number = last > own && !hasRejected(last) ? last : last + 1;
        } else {
            Path fresh = whole ? copy() : write(rejected, header);
            try {
                number = number(fresh);
                rejectedPath = rejectedFile(number);
                if (!asBefore) {
                    Files.move(fresh, rejectedPath, replace(number));
                }
            } finally {
                Files.deleteIfExists(fresh);
            }
        }
        if (!findings.isEmpty()) {
            Path to = findingsFile(number);
            Path fresh = write(findings, null);
            try {
                Files.move(fresh, to, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(fresh);
            }
            findingsPath = to;
        }
    }

    /** The number under which rejected rows are kept. */
    private int number(Path fresh) throws IOException {
        int last = highest;
        for (int number = Math.max(own, 1); number <= last; number++) {
            Path there = rejectedFile(number);
            if (Files.isRegularFile(there) && Files.mismatch(there, fresh) < 0) {
                asBefore = true;
                return number;
            }
        }
        boolean mayChange = last > own && !inputs.contains(rejectedFile(last).toAbsolutePath());
        return mayChange && isWithin(rejectedFile(last), fresh) ? last : last + 1;
    }

    /** The highest number that is taken, at least that of the file itself. */
    private int last() {
        int last = own;
        // a file of the middle may have been deleted: its number is not used again
        int gap = 0;
        for (int number = own + 1; gap < 100; number++) {
            boolean taken = Files.exists(rejectedFile(number)) || Files.exists(findingsFile(number));
            gap = taken ? 0 : gap + 1;
            last = taken ? number : last;
        }
        return last;
    }

    /** Whether a number is that of rejected rows, be they of a file with another ending: its findings are theirs. */
    private boolean hasRejected(int number) throws IOException {
        String name = String.valueOf(sibling(".rejected", number, ".").getFileName());
        try (DirectoryStream<Path> all = Files.newDirectoryStream(
                folder, path -> String.valueOf(path.getFileName()).startsWith(name))) {
            return all.iterator().hasNext();
        }
    }

    /** Whether all lines of a file stand in another one too, in the same order. */
    private static boolean isWithin(Path old, Path fresh) throws IOException {
        if (!Files.isRegularFile(old)) {
            return false;
        }
        try (BufferedReader few = Files.newBufferedReader(old);
                BufferedReader many = Files.newBufferedReader(fresh)) {
            String wanted = few.readLine();
            for (String line = many.readLine(); line != null && wanted != null; line = many.readLine()) {
                wanted = line.equals(wanted) ? few.readLine() : wanted;
            }
            return wanted == null;
        } catch (CharacterCodingException mendedInAnotherEncoding) {
            return false;
        }
    }

    private Path part() {
        return file.resolveSibling("." + stem + ".rejected.part");
    }

    private Path copy() throws IOException {
        return Files.copy(file, part(), StandardCopyOption.REPLACE_EXISTING);
    }

    private Path write(RowOrder lines, @Nullable String first) throws IOException {
        Path fresh = part();
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(fresh))) {
            if (first != null) {
                out.write((first + System.lineSeparator()).getBytes(StandardCharsets.UTF_8));
            }
            lines.writeTo(out);
        }
        return fresh;
    }

    /** A number that was not taken may be taken meanwhile: nothing is written over then. */
    private CopyOption[] replace(int number) {
        return number > highest ? new CopyOption[0] : new CopyOption[] {StandardCopyOption.REPLACE_EXISTING};
    }

    private Path rejectedFile(int number) {
        return sibling(".rejected", number, ending);
    }

    private Path findingsFile(int number) {
        return sibling(".findings", number, ".jsonl");
    }

    private Path sibling(String what, int number, String end) {
        return file.resolveSibling(stem + what + (number == 1 ? "" : "-" + number) + end);
    }

    @Override
    public void close() throws IOException {
        try {
            rejected.close();
        } finally {
            findings.close();
        }
    }
}
