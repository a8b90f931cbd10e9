package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class VersionsTest {
    @Test
    void isTheVersionOfTheBuild() throws IOException {
        assertThat(Versions.library()).matches("[0-9]+\\.[0-9]+\\.[0-9]+(-[A-Za-z0-9.-]+)?");
        assertThat(Files.readString(Path.of("pom.xml"))).contains("<version>" + Versions.library() + "</version>");
    }

    @Test
    void saysThatTheJarIsBrokenWhenTheVersionIsMissing() {
        assertThatIllegalStateException()
                .isThrownBy(() ->
                        new OverlaidLoader().without("lash-version.properties").version())
                .withMessage("lash-version.properties is missing: use an unbroken jar");
    }
}
