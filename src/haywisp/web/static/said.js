// What was said: entries light up their words and words their entries; the review by keys alone.
const page = document.querySelector("[data-said]");
const narrow = window.matchMedia("(max-width: 59.99rem)");

const entryOf = (thread) => document.getElementById(`entry-${thread}`);
const all = () => [...page.querySelectorAll("[data-entry]")];
const shown = () => all().filter((entry) => entry.getClientRects().length || page.dataset.show === "words");
const current = () => page.querySelector("[data-entry].current");

function show(which) {
  page.dataset.show = which;
  for (const link of page.querySelectorAll("[data-switch]")) {
    if (link.dataset.switch === which) link.setAttribute("aria-current", "true");
    else link.removeAttribute("aria-current");
  }
}

function light(threads) {
  for (const lit of document.querySelectorAll(".lit")) lit.classList.remove("lit");
  for (const words of document.querySelectorAll("[data-entries]")) {
    const own = words.dataset.entries.split(" ");
    if (threads.some((thread) => own.includes(thread))) words.classList.add("lit");
  }
  for (const thread of threads) entryOf(thread)?.classList.add("lit");
}

// Scrolls the transcript's own box on a wide screen, so that the record stays where it is.
function scrollToWords(thread) {
  const words = page.querySelector(`.transcript [data-entries~="${CSS.escape(thread)}"]`);
  if (!words) return null;
  if (narrow.matches) {
    words.scrollIntoView({ block: "center" });
  } else {
    const box = words.closest(".transcript");
    const where = words.getBoundingClientRect().top - box.getBoundingClientRect().top;
    if (where < 40 || where > box.clientHeight - 80) box.scrollTop += where - box.clientHeight / 3;
  }
  return words;
}

function choose(entry, { focus = true } = {}) {
  if (!entry) return;
  current()?.classList.remove("current");
  entry.classList.add("current");
  light([entry.dataset.entry]);
  scrollToWords(entry.dataset.entry);
  if (!focus) return;
  if (page.dataset.show !== "record") show("record");
  entry.focus({ preventScroll: true });
  const { top, bottom } = entry.getBoundingClientRect();
  if (top < 90 || bottom > window.innerHeight - 20) entry.scrollIntoView({ block: "center" });
}

function toWords(thread) {
  light([thread]);
  if (narrow.matches) show("words");
  scrollToWords(thread)?.focus({ preventScroll: true });
}

function step(by) {
  const list = shown();
  const at = list.indexOf(current());
  choose(list[at < 0 ? (by > 0 ? 0 : list.length - 1) : Math.min(list.length - 1, Math.max(0, at + by))]);
}

function press(key) {
  const entry = current() ?? document.activeElement?.closest("[data-entry]");
  const control = entry?.querySelector(`.entry-actions [data-key="${key}"]`);
  if (!control) return false;
  // Where deciding makes the button go away, the next entry that waits is the place to be.
  page.dataset.onward = key === "a" || key === "r" ? entry.dataset.entry : "";
  control.click();
  return true;
}

function onward(thread) {
  const list = all();
  const at = list.findIndex((entry) => entry.dataset.entry === thread);
  const waiting = list.slice(at + 1).find((entry) => entry.dataset.status === "proposed");
  choose(waiting ?? list[at]);
}

const KEYS = {
  j: () => step(1),
  k: () => step(-1),
  ArrowDown: () => step(1),
  ArrowUp: () => step(-1),
  a: () => press("a"),
  r: () => press("r"),
  c: () => press("c"),
  u: () => press("u"),
  w: () => current() && toWords(current().dataset.entry),
  e: () => {
    const words = document.activeElement?.closest("[data-entries]");
    choose(words ? entryOf(words.dataset.entries.split(" ")[0]) : current() ?? shown()[0]);
  },
  l: () => document.dispatchEvent(new CustomEvent("haywisp:listen")),
  q: () => {
    const asked = [...page.querySelectorAll("[data-question]")];
    const next = asked[(asked.findIndex((one) => one.contains(document.activeElement)) + 1) % asked.length];
    if (next) {
      show("record");
      next.querySelector("button").focus();
    }
  },
  t: () => {
    const offer = current()?.querySelector(".own-offer [name=phrase]");
    if (offer) offer.select();
    else {
      show("words");
      page.querySelector("[data-own-pick]")?.click();
    }
  },
  "?": () => document.getElementById("keys").showModal(),
};

function onKey(event) {
  if (event.ctrlKey || event.metaKey || event.altKey || document.querySelector("dialog[open]")) return;
  const form = event.target.closest(".entry-more");
  if (event.key === "Escape" && form) {
    close(form);
    return;
  }
  if (form || event.target.closest("input:not([type=checkbox]), select, textarea")) return;
  // The arrows scroll the page as always unless an entry has the focus.
  if (event.key.startsWith("Arrow") && !event.target.matches("[data-entry]")) return;
  const act = KEYS[event.key];
  if (act && act() !== false) event.preventDefault();
}

function close(more) {
  const entry = more.closest("[data-entry]");
  more.replaceChildren();
  notice("");
  choose(entry);
}

function onClick(event) {
  const target = event.target;
  const leave = target.closest("[data-close-form]");
  const words = target.closest("[data-entries]");
  const toTheirWords = target.closest("[data-to-words]");
  const toEntry = target.closest("[data-to-entry]");
  const chosen = target.closest("[data-switch]");
  const card = target.closest("[data-entry]");
  if (leave && leave.closest(".entry-more")) close(leave.closest(".entry-more"));
  // Words that were just marked with the mouse, or are being chosen to teach, are for own.js.
  else if (words && (page.dataset.picking || !window.getSelection().isCollapsed)) event.preventDefault();
  else if (words) chooseWords(words);
  else if (toTheirWords) followWords(toTheirWords, card);
  else if (toEntry && entryOf(toEntry.dataset.toEntry)) choose(entryOf(toEntry.dataset.toEntry));
  else if (chosen) show(chosen.dataset.switch);
  else if (target.closest("[data-show-keys]")) return KEYS["?"]();
  else {
    if (card && !target.closest("a, button, input, select, textarea, label, summary")) choose(card);
    return undefined;
  }
  event.preventDefault();
  return undefined;
}

// Words of several entries: each further choice goes on to the next of them.
function chooseWords(words) {
  const threads = words.dataset.entries.split(" ");
  const at = threads.indexOf(current()?.dataset.entry);
  const next = threads[(at + 1) % threads.length];
  choose(entryOf(next));
  light([...threads.filter((thread) => thread !== next), next]);
}

function followWords(link, card) {
  if (card) {
    current()?.classList.remove("current");
    card.classList.add("current");
    toWords(card.dataset.entry);
    return;
  }
  const words = document.getElementById(link.hash.slice(1));
  if (narrow.matches) show("words");
  light([link.closest("[data-entry-of]").dataset.entryOf]);
  words?.scrollIntoView({ block: "center" });
}

function notice(text) {
  const message = document.createElement("p");
  message.className = "message";
  message.textContent = text;
  document.querySelector("#notice").replaceChildren(...(text ? [message] : []));
}

// The opened form that an answer would take the place of, other than by what stands in its own box.
function openedUnder({ elt, target }) {
  const about = elt.closest("[data-question]")?.dataset.entryOf;
  return [...page.querySelectorAll("form[data-open-form]")].find((form) => {
    if (form.closest(".entry-more").contains(elt)) return false;
    return target.contains(form) || form.closest("[data-entry]").dataset.entry === about;
  });
}

function beforeRequest(event) {
  const form = openedUnder(event.detail);
  if (!form) return;
  event.preventDefault();
  page.dataset.onward = "";
  show("record");
  notice("Save or leave the opened form first.");
  form.querySelector("select, input:not([type=hidden]), textarea").focus();
}

// A new drawing stands where the old one was scrolled to.
let drawnFrom = 0;

function beforeSwap() {
  drawnFrom = document.querySelector(".timeline-scroll")?.scrollLeft ?? 0;
}

// After the answer to a question: the question that came next, or the record where that was the last one.
function afterAnswer(old, path) {
  const was = [...old.querySelectorAll("[data-question]")];
  const at = was.findIndex((one) => path.endsWith(`/${one.id.slice("question-".length)}`));
  const left = [...page.querySelectorAll("[data-question]")];
  const next = left[Math.min(Math.max(at, 0), left.length - 1)];
  (next?.querySelector("button") ?? document.getElementById("record-heading")).focus();
}

// After everything was accepted: the end of the review, with the same entries in view.
function afterAccepting(old) {
  const left = page.querySelector("#only-left");
  if (left) left.checked = old.querySelector("#only-left")?.checked ?? false;
  document.getElementById("finish-heading").focus();
}

// htmx tells of each piece that it put in place; one answer of the server counts once.
const settled = new WeakSet();

function onSwap(event) {
  const { target, xhr, pathInfo } = event.detail;
  if (!xhr || settled.has(xhr)) return;
  settled.add(xhr);
  const drawing = document.querySelector(".timeline-scroll");
  if (drawing) drawing.scrollLeft = drawnFrom;
  if (target.id === "questions") {
    afterAnswer(target, pathInfo.requestPath);
    return;
  }
  if (target.id === "review") {
    afterAccepting(target);
    return;
  }
  const more = target.closest?.(".entry-more");
  if (more) {
    choose(more.closest("[data-entry]"), { focus: false });
    more.querySelector("select, input:not([type=hidden]), textarea, button")?.focus();
    return;
  }
  if (target.dataset?.own) {
    page.querySelector(`[data-own="${CSS.escape(target.dataset.own)}"]`)?.focus();
    page.querySelector(`[data-own="${CSS.escape(target.dataset.own)}"] > .message`)?.focus();
    return;
  }
  const thread = target.dataset?.entry;
  if (!thread) return;
  const fresh = entryOf(thread);
  const newer = fresh?.querySelector(".entry > .message");
  if (newer) {
    choose(fresh, { focus: false });
    newer.focus({ preventScroll: true });
    newer.scrollIntoView({ block: "center" });
  } else if (page.dataset.onward === thread) onward(thread);
  else choose(fresh);
  page.dataset.onward = "";
}

if (page) {
  page.classList.add("scripted");
  show("record");
  if (narrow.matches) document.querySelector(".timeline-card")?.removeAttribute("open");
  document.addEventListener("keydown", onKey);
  document.addEventListener("click", onClick);
  document.body.addEventListener("htmx:beforeRequest", beforeRequest);
  document.body.addEventListener("htmx:beforeSwap", beforeSwap);
  document.body.addEventListener("htmx:afterSettle", onSwap);
  page.addEventListener("focusin", (event) => {
    const entry = event.target.closest("[data-entry]");
    if (entry && entry !== current()) choose(entry, { focus: false });
  });
  const asked = window.location.hash.startsWith("#entry-") && document.getElementById(window.location.hash.slice(1));
  if (asked) choose(asked);
}
