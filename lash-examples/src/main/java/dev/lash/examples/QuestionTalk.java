package dev.lash.examples;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A talk of questions that take a line each: a question mark brings what there is to know of the question, a q breaks off. */
final class QuestionTalk implements Talk {
    private static final String HELP = "?";
    private static final List<String> LEAVING = List.of("q", "quit");

    private final Talk talk;
    private final Map<String, List<String>> known;
    private final String otherwise;

    /**
     * Wraps a talk, which it does not close.
     *
     * @param talk the talk
     * @param known paragraphs on a question, by how the question begins; of two that fit, the longer one
     * @param otherwise what is said of any other question
     */
    QuestionTalk(Talk talk, Map<String, List<String>> known, String otherwise) {
        this.talk = talk;
        this.known = known;
        this.otherwise = otherwise;
    }

    @Override
    public void print(String text) {
        talk.print(text);
    }

    @Override
    public Optional<Character> key(String prompt) {
        return talk.key(prompt);
    }

    @Override
    public Optional<String> line(String prompt) {
        while (true) {
            Optional<String> line = talk.line(prompt);
            if (line.filter(LEAVING::contains).isPresent()) {
                return Optional.empty();
            }
            if (line.filter(HELP::equals).isEmpty()) {
                return line;
            }
            help(prompt).forEach(paragraph -> talk.say("  ", paragraph));
        }
    }

    private List<String> help(String prompt) {
        return known.entrySet().stream()
                .filter(entry -> prompt.startsWith(entry.getKey()))
                .max(Comparator.comparingInt(entry -> entry.getKey().length()))
                .map(Map.Entry::getValue)
                .orElse(List.of(otherwise));
    }

    @Override
    public void close() {
        // the talk within belongs to who made it
    }
}
