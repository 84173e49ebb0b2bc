// Giving a visit its narration: dropping a file anywhere in the box, pasting, the size checked first, and progress.
import { newId } from "./kept.js";
import { Refused, begin, finish, persist, put } from "./sending.js";

const SOUND = /\.(wav|m4a|mp4|mp3|ogg|oga|opus|webm|aac|flac|amr|3gp|caf|aiff?)$/i;
const isSound = (file) => Boolean(file) && (/^(audio|video)\//.test(file.type) || SOUND.test(file.name));
const form = document.querySelector("[data-upload]");

function say(text) {
  const message = document.createElement("p");
  message.className = "message";
  message.textContent = text;
  form.querySelector("#upload-message").replaceChildren(message);
}

function tooBig(file) {
  return file && file.size > Number(form.dataset.limit);
}

const TOO_BIG = (limit) => `That file is larger than ${Math.floor(limit / 1048576)} MB, so it was not sent. `
  + "A transcript of a whole session is far smaller: check that it is the transcript and not the sound recording.";
const NOT_SENT = "The file did not arrive: there may be no connection just now. It is still chosen here; press “Read it” "
  + "again when there is.";

if (form) {
  const drop = form.querySelector("[data-drop]");
  const file = form.querySelector("input[type=file]");
  const pasted = form.querySelector("textarea");
  const sending = form.querySelector("[data-sending]");
  const bar = sending.querySelector("progress");
  const words = sending.querySelector("[data-sending-text]");

  const give = (files) => {
    if (files.length > 1) {
      say("Those were several files. Drop one transcript at a time.");
      return;
    }
    const box = new DataTransfer();
    box.items.add(files[0]);
    file.files = box.files;
    form.requestSubmit();
  };

  for (const kind of ["dragenter", "dragover"]) {
    form.addEventListener(kind, (event) => {
      if (![...event.dataTransfer.types].includes("Files")) return;
      event.preventDefault();
      drop.classList.add("over-it");
    });
  }
  for (const kind of ["dragleave", "drop"]) form.addEventListener(kind, () => drop.classList.remove("over-it"));
  form.addEventListener("drop", (event) => {
    if (!event.dataTransfer.files.length) return;
    event.preventDefault();
    give(event.dataTransfer.files);
  });

  // Text or a file pasted anywhere on the page, outside the fields, goes to the form.
  document.addEventListener("paste", (event) => {
    if (event.target.closest("input, textarea, select")) return;
    const { files } = event.clipboardData;
    const text = event.clipboardData.getData("text/plain");
    if (files.length) {
      give(files);
    } else if (text.trim()) {
      pasted.closest("details").open = true;
      pasted.value = text;
      pasted.focus();
    } else {
      return;
    }
    event.preventDefault();
  });

  // Sound is large, and a signal is weak: it goes piece by piece, and goes on where it was when it is given again.
  const sendSound = async (sound) => {
    const size = Number(form.dataset.piece);
    const known = `haywisp-upload:${form.dataset.visit}:${sound.name}:${sound.size}:${sound.lastModified}`;
    const id = localStorage.getItem(known) ?? newId();
    localStorage.setItem(known, id);
    const onWait = (waits) => { words.textContent = waits ? "No connection just now. It goes on when there is one." : "Sending…"; };
    bar.value = 0;
    onWait(false);
    sending.hidden = false;
    form.querySelector(".send").disabled = true;
    try {
      const { pieces } = await persist(() => begin({ id, visit: form.dataset.visit, name: sound.name }), onWait);
      const there = new Set(pieces);
      const count = Math.ceil(sound.size / size);
      for (let number = 0; number < count; number += 1) {
        const piece = sound.slice(number * size, (number + 1) * size);
        if (!there.has(number)) await persist(() => put(id, number, id, piece), onWait);
        bar.value = (100 * (number + 1)) / count;
      }
      await persist(() => finish(id, count, 0), onWait);
      localStorage.removeItem(known);
      window.location.assign(`/visits/${form.dataset.visit}/record`);
    } catch (fault) {
      say(fault instanceof Refused ? fault.message : `The file could not be read (${fault.message}). Choose it again.`);
    } finally {
      sending.hidden = true;
      form.querySelector(".send").disabled = false;
    }
  };

  form.addEventListener("htmx:confirm", (event) => {
    form.querySelector("#upload-message").replaceChildren();
    const [sound] = file.files;
    if (isSound(sound)) {
      event.preventDefault();
      if (!sound.size) say(`${sound.name} is empty: nothing was recorded into it.`);
      else if (sound.size > Number(form.dataset.most)) say(`That recording is larger than ${Math.floor(Number(form.dataset.most) / 1073741824)} GB, so it was not sent.`);
      else sendSound(sound);
      return;
    }
    if (tooBig(file.files[0])) {
      event.preventDefault();
      say(TOO_BIG(Number(form.dataset.limit)));
    }
  });
  form.addEventListener("htmx:beforeRequest", () => {
    bar.removeAttribute("value");
    words.textContent = "Sending…";
    sending.hidden = false;
  });
  form.addEventListener("htmx:xhr:progress", (event) => {
    if (!event.detail.lengthComputable) return;
    bar.value = (100 * event.detail.loaded) / event.detail.total;
    if (event.detail.loaded === event.detail.total) {
      bar.removeAttribute("value");
      words.textContent = "Sent. Reading and understanding it…";
    }
  });
  form.addEventListener("htmx:afterRequest", () => { sending.hidden = true; });
  form.addEventListener("htmx:sendError", () => say(NOT_SENT));
}
