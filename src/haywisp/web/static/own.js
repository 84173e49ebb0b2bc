// Words of one's own: chosen in the transcript (marked, or tapped one after the other), and small offers passed over.
const transcript = document.querySelector(".transcript");
const page = document.querySelector("[data-said]");
const bar = document.querySelector("[data-own-bar]");
const MOST_WORDS = 8;

const link = bar?.querySelector("[data-own-link]");
const pick = bar?.querySelector("[data-own-pick]");
const picked = bar?.querySelector("[data-own-picked]");
const plain = link?.getAttribute("href");

function shown(text) {
  const words = text.replace(/\s+/g, " ").trim().replace(/^[\s.,;:!?…–—"“”()]+|[\s.,;:!?…–—"“”()]+$/gu, "");
  const many = words.split(" ").length > MOST_WORDS;
  bar.classList.toggle("own-ready", Boolean(words) && !many);
  link.href = words && !many ? `${plain}&phrase=${encodeURIComponent(words)}` : plain;
  if (!words) picked.textContent = page.dataset.picking ? "Choose the first word, then the last." : "";
  else picked.textContent = many ? `At most ${MOST_WORDS} words: choose fewer.` : `“${words}”`;
}

function textOf(range) {
  const part = range.cloneContents();
  for (const other of part.querySelectorAll(".said-time, .meant, .again-mark")) other.remove();
  return part.textContent;
}

// A tap on the link takes the marking away before it is followed, so the bar waits a moment.
let waiting = 0;

function onMark() {
  if (page.dataset.picking) return;
  window.clearTimeout(waiting);
  const marked = window.getSelection();
  const inside = marked.rangeCount && transcript.contains(marked.getRangeAt(0).commonAncestorContainer);
  if (inside && !marked.isCollapsed) shown(textOf(marked.getRangeAt(0)));
  else waiting = window.setTimeout(() => shown(""), 600);
}

// Each word by itself, for fingers and keys.
function wordsApart() {
  if (transcript.querySelector("[data-word]")) return;
  for (const piece of transcript.querySelectorAll('.said-line [id^="w-"]')) {
    const parts = piece.textContent.split(/(\s+)/);
    piece.replaceChildren(
      ...parts.map((text) => {
        if (!text.trim()) return document.createTextNode(text);
        const word = document.createElement("span");
        word.dataset.word = "";
        word.textContent = text;
        return word;
      }),
    );
  }
}

let from = null;
let to = null;

function paint() {
  const words = [...transcript.querySelectorAll("[data-word]")];
  const [first, last] = [words.indexOf(from), words.indexOf(to)].sort((a, b) => a - b);
  words.forEach((word, place) => {
    const inside = from && place >= first && place <= last;
    word.classList.toggle("picked", Boolean(inside));
    word.setAttribute("aria-pressed", String(Boolean(inside)));
  });
  shown(from ? words.slice(first, last + 1).map((word) => word.textContent).join(" ") : "");
}

function setPicking(on) {
  wordsApart();
  if (on) page.dataset.picking = "yes";
  else delete page.dataset.picking;
  pick.setAttribute("aria-pressed", String(on));
  pick.textContent = on ? "Stop choosing" : "Choose words to teach";
  from = null;
  to = null;
  for (const word of transcript.querySelectorAll("[data-word]")) {
    if (on) {
      word.setAttribute("role", "button");
      word.tabIndex = 0;
    } else for (const name of ["role", "tabindex", "aria-pressed"]) word.removeAttribute(name);
  }
  // A link around a word would be a second stop for the key Tab.
  for (const heard of transcript.querySelectorAll("a.heard")) heard.tabIndex = on ? -1 : 0;
  paint();
  if (on) (transcript.querySelector(".lit [data-word]") ?? transcript.querySelector("[data-word]"))?.focus();
}

function take(word) {
  // A third choice begins anew.
  if (!from || from !== to) from = word;
  to = word;
  paint();
}

function onKey(event) {
  if (!page.dataset.picking) return;
  const word = event.target.closest?.("[data-word]");
  if (event.key === "Escape") {
    setPicking(false);
    pick.focus();
  } else if (word && (event.key === "Enter" || event.key === " ")) {
    event.preventDefault();
    take(word);
    if (from !== to) link.focus();
  } else if (word && (event.key === "ArrowRight" || event.key === "ArrowLeft")) {
    const words = [...transcript.querySelectorAll("[data-word]")];
    words[words.indexOf(word) + (event.key === "ArrowRight" ? 1 : -1)]?.focus();
    event.preventDefault();
  }
}

if (bar && transcript) {
  document.addEventListener("selectionchange", onMark);
  bar.addEventListener("mousedown", (event) => event.preventDefault());
  pick.addEventListener("click", () => setPicking(!page.dataset.picking));
  transcript.addEventListener("keydown", onKey);
  transcript.addEventListener("click", (event) => {
    const word = event.target.closest("[data-word]");
    if (word && page.dataset.picking) {
      take(word);
      event.preventDefault();
    }
  });
}

document.addEventListener("click", (event) => {
  const offer = event.target.closest("[data-own-leave]")?.closest(".own-offer");
  if (!offer) return;
  const entry = offer.closest("[data-entry]");
  offer.remove();
  entry?.focus();
});
