package dev.lash.check;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lash.measure.LengthUnit;
import dev.lash.testing.Contracts;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectStreamClass;
import java.util.Base64;
import java.util.List;
import org.junit.jupiter.api.Test;

class RecordLayoutTest {
    /**
     * A layout as it was written when its places were kept by the order of the fields, with those of the first two fields changed over:
     * as a version would have written it that has its fields in another order.
     */
    private static final String STORED = """
            rO0ABXNyABtkZXYubGFzaC5jaGVjay5SZWNvcmRMYXlvdXQAAAAAAAAAAQIACVoADGRlY2ltYWxDb21tYUwAB2NvbHVtbnN0ABBM
            amF2YS91dGlsL0xpc3Q7TAAJZGF0ZU9yZGVydAAnTGRldi9sYXNoL2NoZWNrL1JlY29yZExheW91dCREYXRlT3JkZXI7TAAGZmll
            bGRzdAATTGphdmEvdXRpbC9FbnVtTWFwO1sABnBsYWNlc3QAAltJTAAQdGVtcGVyYXR1cmVTY2FsZXQAJExkZXYvbGFzaC9tZWFz
            dXJlL1RlbXBlcmF0dXJlJFNjYWxlO0wABXVuaXRzcQB+AANMAAl1c2FnZVVuaXR0AB1MZGV2L2xhc2gvbWVhc3VyZS9Vc2FnZSRV
            bml0O0wACnZhbHZlTmFtZXN0AA9MamF2YS91dGlsL01hcDt4cABzcgARamF2YS51dGlsLkNvbGxTZXJXjqu2OhuoEQMAAUkAA3Rh
            Z3hwAAAAAXcEAAAAAnQAAmdvdAAEYmlrZXh+cgAlZGV2Lmxhc2guY2hlY2suUmVjb3JkTGF5b3V0JERhdGVPcmRlcgAAAAAAAAAA
            EgAAeHIADmphdmEubGFuZy5FbnVtAAAAAAAAAAASAAB4cHQADllFQVJfTU9OVEhfREFZc3IAEWphdmEudXRpbC5FbnVtTWFwBl19
            976QfKEDAAFMAAdrZXlUeXBldAARTGphdmEvbGFuZy9DbGFzczt4cHZyABtkZXYubGFzaC5jaGVjay5SZWFkaW5nRmllbGQAAAAA
            AAAAABIAAHhxAH4ADncEAAAAAn5xAH4AFHQAB01BQ0hJTkVzcgARamF2YS5sYW5nLkludGVnZXIS4qCk94GHOAIAAUkABXZhbHVl
            eHIAEGphdmEubGFuZy5OdW1iZXKGrJUdC5TgiwIAAHhwAAAAAX5xAH4AFHQABEdPRVNzcQB+ABgAAAAAeHVyAAJbSU26YCZ26rKl
            AgAAeHAAAAAQ/////wAAAAH//////////////////////////wAAAAD//////////////////////////////////////////3Bz
            cQB+ABFxAH4AFXcEAAAAAXEAfgAbfnIAG2Rldi5sYXNoLm1lYXN1cmUuTGVuZ3RoVW5pdAAAAAAAAAAAEgAAeHEAfgAOdAAEVEhP
            VXhwc3IAJWphdmEudXRpbC5Db2xsZWN0aW9ucyRVbm1vZGlmaWFibGVNYXDxpaj+dPUHQgIAAUwAAW1xAH4AB3hwc3IAF2phdmEu
            dXRpbC5MaW5rZWRIYXNoTWFwNMBOXBBswPsCAAFaAAthY2Nlc3NPcmRlcnhyABFqYXZhLnV0aWwuSGFzaE1hcAUH2sHDFmDRAwAC
            RgAKbG9hZEZhY3RvckkACXRocmVzaG9sZHhwP0AAAAAAAAB3CAAAABAAAAAAeAA=
            """;

    private static final RecordLayout LAYOUT = RecordLayout.builder(List.of("go", "bike"))
            .column(ReadingField.GOES, "go")
            .column(ReadingField.MACHINE, "bike")
            .unit(ReadingField.GOES, LengthUnit.THOU)
            .build();

    @Test
    void aStoredLayoutIsReadWhateverTheOrderOfTheFields() throws IOException, ClassNotFoundException {
        byte[] stored = Base64.getMimeDecoder().decode(STORED);
        try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(stored))) {
            RecordLayout read = (RecordLayout) in.readObject();
            assertThat(read).isEqualTo(LAYOUT);
            assertThat(read.findColumn(ReadingField.MACHINE)).contains("bike");
            assertThat(read.findColumn(ReadingField.DATE)).isEmpty();
            assertThat(read.findColumn(ReadingField.GOES)).contains("go");
        }
    }

    @Test
    void placesAreNotWritten() {
        assertThat(ObjectStreamClass.lookup(RecordLayout.class).getField("places"))
                .isNull();
        Contracts.serialises(LAYOUT);
    }
}
