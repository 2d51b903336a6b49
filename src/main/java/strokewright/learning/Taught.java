package strokewright.learning;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import strokewright.estimate.ShopBook;
import strokewright.job.JobRecord;

/** What each of the finished jobs says, and what they say together. */
record Taught(List<Evidence> evidence, Lessons lessons) {

    Taught {
        evidence = List.copyOf(evidence);
    }

    /**
     * @param jobs in the order in which they were finished
     */
    static Taught by(List<JobRecord> jobs, ShopBook book) {
        ShopBook bare = bare(book);
        return by(jobs.stream().map(job -> Evidence.of(job, bare)).toList());
    }

    /**
     * @param evidence in the order in which the jobs were finished
     */
    static Taught by(List<Evidence> evidence) {
        return new Taught(
                evidence,
                Lessons.of(evidence.stream().flatMap(e -> e.observations().stream()).toList()));
    }

    /** Factors replace, never multiply: jobs are reckoned without any. */
    static ShopBook bare(ShopBook book) {
        return book.withLearned(List.of());
    }

    Factors factors(ShopBook book) {
        List<LeftOut> leftOut = new ArrayList<>();
        evidence.forEach(e -> leftOut.addAll(e.leftOut()));
        return Factors.of(lessons, rework(evidence), leftOut, book);
    }

    static List<Rework> rework(List<Evidence> evidence) {
        return evidence.stream().map(Evidence::rework).filter(Objects::nonNull).toList();
    }
}
