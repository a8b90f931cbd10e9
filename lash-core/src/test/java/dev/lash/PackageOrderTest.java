package dev.lash;

import static com.tngtech.archunit.lang.conditions.ArchPredicates.are;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_USE_JAVA_UTIL_LOGGING;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.io.ObjectStreamException;
import java.io.Serializable;
import java.lang.reflect.Field;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** The order of the packages, and what the core leaves alone: files, clocks, logs, global state. */
class PackageOrderTest {
    /** Each may use only those before it. */
    private static final List<String> ORDER =
            List.of("measure", "gauge", "engine", "judge", "plan", "trend", "adjust", "check");

    private static final JavaClasses CORE = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("dev.lash");

    private static String name(String part) {
        return "dev.lash." + part + "..";
    }

    static Stream<Arguments> packagesAndThoseAfter() {
        return IntStream.range(0, ORDER.size() - 1)
                .mapToObj(i -> Arguments.of(
                        ORDER.get(i),
                        ORDER.subList(i + 1, ORDER.size()).stream()
                                .map(PackageOrderTest::name)
                                .toArray(String[]::new)));
    }

    @Test
    void theClassesAreThere() {
        assertThat(CORE).hasSizeGreaterThan(40);
    }

    @ParameterizedTest
    @MethodSource("packagesAndThoseAfter")
    void usesOnlyPackagesBeforeIt(String part, String[] after) {
        noClasses()
                .that()
                .resideInAPackage(name(part))
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(after)
                .allowEmptyShould(true)
                .check(CORE);
    }

    @Test
    void everyClassIsInOneOfThesePackages() {
        classes()
                .should()
                .resideInAnyPackage(ORDER.stream().map(PackageOrderTest::name).toArray(String[]::new))
                .check(CORE);
    }

    @Test
    void onlyTheTrendUsesCommons() {
        noClasses()
                .that()
                .resideOutsideOfPackage(name("trend"))
                .should()
                .dependOnClassesThat()
                .resideInAPackage("org.apache.commons..")
                .check(CORE);
    }

    @Test
    void nothingElseIsUsedThanJavaAndCommons() {
        classes()
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage("java..", "dev.lash..", "org.apache.commons..", "org.jspecify.annotations..")
                .check(CORE);
    }

    @Test
    void noFileIsRead() {
        Set<String> serialisation = Set.of(
                Serializable.class.getName(),
                ObjectStreamException.class.getName(),
                ObjectInputStream.class.getName(),
                ObjectOutputStream.class.getName());
        noClasses()
                .should()
                .dependOnClassesThat(are(new DescribedPredicate<JavaClass>("of java.io, but serialisation's") {
                    @Override
                    public boolean test(JavaClass used) {
                        return used.getPackageName().equals("java.io") && !serialisation.contains(used.getName());
                    }
                }))
                .orShould()
                .dependOnClassesThat()
                .resideInAnyPackage("java.nio..", "java.net..", "java.sql..")
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.util.ServiceLoader")
                .check(CORE);
    }

    @Test
    void noClockAndNoChanceIsAsked() {
        Set<String> types = Set.of(
                "java.time.Clock",
                "java.util.Date",
                "java.util.Calendar",
                "java.util.Random",
                "java.util.SplittableRandom",
                "java.util.UUID",
                "java.util.concurrent.ThreadLocalRandom");
        noClasses()
                .should()
                .accessTargetWhere(new DescribedPredicate<JavaAccess<?>>("asks a clock or for chance") {
                    @Override
                    public boolean test(JavaAccess<?> access) {
                        String owner = access.getTargetOwner().getName();
                        String member = access.getTarget().getName();
                        return types.contains(owner)
                                || (owner.startsWith("java.time.") && member.equals("now"))
                                || (owner.equals("java.lang.Math") && member.equals("random"))
                                || (owner.equals("java.lang.System")
                                        && Set.of("currentTimeMillis", "nanoTime", "getProperty", "getenv")
                                                .contains(member));
                    }
                })
                .check(CORE);
    }

    @Test
    void nothingIsLogged() {
        NO_CLASSES_SHOULD_ACCESS_STANDARD_STREAMS.check(CORE);
        NO_CLASSES_SHOULD_USE_JAVA_UTIL_LOGGING.check(CORE);
        noClasses()
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.slf4j..", "org.apache.logging..", "org.apache.commons.logging..")
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.lang.System$Logger")
                .check(CORE);
    }

    /** Builders apart, and what is used inside one call only. */
    @Test
    void whatIsPublicCannotChange() {
        fields().that(are(new DescribedPredicate<JavaField>("written, and not of a builder or of an inner working") {
                    @Override
                    public boolean test(JavaField field) {
                        JavaClass owner = field.getOwner();
                        boolean instance = !field.getModifiers().contains(JavaModifier.STATIC);
                        boolean working = owner.getSimpleName().equals("Builder")
                                || !owner.getModifiers().contains(JavaModifier.PUBLIC);
                        return !field.getModifiers().contains(JavaModifier.SYNTHETIC) && !(instance && working);
                    }
                }))
                .should()
                .beFinal()
                .check(CORE);
    }

    @Test
    void noStaticHoldsWhatCanChange() {
        fields().that()
                .areStatic()
                .should(new ArchCondition<>("hold a value that cannot change") {
                    @Override
                    public void check(JavaField field, ConditionEvents events) {
                        if (!field.getModifiers().contains(JavaModifier.SYNTHETIC) && canChange(field)) {
                            events.add(SimpleConditionEvent.violated(field, field.getFullName() + " can change"));
                        }
                    }
                })
                .check(CORE);
    }

    private static boolean canChange(JavaField field) {
        JavaClass type = field.getRawType();
        if (type.isAssignableTo(Collection.class) || type.isAssignableTo(Map.class)) {
            return !value(field).getClass().getName().startsWith("java.util.ImmutableCollections$");
        }
        return type.isArray()
                || type.getPackageName().startsWith("java.util.concurrent")
                || type.isEquivalentTo(StringBuilder.class)
                || type.isEquivalentTo(ThreadLocal.class);
    }

    private static Object value(JavaField field) {
        try {
            Field reflected = field.reflect();
            reflected.setAccessible(true);
            return reflected.get(null);
        } catch (IllegalAccessException e) {
            throw new AssertionError(field.getFullName(), e);
        }
    }
}
