// Pieces of a recording to the server, in order; each is sent until it is known to be there.
import * as kept from "./kept.js";

const WAITS_S = [1, 2, 4, 8, 15];

// What the server refused, in its own words; sending it again would not help.
export class Refused extends Error {}

async function asked(address, options) {
  const answer = await fetch(address, { ...options, headers: { "HX-Request": "true", ...options.headers } });
  if (answer.ok) return answer;
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const sentence = page.querySelector(".message")?.textContent ?? "Haywisp could not take this.";
  if (answer.status >= 500) throw new Error(sentence);
  throw new Refused(sentence);
}

const form = (fields) => ({ method: "POST", body: new URLSearchParams(fields) });

export async function begin({ id, visit, mime = "", name = "" }) {
  return (await asked(`/visits/${visit}/recordings`, form({ id, mime, name }))).json();
}

export const put = (id, number, mark, body) => asked(`/recordings/${id}/pieces/${number}?mark=${mark}`, {
  method: "PUT", body, headers: { "Content-Type": "application/octet-stream" },
});

export const finish = (id, count, seconds) => asked(`/recordings/${id}/finish`, form({
  count, seconds: Math.round(seconds), told: "yes",
}));

// Again and again with longer waits while there is no connection; `onWait` is told that there is none.
export async function persist(act, onWait) {
  for (let tried = 0; ; tried += 1) {
    try {
      return await act();
    } catch (fault) {
      if (fault instanceof Refused) throw fault;
      onWait(true);
      await new Promise((again) => {
        const soon = setTimeout(again, 1000 * WAITS_S[Math.min(tried, WAITS_S.length - 1)]);
        window.addEventListener("online", () => { clearTimeout(soon); again(); }, { once: true });
      });
      onWait(false);
    }
  }
}

// Only one page sends a recording; a second one would do no harm, but twice the work.
export function alone(id, act) {
  const name = `haywisp-sending-${id}`;
  return navigator.locks ? navigator.locks.request(name, act) : act();
}

// All that is on this device of a recording, and once it is ended its end too. Gives whether the server has all of it.
export function send(id, { onWait = () => {}, onSent = () => {} } = {}) {
  return alone(id, async () => {
    const known = await kept.one(id);
    if (!known) return true;
    await persist(() => begin(known), onWait);
    for (let piece = await kept.first(id); piece; piece = await kept.first(id)) {
      const { number, mark, data } = piece;
      await persist(() => put(id, number, mark, data), onWait);
      await kept.dropPiece(id, number);
      onSent(number);
    }
    const now = await kept.one(id);
    if (!now?.ended || (await kept.left(id))) return false;
    if (now.count) await persist(() => finish(id, now.count, now.seconds), onWait);
    await kept.drop(id);
    return true;
  });
}
