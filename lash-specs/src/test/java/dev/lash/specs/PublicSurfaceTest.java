package dev.lash.specs;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.syntax.ArchRuleDefinition;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** What an embedder sees of the module. */
class PublicSurfaceTest {
    private static final JavaClasses CLASSES = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("dev.lash.specs");

    private static boolean isPublic(JavaClass type) {
        return type.getModifiers().contains(JavaModifier.PUBLIC)
                && type.getEnclosingClass().map(PublicSurfaceTest::isPublic).orElse(true);
    }

    private static boolean isSeen(JavaCodeUnit unit) {
        return unit.getModifiers().contains(JavaModifier.PUBLIC)
                || unit.getModifiers().contains(JavaModifier.PROTECTED);
    }

    @Test
    void isSmall() {
        assertThat(CLASSES.stream()
                        .filter(PublicSurfaceTest::isPublic)
                        .map(type -> type.getName().substring("dev.lash.specs.".length())))
                .containsExactlyInAnyOrder(
                        "CrankForms",
                        "DocumentException",
                        "ImportMapping",
                        "ImportSession",
                        "ImportSession$Output",
                        "ImportSummary",
                        "ProfileReader",
                        "ReportWriter",
                        "SheetReader",
                        "ShimPlanForms",
                        "TrendForms",
                        "PackCheck",
                        "PackComparison",
                        "PackComparison$Change",
                        "PackFinding",
                        "PackRule",
                        "PackVersion",
                        "PackVersion$Step",
                        "SpecPack$Listed",
                        "SpecPack$Overlay",
                        "TemplateOverrides",
                        "TemplateExample",
                        "TemplateExample$Difference",
                        "Template$Features",
                        "Template$LifeCycle",
                        "Template$Status",
                        "SheetWriter",
                        "SpecPack",
                        "Template",
                        "Template$Source",
                        "Template$SourceKind",
                        "Versions");
    }

    @Test
    void showsNoJsonLibrary() {
        List<String> foreign = new ArrayList<>();
        CLASSES.stream()
                .filter(PublicSurfaceTest::isPublic)
                .flatMap(type -> type.getCodeUnits().stream())
                .filter(PublicSurfaceTest::isSeen)
                .forEach(unit -> Stream.concat(unit.getRawParameterTypes().stream(), Stream.of(unit.getRawReturnType()))
                        .filter(shown -> !shown.isPrimitive() && !shown.isArray())
                        .map(JavaClass::getPackageName)
                        .filter(name -> !name.startsWith("java.") && !name.startsWith("dev.lash."))
                        .forEach(name -> foreign.add(unit.getFullName() + " shows " + name)));

        assertThat(foreign).isEmpty();
        assertThat(CLASSES.get("dev.lash.specs.JsonDocument").getDirectDependenciesFromSelf())
                .as("the library is used inside")
                .anyMatch(use -> use.getTargetClass().getPackageName().startsWith("tools.jackson"));
    }

    @Test
    void usesCoreAndJacksonOnly() {
        ArchRuleDefinition.classes()
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage("java..", "dev.lash..", "tools.jackson..", "org.jspecify..")
                .check(CLASSES);
    }
}
