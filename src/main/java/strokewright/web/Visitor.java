package strokewright.web;

/** Who is signed in, as the page's frame shows it; the principal of a signed-in user is one. */
public interface Visitor {

    String shopName();

    String displayName();
}
