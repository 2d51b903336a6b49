package strokewright.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.quantity.InvalidInput;

/** Whatever is done to a file: a table, or a refusal, and never anything else. */
class MutatedFilesTest {

    private static final String[] BITS = {
        "<",
        ">",
        "\"",
        "&#0;",
        "&x;",
        "]]>",
        "<!--",
        "-->",
        "<?a?>",
        "<!DOCTYPE x>",
        "_xFFFF_",
        "-1",
        "99999999999",
        "1e400",
        "\u0000",
        "\r",
        "\"\"",
        "\t",
        ";",
        ",",
        "\ufeff",
        "inlineStr",
        "t=\"d\"",
        "r=\"A0\"",
        "../",
        "/"
    };

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void csvWithBytesChangedAddedAndTakenOut(long seed) {
        Random random = new Random(seed);
        byte[] file =
                "Grade;\"Price \"\"net\"\"\";Size\r\nA;1,5;\"1 1/2\"\"\"\r\nÄ;-2;=x\r\n"
                        .getBytes(StandardCharsets.UTF_8);
        for (int n = 0; n < 3_000; n++) {
            isReadOrRefused(mutated(file, random), "a.csv");
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {11, 12, 13, 14})
    void workbooksWithBytesChangedAddedAndTakenOut(long seed) {
        Random random = new Random(seed);
        byte[] file = workbook();
        for (int n = 0; n < 800; n++) {
            isReadOrRefused(mutated(file, random), "a.xlsx");
        }
    }

    /** Within the packed parts, so that what is spoiled reaches the readers of their content. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {21, 22, 23, 24})
    void workbooksWithTheContentOfTheirPartsSpoiled(long seed) throws IOException {
        Random random = new Random(seed);
        byte[] file = workbook();
        for (int n = 0; n < 800; n++) {
            isReadOrRefused(repacked(file, random), "a.xlsx");
        }
    }

    private static byte[] workbook() {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Xlsx.write(
                out,
                "Prices",
                "Prices",
                List.of(
                        Column.text("Grade", 10),
                        Column.number("Price", 2, 8),
                        Column.day("Since")),
                List.of(
                                List.of(
                                        Value.text("A"),
                                        Value.number(1.5),
                                        Value.day(java.time.LocalDate.of(2026, 2, 1))),
                                List.of(Value.text("=x"), Value.number(-2), Value.BLANK))
                        .iterator());
        return out.toByteArray();
    }

    private static void isReadOrRefused(byte[] file, String name) {
        try {
            assertThat(TableFile.read(file, name, null, null, Limits.IMPORT).rows()).isNotEmpty();
        } catch (InvalidInput e) {
            assertThat(e.faults()).hasSize(1);
            assertThat(e.faults().get(0).message()).isNotBlank();
        }
    }

    private static byte[] mutated(byte[] file, Random random) {
        byte[] changed = file.clone();
        int changes = 1 + random.nextInt(4);
        for (int i = 0; i < changes && changed.length > 1; i++) {
            int at = random.nextInt(changed.length);
            switch (random.nextInt(4)) {
                case 0 -> changed[at] = (byte) random.nextInt(256);
                case 1 -> changed = with(changed, at, at, bit(random));
                case 2 ->
                        changed =
                                with(
                                        changed,
                                        at,
                                        Math.min(changed.length, at + random.nextInt(40)),
                                        new byte[0]);
                default -> changed = random.nextInt(10) == 0 ? Arrays.copyOf(changed, at) : changed;
            }
        }
        return changed;
    }

    private static byte[] bit(Random random) {
        return BITS[random.nextInt(BITS.length)].getBytes(StandardCharsets.UTF_8);
    }

    private static byte[] with(byte[] file, int from, int to, byte[] instead) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(file, 0, from);
        out.writeBytes(instead);
        out.write(file, to, file.length - to);
        return out.toByteArray();
    }

    private static byte[] repacked(byte[] file, Random random) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(file));
                ZipOutputStream zip = new ZipOutputStream(out)) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                byte[] content = in.readAllBytes();
                zip.putNextEntry(new ZipEntry(entry.getName()));
                zip.write(random.nextInt(3) == 0 ? mutated(content, random) : content);
                zip.closeEntry();
            }
        }
        return out.toByteArray();
    }
}
