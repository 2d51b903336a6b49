/* For every page: the CSRF token goes with each htmx request, and a lost session is mended in place. */
(function () {
    "use strict";

    document.documentElement.classList.add("js");

    function csrf() {
        const found = document.cookie.match(/(?:^|; )XSRF-TOKEN=([^;]*)/);
        return found ? decodeURIComponent(found[1]) : "";
    }

    window.strokewright = { csrf };

    /** Booking pages that this phone kept are nobody else's business. */
    document.addEventListener("submit", (event) => {
        if (event.target.getAttribute("action")?.endsWith("/sign-out") && "caches" in window) {
            caches.delete("strokewright-book");
        }
    });

    document.addEventListener("htmx:configRequest", (event) => {
        event.detail.headers["X-XSRF-TOKEN"] = csrf();
    });

    const dialog = document.getElementById("sign-in-again");
    if (!dialog) {
        return;
    }
    const form = dialog.querySelector("form");
    const fault = document.getElementById("again-fault");
    let waiting = null;

    document.addEventListener("htmx:responseError", (event) => {
        if (event.detail.xhr.status === 401) {
            waiting = event.detail.elt;
            fault.textContent = "";
            if (!dialog.open) {
                dialog.showModal();
            }
        }
    });

    /** Forms that are sent without htmx carry a token of their own, and theirs died too. */
    async function renewTokens() {
        const page = new DOMParser().parseFromString(await (await fetch(form.action)).text(), "text/html");
        const token = page.querySelector("input[name=_csrf]")?.value;
        for (const field of token ? document.querySelectorAll("input[name=_csrf]") : []) {
            field.value = token;
        }
    }

    form.addEventListener("submit", async (event) => {
        event.preventDefault();
        fault.textContent = "";
        const body = new URLSearchParams(new FormData(form));
        body.delete("_csrf"); // the one in the page died with the session
        try {
            const answer = await fetch(form.action, {
                method: "POST",
                body: body,
                headers: { "X-XSRF-TOKEN": csrf() },
            });
            if (!answer.ok || new URL(answer.url).pathname === new URL(form.action).pathname) {
                fault.textContent = "The name or the password is not right.";
                return;
            }
            await renewTokens();
            form.reset();
            dialog.close();
            document.dispatchEvent(new CustomEvent("signed-in-again", { detail: waiting }));
        } catch (e) {
            fault.textContent = "The service cannot be reached. Try again in a moment.";
        }
    });
})();
