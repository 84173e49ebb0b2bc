// Listening to what was said: from any word, line or passage, half a second before it; the word that is heard is marked.
const BEFORE_S = 0.5;
const bar = document.querySelector("[data-listen]");

if (bar) {
  const player = bar.querySelector("[data-player]");
  const button = bar.querySelector("[data-listen-word]");
  const words = bar.querySelector("[data-listen-text]");
  const hint = bar.querySelector("[data-listen-hint]");
  const sounds = [...bar.querySelectorAll("[data-sound]")].map(({ dataset }) => ({
    address: dataset.sound, starts: Number(dataset.starts), ends: Number(dataset.ends),
  }));
  const said = [...document.querySelectorAll("[data-at]")];
  let playing = sounds[0] ?? null;
  let until = Infinity;
  let now = null;
  let chosen = null;

  const load = (sound) => {
    if (player.getAttribute("src") !== sound.address) player.src = sound.address;
    playing = sound;
  };
  // Times of the page are those of the narration, which may be made of several recordings.
  const listen = (from, to = Infinity) => {
    const sound = sounds.find((one) => from >= one.starts - 1 && from < one.ends + 1);
    if (!sound) return;
    load(sound);
    // Until something is played the bar is one line: on a phone every line counts.
    player.hidden = false;
    hint.hidden = true;
    until = to === Infinity ? to : to + BEFORE_S;
    const at = Math.max(0, from - sound.starts - BEFORE_S);
    const go = () => {
      player.currentTime = at;
      player.play().catch(() => {});
    };
    if (player.readyState) go();
    else {
      player.addEventListener("loadedmetadata", go, { once: true });
      player.load();
    }
  };
  const choose = (word) => {
    chosen = word;
    words.textContent = `Listen from “${word.textContent}”`;
  };
  const mark = (time) => {
    const heard = said.findLast((one) => Number(one.dataset.at) <= time);
    if (heard === now) return;
    now?.classList.remove("now");
    now = heard;
    now?.classList.add("now");
  };

  button.disabled = !playing;
  hint.hidden = !playing;
  player.hidden = true;
  if (playing) load(playing);
  player.addEventListener("timeupdate", () => {
    const time = playing.starts + player.currentTime;
    mark(time);
    if (time >= until) {
      until = Infinity;
      player.pause();
    }
  });
  player.addEventListener("ended", () => {
    const next = sounds[sounds.indexOf(playing) + 1];
    if (next) listen(next.starts);
  });
  player.addEventListener("error", () => {
    words.textContent = "The recording can’t be played here just now.";
  });
  button.addEventListener("click", () => listen(chosen ? Number(chosen.dataset.at) : playing.starts));
  document.addEventListener("click", (event) => {
    const from = event.target.closest("[data-from]");
    const word = event.target.closest("[data-at]");
    if (from) listen(Number(from.dataset.from), Number(from.dataset.until ?? Infinity));
    else if (word) choose(word);
  });
  // The key l: what is playing stops; otherwise the words of the entry in hand, or the word chosen last.
  document.addEventListener("haywisp:listen", () => {
    if (!player.paused) {
      player.pause();
      return;
    }
    const lit = document.activeElement?.closest(".transcript [data-entries]")?.querySelector("[data-at]")
      ?? document.querySelector(".transcript .lit [data-at]") ?? chosen;
    if (lit) listen(Number(lit.dataset.at));
  });
}
