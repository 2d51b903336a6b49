/*
 * The take-off page: rows come, go and move without a reload; faults stand beside their fields.
 * Without this file every button still works, by a reload. Nothing here computes a figure.
 */
(function () {
    "use strict";

    const form = document.getElementById("take-off");
    if (!form) {
        return;
    }
    const said = document.getElementById("said");
    const turn = form.elements.namedItem("turn");
    const otherKinds = new WeakMap(); // row → Map of kind → fields, so that a change of mind loses nothing
    let removed = null;

    function say(text, undo) {
        said.textContent = text;
        if (undo) {
            const button = document.createElement("button");
            button.type = "button";
            button.className = "plain";
            button.textContent = "Undo";
            button.addEventListener("click", undo);
            said.append(" ", button);
        }
    }

    /** An answer under way speaks of rows that may be gone. */
    function changed() {
        htmx.trigger(form, "htmx:abort");
        form.dispatchEvent(new CustomEvent("rows-changed", { bubbles: true }));
    }

    // Rows ------------------------------------------------------------------------------------

    let highestKey = 0; // never given twice: a removed row may still come back with its own

    function noteKeys() {
        for (const row of document.querySelectorAll("[data-row]")) {
            for (const step of row.dataset.row.split("/")) {
                const found = step.match(/^[a-z](\d+)$/);
                if (found) {
                    highestKey = Math.max(highestKey, Number(found[1]));
                }
            }
        }
    }

    function freeKey(letter) {
        noteKeys();
        highestKey += 1;
        return letter + highestKey;
    }

    /** What a template holds, with real keys in it. */
    function fresh(template, part, line, segment) {
        const copy = document.createElement("template");
        copy.innerHTML = template.innerHTML
            .replaceAll("PKEY", part)
            .replaceAll("LKEY", line)
            .replaceAll("SKEY", segment || "");
        return copy.content.firstElementChild;
    }

    function templateOf(list, kind) {
        const what = list.dataset.new;
        return what === "line"
            ? document.querySelector('template.new-line[data-kind="' + kind + '"]')
            : document.getElementById("new-" + what);
    }

    function partKey(list) {
        const found = list.dataset.list.match(/^\/parts\/([^/]+)/);
        return found ? found[1] : "";
    }

    /** Of the line that a list of segments belongs to. */
    function lineKey(list) {
        const found = list.dataset.list.match(/^\/parts\/[^/]+\/operations\/([^/]+)\/segments$/);
        return found ? found[1] : "";
    }

    function add(list, after) {
        const isPart = list.dataset.new === "part";
        const before = after && after.querySelector("[data-kind]");
        const kind = before ? before.value : "curve-edge";
        const key = freeKey({ part: "p", extra: "e", segment: "s", bend: "b" }[list.dataset.new] || "o");
        const row = fresh(templateOf(list, kind), isPart ? key : partKey(list), lineKey(list) || key, key);
        if (after) {
            after.after(row);
        } else {
            list.append(row);
        }
        if (isPart) {
            copyMetal(row);
            add(row.querySelector('[data-new="line"]'), null);
        }
        ready(row);
        firstField(row).focus();
        changed();
        return row;
    }

    /** A further part is mostly of the same sheet as the one before. */
    function copyMetal(part) {
        const before = part.previousElementSibling;
        if (!before) {
            return;
        }
        for (const name of ["grade", "thicknessMm", "surface", "edge"]) {
            const from = before.querySelector('[name="' + before.dataset.row + "/" + name + '"]');
            const to = part.querySelector('[name="' + part.dataset.row + "/" + name + '"]');
            if (from && to) {
                to.value = from.value;
            }
        }
    }

    function firstField(row) {
        return row.querySelector("select, input:not([type=hidden])");
    }

    function remove(row) {
        noteKeys();
        const next = row.nextElementSibling || row.previousElementSibling;
        const list = row.parentElement;
        const mark = document.createComment("");
        row.replaceWith(mark);
        removed = { row, mark };
        const focus = next ? firstField(next) : document.querySelector('[data-add="' + list.dataset.list + '"]');
        focus.focus();
        say("Removed.", () => {
            if (removed) {
                removed.mark.replaceWith(removed.row);
                firstField(removed.row).focus();
                removed = null;
                say("It is back.");
                changed();
            }
        });
        changed();
    }

    function move(row, places, focused) {
        const other = places < 0 ? row.previousElementSibling : row.nextElementSibling;
        if (!other) {
            return;
        }
        if (places < 0) {
            other.before(row);
        } else {
            other.after(row);
        }
        focused.focus();
        changed();
    }

    /** Another kind asks other fields; those of the same name keep what was typed. */
    function askOther(within, before, now, make) {
        const kinds = otherKinds.get(within) || new Map();
        otherKinds.set(within, kinds);
        const ask = within.querySelector(".ask");
        kinds.set(before, ask);
        const next = kinds.get(now) || make();
        for (const field of next.querySelectorAll("[name]")) {
            const same = Array.from(ask.querySelectorAll("[name]")).find((f) => f.name === field.name);
            const offered = !field.options || Array.from(field.options).some((o) => o.value === same?.value);
            if (same && same.value && offered && (!field.value || field.options)) {
                field.value = same.value;
            }
        }
        ask.replaceWith(next);
    }

    function changeKind(select) {
        const row = select.closest("[data-row]");
        const parts = row.dataset.row.split("/");
        askOther(row, row.dataset.work, select.value, () =>
            fresh(document.querySelector('template.new-line[data-kind="' + select.value + '"]'), parts[2], parts[4])
                .querySelector(".ask"));
        row.dataset.work = select.value;
        ready(row);
    }

    /** Another quantity that the quote is decided on: as if typed into its field. */
    function chooseMain(quantity) {
        const field = form.elements.namedItem("/mainQuantity");
        field.value = quantity;
        field.dispatchEvent(new Event("input", { bubbles: true }));
    }

    // Start from a shape ----------------------------------------------------------------------

    function changeShape(select) {
        const panel = document.getElementById("shape");
        askOther(panel, panel.dataset.shape, select.value, () =>
            fresh(document.querySelector('template.new-shape[data-shape="' + select.value + '"]'), "", ""));
        panel.dataset.shape = select.value;
        showSketch();
    }

    /** The one that belongs to what is chosen: flange inside or outside, rim flat or turned. */
    function showSketch() {
        const chosen = Array.from(document.querySelectorAll("#shape .ask select"), (s) => s.value);
        for (const sketch of document.querySelectorAll("#shape [data-when]")) {
            sketch.hidden = sketch.dataset.when !== "" && !chosen.includes(sketch.dataset.when);
        }
    }

    /** After the answer: on to the new part, or to the first field that is wrong. */
    function shapeAnswered(added) {
        const panel = document.getElementById("shape");
        if (added) {
            ready(form);
            firstField(document.getElementById("parts").lastElementChild).focus();
            changed();
        } else {
            panel.querySelector("[aria-invalid]")?.focus();
        }
    }

    // Instead ---------------------------------------------------------------------------------

    const insteadField = document.getElementById("f-instead");

    const insteadPanel = document.getElementById("instead-panel");
    let insteadTurn = Promise.resolve(); // one after the other: each answer has the rows of the one before
    let insteadWaits = false;

    function askInstead(action) {
        insteadTurn = insteadTurn.then(async () => {
            insteadWaits = false;
            const panel = document.getElementById("instead");
            let answered = false;
            panel.addEventListener("htmx:beforeSwap", (event) => { answered = event.detail.xhr.status === 200; });
            await htmx.ajax("POST", panel.dataset.path, {
                source: panel, target: panel, swap: "outerHTML settle:0ms", values: { do: action } })
                .catch(() => {}); // told already, as for any other request
            if (action !== "") {
                changed(); // a key that overtook the answer was kept without its rows
            }
            return answered;
        });
        return insteadTurn;
    }

    /** On a request of its own, so that nobody waits for it while typing. */
    function insteadAnew() {
        if (insteadPanel?.open && !insteadWaits) {
            insteadWaits = true;
            askInstead("");
        }
    }

    /** The field is free for the next at once; what is not understood comes back into it. */
    async function putBeside(said) {
        const field = said === null;
        const text = field ? insteadField.value.trim() : said;
        if (field) {
            insteadField.value = "";
        }
        insteadField.focus();
        const answered = await askInstead("instead add " + text);
        const fault = !answered || document.getElementById("f-instead-fault").textContent !== "";
        insteadField.toggleAttribute("aria-invalid", false);
        if (fault) {
            insteadField.setAttribute("aria-invalid", "true");
            if (field && insteadField.value === "") {
                insteadField.value = text;
            }
        }
    }

    async function removeInstead(action) {
        await askInstead(action);
        (document.querySelector("[data-instead] button") || insteadField).focus();
    }

    insteadPanel?.addEventListener("toggle", insteadAnew);
    insteadPanel?.addEventListener("click", (event) => {
        const action = event.target.closest("button")?.value || "";
        if (action.startsWith("instead add")) {
            event.preventDefault();
            putBeside(action === "instead add" ? null : action.slice("instead add ".length));
        } else if (action.startsWith("instead remove")) {
            event.preventDefault();
            removeInstead(action);
        }
    });

    /** Within a variant: up and down to the others, Delete takes it out; Enter is the button's own. */
    function insteadKey(event, variant) {
        const next = { ArrowDown: variant.nextElementSibling, ArrowUp: variant.previousElementSibling }[event.key];
        if (event.key === "ArrowDown" || event.key === "ArrowUp") {
            event.preventDefault();
            (next?.querySelector("button") || insteadField).focus();
        } else if (event.key === "Delete") {
            event.preventDefault();
            variant.querySelector("[data-instead-remove]").click();
        }
    }

    document.addEventListener("keydown", (event) => {
        if (insteadField && event.altKey && event.code === "KeyI") {
            event.preventDefault();
            insteadField.closest("details").open = true;
            insteadField.focus();
        }
    });

    // Outlines --------------------------------------------------------------------------------

    const MOST_OF_A_FILE = 1 << 20;

    /** Of a file, not of what stands in the field: it stays until another one is read. */
    function tell(field, text, refused) {
        const told = field.closest(".field").querySelector("[data-outline-told]");
        told.textContent = text;
        told.classList.toggle("refused", refused);
    }

    /** Markup becomes path data; text that cannot be read comes into the field to be mended there. */
    async function readOutline(field, text, name) {
        tell(field, "", false);
        let answer;
        try {
            answer = await fetch(form.dataset.outlines, {
                method: "POST",
                body: text,
                headers: { "Content-Type": "text/plain;charset=UTF-8", "X-XSRF-TOKEN": strokewright.csrf() },
            });
        } catch (e) {
            say("Not read: the service cannot be reached. Try again in a moment.");
            return;
        }
        if (!answer.ok) {
            say("Not read: the service answered " + answer.status + ".");
            return;
        }
        const read = await answer.json();
        if (read.fault) {
            tell(field, (name || "What was pasted") + " " + read.fault + ".", true);
            if (!name) {
                put(field, text);
            }
        } else {
            put(field, read.path);
            tell(field, read.told, false);
        }
    }

    /** As if typed, so that the browser's own undo brings back what was there. */
    function put(field, text) {
        field.focus();
        field.select();
        if (!document.execCommand("insertText", false, text)) {
            field.value = text;
            field.dispatchEvent(new Event("input", { bubbles: true }));
        }
    }

    async function takeFile(field, file) {
        if (file.size > MOST_OF_A_FILE) {
            tell(field, file.name + " is larger than 1 MiB: take the outline alone.", true);
            return;
        }
        await readOutline(field, await file.text(), file.name);
    }

    function outlineAt(element) {
        return element.closest?.(".field.lines")?.querySelector("[data-outline]");
    }

    form.addEventListener("paste", (event) => {
        const text = event.clipboardData?.getData("text/plain") || "";
        const file = event.clipboardData?.files[0];
        if (!("outline" in event.target.dataset)) {
            return;
        }
        if (file) {
            event.preventDefault();
            takeFile(event.target, file);
        } else if (text.replace("\uFEFF", "").trimStart().startsWith("<")) {
            event.preventDefault();
            readOutline(event.target, text, "");
        }
    });

    form.addEventListener("dragover", (event) => {
        if (outlineAt(event.target) && event.dataTransfer.types.includes("Files")) {
            event.preventDefault();
            event.dataTransfer.dropEffect = "copy";
        }
    });

    form.addEventListener("drop", (event) => {
        const field = outlineAt(event.target);
        if (field && event.dataTransfer.files.length > 0) {
            event.preventDefault();
            takeFile(field, event.dataTransfer.files[0]);
        }
    });

    form.addEventListener("change", (event) => {
        if ("outlineFile" in event.target.dataset && event.target.files.length > 0) {
            takeFile(outlineAt(event.target), event.target.files[0]);
            event.target.value = ""; // the same file can be taken again
        }
    });

    function ready(row) {
        for (const choice of row.querySelectorAll(".from-file")) {
            choice.hidden = false;
        }
        for (const select of row.querySelectorAll("[data-kind]")) {
            select.closest("[data-row]").dataset.work = select.value;
        }
        showUnits(row);
    }

    /** The unit of the chosen time standard behind its amount: one cut, two cuts. */
    function showUnits(within) {
        for (const select of within.querySelectorAll('select[name$="/standard"]')) {
            const amount = within.ownerDocument.getElementById(select.id.replace(/standard$/, "amount"));
            const unit = amount && amount.parentElement.querySelector(".unit");
            if (unit) {
                const one = Number((amount.value || amount.placeholder).trim().replace(",", ".")) === 1;
                unit.textContent = select.selectedOptions[0]?.dataset[one ? "unit" : "units"] || "";
            }
        }
    }

    // Proposed lines --------------------------------------------------------------------------

    /** A hidden field takes a line out. The mark is at once, the figures come with the answer. */
    function takeOrPut(line) {
        const region = line.closest(".proposed");
        const field = Array.from(region.querySelectorAll("input[type=hidden]")).find((f) => f.name === line.dataset.field);
        if (field) {
            field.remove();
        } else {
            const added = document.createElement("input");
            added.type = "hidden";
            added.name = line.dataset.field;
            added.value = line.dataset.code;
            region.append(added);
        }
        line.classList.toggle("out", !field);
        say(line.querySelector(".what").textContent + (field ? " counts again." : " is taken out."));
        changed();
    }

    /** Within proposed lines: up and down, Delete takes one out and puts it back. */
    function proposedKey(event, line) {
        const all = Array.from(form.querySelectorAll("[data-proposed] button"));
        const next = all.indexOf(line.querySelector("button")) + { ArrowDown: 1, ArrowUp: -1 }[event.key];
        if (event.key === "ArrowDown" || event.key === "ArrowUp") {
            event.preventDefault();
            all[next]?.focus();
        } else if (event.key === "Delete") {
            event.preventDefault();
            takeOrPut(line);
        }
    }

    document.addEventListener("keydown", (event) => {
        if (event.altKey && event.code === "KeyP") {
            const part = document.activeElement.closest?.(".part") || form;
            const first = part.querySelector("[data-proposed] button") || form.querySelector("[data-proposed] button");
            if (first) {
                event.preventDefault();
                first.focus();
            }
        }
    });

    form.addEventListener("click", (event) => {
        const button = event.target.closest("button");
        if (!button) {
            return;
        }
        const line = button.closest("[data-proposed]");
        if (line) {
            event.preventDefault();
            takeOrPut(line);
            return;
        }
        const row = button.closest("[data-row]");
        if (button.dataset.add) {
            event.preventDefault();
            add(form.querySelector('[data-list="' + button.dataset.add + '"]'), null);
        } else if (button.dataset.move) {
            event.preventDefault();
            move(row, Number(button.dataset.move), button);
        } else if ("remove" in button.dataset) {
            event.preventDefault();
            remove(row);
        } else if ("computed" in button.dataset) {
            event.preventDefault();
            for (const field of button.closest(".own").querySelectorAll("[name^='/']")) {
                field.value = "";
            }
            button.closest(".own").querySelector("input").focus();
            say("The computed minutes count again.");
            changed();
        }
    });

    form.addEventListener("input", (event) => {
        const row = event.target.name?.endsWith("/amount") && event.target.closest("[data-row]");
        if (row) {
            showUnits(row);
        }
    });

    form.addEventListener("change", (event) => {
        if ("main" in event.target.dataset) {
            chooseMain(event.target.value);
        } else if (event.target.name === "/shape/type") {
            changeShape(event.target);
        } else if (event.target.closest("#shape")) {
            showSketch();
        } else if ("kind" in event.target.dataset) {
            changeKind(event.target);
        } else if (event.target.name?.endsWith("/standard")) {
            showUnits(event.target.closest("[data-row]"));
        }
    });

    form.addEventListener("keydown", (event) => {
        const field = event.target;
        const typing = field.matches("input:not([type=file]), select");
        const row = field.closest("[data-row]");
        if (event.key === "Enter" && event.ctrlKey) {
            event.preventDefault();
            document.getElementById("save").click();
        } else if (event.key === "Enter" && event.altKey) {
            event.preventDefault();
            add(document.getElementById("parts"), field.closest(".part"));
        } else if (event.key === "Enter" && field === insteadField) {
            event.preventDefault();
            document.getElementById("add-instead").click();
        } else if (field === insteadField && event.key === "ArrowDown") {
            event.preventDefault();
            document.querySelector("[data-instead] button")?.focus();
        } else if (field.closest("[data-proposed]") && !event.altKey) {
            proposedKey(event, field.closest("[data-proposed]"));
        } else if (field.closest("[data-instead]")) {
            insteadKey(event, field.closest("[data-instead]"));
        } else if (event.key === "Enter" && typing && field.closest("#shape")) {
            event.preventDefault();
            document.getElementById("add-shape").click();
        } else if (event.key === "Enter" && typing) {
            event.preventDefault();
            if (row) {
                const fold = field.closest(".fold");
                const inside = fold && !fold.contains(row)
                    ? fold.querySelector("[data-list]")
                    : row.querySelector(":scope > [data-list]");
                add(inside || row.parentElement, inside ? null : row);
            } else {
                firstField(document.getElementById("parts")).focus();
            }
        } else if (event.altKey && row && (event.key === "ArrowUp" || event.key === "ArrowDown")) {
            event.preventDefault();
            move(row, event.key === "ArrowUp" ? -1 : 1, field);
        } else if (event.altKey && row && event.key === "Delete") {
            event.preventDefault();
            remove(row);
        }
    });

    // Answers ---------------------------------------------------------------------------------

    document.addEventListener("htmx:configRequest", (event) => {
        if (event.detail.elt === form || event.detail.elt.id === "instead") {
            turn.value = String(Date.now());
            event.detail.parameters["turn"] = turn.value;
        } else if (event.detail.elt.id === "add-shape") {
            noteKeys();
            event.detail.parameters["highestKey"] = String(highestKey);
        }
    });

    /** Faults of wrong text beside their fields, and figures that were worked out in the empty ones. */
    function place() {
        for (const fault of form.querySelectorAll("[data-row] .fault, #item .fault")) {
            fault.textContent = "";
        }
        for (const field of form.querySelectorAll("[data-row] [aria-invalid], #item [aria-invalid]")) {
            field.removeAttribute("aria-invalid");
        }
        for (const link of document.querySelectorAll("#faults [data-fault]")) {
            const field = document.getElementById(link.dataset.fault);
            if (field && link.dataset.wanted !== "true") {
                field.setAttribute("aria-invalid", "true");
                document.getElementById(field.id + "-fault").textContent = link.nextElementSibling.textContent;
                field.closest("details")?.setAttribute("open", "");
            }
        }
        for (const field of form.querySelectorAll("[data-worked-out]")) {
            field.placeholder = field.dataset.otherwise;
            delete field.dataset.workedOut;
        }
        for (const item of document.querySelectorAll("#worked-out li")) {
            const field = document.getElementById(item.dataset.field);
            if (field) {
                field.dataset.otherwise ??= field.placeholder === item.textContent ? "" : field.placeholder;
                field.dataset.workedOut = "";
                field.placeholder = item.textContent;
            }
        }
    }

    // What somebody has opened to read stays open when the figures in it change.
    let open = [];
    const shapeTold = new WeakSet(); // an answer settles once for each place that it changes
    document.addEventListener("htmx:beforeSwap", (event) => {
        if (event.detail.requestConfig?.elt.id === "add-shape") {
            htmx.trigger(form, "htmx:abort");
        }
        open = Array.from(form.querySelectorAll("details.why[open]"), (d) => d.id);
    });
    document.addEventListener("htmx:afterSettle", (event) => {
        if (event.detail.requestConfig?.elt.id === "add-shape" && !shapeTold.has(event.detail.xhr)) {
            shapeTold.add(event.detail.xhr);
            shapeAnswered(event.detail.xhr.getResponseHeader("HX-Retarget") === null);
        }
        for (const id of open) {
            document.getElementById(id)?.setAttribute("open", "");
        }
        place();
        if (event.detail.requestConfig?.elt === form && event.detail.target?.id === "result") {
            insteadAnew();
        }
    });

    document.addEventListener("htmx:sendError", () => say("Not kept: the service cannot be reached. It is tried again with the next key."));
    document.addEventListener("htmx:responseError", (event) => {
        if (event.detail.xhr.status !== 401) {
            say("Not kept: the service answered " + event.detail.xhr.status + ". It is tried again with the next key.");
        }
    });
    document.addEventListener("htmx:afterOnLoad", () => {
        if (said.textContent.startsWith("Not kept")) {
            say("");
        }
    });
    document.addEventListener("signed-in-again", changed);

    document.addEventListener("click", (event) => {
        const link = event.target.closest("#faults a");
        const field = link && document.getElementById(link.dataset.fault);
        if (field) {
            event.preventDefault();
            field.closest("details")?.setAttribute("open", "");
            field.focus();
        }
    });

    ready(form);
    place();
})();
