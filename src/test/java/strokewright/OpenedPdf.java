package strokewright;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.graphics.PDXObject;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.text.PDFTextStripper;

/** A PDF as a reader that did not write it opens it. */
public final class OpenedPdf implements AutoCloseable {

    private static final String SPACES = "[\u00a0\u2002\u202f]";

    private final PDDocument document;

    public OpenedPdf(byte[] file) {
        try {
            document = Loader.loadPDF(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * @param embedded whether the glyphs are in the file
     * @param subset whether only those that are used
     */
    public record Font(String name, boolean embedded, boolean subset) {}

    public int pages() {
        return document.getNumberOfPages();
    }

    /**
     * Of all pages, in the order in which it was written: no sorting by place. Spaces of every kind
     * are plain ones.
     */
    public String text() {
        return text(1, pages());
    }

    /**
     * @param page counted from one
     */
    public String text(int page) {
        return text(page, page);
    }

    private String text(int first, int last) {
        try {
            PDFTextStripper reading = new PDFTextStripper();
            reading.setStartPage(first);
            reading.setEndPage(last);
            return reading.getText(document).replace("\r", "").replaceAll(SPACES, " ");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Width and height in whole millimetres, e.g. 210 x 297. */
    public List<String> sizes() {
        List<String> sizes = new ArrayList<>();
        for (PDPage page : document.getPages()) {
            PDRectangle box = page.getMediaBox();
            sizes.add(millimetres(box.getWidth()) + " x " + millimetres(box.getHeight()));
        }
        return sizes;
    }

    private static String millimetres(float points) {
        return String.format(Locale.ROOT, "%.0f", points * 25.4 / 72);
    }

    public String title() {
        return document.getDocumentInformation().getTitle();
    }

    public String author() {
        return document.getDocumentInformation().getAuthor();
    }

    public String subject() {
        return document.getDocumentInformation().getSubject();
    }

    public String language() {
        return document.getDocumentCatalog().getLanguage();
    }

    public boolean showsItsTitle() {
        return document.getDocumentCatalog().getViewerPreferences().displayDocTitle();
    }

    public boolean isTagged() {
        return document.getDocumentCatalog().getMarkInfo().isMarked()
                && !document.getDocumentCatalog().getStructureTreeRoot().getKids().isEmpty();
    }

    /** Whether anything in it runs, opens or embeds something. */
    public boolean hasActions() {
        return document.getDocumentCatalog().getCOSObject().containsKey(COSName.OPEN_ACTION)
                || document.getDocumentCatalog().getCOSObject().containsKey(COSName.AA)
                || document.getDocumentCatalog().getNames() != null;
    }

    /** Of every page, those of drawings in it included. */
    public List<Font> fonts() {
        List<Font> fonts = new ArrayList<>();
        for (PDPage page : document.getPages()) {
            collect(page.getResources(), fonts);
        }
        return fonts;
    }

    private static void collect(PDResources from, List<Font> fonts) {
        try {
            for (COSName name : from.getFontNames()) {
                PDFont font = from.getFont(name);
                fonts.add(
                        new Font(
                                font.getName().replaceFirst("^[A-Z]{6}\\+", ""),
                                font.isEmbedded(),
                                font.getName().matches("[A-Z]{6}\\+.*")));
            }
            for (COSName name : from.getXObjectNames()) {
                PDXObject object = from.getXObject(name);
                if (object instanceof PDFormXObject form && form.getResources() != null) {
                    collect(form.getResources(), fonts);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What is read aloud in place of its pictures, in their order. */
    public List<String> described() {
        List<String> found = new ArrayList<>();
        describe(document.getDocumentCatalog().getStructureTreeRoot().getKids(), found);
        return found;
    }

    private static void describe(List<Object> kids, List<String> found) {
        for (Object kid : kids) {
            if (kid instanceof PDStructureElement element) {
                if (element.getAlternateDescription() != null) {
                    found.add(element.getAlternateDescription().replaceAll(SPACES, " "));
                }
                describe(element.getKids(), found);
            }
        }
    }

    /** How many raster pictures its pages hold. */
    public long pictures() {
        long pictures = 0;
        for (PDPage page : document.getPages()) {
            for (COSName name : page.getResources().getXObjectNames()) {
                pictures += page.getResources().isImageXObject(name) ? 1 : 0;
            }
        }
        return pictures;
    }

    @Override
    public void close() {
        try {
            document.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
