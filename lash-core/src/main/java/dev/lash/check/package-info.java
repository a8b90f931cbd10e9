/**
 * The job: from a check sheet to a report.
 *
 * <p>A {@link dev.lash.check.CheckSheet} is what was done at the bench: the engine, the leaves, and for each valve its {@link
 * dev.lash.check.ValveReading}. A {@link dev.lash.check.ValveCheck} joins, for one valve, the evidence, the verdict and the
 * adjustment; a {@link dev.lash.check.CheckReport} is everything said about the sheet, with findings and cautions.
 *
 * <pre>{@code
 * CheckSheet sheet = CheckSheet.builder(spec, gauges)
 *         .valve(ValveReading.of("1-in-1", "0.13 mm forced", "0.10 mm goes"))
 *         .build();
 * CheckReport report = CheckReport.of(sheet);
 * report.valves().get(0).verdict();      // Optional[within]
 * }</pre>
 *
 * <p>Every value is immutable, thread-safe and {@link java.io.Serializable}; builders are neither and are used by one
 * thread. Verdicts are not findings: a tight valve is a result, two trials that contradict each other are a finding.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.check;

import org.jspecify.annotations.NullMarked;
