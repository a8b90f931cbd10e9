package dev.lash.engine;

import static java.util.Objects.requireNonNull;

import dev.lash.measure.LengthUnit;
import dev.lash.measure.RejectedValueException;
import dev.lash.measure.Temperature;
import dev.lash.measure.Usage;
import java.io.Serializable;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * An engine as clearance work sees it, which remembers of each figure where it came from and where the shop read it. Made by
 * {@link #builder}; immutable.
 */
public final class EngineSpec implements Serializable {
    private static final long serialVersionUID = 1L;

    private final String id;
    private final String title;
    private final FiringOrder firingOrder;
    private final List<ValveId> valves;
    private final ValveTrain train;
    private final EnumMap<ValveRole, ClearanceSpec> clearances;
    private final EnumMap<ValveRole, ClearanceSpec> closerClearances;
    private final @Nullable Temperature coldest;
    private final @Nullable Temperature warmest;
    private final @Nullable Usage checkInterval;
    private final @Nullable CamTiming camTiming;
    private final @Nullable Decompressor decompressor;
    private final Camshafts camshafts;
    private final @Nullable WearPrior wearPrior;
    private final String template;
    private final List<String> cautions;
    private final List<String> tools;
    private final EnumMap<Figure, Origin> origins;
    private final EnumMap<Figure, String> confirmedFrom;
    private final EnumMap<Figure, Overridden> overridden;

    private EngineSpec(Builder b, ValveTrain train, FiringOrder firingOrder, Map<Figure, Overridden> overridden) {
        this.id = b.id;
        this.title = b.title;
        this.valves = b.valves;
        this.train = train;
        this.firingOrder = firingOrder;
        this.clearances = new EnumMap<>(b.clearances);
        this.closerClearances = new EnumMap<>(b.closerClearances);
        this.coldest = b.coldest;
        this.warmest = b.warmest;
        this.checkInterval = b.checkInterval;
        this.camTiming = b.camTiming;
        this.decompressor = b.decompressor;
        this.camshafts = b.camshafts;
        this.wearPrior = b.wearPrior;
        this.template = b.template;
        this.cautions = b.cautions;
        this.tools = b.tools;
        this.origins = new EnumMap<>(b.origins);
        this.confirmedFrom = new EnumMap<>(b.confirmedFrom);
        this.overridden = new EnumMap<>(Figure.class);
        this.overridden.putAll(overridden);
    }

    /**
     * Starts an engine.
     *
     * @param id a short name in lower-case letters, digits and hyphens
     * @param title what a person calls it
     * @return a builder
     */
    public static Builder builder(String id, String title) {
        return new Builder(id, title);
    }

    /** {@return a builder that holds the parts of this engine, to change some of them} */
    public Builder toBuilder() {
        return toBuilder(id, title);
    }

    /**
     * A builder that holds the parts of this engine but for its names.
     *
     * @param newId a short name in lower-case letters, digits and hyphens
     * @param newTitle what a person calls the engine
     * @return a builder
     */
    public Builder toBuilder(String newId, String newTitle) {
        Builder b = new Builder(newId, newTitle);
        b.valves = valves;
        b.firingOrder = firingOrder;
        b.train = train;
        b.clearances.putAll(clearances);
        b.closerClearances.putAll(closerClearances);
        b.coldest = coldest;
        b.warmest = warmest;
        b.checkInterval = checkInterval;
        b.camTiming = camTiming;
        b.decompressor = decompressor;
        b.camshafts = camshafts;
        b.wearPrior = wearPrior;
        b.template = template;
        b.cautions = cautions;
        b.tools = tools;
        b.origins.putAll(origins);
        b.confirmedFrom.putAll(confirmedFrom);
        b.overridden.putAll(overridden);
        b.base = this;
        return b;
    }

    /** {@return the short name} */
    public String id() {
        return id;
    }

    /** {@return what a person calls it} */
    public String title() {
        return title;
    }

    /** {@return the firing order} */
    public FiringOrder firingOrder() {
        return firingOrder;
    }

    /** {@return the valves, in the order in which the spec lists them} */
    public List<ValveId> valves() {
        return valves;
    }

    /** {@return what moves the valves} */
    public ValveTrain train() {
        return train;
    }

    /**
     * The clearance of a role.
     *
     * @param role the role
     * @return windows and where they come from, or empty where clearance work does not apply
     */
    public Optional<ClearanceSpec> findClearance(ValveRole role) {
        return Optional.ofNullable(clearances.get(requireNonNull(role, "role")));
    }

    /**
     * The clearance of a gap.
     *
     * @param role the role
     * @param gap the gap; of a valve that is not desmodromic the only one
     * @return windows and where they come from, or empty where clearance work does not apply
     */
    public Optional<ClearanceSpec> findClearance(ValveRole role, Gap gap) {
        requireNonNull(role, "role");
        return requireNonNull(gap, "gap") == Gap.CLOSER
                ? Optional.ofNullable(closerClearances.get(role))
                : findClearance(role);
    }

    /** {@return the gaps that each valve has} */
    public List<Gap> gaps() {
        return train instanceof ValveTrain.Desmodromic ? List.of(Gap.OPENER, Gap.CLOSER) : List.of(Gap.ONLY);
    }

    /** {@return the least engine temperature at which clearances are read, where the maker gives one} */
    public Optional<Temperature> coldest() {
        return Optional.ofNullable(coldest);
    }

    /** {@return the highest engine temperature at which clearances are read, where the maker gives one} */
    public Optional<Temperature> warmest() {
        return Optional.ofNullable(warmest);
    }

    /** {@return the usage after which the maker wants a check, where given} */
    public Optional<Usage> checkInterval() {
        return Optional.ofNullable(checkInterval);
    }

    /** {@return what is thought of the wear before readings are looked at, or empty where the spec does not say} */
    public Optional<WearPrior> wearPrior() {
        return Optional.ofNullable(wearPrior);
    }

    /** {@return when the valves open and close, where given} */
    public Optional<CamTiming> camTiming() {
        return Optional.ofNullable(camTiming);
    }

    /** {@return the automatic decompressor, where the engine has one} */
    public Optional<Decompressor> decompressor() {
        return Optional.ofNullable(decompressor);
    }

    /** {@return which camshaft lies over which valves; one for each role where the spec does not say} */
    public Camshafts camshafts() {
        return camshafts;
    }

    /** {@return the template and its revision that the spec was made from, such as {@code "screw-single, revision 1"}} */
    public Optional<String> template() {
        return template.isEmpty() ? Optional.empty() : Optional.of(template);
    }

    /** {@return cautions of this engine beyond those that every report carries} */
    public List<String> cautions() {
        return cautions;
    }

    /** {@return tools and consumables that the work on this engine needs beyond leaves, spanners and rags} */
    public List<String> tools() {
        return tools;
    }

    /**
     * A figure as a text, for a report.
     *
     * @param figure the figure
     * @param unit the unit of clearances
     * @return the text, or empty where the engine has no such figure
     */
    public Optional<String> findFigure(Figure figure, LengthUnit unit) {
        return FigureValues.of(this, requireNonNull(figure, "figure"), requireNonNull(unit, "unit"));
    }

    /**
     * Where a figure came from.
     *
     * @param figure the figure
     * @return its origin; {@link Origin#STATED} where nothing else was remembered
     */
    public Origin origin(Figure figure) {
        return origins.getOrDefault(requireNonNull(figure, "figure"), Origin.STATED);
    }

    /** {@return the figures that somebody else stated, such as a template, each with its origin} */
    public Map<Figure, Origin> origins() {
        return Collections.unmodifiableMap(origins);
    }

    /**
     * Where the shop read a figure.
     *
     * @param figure the figure
     * @return the manual and page; empty where the shop did not say
     */
    public Optional<String> findConfirmation(Figure figure) {
        return requireNonNull(figure, "figure").isWindow()
                ? FigureValues.clearance(this, figure)
                        .filter(ClearanceSpec::isConfirmed)
                        .map(ClearanceSpec::confirmedFrom)
                : Optional.ofNullable(confirmedFrom.get(figure));
    }

    /**
     * Whether a figure of the engine is the shop's own or was read by it in the manual. A window counts only where the shop says where
     * it read it; any other figure also where it was {@linkplain Origin#STATED stated} with the engine.
     *
     * @param figure the figure
     * @return whether it is; true as well for a figure that the engine does not have
     */
    public boolean isConfirmed(Figure figure) {
        return findConfirmation(figure).isPresent()
                || (figure.isWindow() ? FigureValues.clearance(this, figure).isEmpty() : !origins.containsKey(figure));
    }

    /**
     * The figures that stand in place of those of a template: laid over it by a sheet, or set anew with {@link #toBuilder}.
     *
     * @return each with what it was and where that came from, in the order of {@link Figure}
     */
    public List<Overridden> overridden() {
        return List.copyOf(overridden.values());
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof EngineSpec e && e.parts().equals(parts());
    }

    @Override
    public int hashCode() {
        return parts().hashCode();
    }

    private List<Object> parts() {
        return List.of(
                id,
                title,
                firingOrder,
                valves,
                train,
                clearances,
                closerClearances,
                Optional.ofNullable(coldest),
                Optional.ofNullable(warmest),
                Optional.ofNullable(checkInterval),
                Optional.ofNullable(camTiming),
                Optional.ofNullable(decompressor),
                camshafts,
                Optional.ofNullable(wearPrior),
                template,
                cautions,
                tools,
                origins,
                confirmedFrom,
                overridden);
    }

    /** {@return id, title, train and windows, for a log} */
    @Override
    public String toString() {
        return id + " (" + title + ", " + train.kind() + ", " + clearances + ")";
    }

    /**
     * Collects the parts of an engine. Used by one thread; {@link #build} checks that they fit together. A figure that is set to
     * another value forgets where it came from and where the shop read it, so {@link #origin} and {@link #confirmed} come after. What it
     * was, where it came from a template, {@link EngineSpec#overridden} remembers.
     */
    public static final class Builder {
        private final String id;
        private final String title;
        private List<ValveId> valves = List.of();
        private @Nullable FiringOrder firingOrder;
        private @Nullable ValveTrain train;
        private final Map<ValveRole, ClearanceSpec> clearances = new EnumMap<>(ValveRole.class);
        private final Map<ValveRole, ClearanceSpec> closerClearances = new EnumMap<>(ValveRole.class);
        private @Nullable Temperature coldest;
        private @Nullable Temperature warmest;
        private @Nullable Usage checkInterval;
        private @Nullable CamTiming camTiming;
        private @Nullable Decompressor decompressor;
        private Camshafts camshafts = Camshafts.ONE_PER_ROLE;
        private @Nullable WearPrior wearPrior;
        private String template = "";
        private List<String> cautions = List.of();
        private List<String> tools = List.of();
        private final Map<Figure, Origin> origins = new EnumMap<>(Figure.class);
        private final Map<Figure, String> confirmedFrom = new EnumMap<>(Figure.class);
        private final Map<Figure, Overridden> overridden = new EnumMap<>(Figure.class);
        private @Nullable EngineSpec base;

        private Builder(String id, String title) {
            this.id = requireNonNull(id, "id");
            this.title = requireNonNull(title, "title");
        }

        /**
         * Sets the valves.
         *
         * @param names the names, such as {@code "1-in-1"}, in the order of the work
         * @return this
         * @throws RejectedValueException if a name cannot be read
         */
        public Builder valves(String... names) {
            return valves(Arrays.stream(names).map(ValveId::parse).toList());
        }

        /**
         * Sets the valves.
         *
         * @param ids the valves, in the order of the work
         * @return this
         */
        public Builder valves(List<ValveId> ids) {
            this.valves = List.copyOf(ids);
            return this;
        }

        /**
         * Sets the firing order; without it the cylinders of the valves are taken to fire in the order of their numbers, evenly.
         *
         * @param order the firing order
         * @return this
         */
        public Builder firingOrder(FiringOrder order) {
            FiringOrder before = firingOrder;
            anew(Figure.FIRING_ORDER, before == null ? null : before.order(), order.order());
            anew(Figure.FIRING_INTERVALS, before == null ? null : before.intervals(), order.intervals());
            this.firingOrder = order;
            return this;
        }

        /**
         * Sets the valve train.
         *
         * @param valveTrain the train
         * @return this
         */
        public Builder train(ValveTrain valveTrain) {
            requireNonNull(valveTrain, "valveTrain");
            ValveTrain before = train;
            Arrays.stream(Figure.values())
                    .filter(Figure::isOfTrain)
                    .forEach(f -> anew(
                            f,
                            before == null
                                    ? null
                                    : FigureValues.ofTrain(before, f).orElse(null),
                            FigureValues.ofTrain(valveTrain, f).orElse("")));
            this.train = valveTrain;
            return this;
        }

        /**
         * Sets the clearance window of a role, as a typical value that the shop has not confirmed.
         *
         * @param role the role
         * @param window the window
         * @return this
         */
        public Builder window(ValveRole role, ClearanceWindow window) {
            return clearance(role, ClearanceSpec.typical(window));
        }

        /**
         * Sets the clearance of a role.
         *
         * @param role the role
         * @param clearance its windows and where they come from
         * @return this
         */
        public Builder clearance(ValveRole role, ClearanceSpec clearance) {
            put(clearances, role, Gap.ONLY, clearance);
            return this;
        }

        /**
         * Sets the clearance of the closer of a desmodromic train; {@link #clearance} then sets that of the opener.
         *
         * @param role the role
         * @param clearance its windows and where they come from
         * @return this
         */
        public Builder closerClearance(ValveRole role, ClearanceSpec clearance) {
            put(closerClearances, role, Gap.CLOSER, clearance);
            return this;
        }

        private void put(Map<ValveRole, ClearanceSpec> to, ValveRole role, Gap gap, ClearanceSpec clearance) {
            ClearanceSpec before = to.put(requireNonNull(role, "role"), requireNonNull(clearance, "clearance"));
            anew(Figure.window(role, gap), before == null ? null : before.check(), clearance.check());
            anew(Figure.setting(role, gap), before == null ? null : before.setTo(), clearance.setTo());
        }

        /** Forgets where a figure came from when it is another one now. */
        private void anew(Figure figure, @Nullable Object before, Object now) {
            if (!now.equals(before)) {
                origins.remove(figure);
                confirmedFrom.remove(figure);
            }
        }

        /**
         * Sets the least engine temperature at which clearances are read.
         *
         * @param temperature the temperature
         * @return this
         */
        public Builder coldest(Temperature temperature) {
            anew(Figure.COLDEST, this.coldest, requireNonNull(temperature, "temperature"));
            this.coldest = temperature;
            return this;
        }

        /**
         * Sets the highest engine temperature at which clearances are read.
         *
         * @param temperature the temperature
         * @return this
         */
        public Builder warmest(Temperature temperature) {
            anew(Figure.WARMEST, this.warmest, requireNonNull(temperature, "temperature"));
            this.warmest = temperature;
            return this;
        }

        /**
         * Sets the usage after which the maker wants a check.
         *
         * @param interval the usage
         * @return this
         */
        public Builder checkInterval(Usage interval) {
            anew(Figure.CHECK_INTERVAL, this.checkInterval, requireNonNull(interval, "interval"));
            this.checkInterval = interval;
            return this;
        }

        /**
         * Sets when the valves open and close.
         *
         * @param timing the timing
         * @return this
         */
        public Builder camTiming(CamTiming timing) {
            anew(Figure.CAM_TIMING, this.camTiming, requireNonNull(timing, "timing"));
            this.camTiming = timing;
            return this;
        }

        /**
         * Names a valve that an automatic decompressor holds off its seat.
         *
         * @param device the decompressor
         * @return this
         */
        public Builder decompressor(Decompressor device) {
            anew(Figure.DECOMPRESSOR, this.decompressor, requireNonNull(device, "device"));
            this.decompressor = device;
            return this;
        }

        /**
         * Takes the automatic decompressor away, for an engine that has none although its template has.
         *
         * @return this
         */
        public Builder withoutDecompressor() {
            origins.remove(Figure.DECOMPRESSOR);
            confirmedFrom.remove(Figure.DECOMPRESSOR);
            this.decompressor = null;
            return this;
        }

        /**
         * Sets which camshaft lies over which valves; without it one for each role.
         *
         * @param which the camshafts, with the banks of a V or flat engine
         * @return this
         */
        public Builder camshafts(Camshafts which) {
            anew(Figure.CAMSHAFTS, this.camshafts, requireNonNull(which, "which"));
            this.camshafts = which;
            return this;
        }

        /**
         * Sets what is thought of the wear before readings are looked at.
         *
         * @param prior the prior
         * @return this
         */
        public Builder wearPrior(WearPrior prior) {
            anew(Figure.WEAR_PRIOR, this.wearPrior, requireNonNull(prior, "prior"));
            this.wearPrior = prior;
            return this;
        }

        /**
         * Names the template that the spec was made from.
         *
         * @param name the template and its revision
         * @return this
         */
        public Builder template(String name) {
            this.template = requireNonNull(name, "name");
            return this;
        }

        /**
         * Sets the cautions of this engine.
         *
         * @param texts the cautions
         * @return this
         */
        public Builder cautions(List<String> texts) {
            this.cautions = List.copyOf(texts);
            return this;
        }

        /**
         * Sets the tools and consumables that the work needs.
         *
         * @param names the tools and consumables
         * @return this
         */
        public Builder tools(List<String> names) {
            this.tools = List.copyOf(names);
            return this;
        }

        /**
         * Says where a figure came from.
         *
         * @param figure the figure, which must be set by now
         * @param origin its origin
         * @return this
         */
        public Builder origin(Figure figure, Origin origin) {
            requireNonNull(figure, "figure");
            if (requireNonNull(origin, "origin").equals(Origin.STATED)) {
                origins.remove(figure);
            } else {
                origins.put(figure, origin);
            }
            return this;
        }

        /**
         * Says where all figures came from.
         *
         * @param all the origins; figures that are not in it count as stated with the engine
         * @return this
         */
        public Builder origins(Map<Figure, Origin> all) {
            origins.clear();
            all.forEach(this::origin);
            return this;
        }

        /**
         * Says where the shop read a figure. A window to check against and the one to set to are confirmed together.
         *
         * @param figure the figure, which must be set by now
         * @param place the manual and page; blank where the shop did not read it
         * @return this
         * @throws RejectedValueException if it is the wear prior, which no manual gives
         */
        public Builder confirmed(Figure figure, String place) {
            requireNonNull(place, "place");
            if (figure == Figure.WEAR_PRIOR) {
                throw new RejectedValueException(
                        "confirmation",
                        figure.words(),
                        "cannot be confirmed: no wear rate of valve clearances is published",
                        "a figure that a manual gives",
                        "give the shop's own wear prior instead");
            }
            ValveRole role = requireNonNull(figure, "figure").role();
            if (role != null) {
                (figure.isOfCloser() ? closerClearances : clearances)
                        .computeIfPresent(role, (r, c) -> new ClearanceSpec(c.check(), c.setTo(), place));
            } else if (place.isBlank()) {
                confirmedFrom.remove(figure);
            } else {
                confirmedFrom.put(figure, place);
            }
            return this;
        }

        /**
         * Says what a figure was before it was laid over, for an engine that is read again; {@link EngineSpec#toBuilder} tells by itself.
         *
         * @param figure the figure with what it was; not counted where the engine has just that
         * @return this
         */
        public Builder overridden(Overridden figure) {
            overridden.put(figure.figure(), figure);
            return this;
        }

        /** What stands in place of a figure that came from elsewhere, the first that was there before. */
        private Map<Figure, Overridden> laidOver(EngineSpec made) {
            Map<Figure, Overridden> told = new EnumMap<>(Figure.class);
            told.putAll(overridden);
            EngineSpec before = base;
            if (before != null && !before.template.isEmpty()) {
                for (Overridden changed : Overridden.between(before, made)) {
                    // one that is given an origin by hand is no figure of the shop
                    if (!origins.containsKey(changed.figure())) {
                        told.putIfAbsent(changed.figure(), changed);
                    }
                }
            }
            told.values()
                    .removeIf(o -> made.findFigure(o.figure(), LengthUnit.MILLIMETRE)
                            .orElse("")
                            .equals(o.was()));
            return told;
        }

        /**
         * Checks that the parts fit together and makes the engine.
         *
         * @return the engine
         * @throws RejectedValueException if a part is missing or two parts do not fit
         */
        public EngineSpec build() {
            if (!id.matches("[a-z0-9][a-z0-9-]{0,63}")) {
                throw rejected("id", id, "is not a short name", "lower-case letters, digits and hyphens, at most 64");
            }
            if (title.isBlank()) {
                throw rejected("title", title, "is empty", "what a person calls the engine");
            }
            ValveTrain chosen = train;
            if (chosen == null) {
                throw rejected("train", "(missing)", "is missing", "the valve train");
            }
            TreeSet<ValveId> distinct = new TreeSet<>(valves);
            if (valves.isEmpty() || distinct.size() != valves.size()) {
                throw rejected("valves", valves.toString(), "are missing or named twice", "each valve once");
            }
            FiringOrder order = firingOrder;
            if (order == null) {
                order = FiringOrder.even(
                        IntStream.rangeClosed(1, distinct.last().cylinder())
                                .boxed()
                                .toList());
            }
            for (ValveId valve : valves) {
                if (valve.cylinder() > order.cylinders()) {
                    throw rejected(
                            "valve",
                            valve.toString(),
                            "is on a cylinder that the engine does not have",
                            "cylinders 1 to " + order.cylinders());
                }
                if (!clearances.containsKey(valve.role()) && !(chosen instanceof ValveTrain.Hydraulic)) {
                    throw rejected(
                            "clearances",
                            "(no window for " + valve.role() + ")",
                            "are missing for " + valve.role().word() + " valves",
                            "a window for each role that the engine has");
                }
            }
            List<Integer> inBanks =
                    camshafts.banks().stream().flatMap(List::stream).sorted().toList();
            if (!inBanks.isEmpty()
                    && !inBanks.equals(order.order().stream().sorted().toList())) {
                throw rejected(
                        "camshafts",
                        camshafts.banks().toString(),
                        "have banks that are not the cylinders of the engine",
                        "cylinders 1 to " + order.cylinders() + ", each in one bank");
            }
            if (decompressor != null && !valves.contains(decompressor.valve())) {
                throw rejected(
                        "decompressor",
                        decompressor.valve().toString(),
                        "holds a valve that the engine does not have",
                        "one of " + valves);
            }
            if (!closerClearances.isEmpty() && !(chosen instanceof ValveTrain.Desmodromic)) {
                throw rejected(
                        "closer clearances",
                        closerClearances.toString(),
                        "are given for a " + chosen.kind() + " train",
                        "closer clearances for a desmodromic train only");
            }
            if (coldest != null && warmest != null && coldest.isAbove(warmest)) {
                throw rejected(
                        "condition",
                        coldest + " to " + warmest,
                        "is reversed",
                        "a lowest temperature that is not above the highest");
            }
            EngineSpec made = new EngineSpec(this, chosen, order, Map.of());
            TreeSet<Figure> told = new TreeSet<>(origins.keySet());
            told.addAll(confirmedFrom.keySet());
            for (Figure figure : told) {
                if (made.findFigure(figure, LengthUnit.MILLIMETRE).isEmpty()) {
                    throw new RejectedValueException(
                            "origin",
                            figure.words(),
                            "is told of a figure that the engine does not have",
                            "one of "
                                    + Arrays.stream(Figure.values())
                                            .filter(f -> made.findFigure(f, LengthUnit.MILLIMETRE)
                                                    .isPresent())
                                            .map(Figure::words)
                                            .collect(Collectors.joining(", ")),
                            "set the figure first, or leave its origin out");
                }
            }
            Map<Figure, Overridden> laidOver = laidOver(made);
            return laidOver.isEmpty() ? made : new EngineSpec(this, chosen, order, laidOver);
        }

        private RejectedValueException rejected(String what, String value, String problem, String expected) {
            return new RejectedValueException(
                    what, value, problem, expected, "complete the engine " + Objects.toString(id));
        }
    }
}
