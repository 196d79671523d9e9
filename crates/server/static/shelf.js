// The pocket's first page: which machines this phone holds, and what waits on it.

import { speaker } from "./say.js";
import { startList } from "./on-this-phone.js";
import { startWorker } from "./start-worker.js";

const { tag = "", mark = "" } = document.body.dataset;
const { words = "{}", address = "" } = /** @type {HTMLElement} */ (document.getElementById("shelf")).dataset;
const dictionary = JSON.parse(words);
const voice = speaker(dictionary);

async function held() {
  if (!("caches" in window)) return;
  const pages = await caches.open("pages");
  for (const item of document.querySelectorAll("li[data-machine]")) {
    const at = `${location.origin}/y/${tag}/m/${/** @type {HTMLElement} */ (item).dataset.machine}/pocket`;
    const there = await pages.match(at);
    const small = item.querySelector("[data-held]");
    if (small) small.textContent = voice.say(there ? "pocket-held" : "pocket-not-held");
  }
}

startWorker(mark);
startList({ tag, speaker: voice, address, words: dictionary, back: () => location.pathname });
held();
