package dev.lash.examples;

import java.util.List;
import java.util.Map;

/** What {@code pack new} has to say of its questions, by how they begin. */
final class PackWords {
    static final String OTHERWISE = "Enter what the source says. A q leaves, and nothing is written.";

    private static final List<String> CLOSER =
            List.of("The least and the largest gap at the closer. It may begin at 0.");

    static final Map<String, List<String>> HELP = Map.ofEntries(
            Map.entry(
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
                            "hydraulic: the lifters take up the clearance; there is none to set.")),
            Map.entry(
                    "Firing order",
                    List.of(
                            "The cylinders in the order in which they fire, as the manual numbers them. Two cylinders on one crank "
                                    + "pin, or a crank that is not even, fire after unequal turns: give those in brackets. They sum to 720.")),
            Map.entry(
                    "Rocker ratio",
                    List.of(
                            "How far the valve side moves for what the pushrod side moves: above 1 for nearly every rocker. Where the "
                                    + "source has none, divide the two arms, measured from the pivot.")),
            Map.entry(
                    "Follower ratio",
                    List.of(
                            "How much the clearance changes where a shim one unit thicker goes in: below 1 where the cam runs nearer "
                                    + "the pivot than the valve does, 1 where clearance is read at the shim.")),
            Map.entry(
                    "Is it a wedge screw",
                    List.of(
                            "A wedge screw is pushed in across the tappet, and a slope on it lifts: it stands right only after whole "
                                    + "turns, and each turn changes the clearance by one step.")),
            Map.entry(
                    "Where are the figures from",
                    List.of(
                            "common-practice: what the trade does everywhere.",
                            "from-memory: somebody remembers it; nobody has looked it up.",
                            "published: it stands in a book, standard or paper; its title, year and page come next.",
                            "shop: the shop measured it, or keeps it that way.")),
            Map.entry(
                    "How far can it be trusted",
                    List.of(
                            "One of low, fair and high, then why: \"low: from memory\", \"high: a standard, read in the original\".")),
            Map.entry(
                    "Title",
                    List.of("What kind of engine it is, in a few words, without brand or model: layout, cylinders, "
                            + "what its valves are set by. No other template has the same title for another engine.")),
            Map.entry("How many cylinders", List.of("All cylinders of the engine.")),
            Map.entry(
                    "How many intake",
                    List.of("Of one cylinder, as all are alike: the valves on the side of the carburettor or the "
                            + "inlet pipe. Each gets a name, such as 1-in-2.")),
            Map.entry(
                    "How many exhaust",
                    List.of("Of one cylinder, as all are alike: the valves on the side of the exhaust pipe. Each gets "
                            + "a name, such as 1-ex-2.")),
            Map.entry(
                    "Pitch of the thread",
                    List.of("How far the screw moves in one turn. Measure it with a thread gauge, or read the size of "
                            + "the thread: in millimetres (mm) or in threads to the inch (tpi). Only standard fine "
                            + "threads are taken.")),
            Map.entry(
                    "Head of the screw",
                    List.of("What turns the screw itself, so that turns can be told in flats. The nut does not "
                            + "matter.")),
            Map.entry(
                    "What does one turn",
                    List.of("By how much the clearance changes where the wedge screw goes one whole turn. Measure it "
                            + "with leaves where the source has nothing.")),
            Map.entry(
                    "Sizes",
                    List.of("The thinnest and the thickest that are made, and the step from each to the next, as the "
                            + "parts list has them, each with its unit. The step divides the range.")),
            Map.entry(
                    "Opener shims",
                    List.of("The sizes of the shims that the opening rocker works on: thinnest, thickest and step, "
                            + "each with its unit.")),
            Map.entry(
                    "Closer shims",
                    List.of("The sizes of the shims that the closing rocker works on: thinnest, thickest and step, "
                            + "each with its unit.")),
            Map.entry(
                    "Eccentricity",
                    List.of("How far the centre of the eccentric lies from the axis that it is turned about, with its "
                            + "unit.")),
            Map.entry(
                    "What the clearance changes by",
                    List.of("1 where the eccentric moves the tip itself; 1 and the ratio of the arms where it moves "
                            + "the pivot in the middle of a rocker.")),
            Map.entry(
                    "Intake ",
                    List.of("The least and the largest clearance that the source allows, both with their unit or with "
                            + "one after the second, two points between them. Where it gives one figure and a "
                            + "tolerance, work out both ends. Nothing is proposed, for a wrong window burns a valve.")),
            Map.entry(
                    "Exhaust ",
                    List.of("As for the intake: the least and the largest clearance that the source allows. It is "
                            + "seldom tighter than that of the intake.")),
            Map.entry("Intake closer", CLOSER),
            Map.entry("Exhaust closer", CLOSER),
            Map.entry(
                    "The exhaust window is tighter",
                    List.of("A valve that runs hotter grows longer, so its window is seldom the tighter one. Say why "
                            + "it is so here; a note of the template will say it.")),
            Map.entry(
                    "How warm may",
                    List.of("The warmest engine for which the windows hold. Cold means that it stood for some hours; "
                            + "the source says how many degrees that is. Enter where clearances are read hot and "
                            + "nothing is said.")),
            Map.entry(
                    "How warm must",
                    List.of("The coldest engine for which the windows hold. Only where the source has clearances read "
                            + "hot.")),
            Map.entry(
                    "Check after",
                    List.of("What the source says between two checks, not between two adjustments: kilometres (km), "
                            + "miles (mi) or running hours (h). No forecast goes beyond it.")),
            Map.entry("Cooling", List.of("What cools the cylinder head. It only helps to find the template.")),
            Map.entry("Used in", List.of("What machines have such an engine. It only helps to find the template.")),
            Map.entry(
                    "What are they figures of",
                    List.of("What engines somebody had in mind, in a few words, without brand or model.")),
            Map.entry(
                    "Title of the publication",
                    List.of("Of a maker's manual what it is, without the name: the template is of no brand. Of a "
                            + "standard, book or paper the title as it is printed.")),
            Map.entry(
                    "Year",
                    List.of("The year of publication, in four digits; where only the year is known under which a copy "
                            + "is kept, that one, and say so in a note.")),
            Map.entry("Page or section", List.of("Where in it the figures stand, so that another finds them.")),
            Map.entry(
                    "Publisher",
                    List.of("Who published it; of a maker's own manual \"the maker of the engine\", without the name. "
                            + "Leave it out where you do not know.")),
            Map.entry(
                    "Edition",
                    List.of("Which edition, or which year of a manual that comes every year. Leave it out where you "
                            + "do not know.")),
            Map.entry(
                    "What do the trials leave",
                    List.of("The clearance lies above the thickest leaf that goes and below the thinnest that does "
                            + "not. A round bracket leaves its end out, a square one takes it in; below one leaf only: "
                            + "< and the leaf.")),
            Map.entry(
                    "Verdict",
                    List.of("within: all of it lies in the window. tight: all below. loose: all above. undecided: "
                            + "some of it lies outside.")),
            Map.entry(
                    "What is to be done",
                    List.of("leave: it is within. set-to-leaf: the screw, until the leaf drags. turn: so many turns. "
                            + "fit-shim: another shim. machine: nothing is adjustable. measure-further: trials are "
                            + "missing. inspect: look first what is wrong.")),
            Map.entry(
                    "Which leaf",
                    List.of("Of those of the trials and the one at hand besides: the leaf that drags when the screw "
                            + "is right. Clearances close up, so the aim lies at three quarters of the window.")),
            Map.entry(
                    "Which shim",
                    List.of("The size that is certain to end in the window, nearest to the aim at three quarters of "
                            + "it: old size and what the clearance is too much, by the ratio for a follower.")));

    private PackWords() {}
}
