/*
 * The booking pages keep what is entered on the phone until the service has it: each form becomes
 * an entry with an id and times of the phone, and is sent in order whenever there is a connection.
 * The id makes sending again harmless, so an answer that got lost does no damage.
 */
(function () {
    "use strict";

    const main = document.querySelector("main[data-who]");
    if (!main) {
        return;
    }

    const WHO = main.dataset.who;
    const ENTRIES = "strokewright.kept";
    const SENT = "strokewright.sent";
    const AHEAD = "strokewright.ahead";
    const DONE = "strokewright.done";
    const SEEN = "strokewright.seen";
    const CLOCK = "strokewright.clock";
    const PERSON = "strokewright.person";
    const PAGES = "strokewright-book";
    const LABELS = {
        "/minutes": "Minutes",
        "/forming": "Forming, min",
        "/other": "Other work, min",
        "/setUp": "Set-up, min",
        "/pieces": "Pieces done",
        "/scrapped": "Scrapped",
        "/passes": "Passes",
        "/checks": "Checks",
        "/reason": "Why",
        "/note": "Note",
        "/workedOn": "Day",
        "/day": "Day",
        "/came": "Came",
        "/went": "Left",
        "/breakMinutes": "Break, min",
    };

    // What is kept ----------------------------------------------------------------------------

    function stored(key, otherwise) {
        try {
            return JSON.parse(localStorage.getItem(key)) ?? otherwise;
        } catch (e) {
            return otherwise;
        }
    }

    function store(key, value) {
        localStorage.setItem(key, JSON.stringify(value));
    }

    const entries = () => stored(ENTRIES, []);
    const mine = () => entries().filter((e) => e.who === WHO);

    /** Reads anew before each change: another tab may have sent some. */
    function change(how) {
        store(ENTRIES, how(entries()));
        show();
    }

    function mark(key, changes) {
        change((all) => all.map((e) => (e.key === key ? { ...e, ...changes } : e)));
    }

    function uuid() {
        if (crypto.randomUUID) {
            return crypto.randomUUID();
        }
        const b = crypto.getRandomValues(new Uint8Array(16)); // where the page is not served by https
        b[6] = (b[6] & 0x0f) | 0x40;
        b[8] = (b[8] & 0x3f) | 0x80;
        const hex = [...b].map((x) => x.toString(16).padStart(2, "0")).join("");
        return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
    }

    /** The service's clock, as far as this phone has heard of it. */
    function now() {
        return new Date(Date.now() + stored(AHEAD, 0));
    }

    function learnTime(answer) {
        const ahead = Date.parse(answer.headers.get("Date") ?? "") - Date.now();
        if (Number.isFinite(ahead)) {
            store(AHEAD, Math.abs(ahead) > 60000 ? ahead : 0);
        }
    }

    // A form becomes an entry -----------------------------------------------------------------

    function entryOf(form, button) {
        const fields = {};
        for (const [name, value] of new FormData(form)) {
            if (name !== "_csrf") {
                fields[name] = value;
            }
        }
        if (button?.name) {
            fields[button.name] = button.value;
        }
        const path = new URL(button?.getAttribute("formaction") ?? form.action, location.href).pathname;
        const entry = {
            key: uuid(),
            who: WHO,
            name: main.dataset.name,
            path: path,
            words: form.dataset.words ?? main.dataset.words,
            fields: fields,
            at: now().toISOString(),
        };
        if (form.dataset.keep === "end") {
            return ended(entry, form.dataset.id, path.startsWith("/book/pause/"));
        }
        entry.id = fields.id = uuid();
        if (form.dataset.keep === "presence") {
            fields["/at"] = entry.at;
        }
        entry.kind = fields.do === "start" ? "start" : "enter";
        if (entry.kind === "start") {
            fields["/startedAt"] = entry.at;
        }
        return entry;
    }

    /** A clock whose start is still here is sent as the whole stretch, under the id of its start. */
    function ended(entry, id, pause) {
        entry.id = id;
        entry.kind = pause ? "pause" : "stop";
        entry.fields["/endedAt"] = entry.at;
        const start = mine().find((e) => e.id === id && e.kind === "start");
        if (!start) {
            entry.words = serverClock()?.words ?? entry.words;
            return entry;
        }
        if (pause) {
            entry.fields["/paused"] = "yes";
        }
        return {
            ...entry,
            kind: "stretch",
            path: start.path,
            words: start.words,
            replaces: start.key,
            start: start,
            fields: { ...start.fields, ...entry.fields },
        };
    }

    let submitted = null;

    document.addEventListener("submit", (event) => {
        const form = event.target;
        if (!form.dataset.keep) {
            return;
        }
        let entry;
        try {
            entry = entryOf(form, event.submitter);
            change((all) => all.filter((e) => e.key !== entry.replaces).concat(entry));
        } catch (e) {
            return; // nothing can be kept here: the browser sends the form itself
        }
        event.preventDefault();
        form.querySelectorAll("[aria-invalid]").forEach((f) => clearFault(f));
        submitted = { key: entry.key, form: form };
        typing = false;
        send();
    });

    /** What is typed while an entry is on its way is not wiped out by its answer. */
    let typing = false;
    document.addEventListener("input", () => (typing = true));

    // Sending ---------------------------------------------------------------------------------

    let sending = false;
    let trouble = null;
    let again = 0;

    async function send() {
        if (sending || !mine().some((e) => !e.fault)) {
            show();
            return;
        }
        sending = true;
        clearTimeout(again);
        show();
        let then = null;
        let any = false;
        for (let entry = next(); entry; entry = next()) {
            const answer = await sendOne(entry);
            if (answer === "stop") {
                break;
            }
            any = true;
            if (answer.then && submitted?.key === entry.key) {
                then = answer.then;
            }
        }
        sending = false;
        if (then && !typing) {
            location.assign(then);
            return;
        }
        if (mine().some((e) => !e.fault)) {
            again = setTimeout(send, 30000);
        } else if (any && trouble === null && !submitted && !typing) {
            location.reload(); // what was kept is there now
            return;
        }
        show();
    }

    const next = () => mine().find((e) => !e.fault);

    /** The page before was left while its last entry was on its way: this one was made before it. */
    function lacksWhatWasSent() {
        const done = stored(DONE, 0);
        return done >= Number(main.dataset.now) && sessionStorage.getItem(SEEN) !== String(done);
    }

    async function post(entry) {
        const patience = new AbortController();
        const late = setTimeout(() => patience.abort(), 20000);
        try {
            return await fetch(entry.path, {
                method: "POST",
                body: new URLSearchParams(entry.fields),
                headers: {
                    "X-Kept-For": WHO,
                    "X-XSRF-TOKEN": window.strokewright.csrf(),
                    "HX-Request": "true",
                    Accept: "application/json",
                },
                signal: patience.signal,
            });
        } finally {
            clearTimeout(late);
        }
    }

    async function sendOne(entry) {
        let answer;
        try {
            answer = await post(entry);
            if (answer.status === 403) {
                await fetch("/sign-in"); // brings a token that is valid now
                answer = await post(entry);
            }
        } catch (e) {
            trouble = "No connection.";
            return "stop";
        }
        learnTime(answer);
        trouble = null;
        if (answer.ok) {
            const said = await answer.json().catch(() => ({}));
            store(SENT, now().toISOString());
            store(DONE, said.at ?? 0);
            learnClock(entry, Date.parse(answer.headers.get("Date") ?? ""));
            change((all) => all.filter((e) => e.key !== entry.key));
            return { then: said.then ?? "/book" };
        }
        if (answer.status === 401) {
            trouble = "You are signed out: sign in again, and they are sent.";
            askToSignIn();
            return "stop";
        }
        if (answer.status === 412) {
            trouble = "Somebody else is signed in: they wait until " + main.dataset.name + " signs in again.";
            return "stop";
        }
        if (answer.status >= 500 || answer.status === 429) {
            trouble = "The service cannot take them just now.";
            return "stop";
        }
        refused(entry, await answer.json().catch(() => ({})));
        return {};
    }

    function learnClock(entry, known) {
        if (entry.kind === "start") {
            store(CLOCK, { who: WHO, known: known, id: entry.id, path: entry.path, words: entry.words, since: entry.at });
        } else if (entry.kind !== "enter" && serverClock().id === entry.id) {
            store(CLOCK, { who: WHO, known: known, id: null });
        }
    }

    function askToSignIn() {
        const dialog = document.getElementById("sign-in-again");
        if (dialog && !dialog.open) {
            dialog.showModal();
        }
    }

    // Refusals --------------------------------------------------------------------------------

    /** Where the form is still there it is marked there, else the entry waits to be mended. */
    function refused(entry, problem) {
        const faults = problem.errors ?? [];
        const form = submitted?.key === entry.key ? submitted.form : null;
        const at = (fault) => form?.querySelector('[name="' + CSS.escape(fault.pointer) + '"]:not([type="hidden"])');
        if (form && faults.length > 0 && faults.every(at)) {
            // a clock that could not be stopped goes on
            change((all) => all.filter((e) => e.key !== entry.key).concat(entry.start ?? []));
            faults.forEach((fault) => showFault(at(fault), fault.message));
            form.closest("details")?.setAttribute("open", "");
            at(faults[0]).focus();
            return;
        }
        const said = faults.map((f) => (LABELS[f.pointer] ?? "It") + " " + f.message).join("; ");
        mark(entry.key, {
            fault: said || problem.detail || problem.title || "The service does not take it.",
            pointers: faults.map((f) => f.pointer),
        });
        document.getElementById("kept").scrollIntoView({ block: "start" });
    }

    function showFault(field, message) {
        field.setAttribute("aria-invalid", "true");
        const place = document.getElementById(field.id + "-fault");
        if (place) {
            place.textContent = message;
        }
    }

    function clearFault(field) {
        field.removeAttribute("aria-invalid");
        const place = document.getElementById(field.id + "-fault");
        if (place) {
            place.textContent = "";
        }
    }

    // What is shown ---------------------------------------------------------------------------

    function element(name, text, className) {
        const made = document.createElement(name);
        if (text) {
            made.textContent = text;
        }
        if (className) {
            made.className = className;
        }
        return made;
    }

    function clockTime(iso) {
        const at = new Date(iso);
        const zone = { timeZone: main.dataset.zone };
        const time = at.toLocaleTimeString("en-GB", { ...zone, hour: "2-digit", minute: "2-digit" });
        const day = (d) => d.toLocaleDateString("sv-SE", zone); // writes 2026-03-31
        return day(at) === day(now()) ? time : day(at) + " " + time;
    }

    function wordsOf(entry) {
        const f = entry.fields;
        const counted = ["/minutes", "/forming", "/other", "/setUp", "/pieces", "/scrapped", "/passes", "/checks"]
            .filter((p) => f[p])
            .map((p) => LABELS[p].replace(", min", "") + " " + f[p]);
        const what = {
            start: "Start",
            stop: "Stop",
            pause: "Pause",
            stretch: f["/startedAt"] ? "from " + clockTime(f["/startedAt"]) + (f["/paused"] ? ", paused" : "") : "Stretch",
            enter: { came: "Came", left: "Left" }[f.do] ?? "Entry",
        }[entry.kind];
        return [clockTime(entry.at) + " " + what, entry.words, ...counted].join(", ");
    }

    let opened = null;

    function show() {
        const place = document.getElementById("kept");
        const all = entries();
        const own = all.filter((e) => e.who === WHO);
        const waiting = own.filter((e) => !e.fault);
        const quietly = sending && submitted && own.length === 1 && !own[0].fault && trouble === null;
        place.hidden = all.length === 0 || (quietly && all.length === 1);
        place.classList.toggle("bad", own.some((e) => e.fault));
        const sent = stored(SENT, null);
        const state = [
            own.length === 0 ? "Nothing of yours" : own.length === 1 ? "1 entry" : own.length + " entries",
            sent ? ", last sent " + clockTime(sent) : "",
            ". ",
            trouble ? trouble + " " : "",
            waiting.length === 0 ? "" : sending ? "Being sent …" : "Sent as soon as the service can be reached.",
        ].join("");
        const stateAt = document.getElementById("kept-state");
        if (stateAt.textContent !== state) {
            stateAt.textContent = state;
        }
        document.getElementById("kept-send").hidden = waiting.length === 0 || sending;
        if (!opened || !own.some((e) => e.key === opened)) {
            opened = null;
            const list = document.getElementById("kept-list");
            list.replaceChildren(...own.map(shown), ...others(all));
        }
        showClock();
    }

    function shown(entry) {
        const item = element("li");
        item.append(element("span", wordsOf(entry)));
        if (entry.fault) {
            item.classList.add("refused");
            item.append(element("span", entry.fault, "fault"));
            const bar = element("div", "", "bar");
            const mend = element("button", "Mend");
            mend.type = "button";
            mend.addEventListener("click", () => mending(entry, item));
            const drop = element("button", "Throw away");
            drop.type = "button";
            drop.addEventListener("click", () => change((all) => all.filter((e) => e.key !== entry.key)));
            for (const button of [mend, drop]) {
                button.append(element("span", " " + wordsOf(entry), "visually-hidden"));
            }
            bar.append(mend, drop);
            item.append(bar);
        }
        return item;
    }

    function others(all) {
        const people = new Map();
        all.filter((e) => e.who !== WHO).forEach((e) => people.set(e.name, (people.get(e.name) ?? 0) + 1));
        return [...people].map(([name, n]) =>
            element("li", "For " + name + ": " + (n === 1 ? "1 entry" : n + " entries") + ", sent when " + name + " signs in here.", "quiet")
        );
    }

    /** Everything that was typed, and everything that was missed. */
    function mending(entry, item) {
        opened = entry.key;
        const names = Object.keys(LABELS).filter((p) => entry.fields[p] || entry.pointers?.includes(p));
        const form = element("form", "", "fields");
        for (const name of names) {
            const field = element("div", "", "field");
            const label = element("label", LABELS[name]);
            const input = element("input");
            input.id = label.htmlFor = "mend" + name.replace(/\//g, "-");
            input.name = name;
            input.type = name === "/workedOn" || name === "/day" ? "date" : "text";
            input.value = entry.fields[name] ?? "";
            field.append(label, input);
            form.append(field);
        }
        const bar = element("div", "", "bar field wide");
        const button = element("button", "Send again", "primary");
        bar.append(button);
        form.append(bar);
        form.addEventListener("submit", (event) => {
            event.preventDefault();
            const typed = Object.fromEntries(new FormData(form));
            opened = null;
            typing = false;
            mark(entry.key, { fields: { ...entry.fields, ...typed }, fault: null, pointers: null });
            send();
        });
        item.replaceChildren(element("span", wordsOf(entry)), element("span", entry.fault, "fault"), form);
        (form.querySelector("input") ?? button).focus();
    }

    // The clock -------------------------------------------------------------------------------

    /** As the page says, or as a later page said: one that was kept may be older. */
    function serverClock() {
        const page = {
            who: WHO,
            known: Number(main.dataset.now),
            id: main.dataset.running || null,
            path: main.dataset.runningPath,
            words: main.dataset.runningWords,
            since: main.dataset.runningSince,
        };
        const last = stored(CLOCK, null);
        return last && last.who === WHO && last.known >= page.known ? last : page;
    }

    function clock() {
        const own = mine().filter((e) => !e.fault);
        const server = serverClock();
        const over = own.some((e) => e.id === server.id && e.kind !== "start");
        const start = own.filter((e) => e.kind === "start").pop();
        if (start) {
            return { id: start.id, path: start.path, words: start.words, since: start.at };
        }
        return server.id && !over ? server : null;
    }

    function showClock() {
        const runs = clock();
        const page = main.dataset.here;
        const here = runs && (runs.path === page || page === "/book");
        const place = document.getElementById("clock");
        if (place) {
            place.hidden = !here;
        }
        const elsewhere = document.getElementById("elsewhere");
        if (elsewhere) {
            elsewhere.hidden = !runs || here;
        }
        const begin = document.getElementById("begin");
        if (begin) {
            begin.hidden = Boolean(begin.dataset.hide === "here" ? here : runs);
        }
        document.querySelectorAll(".left-off").forEach((left) => (left.hidden = Boolean(runs && page !== "/book")));
        if (!runs) {
            return;
        }
        text("clock-since", clockTime(runs.since));
        text("elsewhere-since", clockTime(runs.since));
        for (const id of ["clock-link", "elsewhere-link"]) {
            text(id, runs.words);
            document.getElementById(id)?.setAttribute("href", runs.path);
        }
        document.getElementById("clock-stop")?.setAttribute("href", runs.path);
        place?.querySelectorAll("form").forEach((form) => {
            form.dataset.id = runs.id;
            form.setAttribute("action", form.getAttribute("action").replace(/[^/]+$/, runs.id));
            form.querySelectorAll("[formaction]").forEach((b) =>
                b.setAttribute("formaction", b.getAttribute("formaction").replace(/[^/]+$/, runs.id))
            );
        });
    }

    function text(id, words) {
        const at = document.getElementById(id);
        if (at) {
            at.textContent = words;
        }
    }

    // Pages without a connection --------------------------------------------------------------

    /** Then the worker has kept this page. It may take charge of it later, which keeps nothing. */
    const cameByWorker = Boolean(navigator.serviceWorker?.controller);

    async function keepPages() {
        if (!("serviceWorker" in navigator) || !("caches" in window)) {
            return;
        }
        await navigator.serviceWorker.register("/book-worker.js", { scope: "/book" });
        const pages = await caches.open(PAGES);
        const files = [...document.querySelectorAll("link[rel=stylesheet], link[rel=icon], script[src]")];
        await keepAll(pages, files.map((f) => new URL(f.href ?? f.src).pathname));
        if (!cameByWorker && location.search === "") {
            await keepAll(pages, [location.pathname]);
        }
        if (main.dataset.here === "/book" && Date.now() - Number(stored(PERSON, {}).looked ?? 0) > 1800000) {
            const links = [...main.querySelectorAll('a[href^="/book/"]')].map((a) => a.getAttribute("href"));
            await keepAll(pages, [...new Set(links)].filter((l) => !l.startsWith("/book/correct")).slice(0, 40));
            store(PERSON, { who: WHO, looked: Date.now() }); // not before: the page may be left meanwhile
        }
    }

    async function keepAll(pages, paths) {
        for (const path of paths) {
            const isFile = !path.startsWith("/book/") && path !== "/book";
            if (isFile && (await pages.match(path))) {
                continue;
            }
            const answer = await fetch(path);
            if (answer.ok && !answer.redirected) {
                await pages.put(path, answer);
            }
        }
    }

    /** Pages of whoever was here before are nobody else's business. */
    async function changePerson() {
        const before = stored(PERSON, {}).who;
        if (before && before !== WHO && "caches" in window) {
            await caches.delete(PAGES);
        }
        if (before !== WHO) {
            store(PERSON, { who: WHO });
        }
        const page = serverClock();
        store(CLOCK, page);
    }

    document.getElementById("kept-send").addEventListener("click", send);
    document.addEventListener("signed-in-again", send);
    window.addEventListener("online", send);
    window.addEventListener("storage", show);
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && send());
    show();
    if (navigator.onLine && lacksWhatWasSent()) {
        sessionStorage.setItem(SEEN, String(stored(DONE, 0))); // once, whatever the clocks say
        location.reload();
        return;
    }
    changePerson()
        .then(keepPages)
        .catch(() => {}); // without a connection there is nothing new to keep
    send();
})();
