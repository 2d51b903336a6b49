package strokewright.office;

import jakarta.activation.DataHandler;
import jakarta.mail.Message;
import jakarta.mail.MessagingException;
import jakarta.mail.Session;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeBodyPart;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import jakarta.mail.util.ByteArrayDataSource;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.UnsupportedEncodingException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Date;
import java.util.Properties;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A mail with one file attached, as RFC 5322 and MIME have it, for somebody's mail program to open
 * and send. Most programs open it as a draft, for its header X-Unsent.
 *
 * @param from null to leave the sender to the mail program
 * @param to null to leave the addressee to whoever sends it
 * @param text plain, with line ends
 */
public record Mail(
        @Nullable Address from,
        @Nullable Address to,
        String subject,
        String text,
        Attachment attachment) {

    public static final String TYPE = "message/rfc822";

    /** What would end a header line and begin another, or is not written in one. */
    private static final Pattern CONTROL = Pattern.compile("[\\p{Cntrl}\\u2028\\u2029]+");

    public Mail {
        subject = oneLine(subject);
    }

    /**
     * @param name of the person or shop; null for the address alone
     * @throws IllegalArgumentException when the address is none
     */
    public record Address(String address, @Nullable String name) {

        public Address {
            name = name == null ? null : oneLine(name);
            try {
                InternetAddress read = new InternetAddress(address, true);
                if (CONTROL.matcher(address).find() || !address.equals(read.getAddress())) {
                    throw new IllegalArgumentException("no plain mail address: " + address);
                }
            } catch (MessagingException e) {
                throw new IllegalArgumentException("no mail address: " + address, e);
            }
        }

        private InternetAddress written() throws UnsupportedEncodingException {
            return new InternetAddress(address, name, StandardCharsets.UTF_8.name());
        }
    }

    /**
     * @param name of the file
     */
    public record Attachment(String name, String type, byte[] content) {

        public Attachment {
            name = oneLine(name);
        }
    }

    private static String oneLine(String text) {
        return CONTROL.matcher(text).replaceAll(" ").strip();
    }

    /** The file, to be called {@code ….eml}. */
    public byte[] file(Instant date) {
        try (ByteArrayOutputStream out = new ByteArrayOutputStream()) {
            message(date).writeTo(out);
            return out.toByteArray();
        } catch (MessagingException e) {
            throw new IllegalStateException("could not be written: " + e.getMessage(), e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private MimeMessage message(Instant date) throws MessagingException, IOException {
        MimeMessage message = new Unnamed();
        message.setHeader("X-Unsent", "1");
        message.setSentDate(Date.from(date));
        if (from != null) {
            message.setFrom(from.written());
        }
        if (to != null) {
            message.setRecipient(Message.RecipientType.TO, to.written());
        }
        message.setSubject(subject, StandardCharsets.UTF_8.name());
        MimeBodyPart words = new MimeBodyPart();
        words.setText(text, StandardCharsets.UTF_8.name());
        message.setContent(new MimeMultipart(words, attached()));
        message.saveChanges();
        return message;
    }

    private MimeBodyPart attached() throws MessagingException {
        MimeBodyPart file = new MimeBodyPart();
        file.setDataHandler(
                new DataHandler(new ByteArrayDataSource(attachment.content(), attachment.type())));
        file.setDisposition(MimeBodyPart.ATTACHMENT);
        file.setFileName(attachment.name());
        return file;
    }

    /**
     * Without an identification: the program that sends it gives one, and ours names no machine.
     */
    private static final class Unnamed extends MimeMessage {

        Unnamed() {
            super(Session.getInstance(new Properties()));
        }

        @Override
        protected void updateMessageID() throws MessagingException {
            removeHeader("Message-ID");
        }
    }
}
