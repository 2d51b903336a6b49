package strokewright.web;

import jakarta.servlet.http.HttpServletRequest;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.servlet.ModelAndView;

/** What a page's controller refuses on purpose is shown as a page. ({@link Api} comes before.) */
@ControllerAdvice(annotations = Controller.class)
class PageProblems {

    @ExceptionHandler(Problem.class)
    ModelAndView refused(Problem problem, HttpServletRequest request) {
        return problem.page(request);
    }
}
