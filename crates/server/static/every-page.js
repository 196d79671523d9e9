// On every page: tells what waits on this phone, delivers it, forgets who is signed in when nobody is, and leads to the pocket.

import { deliver } from "./deliver.js";
import { make } from "./element.js";
import { keepThing, notDelivered, someAreOld, thing } from "./keep.js";
import { speaker } from "./say.js";
import { tellSignedOut } from "./sign-out.js";
import { startWorker } from "./start-worker.js";

const { tag = "", mark = "", words = "{}", nobody } = document.body.dataset;
const { say } = speaker(JSON.parse(words));

// With a script, the pocket takes the place of the pages that must be in reach at every step.
for (const link of document.querySelectorAll("a[data-pocket]")) {
  link.setAttribute("href", /** @type {HTMLElement} */ (link).dataset.pocket ?? "");
}

async function start() {
  startWorker(mark);
  // Ended out of reach, and this page still came for whoever it was: it is shown to nobody.
  if (await thing("signed-out")) {
    if ((await tellSignedOut(tag)) && nobody === undefined) location.reload();
  }
  if (nobody !== undefined && (await thing("me"))) await keepThing("me", undefined);
  if (!(await show())) return;
  const round = await deliver(tag);
  if (round.delivered > 0) await show();
}

/** Shows what waits; false where nothing does. */
async function show() {
  const { entries, photos } = await notDelivered(tag);
  const banner = /** @type {HTMLElement} */ (document.getElementById("unsent"));
  const here = entries.length + photos.length;
  banner.hidden = here === 0;
  if (here === 0) return false;
  const old = someAreOld(entries);
  // Whoever holds this phone next must not take the yard's verdict for one that knows of it.
  const worse = entries.flatMap((entry) => entry.worse.map((what) => `${entry.machine}: ${what}`));
  banner.className = old || worse.length > 0 ? "loud" : "";
  const link = make("a", { href: `/y/${tag}/pocket`, textContent: say("phone-look") });
  const told = [
    say("phone-unsent", { n: here }) + ".",
    worse.length > 0 ? say("phone-worse", { what: [...new Set(worse)].join("; ") }) : "",
    old ? say("phone-old") : "",
  ].filter(Boolean).join(" ");
  banner.replaceChildren(told + " ", link);
  return true;
}

// A browser that keeps nothing has nothing to tell.
start().catch(() => {});
