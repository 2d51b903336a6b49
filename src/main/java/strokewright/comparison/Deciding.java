package strokewright.comparison;

import java.util.List;

/** Whoever knows of something that waits for the owner and that a comparison does not show. */
public interface Deciding {

    /** Within a transaction of the owner. */
    List<Decision> decisions();
}
