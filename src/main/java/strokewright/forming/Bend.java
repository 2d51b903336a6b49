package strokewright.forming;

/**
 * A length of one curvature.
 *
 * @param lengthMm over 0
 * @param curvature 1/mm; 0 for a straight; the sign tells to which side it turns
 */
public record Bend(double lengthMm, double curvature) {}
