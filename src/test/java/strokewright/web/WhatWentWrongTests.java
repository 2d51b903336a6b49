package strokewright.web;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.persistence.OptimisticLockException;
import java.sql.SQLException;
import java.util.List;
import org.hibernate.StaleObjectStateException;
import org.hibernate.TransactionException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.dao.CannotAcquireLockException;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.http.ResponseEntity;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.orm.ObjectOptimisticLockingFailureException;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.transaction.TransactionSystemException;

/** Which exceptions are whose fault. */
class WhatWentWrongTests {

    private static ResponseEntity<Object> answer(Exception e) {
        return ApiProblems.problem(e).answer(new MockHttpServletRequest("PUT", "/api/v1/x"));
    }

    @Test
    void aRowChangedMeanwhileIsTheSameInEveryWrapping() {
        for (Exception e :
                List.of(
                        new OptimisticLockException(new StaleObjectStateException("x", 1)),
                        new ObjectOptimisticLockingFailureException("x", 1),
                        new TransactionSystemException("x", new OptimisticLockException()))) {
            assertThat(answer(e).getStatusCode().value()).as(e.toString()).isEqualTo(412);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "08000", "08006", "53100", "53300", "58030", "57P01", "57P03", "40001", "40P01"
            })
    void aDatabaseThatIsAwayOrTooBusyIsUnavailable(String state) {
        assertUnavailable(new IllegalStateException(new SQLException("x", state)));
    }

    @Test
    void aPoolWithoutConnectionsIsUnavailable() {
        assertUnavailable(new CannotCreateTransactionException("x"));
        assertUnavailable(new DataAccessResourceFailureException("x"));
        assertUnavailable(new CannotAcquireLockException("x"));
        assertUnavailable(
                new TransactionSystemException(
                        "x", new TransactionException("Unable to rollback")));
    }

    private static void assertUnavailable(Exception e) {
        ResponseEntity<Object> answer = answer(e);
        assertThat(answer.getStatusCode().value()).as(e.toString()).isEqualTo(503);
        assertThat(answer.getHeaders().getFirst("Retry-After")).isEqualTo("5");
    }

    @ParameterizedTest
    @ValueSource(strings = {"23505", "42501", "42P01", "22P02", "57014"})
    void whatTheDatabaseRefusesOtherwiseIsOurFault(String state) {
        assertThat(answer(new IllegalStateException(new SQLException("x", state))).getStatusCode())
                .hasToString("500 INTERNAL_SERVER_ERROR");
    }
}
