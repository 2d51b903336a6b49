package strokewright.office;

/**
 * How much of a file is read before it is refused; together they keep a reading within some 100 MB
 * of memory and ten seconds, whatever the file holds.
 *
 * @param bytes of the file as it is sent
 * @param rows that hold something, and number of the last row
 * @param columns number of the last column
 * @param cells that hold something
 * @param cellCharacters of one cell
 * @param characters of all cells together, the same text counted once in a workbook
 * @param parts of a workbook's zip file
 * @param unpackedBytes of all parts that are read, together
 */
public record Limits(
        int bytes,
        int rows,
        int columns,
        int cells,
        int cellCharacters,
        int characters,
        int parts,
        long unpackedBytes) {

    /** For tables that people keep and send in. */
    public static final Limits IMPORT =
            new Limits(10 << 20, 20_000, 256, 400_000, 5_000, 8_000_000, 1_000, 100L << 20);
}
