/* A slash goes to the words to look for, wherever nothing is being typed. */
(function () {
    "use strict";

    const words = document.getElementById("text");

    document.addEventListener("keydown", (event) => {
        const typing = event.target.closest("input:not([type=checkbox]), select, textarea");
        if (event.key === "/" && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) {
            event.preventDefault();
            words.focus();
            words.select();
        }
    });
})();
