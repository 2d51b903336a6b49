/*
 * Shows booking pages that were opened before when there is no connection. It keeps nothing but
 * them and their style and script, and sends nothing: what was entered is kept by the page.
 */
"use strict";

const PAGES = "strokewright-book";
const PATIENCE = 6000;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
    const request = event.request;
    const url = new URL(request.url);
    if (request.method !== "GET" || url.origin !== self.location.origin) {
        return;
    }
    if (request.mode === "navigate" && /^\/book(\/|$)/.test(url.pathname)) {
        event.respondWith(page(request, url));
    } else if (/\.(css|js|svg)$/.test(url.pathname)) {
        event.respondWith(file(request, url));
    }
});

/** From the service where it can be reached, else as it was. */
async function page(request, url) {
    const pages = await caches.open(PAGES);
    const before = await pages.match(url.pathname);
    try {
        const answer = await soon(fetch(request), before);
        if (answer.ok && !answer.redirected && url.search === "") {
            await pages.put(url.pathname, answer.clone());
        }
        return answer;
    } catch (e) {
        return before ?? notHere(pages);
    }
}

/** Waits for long only where there is nothing else to show. */
function soon(answer, before) {
    return before
        ? Promise.race([answer, new Promise((_, no) => setTimeout(() => no(new Error("late")), PATIENCE))])
        : answer;
}

/** Their addresses name their content. */
async function file(request, url) {
    const kept = await (await caches.open(PAGES)).match(url.pathname);
    return kept ?? fetch(request);
}

async function notHere(pages) {
    const style = (await pages.keys()).find((k) => k.url.endsWith(".css"));
    return new Response(
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>No connection · Strokewright</title>' +
            '<meta name="viewport" content="width=device-width, initial-scale=1">' +
            (style ? '<link rel="stylesheet" href="' + new URL(style.url).pathname + '">' : "") +
            '</head><body><main class="sheet book"><h1>No connection</h1>' +
            "<p>This page was not opened on this phone before, so it cannot be shown now. What you booked is kept.</p>" +
            '<p><a class="button primary" href="/book">Book time</a></p></main></body></html>',
        { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } }
    );
}
