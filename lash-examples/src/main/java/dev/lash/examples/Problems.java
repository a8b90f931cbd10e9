package dev.lash.examples;

import dev.lash.measure.RejectedValueException;
import dev.lash.specs.DocumentException;
import java.io.PrintStream;

/** Says on standard error what cannot be used, and how to mend it. */
final class Problems {
    private Problems() {}

    static void print(String message, PrintStream err) {
        err.println("lash: " + message);
    }

    static void print(DocumentException broken, PrintStream err) {
        String value = broken.value().isEmpty() ? "" : RejectedValueException.quote(broken.value()) + " ";
        err.println("lash: cannot read " + broken.source());
        if (broken.line() > 0) {
            err.println("  where     line " + broken.line() + ", column " + broken.column()
                    + (broken.pointer().isEmpty() ? "" : " (" + broken.pointer() + ")"));
        }
        err.println("  problem   " + value + broken.problem());
        err.println("  expected  " + broken.expected());
        err.println("  mend      " + broken.mend());
    }
}
