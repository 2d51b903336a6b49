package strokewright.shopbook;

import java.util.List;

/**
 * A part of the shop book with a page of its own.
 *
 * @param key in the address of its page
 * @param lead what it is for, in a sentence
 */
record BookPart(String key, String title, String lead, List<BookSection> sections) {}
