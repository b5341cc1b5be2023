// Keeps open pages true: shows them anew when the shop changes, says when what is shown is old, and never loses an entry to a dropped connection.
"use strict";
(() => {
    const stale = document.getElementById("stale");
    const live = () => document.querySelector("[data-live]");
    let shown = new Date();
    let number = stale?.dataset.number;     // of the last change that the page has seen
    let heard = Date.now();
    let held = false;
    const silence = 25000;          // two signs of life missed
    const again = 5000;

    const clock = at => at.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hour12: false });

    function lost() {
        if (!stale || !live())
            return;
        stale.textContent = stale.dataset.lost.replace("{time}", clock(shown));
        stale.hidden = false;
    }

    function found() {
        heard = Date.now();
        if (stale && !stale.dataset.kept && !held)
            stale.hidden = true;
    }

    // What does the same thing as an item: whoever stands on it with the keyboard stands there still when the page was renewed.
    function likes(part, item) {
        const same = other => item.id ? other.id === item.id : other.getAttribute("href") === item.getAttribute("href") && other.textContent === item.textContent;
        return [...part.querySelectorAll(item.localName)].filter(same);
    }

    // Somebody fills in a form there: an entry differs from what the page came with, a file is chosen, or the keyboard stands in one.
    function filling(part) {
        const entered = field => field.type === "file" ? field.files.length > 0
            : field.matches("select") ? field.selectedIndex !== Math.max(0, [...field.options].findIndex(option => option.defaultSelected))
            : field.type === "checkbox" || field.type === "radio" ? field.checked !== field.defaultChecked
            : field.value !== field.defaultValue;
        return [...part.querySelectorAll("input, select, textarea")].some(field => field === document.activeElement || entered(field));
    }

    // Where a form is being filled in, its page is not taken away: it says instead that what it shows is no longer the newest.
    function hold() {
        if (stale.dataset.kept)
            return;
        held = true;
        stale.textContent = stale.dataset.held.replace("{time}", clock(shown));
        stale.hidden = false;
    }

    // Puts in place of the old only what differs, so that photos, open parts and the keyboard's place beside it stay as they are.
    function bring(old, fresh) {
        if (old.isEqualNode(fresh))
            return;
        if (old.localName === undefined || old.localName !== fresh.localName || old.childNodes.length !== fresh.childNodes.length || !fresh.childNodes.length) {
            old.replaceWith(fresh);
            return;
        }
        const opened = name => name === "open" && old.matches("details[id]");
        [...old.attributes].filter(({ name }) => !fresh.hasAttribute(name) && !opened(name)).forEach(({ name }) => old.removeAttribute(name));
        [...fresh.attributes].forEach(({ name, value }) => old.setAttribute(name, value));
        const news = [...fresh.childNodes];
        [...old.childNodes].forEach((child, index) => bring(child, news[index]));
    }

    // What a part says, without what is new on every loading or opened by hand.
    function said(part) {
        const copy = part.cloneNode(true);
        copy.querySelectorAll("input[name=__RequestVerificationToken]").forEach(token => token.remove());
        copy.querySelectorAll("details[open]").forEach(item => item.removeAttribute("open"));
        return copy;
    }

    async function renew() {
        const old = live();
        if (!old)
            return;
        try {
            const answer = await fetch(location.href, { headers: { Accept: "text/html" }, cache: "no-store" });
            if (!answer.ok || answer.redirected)
                return;
            const page = new DOMParser().parseFromString(await answer.text(), "text/html");
            const fresh = page.querySelector("[data-live]");
            if (!fresh)
                return;
            if (filling(old)) {
                if (!said(old).isEqualNode(said(fresh)))
                    hold();
                return;
            }
            held = false;
            const open = [...old.querySelectorAll("details[open][id]")].map(item => item.id);
            const focus = old.contains(document.activeElement) ? likes(old, document.activeElement) : [];
            const which = focus.indexOf(document.activeElement);
            const stood = document.activeElement;
            bring(old, fresh);
            const shownNow = live();
            open.forEach(id => shownNow.querySelector("#" + CSS.escape(id))?.setAttribute("open", ""));
            if (which >= 0 && !stood.isConnected)
                likes(shownNow, stood)[which]?.focus({ preventScroll: true });
            shown = new Date();
            found();
        } catch {
            lost();
        }
    }

    function changed(now) {
        found();
        if (now !== number)
            renew();
        number = now;
    }

    function listen() {
        const events = new EventSource("/live");
        events.onmessage = event => changed(event.data);
        events.onopen = found;
        events.onerror = () => {
            events.close();
            ask();
        };
    }

    // Where events do not get through, the number is asked for.
    async function ask() {
        try {
            const answer = await fetch("/live/number", { cache: "no-store" });
            if (answer.status === 401 || answer.redirected) {
                lost();
                return;
            }
            changed(await answer.text());
            setTimeout(listen, again);
        } catch {
            lost();
            setTimeout(ask, again);
        }
    }

    if (live()) {
        listen();
        setInterval(() => { if (Date.now() - heard > silence) lost(); else if (held) renew(); }, again);
        addEventListener("offline", lost);
        addEventListener("online", () => { renew(); });
    }

    // A form is sent by the page itself: without a connection it stays on screen with every entry, and says so.
    document.addEventListener("submit", async event => {
        const form = event.target;
        if (form.method !== "post" || form.dataset.plain !== undefined)
            return;
        event.preventDefault();
        const button = event.submitter;
        if (form.dataset.busy)
            return;
        form.dataset.busy = "1";
        button?.setAttribute("aria-busy", "true");
        try {
            const body = new FormData(form, button);
            const answer = await fetch(form.action || location.href, { method: "POST", body: form.enctype === "multipart/form-data" ? body : new URLSearchParams(body), headers: { Accept: "text/html" } });
            delete stale.dataset.kept;
            if (answer.redirected && answer.ok) {
                location.assign(answer.url);
                return;
            }
            const page = new DOMParser().parseFromString(await answer.text(), "text/html");
            document.title = page.title;
            document.getElementById("main").replaceWith(page.getElementById("main"));
            (document.querySelector(".wrongs") ?? document.querySelector("h1"))?.focus();
            document.querySelector(".wrongs, h1")?.scrollIntoView();
            touched = !answer.ok;
        } catch {
            touched = true;
            stale.textContent = stale.dataset.unsent;
            stale.dataset.kept = "1";
            stale.hidden = false;
            stale.scrollIntoView();
        } finally {
            delete form.dataset.busy;
            button?.removeAttribute("aria-busy");
        }
    });

    // Entries that were not sent are worth a question.
    let touched = false;
    document.addEventListener("input", event => { touched = event.target.closest("form[method=post]") !== null; });
    document.addEventListener("submit", () => { touched = false; });
    addEventListener("beforeunload", event => { if (touched) event.preventDefault(); });
})();
