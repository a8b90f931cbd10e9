/**
 * Documents and data: check sheets, reports and spec templates as JSON, and the bundled pack of templates.
 *
 * <p>Reading is strict. An unknown field, a key given twice, text after the end, a number without a unit or an oversize
 * value is refused with a {@link dev.lash.specs.DocumentException}, which names the file, line and column, the JSON pointer,
 * the value, what was expected and how to mend it. No JSON library shows in these signatures.
 *
 * <pre>{@code
 * CheckSheet sheet = new SheetReader(SpecPack.bundled()).read("sheet.json", text);
 * String json = ReportWriter.pretty().write(CheckReport.of(sheet));
 * }</pre>
 *
 * <p>Every class is thread-safe; values are immutable.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.specs;

import org.jspecify.annotations.NullMarked;
