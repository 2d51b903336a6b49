package strokewright;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import jakarta.persistence.Entity;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.data.repository.Repository;
import org.springframework.modulith.ApplicationModule;
import org.springframework.modulith.core.ApplicationModules;
import org.springframework.stereotype.Controller;

/** Which package may know which. */
class ModularityTests {

    private static final String[] PURE = {"quantity", "forming", "sheet", "costing", "estimate"};
    private static final String OFFICE = "strokewright.office";

    private static final JavaClasses OURS =
            new ClassFileImporter()
                    .withImportOption(new ImportOption.DoNotIncludeTests())
                    .importPackages("strokewright");

    @Test
    void packagesUseOnlyWhatTheirDescriptionAllowsAndFormNoCycle() {
        ApplicationModules.of(Strokewright.class).verify();
    }

    @Test
    void everyPackageSaysWhatItMayUse() {
        assertThat(ApplicationModules.of(Strokewright.class).stream())
                .isNotEmpty()
                .allSatisfy(
                        module ->
                                assertThat(
                                                module.getBasePackage()
                                                        .getAnnotation(ApplicationModule.class))
                                        .as(module.getIdentifier().toString())
                                        .isPresent());
    }

    @Test
    void everyPackageThatARuleNamesExists() {
        List<String> named = new ArrayList<>(List.of(OFFICE));
        for (String name : PURE) {
            named.add("strokewright." + name);
        }
        assertThat(OURS.stream().map(JavaClass::getPackageName)).containsAll(named);
    }

    @Test
    void thePurePackagesKnowNoFramework() {
        String[] pure = new String[PURE.length];
        for (int i = 0; i < PURE.length; i++) {
            pure[i] = "strokewright." + PURE[i];
        }
        noClasses()
                .that(resideInAnyPackage(pure))
                .should()
                .dependOnClassesThat(
                        resideInAnyPackage(
                                        "org.springframework..",
                                        "jakarta.persistence..",
                                        "jakarta.servlet..",
                                        "org.hibernate..",
                                        "java.sql..",
                                        "javax.sql..",
                                        "org.apache.poi..",
                                        "tools.jackson.databind..")
                                .and(not(resideInAPackage("org.springframework.modulith.."))))
                .check(OURS);
    }

    @Test
    void onlyOfficeKnowsTheLibrariesForWorkbooksPdfAndMail() {
        noClasses()
                .that(not(resideInAPackage(OFFICE)))
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "org.apache.poi..",
                        "com.openhtmltopdf..",
                        "org.apache.pdfbox..",
                        "jakarta.mail..")
                .check(OURS);
    }

    @Test
    void entitiesRepositoriesAndControllersStayInsideTheirPackage() {
        classes()
                .that()
                .areMetaAnnotatedWith(Controller.class)
                .or()
                .areAnnotatedWith(Entity.class)
                .or()
                .areAssignableTo(Repository.class)
                .should()
                .notBePublic()
                .check(OURS.that(describe("no annotations", c -> !c.isAnnotation())));
    }

    @Test
    void nobodyImportsTheRoot() {
        noClasses()
                .that()
                .resideOutsideOfPackage("strokewright")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("strokewright")
                .check(OURS);
    }
}
