package dev.lash.specs;

import dev.lash.engine.EngineSpec;
import dev.lash.specs.PackComparison.Change;
import dev.lash.specs.PackFolder.Entry;
import dev.lash.specs.PackVersion.Step;
import dev.lash.specs.Template.LifeCycle;
import dev.lash.specs.Template.Status;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Holds the templates of a pack to their life in the pack before: what may change, and what must change with it. */
final class PackLives {
    private static final Set<String> LIFE = Set.of("/status", "/addedIn", "/deprecatedIn", "/replacedBy");

    private final @Nullable PackVersion from;
    private final @Nullable PackVersion to;
    private final List<PackFinding> findings = new ArrayList<>();

    PackLives(@Nullable PackVersion from, @Nullable PackVersion to) {
        this.from = from;
        this.to = to;
    }

    List<PackFinding> findings() {
        return findings;
    }

    private void add(PackRule rule, Entry entry, String pointer, String problem, String expected, String mend) {
        Optional<Json> at = entry.document().find(pointer);
        findings.add(new PackFinding(
                rule,
                entry.name(),
                at.orElseGet(entry.document()::root).line(),
                pointer,
                at.map(Json::shown).orElse(""),
                problem,
                expected,
                mend));
    }

    /** A template that was in the old pack only. */
    void gone(Entry was) {
        findings.add(new PackFinding(
                PackRule.NEVER_DELETED,
                was.name(),
                1,
                "",
                was.template().id(),
                "is gone",
                "every template of the old pack, for old sheets name it",
                "put it back; set its status to deprecated, or later to withdrawn"));
    }

    /** A template that is in the new pack only. */
    void came(Entry is) {
        PackVersion addedIn = PackVersion.parse(is.template().lifeCycle().addedIn());
        boolean before = from != null && addedIn.compareTo(from) <= 0;
        boolean after = to != null && addedIn.compareTo(to) > 0;
        if (before && from != null && from.equals(to)) {
            add(
                    PackRule.ADDED_TRUE,
                    is,
                    "/addedIn",
                    "is told of a pack whose version was not raised",
                    "a version of the pack after " + from,
                    "raise the version in " + PackFolder.INDEX + ", and write it here");
        } else if (after && isNotRaised()) {
            notRaised(PackRule.ADDED_TRUE, is, "/addedIn", addedIn);
        } else if (before || after) {
            add(
                    PackRule.ADDED_TRUE,
                    is,
                    "/addedIn",
                    before ? "is a version that did not have this template" : "is a version that is still to come",
                    to == null ? "a version after " + from : to.toString(),
                    "write the version that brings the template; an id of an older pack is never used again");
        }
        deprecation(is);
    }

    private boolean isNotRaised() {
        return from != null && to != null && to.compareTo(from) <= 0;
    }

    /** What the template says is right where the index still has the version of the old pack. */
    private void notRaised(PackRule rule, Entry is, String pointer, PackVersion told) {
        add(
                rule,
                is,
                pointer,
                "is a version that the pack does not have yet: " + PackFolder.INDEX + " still says " + to,
                told + " as the version in " + PackFolder.INDEX,
                "raise \"version\" in " + PackFolder.INDEX + " to " + told + "; here nothing is wrong");
    }

    /** A template that is in both. */
    void compare(Entry was, Entry is, List<Change> changes) {
        int before = was.template().revision();
        int now = is.template().revision();
        boolean figures = changes.stream()
                .filter(c -> !LIFE.contains(c.pointer()))
                .anyMatch(c -> c.step().compareTo(Step.MINOR) >= 0);
        if (now < before || (figures && now == before)) {
            add(
                    PackRule.REVISION_RAISED,
                    is,
                    "/revision",
                    now < before ? "is lower than it was" : "was not raised, though more than words changed",
                    figures ? "at least " + (before + 1) : "at least " + before,
                    "raise it, so that an old sheet shows which figures it was made with");
        }
        LifeCycle then = was.template().lifeCycle();
        LifeCycle today = is.template().lifeCycle();
        if (!then.addedIn().equals(today.addedIn())) {
            add(
                    PackRule.HISTORY_FIXED,
                    is,
                    "/addedIn",
                    "is not what it was",
                    then.addedIn(),
                    "write the old version again: that never changes");
        }
        if (!then.deprecatedIn().isEmpty()
                && today.status() != Status.ACTIVE
                && !then.deprecatedIn().equals(today.deprecatedIn())) {
            add(
                    PackRule.HISTORY_FIXED,
                    is,
                    "/deprecatedIn",
                    "is not what it was",
                    then.deprecatedIn(),
                    "write the old version again");
        }
        deprecation(is);
        status(is, then.status(), today.status());
        anotherEngine(was, is);
    }

    private void deprecation(Entry is) {
        LifeCycle today = is.template().lifeCycle();
        if (today.status() != Status.ACTIVE && today.deprecatedIn().isEmpty()) {
            add(
                    PackRule.DEPRECATED_SINCE,
                    is,
                    "/deprecatedIn",
                    "is missing: the template is " + today.status().word(),
                    to == null ? "the version that first advises against it" : to.toString(),
                    "add it");
        } else if (today.status() != Status.ACTIVE
                && to != null
                && PackVersion.parse(today.deprecatedIn()).compareTo(to) > 0) {
            if (isNotRaised()) {
                notRaised(PackRule.DEPRECATED_TRUE, is, "/deprecatedIn", PackVersion.parse(today.deprecatedIn()));
                return;
            }
            add(
                    PackRule.DEPRECATED_TRUE,
                    is,
                    "/deprecatedIn",
                    "is a version that is still to come",
                    "at most " + to,
                    "write the version that advises against it");
        }
    }

    private void status(Entry is, Status then, Status today) {
        String told = is.template().lifeCycle().deprecatedIn();
        if (then == Status.ACTIVE
                && today == Status.DEPRECATED
                && from != null
                && !told.isEmpty()
                && PackVersion.parse(told).compareTo(from) <= 0) {
            add(
                    PackRule.DEPRECATED_TRUE,
                    is,
                    "/deprecatedIn",
                    "is a version in which the template was active",
                    to == null ? "a version after " + from : to.toString(),
                    "write the version that advises against it");
        }
        if (then == Status.ACTIVE && today == Status.WITHDRAWN) {
            add(
                    PackRule.STATUS_STEPS,
                    is,
                    "/status",
                    "skips a step: the template was active",
                    "deprecated for one version at least, then withdrawn",
                    "deprecate it first, so that shops have time to change over");
        }
        if (then == Status.WITHDRAWN && today != Status.WITHDRAWN) {
            add(
                    PackRule.STATUS_STEPS,
                    is,
                    "/status",
                    "brings back a template that was withdrawn",
                    "withdrawn",
                    "leave it withdrawn, and add another under a new id");
        }
    }

    /** An id that means another engine now: old sheets would be judged by it. Intervals may be corrected, but not with the title. */
    private void anotherEngine(Entry was, Entry is) {
        EngineSpec engine = is.template().spec();
        EngineSpec before = was.template().spec();
        if (!engine.title().equals(before.title())
                && engine.firingOrder().cylinders() == before.firingOrder().cylinders()
                && !engine.firingOrder().intervals().equals(before.firingOrder().intervals())) {
            add(
                    PackRule.SAME_ENGINE,
                    is,
                    "/title",
                    "makes it another engine, since the firing intervals changed too",
                    before.title(),
                    "leave this template as it was, and add the other engine under an id of its own");
        }
        for (String pointer : List.of("/cylinders", "/train/kind", "/valves")) {
            String then = was.document().find(pointer).map(Json::shown).orElse("");
            String today = is.document().find(pointer).map(Json::shown).orElse("");
            boolean valves = pointer.equals("/valves");
            boolean same = valves
                    ? was.template().spec().valves().size()
                            == is.template().spec().valves().size()
                    : then.equals(today);
            if (!same) {
                add(
                        PackRule.SAME_ENGINE,
                        is,
                        pointer,
                        "makes it another engine, of which old sheets know nothing",
                        valves ? was.template().spec().valves().size() + " valves" : then,
                        "leave this template as it was, and add the other engine under an id of its own");
                return;
            }
        }
    }
}
