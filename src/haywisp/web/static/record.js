// Recording while both hands are busy: a piece every two seconds, kept on this device first, then sent.
import * as kept from "./kept.js";
import { Refused, send } from "./sending.js";

const EVERY_MS = 2000;
const BITS = 32000;
const QUIET_S = 8;
const MIMES = ["audio/webm;codecs=opus", "audio/mp4", "audio/ogg;codecs=opus", "audio/webm"];
const CANNOT = {
  insecure: "This page was opened over plain http from another device, and browsers let a page record only over https or "
    + "on the machine itself. Record with the device’s own recorder and give the file.",
  browser: "This browser can’t record from a page. Record with the device’s own recorder and give the file.",
  NotAllowedError: "The microphone is not allowed for this page. Allow it in the browser’s settings for this site (the "
    + "sign beside the address), then press Record again.",
  NotFoundError: "No microphone was found. Connect one, or record with another device and give the file.",
  NotReadableError: "Another program is using the microphone. Close it, then press Record again.",
};
const FULL = "This device has no room left, so nothing more can be kept on it. What was recorded until now is safe; free "
  + "some room before you go on.";

const panel = document.querySelector("[data-recorder]");
const find = (name) => panel.querySelector(`[data-${name}]`);

export function minutes(seconds) {
  const whole = Math.floor(seconds);
  const hours = Math.floor(whole / 3600);
  const rest = `${Math.floor(whole / 60) % 60}`;
  return `${hours ? `${hours}:${rest.padStart(2, "0")}` : rest}:${`${whole % 60}`.padStart(2, "0")}`;
}

function tell(text) {
  const told = find("told");
  told.textContent = text;
  told.hidden = !text;
}

function refresh() {
  const list = document.querySelector("#recordings");
  if (list) window.htmx.trigger(list, "refresh");
}

// What is going on now; null while nothing is recorded.
let going = null;
let alight = null;

function show(state, words) {
  panel.dataset.is = state;
  find("state").textContent = words;
  for (const [name, states] of [["record", "ready"], ["pause", "recording"], ["go-on", "paused"], ["finish", "recording paused"]]) {
    find(name).hidden = !states.split(" ").includes(state);
  }
}

const seconds = () => (going ? going.before + (going.since ? (performance.now() - going.since) / 1000 : 0) : 0);

function why() {
  if (!window.isSecureContext) return CANNOT.insecure;
  return navigator.mediaDevices?.getUserMedia && window.MediaRecorder && window.indexedDB ? "" : CANNOT.browser;
}

async function stayAwake() {
  try {
    alight = await navigator.wakeLock?.request("screen");
  } catch {
    // A device that is low on power says no; it records all the same.
  }
}

async function start() {
  const cannot = why();
  if (cannot) return tell(cannot);
  tell("");
  find("record").disabled = true;
  let stream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({
      audio: { channelCount: 1, echoCancellation: false, noiseSuppression: true, autoGainControl: true },
    });
    await navigator.storage?.persist?.();
  } catch (fault) {
    return tell(CANNOT[fault.name] ?? `The microphone can’t be used (${fault.name}). Record with the device’s own recorder.`);
  } finally {
    find("record").disabled = false;
  }
  const mime = MIMES.find((one) => MediaRecorder.isTypeSupported(one)) ?? "";
  const recorder = new MediaRecorder(stream, { mimeType: mime, audioBitsPerSecond: BITS });
  const recording = {
    id: kept.newId(), visit: panel.dataset.visit, mime: recorder.mimeType || mime, began: Date.now(),
    count: 0, seconds: 0, ended: false,
  };
  going = { recorder, stream, recording, before: 0, since: 0, sent: 0, chain: Promise.resolve(), quiet: 0 };
  try {
    await kept.keep(recording);
  } catch {
    stream.getTracks().forEach((track) => track.stop());
    going = null;
    return tell(FULL);
  }
  hold(going);
  recorder.addEventListener("dataavailable", ({ data }) => take(data));
  recorder.addEventListener("stop", ended);
  recorder.addEventListener("error", () => finish("The browser stopped recording by itself. What was recorded is kept."));
  stream.getAudioTracks()[0].addEventListener("ended", () => {
    if (going) finish("The microphone was taken away. What was recorded until then is kept.");
  });
  recorder.start(EVERY_MS);
  going.since = performance.now();
  show("recording", "recording");
  find("finish").focus();
  measure(stream);
  stayAwake();
  return undefined;
}

// Other pages of this browser see by this lock that the recording is still being made.
function hold(mine) {
  navigator.locks?.request(`haywisp-recording-${mine.recording.id}`, () => new Promise((free) => { mine.free = free; }));
}

function take(blob) {
  const mine = going;
  if (!mine || !blob.size) return;
  const length = seconds();
  // One after the other: a piece must never be numbered before the one that came first.
  mine.chain = mine.chain.then(async () => {
    const { recording } = mine;
    const data = await blob.arrayBuffer();
    const piece = { recording: recording.id, number: recording.count, mark: kept.newId(), data };
    await kept.keep({ ...recording, count: recording.count + 1, seconds: length }, piece);
    recording.count += 1;
    recording.seconds = length;
    sendOn(mine);
  }).catch((fault) => {
    mine.full = true;
    if (going === mine) finish(fault.name === "QuotaExceededError" ? FULL : `A piece could not be kept (${fault.name}).`);
  });
}

function sendOn(mine) {
  if (mine.sending) {
    mine.more = true;
    return;
  }
  mine.sending = true;
  mine.more = false;
  send(mine.recording.id, { onWait: (waits) => told(mine, waits), onSent: (number) => { mine.sent = number + 1; told(mine); } })
    .then((whole) => { mine.whole = whole; })
    .catch((fault) => { if (fault instanceof Refused) tell(fault.message); })
    .finally(() => {
      mine.sending = false;
      if (mine.more) sendOn(mine);
      else if (mine.whole) arrived();
    });
}

function told(mine, waits = false) {
  const here = mine.recording.count - mine.sent;
  find("sent").textContent = waits
    ? "No connection just now. Everything is kept on this device and is sent when there is one."
    : here > 2 ? `${here} pieces are kept here and on their way.` : "Kept on this device and sent.";
}

function arrived() {
  find("sent").textContent = "All of it has arrived. It is heard now; you can leave this page.";
  refresh();
  look();
}

function pause() {
  going.recorder.pause();
  going.recorder.requestData();
  going.before = seconds();
  going.since = 0;
  show("paused", "paused");
  find("go-on").focus();
}

function goOn() {
  going.recorder.resume();
  going.since = performance.now();
  show("recording", "recording");
  find("pause").focus();
}

function finish(because = "") {
  if (because) tell(because);
  going.before = seconds();
  going.since = 0;
  if (going.recorder.state === "inactive") ended();
  else going.recorder.stop();
}

async function ended() {
  const mine = going;
  if (!mine || mine.over) return;
  mine.over = true;
  mine.stream.getTracks().forEach((track) => track.stop());
  alight?.release();
  show("ready", "stopped");
  find("level").value = 0;
  find("record").focus();
  await mine.chain;
  mine.recording.ended = true;
  mine.recording.seconds = mine.before;
  if (going === mine) going = null;
  await kept.keep(mine.recording).catch(() => {});
  mine.free?.();
  told(mine);
  sendOn(mine);
}

// The level that comes in, and whether anything does.
function measure(stream) {
  const context = new AudioContext();
  context.resume();
  const meter = context.createAnalyser();
  meter.fftSize = 1024;
  context.createMediaStreamSource(stream).connect(meter);
  const samples = new Float32Array(meter.fftSize);
  const mine = going;
  const tick = () => {
    if (going !== mine || mine.over) {
      context.close();
      return;
    }
    meter.getFloatTimeDomainData(samples);
    const power = samples.reduce((sum, one) => sum + one * one, 0) / samples.length;
    // From 60 dB under full scale to full.
    const level = Math.max(0, 1 + Math.log10(power + 1e-12) / 6);
    find("level").value = level;
    find("clock").textContent = minutes(seconds());
    mine.quiet = level < 0.12 && mine.since ? mine.quiet + 0.2 : 0;
    if (mine.quiet > QUIET_S) find("state").textContent = "recording, but nothing is heard: is the microphone covered?";
    else if (mine.since) find("state").textContent = "recording";
    if (seconds() > Number(panel.dataset.longest)) finish("The longest recording is reached. It is kept; press Record for another.");
    else setTimeout(tick, 200);
  };
  tick();
}

// Recordings of earlier times that never arrived whole.
async function look() {
  let found;
  try {
    found = await kept.all();
  } catch {
    return;
  }
  const held = new Set(((await navigator.locks?.query())?.held ?? []).map((one) => one.name));
  const left = found.filter((one) => one.id !== going?.recording.id && !held.has(`haywisp-recording-${one.id}`));
  const list = find2("unsent-list");
  list.replaceChildren(...(await Promise.all(left.map(line))));
  find2("unsent").hidden = !left.length;
}

const find2 = (name) => document.querySelector(`[data-${name}]`);

async function line(one) {
  const pieces = await kept.left(one.id);
  const row = document.createElement("li");
  const words = document.createElement("p");
  const began = new Date(one.began).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });
  words.textContent = `A recording of ${minutes(one.seconds)}, begun ${began}${one.ended ? "" : ", was cut off"}. `
    + (pieces ? `${pieces} ${pieces === 1 ? "piece of it is" : "pieces of it are"} only here.` : "All pieces have arrived.");
  row.append(words);
  if (one.visit !== panel.dataset.visit) {
    const link = document.createElement("a");
    link.href = `/visits/${encodeURIComponent(one.visit)}/record`;
    link.textContent = "It belongs to another visit: go there to send it.";
    row.append(link);
    return row;
  }
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button primary";
  button.textContent = one.count ? "Send it and hear it" : "Nothing was recorded: forget it";
  button.addEventListener("click", async () => {
    button.disabled = true;
    try {
      await kept.keep({ ...one, ended: true });
      await send(one.id, {
        onWait: (waits) => { if (waits) words.textContent = "No connection just now. It stays here and is sent when there is one."; },
      });
      arrived();
    } catch (fault) {
      words.textContent = fault.message;
      button.disabled = false;
    }
  });
  row.append(button);
  return row;
}

if (panel) {
  tell(why());
  show("ready", "ready");
  find("record").addEventListener("click", start);
  find("pause").addEventListener("click", pause);
  find("go-on").addEventListener("click", goOn);
  find("finish").addEventListener("click", () => finish());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible" && going) stayAwake();
  });
  window.addEventListener("beforeunload", (event) => { if (going) event.preventDefault(); });
  window.addEventListener("pagehide", () => { if (going?.recorder.state === "recording") going.recorder.requestData(); });
  look();
}
