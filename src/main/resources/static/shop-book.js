/* A row of the shop book keeps itself while it is typed (htmx sends its form). This sees to it that
   nothing typed is left behind when a button or a link leads away, and puts faults beside fields. */
(function () {
    "use strict";

    const said = document.getElementById("said");
    const unsent = new Set(); // rows typed in since they were last sent
    const underWay = new Set();

    function say(text) {
        said.textContent = text;
        said.classList.toggle("visually-hidden", !text.startsWith("Not kept"));
        said.classList.toggle("notice", text.startsWith("Not kept"));
        said.classList.toggle("bad", text.startsWith("Not kept"));
    }

    function rowOf(element) {
        return element.closest?.("form.book-row");
    }

    for (const kind of ["input", "change"]) {
        document.addEventListener(kind, (event) => {
            const row = rowOf(event.target);
            if (row) {
                unsent.add(row);
            }
        });
    }

    function send(row) {
        const body = new URLSearchParams(new FormData(row));
        return fetch(row.action, {
            method: "POST",
            body: body,
            headers: { "X-XSRF-TOKEN": window.strokewright.csrf(), "HX-Request": "true" },
            keepalive: true,
        });
    }

    // Faults beside their fields ---------------------------------------------------------------

    function place() {
        for (const fault of document.querySelectorAll(".book-row .field > .fault")) {
            fault.textContent = "";
        }
        for (const field of document.querySelectorAll(".book-row [aria-invalid]")) {
            field.removeAttribute("aria-invalid");
        }
        for (const fault of document.querySelectorAll(".book-row > .fault")) {
            fault.textContent = "";
        }
        for (const link of document.querySelectorAll("#faults [data-row]")) {
            const field = document.getElementById(link.dataset.fault || "");
            const row = document.getElementById("w-" + link.dataset.row);
            if (!link.dataset.fault && row) {
                row.textContent = link.nextElementSibling.textContent;
            } else if (field) {
                field.setAttribute("aria-invalid", "true");
                document.getElementById(field.id + "-fault").textContent = link.nextElementSibling.textContent;
            }
        }
    }

    document.addEventListener("click", (event) => {
        const link = event.target.closest?.("#faults [data-fault]");
        const field = link && document.getElementById(link.dataset.fault);
        if (field) {
            event.preventDefault();
            field.focus();
        }
    });

    // The list of faults is replaced with every answer, also under somebody who is on one of its links.
    let onFault = null;
    document.addEventListener("htmx:beforeSwap", () => {
        onFault = document.activeElement?.closest?.(".missing a")?.getAttribute("href");
    });
    document.addEventListener("htmx:afterSwap", () => {
        if (onFault && document.activeElement === document.body) {
            [...document.querySelectorAll(".missing a")].find((link) => link.getAttribute("href") === onFault)?.focus();
        }
    });

    // Sending ------------------------------------------------------------------------------------

    document.addEventListener("htmx:beforeRequest", (event) => {
        const row = rowOf(event.detail.elt);
        if (row) {
            unsent.delete(row);
            underWay.add(row);
        }
    });

    document.addEventListener("htmx:afterRequest", (event) => {
        const row = rowOf(event.detail.elt);
        if (!row) {
            return;
        }
        underWay.delete(row);
        if (event.detail.successful) {
            say("");
        } else {
            unsent.add(row);
        }
    });

    document.addEventListener("htmx:sendError", () => say("Not kept: the service cannot be reached. It is tried again with the next key."));
    document.addEventListener("htmx:responseError", (event) => {
        if (event.detail.xhr.status !== 401) {
            say("Not kept: the service answered " + event.detail.xhr.status + ". It is tried again with the next key.");
        }
    });
    document.addEventListener("htmx:afterSettle", place);
    document.addEventListener("signed-in-again", () => {
        for (const row of unsent) {
            htmx.trigger(row, "change");
        }
    });

    /** Sends what is typed and not kept yet; false where the service did not take it. */
    async function keepAll(but) {
        const rows = [...unsent, ...underWay].filter((row) => row !== but);
        for (const row of rows) {
            const answer = await send(row);
            if (!answer.ok) {
                return false;
            }
            if (answer.headers.get("Row-Kept") === "no") {
                unsent.delete(row); // somebody else changed it: its own answer tells
                htmx.trigger(row, "change");
                return false;
            }
            unsent.delete(row);
        }
        return true;
    }

    document.addEventListener("submit", async (event) => {
        const form = event.target;
        if (!form.closest("main") || (unsent.size === 0 && underWay.size === 0) || form.dataset.going) {
            return;
        }
        const others = [...unsent, ...underWay].some((row) => row !== form);
        if (!others) {
            return;
        }
        event.preventDefault();
        const button = event.submitter;
        try {
            if (await keepAll(form)) {
                form.dataset.going = "on";
                unsent.clear();
                underWay.clear();
                form.requestSubmit(button);
            }
        } catch (e) {
            say("Not kept: the service cannot be reached. Try again in a moment.");
        }
    });

    document.addEventListener("click", async (event) => {
        const link = event.target.closest?.("a[href]");
        const plain = event.button === 0 && !event.ctrlKey && !event.metaKey && !event.shiftKey;
        if (!link || !plain || event.defaultPrevented || link.target || (unsent.size === 0 && underWay.size === 0)) {
            return;
        }
        event.preventDefault();
        try {
            if (await keepAll(null)) {
                window.location.assign(link.href);
            }
        } catch (e) {
            say("Not kept: the service cannot be reached. Try again in a moment.");
        }
    });

    window.addEventListener("pagehide", () => {
        for (const row of unsent) {
            send(row);
        }
    });

    // A row of a table is closed in place, once it is kept.
    document.addEventListener("click", async (event) => {
        const button = event.target.closest?.("tr.opened button[value=close]");
        if (!button) {
            return;
        }
        event.preventDefault();
        const opened = button.closest("tr.opened");
        const id = rowOf(button).id;
        try {
            if (await keepAll(null)) {
                underWay.delete(rowOf(button));
                await htmx.ajax("GET", opened.dataset.closed, { target: opened, swap: "outerHTML" });
                document.getElementById(id)?.querySelector("a")?.focus();
            }
        } catch (e) {
            say("Not kept: the service cannot be reached. Try again in a moment.");
        }
    });

    document.addEventListener("htmx:load", (event) => {
        if (event.detail.elt.matches?.("tr.opened")) {
            event.detail.elt.querySelector("input:not([type=hidden]), select")?.focus();
        }
    });

    // Enter goes on to the next field instead of sending the row.
    document.addEventListener("keydown", (event) => {
        const field = event.target;
        if (event.key !== "Enter" || event.isComposing || !field.matches?.(".book-row input, .book-row select")) {
            return;
        }
        event.preventDefault();
        const fields = [...document.querySelectorAll(".book-row input:not([type=hidden]), .book-row select")];
        fields[fields.indexOf(field) + 1]?.focus();
    });

    place();

    // What was opened or added is what is to be typed in; going to a place in the page comes after
    // the load and would take the focus away again.
    window.addEventListener("load", () => {
        const target = window.location.hash && document.getElementById(window.location.hash.slice(1));
        const field = target?.matches?.("input, select") ? target : target?.querySelector?.("input:not([type=hidden]), select");
        window.setTimeout(() => {
            if (document.activeElement === document.body) {
                field?.focus();
            }
        }, 0);
    });
})();
