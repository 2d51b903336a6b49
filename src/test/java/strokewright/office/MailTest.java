package strokewright.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import jakarta.mail.MessagingException;
import jakarta.mail.Part;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import jakarta.mail.internet.MimeUtility;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import strokewright.office.Mail.Address;
import strokewright.office.Mail.Attachment;

class MailTest {

    private static final Instant THEN = Instant.parse("2026-03-02T10:15:30Z");

    @Test
    void isADraftWithItsTextAndItsFileUnchanged() throws MessagingException, IOException {
        byte[] content = new byte[5000];
        new Random(7).nextBytes(content);
        Mail mail =
                new Mail(
                        new Address("office@quillmoor.example", "Quillmoor Sheet & Form"),
                        new Address("imogen@harbour.example", "Ελένη Žďár"),
                        "Quote Q-2026-0007: Lüftungsschacht Ø 600, „Bühne“ ".repeat(6),
                        "Dear Ελένη,\n\nhere it is – 12 € × 3.\n.\nFrom us\n",
                        new Attachment("Q-2026-0007.pdf", Pdf.TYPE, content));
        String raw = raw(mail);
        MimeMessage read = read(mail);

        assertThat(raw.substring(0, raw.indexOf("\r\n\r\n")).split("\r\n"))
                .allMatch(line -> line.length() <= 78)
                .allMatch(line -> line.matches("[A-Za-z-]+: .*|[ \\t].*"));
        assertThat(raw.replace("\r\n", "")).doesNotContain("\n").doesNotContain("\r");
        assertThat(raw).isEqualTo(new String(raw.getBytes(StandardCharsets.US_ASCII)));
        assertThat(read.getHeader("X-Unsent")).containsExactly("1");
        assertThat(read.getHeader("MIME-Version")).containsExactly("1.0");
        assertThat(read.getHeader("Message-ID")).isNull();
        assertThat(read.getSentDate()).hasTime(THEN.toEpochMilli());
        assertThat(((InternetAddress) read.getFrom()[0]).getPersonal())
                .isEqualTo("Quillmoor Sheet & Form");
        assertThat(read.getAllRecipients()).hasSize(1);
        assertThat(((InternetAddress) read.getAllRecipients()[0]).getAddress())
                .isEqualTo("imogen@harbour.example");
        assertThat(((InternetAddress) read.getAllRecipients()[0]).getPersonal())
                .isEqualTo("Ελένη Žďár");
        assertThat(MimeUtility.decodeText(read.getSubject())).isEqualTo(mail.subject());

        MimeMultipart parts = (MimeMultipart) read.getContent();
        assertThat(parts.getCount()).isEqualTo(2);
        assertThat(parts.getBodyPart(0).getContent().toString().replace("\r\n", "\n"))
                .isEqualTo(mail.text());
        Part file = parts.getBodyPart(1);
        assertThat(file.isMimeType(Pdf.TYPE)).isTrue();
        assertThat(file.getDisposition()).isEqualTo(Part.ATTACHMENT);
        assertThat(file.getFileName()).isEqualTo("Q-2026-0007.pdf");
        assertThat(file.getInputStream().readAllBytes()).isEqualTo(content);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Frame\r\nBcc: everybody@else.example",
                "Frame\nBcc: everybody@else.example",
                "Frame\r\n\r\nAnother text",
                "Frame\r\n Bcc: everybody@else.example",
                "Frame\u2028Bcc: everybody@else.example",
                "Frame\u0000\u0085Bcc: everybody@else.example"
            })
    void aTextWithLineEndsMakesNoFurtherHeader(String text) throws MessagingException, IOException {
        Mail mail =
                new Mail(
                        new Address("office@quillmoor.example", text),
                        new Address("imogen@harbour.example", text),
                        text,
                        "Text",
                        new Attachment(text + ".pdf", Pdf.TYPE, new byte[] {1}));
        MimeMessage read = read(mail);

        assertThat(read.getHeader("Bcc")).isNull();
        assertThat(read.getAllRecipients()).hasSize(1);
        assertThat(((MimeMultipart) read.getContent()).getCount()).isEqualTo(2);
        String raw = raw(mail);
        assertThat(raw.substring(0, raw.indexOf("\r\n\r\n")).split("\r\n"))
                .noneMatch(line -> line.startsWith("Bcc"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "a@b.example\r\nBcc: c@d.example",
                "a@b.example, c@d.example",
                "a@b.example;c@d.example",
                "Some Body <a@b.example>",
                "a b@c.example",
                "a@b@c.example",
                "nobody",
                "@b.example",
                "a@",
                "",
                "a@b.example\u0000"
            })
    void whatIsNoSingleAddressIsRefused(String address) {
        assertThatThrownBy(() -> new Address(address, null))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void withoutSenderAndAddresseeTheyAreLeftToTheMailProgram()
            throws MessagingException, IOException {
        Mail mail =
                new Mail(
                        null,
                        null,
                        "Quote",
                        "Text",
                        new Attachment("q.pdf", Pdf.TYPE, new byte[9]));

        assertThat(List.of(raw(mail).split("\r\n")))
                .noneMatch(line -> line.startsWith("From:") || line.startsWith("To:"));
        assertThat(read(mail).getSubject()).isEqualTo("Quote");
    }

    private static String raw(Mail mail) {
        return new String(mail.file(THEN), StandardCharsets.ISO_8859_1);
    }

    private static MimeMessage read(Mail mail) throws MessagingException {
        return new MimeMessage(null, new ByteArrayInputStream(mail.file(THEN)));
    }
}
