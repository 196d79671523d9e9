// Delivering: what waits on this phone is offered to the yard's computer until it says that it has it.
//
// Offering the same entry twice is the same as once: the store knows it by its id. So a lost answer, a second tab, or the worker
// sending as well does no harm, and nothing here has to be locked.

import { entriesOf, forgetDelivered, note, photosOf } from "./keep.js";

const AT_ONCE = 40;
/** What a server says of the bytes themselves: no telling again will change it. */
const FOR_GOOD = [400, 409, 413, 415, 422];
const REMEMBERED = 7 * 24 * 3600 * 1000;

/**
 * @typedef {Object} Round  How a delivery went.
 * @property {boolean} reached   the yard's computer answered
 * @property {boolean} signIn    it does not know who we are
 * @property {number} delivered  how much it took, entries and photos
 */

/** @type {Map<string, Promise<Round>>} */
const running = new Map();

/** Delivers everything of a yard that waits. Asked again while it runs, it is the same delivery. @param {string} tag @returns {Promise<Round>} */
export function deliver(tag) {
  let round = running.get(tag);
  if (!round) {
    round = all(tag).finally(() => running.delete(tag));
    running.set(tag, round);
  }
  return round;
}

/** @param {string} tag */
async function all(tag) {
  const round = { reached: true, signIn: false, delivered: 0 };
  const waiting = (await entriesOf(tag)).filter((entry) => entry.state === "waiting");
  for (let at = 0; at < waiting.length && round.reached && !round.signIn; at += AT_ONCE) {
    await offer(tag, waiting.slice(at, at + AT_ONCE), round);
  }
  const photos = (await photosOf(tag)).filter((photo) => photo.state === "waiting" && photo.used);
  for (const photo of photos) {
    if (round.reached && !round.signIn) await offerPhoto(tag, photo, round);
  }
  if (waiting.length + photos.length === 0) await knock(tag, round);
  await forgetDelivered(tag, Date.now() - REMEMBERED);
  return round;
}

/** @param {string} tag @param {import("./keep.js").Kept[]} entries @param {Round} round */
async function offer(tag, entries, round) {
  const body = JSON.stringify({ clock: new Date().toISOString(), entries: entries.map((entry) => entry.text) });
  const got = await send(`/api/y/${tag}/deliveries`, { method: "POST", headers: { "Content-Type": "application/json" }, body }, round);
  if (!got) return;
  if (got.status === 200) {
    const told = await read(got);
    if (!Array.isArray(told?.entries)) {
      round.reached = false;
      return;
    }
    for (const [i, entry] of entries.entries()) await settle(entry, told.entries[i], round);
  } else if (!FOR_GOOD.includes(got.status)) {
    // Not about these bytes: they stay, and are offered again.
    round.reached = false;
  } else if (entries.length > 1) {
    // One of them stands in the way of the rest: each by itself.
    for (const entry of entries) {
      if (round.reached && !round.signIn) await offer(tag, [entry], round);
    }
  } else {
    const told = await read(got);
    await note("entries", entries[0].id, { state: "aside", why: told?.why ?? String(got.status), told: told?.told ?? String(got.status) });
  }
}

/** @param {import("./keep.js").Kept} entry @param {any} told @param {Round} round */
async function settle(entry, told, round) {
  switch (told?.is) {
    case "new":
    case "known":
      round.delivered += 1;
      await note("entries", entry.id, { state: "delivered", since: Date.now(), why: undefined, told: undefined });
      break;
    case "conflict":
    case "refused":
      await note("entries", entry.id, { state: "aside", why: told.why ?? told.is, told: told.told ?? told.is });
      break;
    case "not-yours":
      if (entry.why !== "not-yours") await note("entries", entry.id, { why: "not-yours" });
      break;
    default:
      // An answer that does not name it leaves it waiting.
      break;
  }
}

/** @param {string} tag @param {import("./keep.js").Photo} photo @param {Round} round */
async function offerPhoto(tag, photo, round) {
  const ask = { method: "PUT", headers: { "Content-Type": photo.blob?.type || "application/octet-stream" }, body: photo.blob };
  const got = await send(`/api/y/${tag}/photos/${photo.id}`, ask, round);
  if (!got) return;
  if (got.ok) {
    round.delivered += 1;
    await note("photos", photo.id, { state: "delivered", blob: null });
  } else if (!FOR_GOOD.includes(got.status)) {
    round.reached = false;
  } else {
    const told = await read(got);
    await note("photos", photo.id, { state: "aside", told: told?.told ?? String(got.status) });
  }
}

/** Nothing waits: is anybody there, and do they know us? @param {string} tag @param {Round} round */
async function knock(tag, round) {
  await send(`/api/y/${tag}/me`, {}, round);
}

/**
 * Sends, and sorts out what is no answer to what was sent: no network, a server in trouble or too busy, a sign-in that has ended.
 * @param {string} to @param {RequestInit} ask @param {Round} round @returns {Promise<Response|null>}
 */
async function send(to, ask, round) {
  try {
    const got = await fetch(to, { cache: "no-store", credentials: "same-origin", redirect: "error", ...ask });
    if (got.status === 401) round.signIn = true;
    else if (got.status >= 500 || got.status === 429 || got.status === 408) round.reached = false;
    else return got;
  } catch {
    round.reached = false;
  }
  return null;
}

/** @param {Response} got */
async function read(got) {
  try {
    return await got.json();
  } catch {
    return null;
  }
}
