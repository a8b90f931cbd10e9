package dev.lash.specs;

import dev.lash.check.ImportFinding;
import dev.lash.check.ReadingRecord;

/** Takes the rows of a file one by one. */
interface ReadingSink {
    /** A row that could be parted into columns. */
    void row(ReadingRecord record);

    /** A row that could not; with its text in the form of the file. */
    void broken(String text, ImportFinding finding);
}
