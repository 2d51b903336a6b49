package strokewright;

/** A PostgreSQL that answers, and the two roles that we have there. */
interface Database {

    String url();

    /** Owns nothing, is no superuser, is bound by row-level security. */
    Role service();

    /** Owns the tables: migrations and backup. */
    Role owner();

    record Role(String name, String password) {

        @Override
        public String toString() { // may reach a log, the password must not
            return name;
        }
    }
}
