package dev.lash.testing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.catchThrowable;

import dev.lash.measure.RejectedValueException;
import dev.lash.measure.TextParseException;
import dev.lash.measure.TextParseException.Reason;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.List;
import java.util.function.Function;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;

/** What every value type of the library promises, stated once. */
public final class Contracts {
    private Contracts() {}

    /**
     * {@code value} equals {@code same} and none of {@code others}, which also differ from one another.
     *
     * @param value a value
     * @param same another instance with the same meaning
     * @param others values that differ from it and from each other
     */
    public static void equality(Object value, Object same, List<?> others) {
        assertThat(value).isNotSameAs(same);
        for (Object a : List.of(value, same)) {
            for (Object b : List.of(value, same)) {
                assertThat(a).isEqualTo(b).hasSameHashCodeAs(b);
            }
        }
        assertThat(value).isNotEqualTo(null).isNotEqualTo(new Object()).isNotEqualTo(value.toString());
        for (Object other : others) {
            assertThat(value).isNotEqualTo(other);
            assertThat(other).isNotEqualTo(value);
        }
        assertThat(others).as("the differing values").doesNotHaveDuplicates();
        if (!others.isEmpty()) {
            assertThat(others).as("hash codes").anyMatch(other -> other.hashCode() != value.hashCode());
        }
    }

    /**
     * The list is in ascending order by a total order that agrees with equals.
     *
     * @param ascending different values, smallest first
     * @param <T> their type
     */
    public static <T extends Comparable<T>> void order(List<T> ascending) {
        for (int i = 0; i < ascending.size(); i++) {
            for (int j = 0; j < ascending.size(); j++) {
                T a = ascending.get(i);
                T b = ascending.get(j);
                assertThat(Integer.signum(a.compareTo(b)))
                        .as("%s compared with %s", a, b)
                        .isEqualTo(Integer.compare(i, j));
                assertThat(a.equals(b)).as("%s equals %s", a, b).isEqualTo(i == j);
            }
        }
    }

    /**
     * What {@code toString} writes, {@code parse} reads back.
     *
     * @param value a value
     * @param parse how its text is read
     * @param <T> its type
     */
    public static <T> void roundTrip(T value, Function<String, T> parse) {
        assertThat(parse.apply(value.toString())).as("parse of \"%s\"", value).isEqualTo(value);
    }

    /**
     * A copy through serialisation.
     *
     * @param value a value
     * @param <T> its type
     * @return the copy
     */
    @SuppressWarnings("unchecked")
    public static <T> T copied(T value) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
            out.writeObject(value);
        } catch (IOException e) {
            throw new AssertionError(value + " cannot be serialised", e);
        }
        try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
            return (T) in.readObject();
        } catch (IOException | ClassNotFoundException e) {
            throw new AssertionError(value + " cannot be read back", e);
        }
    }

    /**
     * A value survives serialisation.
     *
     * @param value a value
     */
    public static void serialises(Object value) {
        assertThat(copied(value)).isEqualTo(value).hasSameHashCodeAs(value).hasToString(value.toString());
    }

    /**
     * The call is refused with an exception whose message holds value, problem, expectation and mend.
     *
     * @param call the call
     * @param parts what the message must contain, the offending value and the allowed range among them
     * @return the exception
     */
    public static RejectedValueException refuses(ThrowingCallable call, String... parts) {
        Throwable thrown = catchThrowable(call);
        assertThat(thrown).as("what was thrown").isInstanceOf(RejectedValueException.class);
        RejectedValueException rejected = (RejectedValueException) thrown;
        isComplete(rejected);
        assertThat(rejected).hasMessageContainingAll(parts);
        return rejected;
    }

    /**
     * The text is refused with a parse exception of a reason and position, whose message holds text, problem, expectation
     * and mend.
     *
     * @param parse how the text is read
     * @param text the text
     * @param reason why it must be refused
     * @param position where the trouble must be said to start
     * @return the exception
     */
    public static TextParseException refusesText(Function<String, ?> parse, String text, Reason reason, int position) {
        Throwable thrown = catchThrowable(() -> parse.apply(text));
        assertThat(thrown).as("parse of \"%s\"", text).isInstanceOf(TextParseException.class);
        TextParseException refused = (TextParseException) thrown;
        isComplete(refused);
        assertThat(refused.reason()).as("reason for \"%s\"", text).isEqualTo(reason);
        assertThat(refused.position()).as("position in \"%s\"", text).isEqualTo(position);
        return refused;
    }

    /**
     * Whatever the text, parse gives a value or a complete {@link RejectedValueException}, nothing else.
     *
     * @param parse how the text is read
     * @param text any text
     * @return whether a value came out
     */
    public static boolean parsesOrRefuses(Function<String, ?> parse, String text) {
        Object value;
        try {
            value = parse.apply(text);
        } catch (RejectedValueException refused) {
            isComplete(refused);
            return false;
        }
        assertThat(value).isNotNull();
        return true;
    }

    /**
     * The message of an exception holds each of its parts, and none of them is blank but the value.
     *
     * @param e the exception
     */
    public static void isComplete(RejectedValueException e) {
        assertThat(List.of(e.what(), e.problem(), e.expected(), e.mend())).noneMatch(String::isBlank);
        assertThat(e)
                .hasMessageStartingWith(e.what() + " " + RejectedValueException.quote(e.value()) + ": ")
                .hasMessageContainingAll(e.problem(), e.expected(), e.mend());
        assertThat(e.getMessage().chars()).as("control characters").noneMatch(Character::isISOControl);
        if (e instanceof TextParseException refused) {
            assertThat(refused.reason()).isNotNull();
            assertThat(refused.position()).isBetween(0, refused.value().length());
        }
    }

    /**
     * Each call refuses its {@code null}.
     *
     * @param calls calls with a {@code null} each
     */
    public static void refuseNull(ThrowingCallable... calls) {
        for (int i = 0; i < calls.length; i++) {
            assertThatNullPointerException().as("call %d with null", i).isThrownBy(calls[i]);
        }
    }
}
