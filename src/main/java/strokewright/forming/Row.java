package strokewright.forming;

/**
 * One row of strokes along an edge or ring.
 *
 * @param strain true strain to put in, without sign
 * @param lengthMm working length
 */
public record Row(double strain, double lengthMm) {}
