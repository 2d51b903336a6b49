/* Typing readings: Enter goes on, a new row comes when it is needed, a block from a spreadsheet can be pasted. */
(function () {
    "use strict";

    const MOST_ROWS = 100;

    // the page swaps its main element, this script with it: its listeners stay
    if (document.documentElement.dataset.testStrips) {
        return;
    }
    document.documentElement.dataset.testStrips = "on";

    function rows(table) {
        return [...table.querySelectorAll("tr.reading")];
    }

    function cells(row) {
        return [...row.querySelectorAll("input")];
    }

    function addRow(table) {
        const all = rows(table);
        const last = all[all.length - 1];
        if (all.length >= MOST_ROWS) {
            return last;
        }
        const row = last.cloneNode(true);
        const count = all.length + 1;
        row.querySelector("td").textContent = String(count);
        cells(row).forEach((cell) => {
            cell.value = "";
            cell.name = cell.name.replace(/\/readings\/\d+\//, "/readings/" + all.length + "/");
            cell.id = "f" + cell.name.replaceAll("/", "-");
            cell.setAttribute("aria-label", cell.getAttribute("aria-label").replace(/\d+/, String(count)));
            ["aria-invalid", "aria-describedby", "autofocus"].forEach((name) => cell.removeAttribute(name));
        });
        table.tBodies[0].append(row);
        return row;
    }

    /** The row below; a new one below the last. */
    function below(table, row) {
        const all = rows(table);
        return all[all.indexOf(row) + 1] || addRow(table);
    }

    document.addEventListener("keydown", (event) => {
        const cell = event.target;
        if (event.key !== "Enter" || event.ctrlKey || event.isComposing || !cell.matches("form#strips input")) {
            return;
        }
        event.preventDefault();
        const row = cell.closest("tr.reading");
        if (row) {
            const mine = cells(row);
            const next = mine[mine.indexOf(cell) + 1] || cells(below(row.closest("table"), row))[0];
            next.focus();
            next.select();
            return;
        }
        const fields = [...cell.form.querySelectorAll("input:not([type=hidden]), select")];
        fields[fields.indexOf(cell) + 1]?.focus();
    });

    document.addEventListener("paste", (event) => {
        const row = event.target.closest?.("form#strips tr.reading");
        const text = event.clipboardData?.getData("text/plain").replace(/\r?\n$/, "");
        if (!row || !text || !/[\t\n]/.test(text)) {
            return;
        }
        event.preventDefault();
        const table = row.closest("table");
        const from = cells(row).indexOf(event.target);
        let at = row;
        text.split(/\r?\n/).slice(0, MOST_ROWS).forEach((line, i) => {
            at = i === 0 ? row : below(table, at);
            line.split("\t").forEach((value, j) => {
                const cell = cells(at)[from + j];
                if (cell) {
                    cell.value = value.trim();
                }
            });
        });
        cells(below(table, at))[0].focus();
    });

    document.addEventListener("click", (event) => {
        const button = event.target.closest("[data-more-rows]");
        if (!button) {
            return;
        }
        event.preventDefault();
        const table = button.closest("fieldset").querySelector("table.readings");
        const first = addRow(table);
        for (let i = 0; i < 3; i++) {
            addRow(table);
        }
        cells(first)[0].focus();
    });
})();
