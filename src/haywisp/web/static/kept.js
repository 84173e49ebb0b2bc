// Recordings on this device until the server has them: each piece in the browser's own store before it is sent.
const NAME = "haywisp-recordings";
let opening;

function opened() {
  opening ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("recordings", { keyPath: "id" });
      asked.result.createObjectStore("pieces", { keyPath: ["recording", "number"] });
    };
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  return opening;
}

// One transaction; what it gives is there once the disk has it.
async function inOne(mode, act) {
  const database = await opened();
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(["recordings", "pieces"], mode, { durability: "strict" });
    const given = act(transaction.objectStore("recordings"), transaction.objectStore("pieces"));
    transaction.oncomplete = () => resolve(given?.result);
    transaction.onabort = () => reject(transaction.error);
    transaction.onerror = () => reject(transaction.error);
  });
}

const rangeOf = (id) => IDBKeyRange.bound([id, 0], [id, Infinity]);

export const keep = (recording, piece) => inOne("readwrite", (recordings, pieces) => {
  if (piece) pieces.put(piece);
  recordings.put(recording);
});
export const all = () => inOne("readonly", (recordings) => recordings.getAll());
export const one = (id) => inOne("readonly", (recordings) => recordings.get(id));
export const left = (id) => inOne("readonly", (_, pieces) => pieces.count(rangeOf(id)));
export const dropPiece = (id, number) => inOne("readwrite", (_, pieces) => { pieces.delete([id, number]); });
export const drop = (id) => inOne("readwrite", (recordings, pieces) => {
  pieces.delete(rangeOf(id));
  recordings.delete(id);
});

export async function first(id) {
  const found = await inOne("readonly", (_, pieces) => pieces.getAll(rangeOf(id), 1));
  return found[0];
}

// A name that nobody else makes; also where the page was opened over plain http.
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
