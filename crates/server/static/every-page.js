// On every page: tells what waits on this phone, delivers it, forgets who is signed in when nobody is, and leads to the pocket.

import { deliver } from "./deliver.js";
import { entriesOf, keepThing, photosOf, thing } from "./keep.js";
import { speaker } from "./say.js";
import { startWorker } from "./start-worker.js";

const { tag = "", mark = "", words = "{}", nobody } = document.body.dataset;
const { say } = speaker(JSON.parse(words));

// With a script, the pocket takes the place of the pages that must be in reach at every step.
for (const link of document.querySelectorAll("a[data-pocket]")) {
  link.setAttribute("href", /** @type {HTMLElement} */ (link).dataset.pocket ?? "");
}

async function start() {
  startWorker(mark);
  if (nobody !== undefined && (await thing("me"))) await keepThing("me", undefined);
  if (!(await show())) return;
  const round = await deliver(tag);
  if (round.delivered > 0) await show();
}

/** Shows what waits; false where nothing does. */
async function show() {
  const entries = (await entriesOf(tag)).filter((entry) => entry.state !== "delivered");
  const photos = (await photosOf(tag)).filter((photo) => photo.used && photo.state !== "delivered");
  const banner = document.getElementById("unsent");
  const waiting = entries.length + photos.length;
  if (!banner) return waiting > 0;
  banner.hidden = waiting === 0;
  if (waiting === 0) return false;
  const old = entries.some((entry) => Date.now() - entry.at > 24 * 3600 * 1000);
  banner.className = old ? "loud" : "";
  const link = document.createElement("a");
  link.href = `/y/${tag}/pocket`;
  link.textContent = say("phone-look");
  banner.replaceChildren(say("phone-unsent", { n: waiting }) + ". ", old ? say("phone-old") + " " : "", link);
  return true;
}

// A browser that keeps nothing has nothing to tell.
start().catch(() => {});
