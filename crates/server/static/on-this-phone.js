// The list of what is on this phone: what waits, what was not taken, and the ways off it. And the rhythm of delivering.

import { deliver } from "./deliver.js";
import { renderCopyOut } from "./copy-out.js";
import { make } from "./element.js";
import { canKeep, notDelivered, onChange, someAreOld, thing } from "./keep.js";

/** How often it is tried while something waits, milliseconds; each failure doubles it up to the second. */
const OFTEN = 5_000;
const SELDOM = 60_000;

/** Shows the list anew. @type {() => Promise<void>} */
export let showList = async () => {};

/** @param {string} id */
const element = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/**
 * Starts the list and the delivering.
 * @param {{tag: string, speaker: import("./say.js").Speaker, address: string, words: any, back: () => string, onDelivered?: (round: import("./deliver.js").Round) => void}} of
 */
export async function startList(of) {
  const { tag, speaker } = of;
  if (!(await canKeep())) {
    element("cannot-keep").hidden = false;
    return;
  }
  /** @type {import("./deliver.js").Round|null} */
  let last = null;
  let wait = OFTEN;
  /** @type {ReturnType<typeof setTimeout>|undefined} */
  let next;

  const attempt = async () => {
    clearTimeout(next);
    last = await deliver(tag);
    wait = last.reached ? OFTEN : Math.min(wait * 2, SELDOM);
    await showList();
    of.onDelivered?.(last);
    if ((await notDelivered(tag)).waiting > 0) next = setTimeout(attempt, wait);
  };
  showList = () => render(of, last);
  onChange(() => showList());
  document.addEventListener("click", (event) => {
    if (/** @type {HTMLElement} */ (event.target).id !== "deliver-now") return;
    wait = OFTEN;
    attempt();
  });
  window.addEventListener("online", attempt);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") attempt();
  });
  await showList();
  await attempt();
  return attempt;
}

/** @param {any} of @param {import("./deliver.js").Round|null} last */
async function render(of, last) {
  const { tag, speaker } = of;
  const { say } = speaker;
  const { entries, photos, waiting } = await notDelivered(tag);
  element("plain-http").hidden = window.isSecureContext;
  const reach = element("reach");
  const news = [
    last === null ? "" : say(last.reached ? "phone-reached" : "phone-not-reached"),
    entries.length + photos.length === 0 ? say("phone-nothing-waits") : say("phone-unsent", { n: waiting }) + ".",
  ].filter(Boolean).join(" ");
  if (reach.textContent !== news) reach.textContent = news;
  element("kept-entries").replaceChildren(
    ...entries.map((entry) => line([say(`kind-of-entry-${entry.kind}`), entry.machine ?? "", ...entry.worse].filter(Boolean).join(" · "), stateOf(entry, speaker))),
    ...photos.map((photo) => line("", photo.state === "aside" ? say("phone-photo-aside", { why: photo.told ?? "" }) : say("phone-photo-waits"))),
  );
  element("deliver-now").hidden = waiting === 0;
  const me = await thing("me");
  const sign = /** @type {HTMLAnchorElement} */ (element("sign-in-to-deliver"));
  sign.hidden = !(waiting > 0 && (last?.signIn || entries.some((entry) => entry.why === "not-yours")));
  sign.href = `/y/${tag}/sign-in?back=${encodeURIComponent(of.back())}`;
  const holder = document.getElementById("holder");
  if (holder) holder.textContent = me?.name ? say("phone-holder", { name: me.name }) : say("phone-nobody");
  renderOld(entries, speaker);
  const out = /** @type {HTMLDetailsElement} */ (element("copy-out"));
  out.hidden = entries.length === 0;
  if (!out.open) out.ontoggle = () => {
    if (out.open) copyOut(of);
  };
}

/** Both ways off the phone, for what is here at this moment. @param {any} of */
async function copyOut({ tag, words, address }) {
  const { entries, photos } = await notDelivered(tag);
  await renderCopyOut(element("copy-out-here"), entries.map((entry) => entry.text), words, address, tag, photos.map((photo) => photo.id));
}

/** @param {string} what @param {string} state */
function line(what, state) {
  return make("li", {}, what, " ", make("small", { textContent: state }));
}

/** @param {import("./keep.js").Kept} entry @param {import("./say.js").Speaker} speaker */
function stateOf(entry, { say, age }) {
  if (entry.state === "aside") return say("phone-aside", { why: entry.told ?? "" });
  if (entry.why === "not-yours") return say("phone-not-yours");
  return say("phone-waits-since", { age: age(Date.now() - entry.at) });
}

/** What stands a machine down, and what is older than a day, is said loudly. @param {import("./keep.js").Kept[]} entries @param {import("./say.js").Speaker} speaker */
function renderOld(entries, { say }) {
  const worse = entries.flatMap((entry) => entry.worse.map((what) => `${entry.machine}: ${what}`));
  const told = [
    worse.length > 0 ? say("phone-worse", { what: [...new Set(worse)].join("; ") }) : "",
    someAreOld(entries) ? say("phone-old") : "",
  ].filter(Boolean).join(" ");
  const banner = element("unsent");
  banner.hidden = told === "";
  banner.className = "loud";
  if (banner.textContent !== told) banner.textContent = told;
}
