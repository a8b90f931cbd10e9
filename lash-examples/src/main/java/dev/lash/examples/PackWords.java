package dev.lash.examples;

import java.util.List;
import java.util.Map;

/** What {@code pack new} has to say of its questions, by how they begin. */
final class PackWords {
    static final String OTHERWISE =
            "Enter what the source says, a length with its unit (mm, in, thou). A q leaves, and nothing is written.";

    static final Map<String, List<String>> HELP = Map.of(
            "Valve train",
            List.of(
                    "rocker-screw: a screw and lock nut in the rocker, over the valve.",
                    "pushrod-screw: a screw and lock nut in the rocker, over the pushrod.",
                    "pushrod-threaded: the pushrod itself is made longer or shorter.",
                    "stud-nut: a nut on the stud that the rocker tilts on.",
                    "tappet-screw: a screw in the tappet, as in side-valve engines.",
                    "rocker-forked: one rocker over two valves, with a screw for each.",
                    "bridge: one rocker on a bridge over two valves.",
                    "bucket-shim-over, bucket-shim-under: a shim on top of the bucket, or beneath it.",
                    "bucket-graded: buckets of several thicknesses, without shims.",
                    "follower-shim: a shim on the valve under a finger follower.",
                    "eccentric: the rocker or its shaft sits on an eccentric that is turned.",
                    "desmodromic: an opener and a closer, each with its shim.",
                    "fixed: nothing turns and no part comes in sizes: valve seat, valve tip or head gasket are machined.",
                    "hydraulic: the lifters take up the clearance; there is none to set."),
            "Firing order",
            List.of(
                    "The cylinders in the order in which they fire, as the manual numbers them. Two cylinders on one crank "
                            + "pin, or a crank that is not even, fire after unequal turns: give those in brackets. They sum to 720."),
            "Rocker ratio",
            List.of(
                    "How far the valve side moves for what the pushrod side moves: above 1 for nearly every rocker. Where the "
                            + "source has none, divide the two arms, measured from the pivot."),
            "Follower ratio",
            List.of(
                    "How much the clearance changes where a shim one unit thicker goes in: below 1 where the cam runs nearer "
                            + "the pivot than the valve does, 1 where clearance is read at the shim."),
            "Is it a wedge screw",
            List.of(
                    "A wedge screw is pushed in across the tappet, and a slope on it lifts: it stands right only after whole "
                            + "turns, and each turn changes the clearance by one step."),
            "Where are the figures from",
            List.of(
                    "common-practice: what the trade does everywhere.",
                    "from-memory: somebody remembers it; nobody has looked it up.",
                    "published: it stands in a book, standard or paper; its title, year and page come next.",
                    "shop: the shop measured it, or keeps it that way."),
            "How far can it be trusted",
            List.of(
                    "One of low, fair and high, then why: \"low: from memory\", \"high: a standard, read in the original\"."));

    private PackWords() {}
}
