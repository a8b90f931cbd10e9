/**
 * The engine as clearance work sees it: valves and their names, clearance windows, the train that moves each valve and how
 * it is adjusted, firing order, and the {@link dev.lash.engine.EngineSpec} that holds them together.
 *
 * <pre>{@code
 * EngineSpec spec = EngineSpec.builder("training-single", "Training single, screw rockers")
 *         .valves("1-in-1", "1-ex-1")
 *         .train(ValveTrain.Screw.atValveTip(Pitch.parse("0.75 mm")))
 *         .window(ValveRole.INTAKE, ClearanceWindow.parse("0.08..0.13 mm"))
 *         .window(ValveRole.EXHAUST, ClearanceWindow.parse("0.17..0.22 mm"))
 *         .build();
 * }</pre>
 *
 * <p>Every value is immutable, thread-safe and {@link java.io.Serializable}; builders are neither and are used by one
 * thread.
 *
 * @serial exclude
 */
@NullMarked
package dev.lash.engine;

import org.jspecify.annotations.NullMarked;
