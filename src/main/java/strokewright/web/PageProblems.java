package strokewright.web;

import jakarta.servlet.http.HttpServletRequest;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.servlet.ModelAndView;
import strokewright.quantity.InvalidInput;

/** What a page's controller refuses on purpose is shown as a page. ({@link Api} comes before.) */
@ControllerAdvice(annotations = Controller.class)
class PageProblems {

    private final PageFrames frames;

    PageProblems(PageFrames frames) {
        this.frames = frames;
    }

    @ExceptionHandler({Problem.class, InvalidInput.class})
    ModelAndView refused(RuntimeException e, HttpServletRequest request) {
        return frames.frame(ApiProblems.problem(e).page(request), request);
    }
}
