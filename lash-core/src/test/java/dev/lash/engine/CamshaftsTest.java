package dev.lash.engine;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.engine.Camshafts.PerBank;
import dev.lash.testing.Contracts;
import java.util.List;
import org.junit.jupiter.api.Test;

class CamshaftsTest {
    private static final List<List<Integer>> BANKS = List.of(List.of(1, 3), List.of(2, 4));

    private static String over(Camshafts camshafts, String valve) {
        return camshafts.over(ValveId.parse(valve));
    }

    @Test
    void namesTheCamshaftOverAValve() {
        assertThat(over(Camshafts.ONE_PER_ROLE, "4-ex-2")).isEqualTo("exhaust");
        assertThat(over(new Camshafts(PerBank.ONE, List.of()), "1-in-1")).isEqualTo("only");
        Camshafts vee = new Camshafts(PerBank.ONE_PER_ROLE, BANKS);
        assertThat(over(vee, "3-in-1")).isEqualTo("bank 1 intake");
        assertThat(over(vee, "4-ex-1")).isEqualTo("bank 2 exhaust");
        assertThat(over(new Camshafts(PerBank.ONE, BANKS), "2-ex-1")).isEqualTo("bank 2");
        assertThat(over(new Camshafts(PerBank.ONE_PER_ROLE, List.of(List.of(1, 2))), "2-ex-1"))
                .isEqualTo("exhaust");
    }

    @Test
    void refusesBanksThatDoNotFit() {
        Contracts.refuses(
                () -> new Camshafts(PerBank.ONE, List.of(List.of(1), List.of())), "banks", "each cylinder in one");
        Contracts.refuses(() -> new Camshafts(PerBank.ONE, List.of(List.of(1, 2), List.of(2))), "banks", "twice");
        Contracts.refuses(() -> over(new Camshafts(PerBank.ONE, BANKS), "5-in-1"), "cylinder 5", "add it to its bank");
        EngineSpec.Builder single =
                CrankEngines.engine(FiringOrder.even(1)).camshafts(new Camshafts(PerBank.ONE, BANKS));
        Contracts.refuses(single::build, "camshafts", "not the cylinders of the engine");
    }

    @Test
    void wordsGoRound() {
        for (PerBank value : PerBank.values()) {
            assertThat(PerBank.parse(value.toString())).isEqualTo(value);
        }
        Contracts.refuses(() -> PerBank.parse("two"), "two", "one, one-per-role");
    }

    @Test
    void isEqualSerialisesAndRefusesNull() {
        Camshafts vee = new Camshafts(PerBank.ONE, BANKS);
        Contracts.equality(
                vee,
                new Camshafts(PerBank.ONE, BANKS),
                List.of(Camshafts.ONE_PER_ROLE, new Camshafts(PerBank.ONE, List.of())));
        Contracts.serialises(vee);
        Contracts.refuseNull(
                () -> new Camshafts(null, BANKS),
                () -> new Camshafts(PerBank.ONE, null),
                () -> vee.over(null),
                () -> PerBank.parse(null));
    }
}
