// What is kept on this phone: entries, photos, and a few things about the device, in the browser's own database.
//
// Every write is one transaction with strict durability: when its promise is kept, the data is on the phone's storage, as far as a
// browser can promise that. An entry never changes once it is kept; only what became of it does.

const DATABASE = "kingpost";

/**
 * @typedef {Object} Kept  An entry on this phone.
 * @property {string} id
 * @property {string} tag      yard it belongs to
 * @property {string} text     the entry's bytes, as they are delivered
 * @property {string} kind
 * @property {string|null} machine
 * @property {number} counter
 * @property {number} at       this phone's clock, milliseconds
 * @property {string} person
 * @property {string[]} worse  what in it stands the machine down, in words
 * @property {"waiting"|"delivered"|"aside"} state
 * @property {string} [why]    code of a refusal, or "not-yours"
 * @property {string} [told]   the refusal in words
 * @property {number} [since]  when the store said it has it
 */

/**
 * @typedef {Object} Photo
 * @property {string} id
 * @property {string} tag
 * @property {Blob|null} blob  gone once delivered
 * @property {"waiting"|"delivered"|"aside"} state
 * @property {boolean} used    whether an entry names it
 * @property {number} at
 * @property {string} [told]
 */

/** @type {Promise<IDBDatabase>|undefined} */
let opened;

function database() {
  opened ??= new Promise((resolve, reject) => {
    const ask = indexedDB.open(DATABASE, 1);
    ask.onupgradeneeded = () => {
      ask.result.createObjectStore("entries", { keyPath: "id" });
      ask.result.createObjectStore("photos", { keyPath: "id" });
      ask.result.createObjectStore("things");
    };
    ask.onsuccess = () => resolve(ask.result);
    ask.onerror = () => reject(ask.error);
    ask.onblocked = () => reject(new Error("blocked"));
  });
  return opened;
}

/** @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
function answer(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/**
 * Runs `work` in one transaction; its result counts only once the transaction is through.
 * @template T
 * @param {"readonly"|"readwrite"} mode
 * @param {string[]} stores
 * @param {(stores: Record<string, IDBObjectStore>) => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function transaction(mode, stores, work) {
  const db = await database();
  const through = db.transaction(stores, mode, { durability: "strict" });
  const done = new Promise((resolve, reject) => {
    through.oncomplete = () => resolve(undefined);
    through.onabort = () => reject(through.error ?? new Error("aborted"));
  });
  const opened = Object.fromEntries(stores.map((name) => [name, through.objectStore(name)]));
  try {
    const result = await work(opened);
    await done;
    return result;
  } catch (error) {
    done.catch(() => {});
    try {
      through.abort();
    } catch {
      // It has ended by itself.
    }
    throw error;
  }
}

/** Whether this browser keeps anything at all. */
export async function canKeep() {
  try {
    await database();
    return true;
  } catch {
    return false;
  }
}

/** A small thing by its name. @param {string} name */
export function thing(name) {
  return transaction("readonly", ["things"], ({ things }) => answer(things.get(name)));
}

/** Keeps a small thing, or forgets it. @param {string} name @param {any} value */
export function keepThing(name, value) {
  return transaction("readwrite", ["things"], async ({ things }) => {
    await answer(value === undefined ? things.delete(name) : things.put(value, name));
  });
}

/**
 * Keeps an entry, giving it this device's name and next number in the same step, so that no two entries of one device share a number.
 * @param {(device: string, counter: number) => Kept} make
 * @param {string} device  a name to take where this device has none yet
 * @param {string[]} photos  photos that the entry names
 * @returns {Promise<Kept>}
 */
export async function keepEntry(make, device, photos) {
  const kept = await transaction("readwrite", ["entries", "photos", "things"], async ({ entries, photos: pictures, things }) => {
    const name = (await answer(things.get("device"))) ?? device;
    const counter = ((await answer(things.get("counter"))) ?? 0) + 1;
    const entry = make(name, counter);
    things.put(name, "device");
    things.put(counter, "counter");
    entries.add(entry);
    for (const id of photos) {
      const photo = await answer(pictures.get(id));
      if (photo) pictures.put({ ...photo, used: true });
    }
    return entry;
  });
  changed();
  return kept;
}

/** All entries of a yard, in the order they were written. @param {string} tag @returns {Promise<Kept[]>} */
export async function entriesOf(tag) {
  const all = await transaction("readonly", ["entries"], ({ entries }) => answer(entries.getAll()));
  return all.filter((entry) => entry.tag === tag).sort((a, b) => a.counter - b.counter);
}

/** All photos of a yard. @param {string} tag @returns {Promise<Photo[]>} */
export async function photosOf(tag) {
  const all = await transaction("readonly", ["photos"], ({ photos }) => answer(photos.getAll()));
  return all.filter((photo) => photo.tag === tag).sort((a, b) => a.at - b.at);
}

/** What of a yard is on this phone and not with the yard's computer. @param {string} tag */
export async function notDelivered(tag) {
  const entries = (await entriesOf(tag)).filter((entry) => entry.state !== "delivered");
  const photos = (await photosOf(tag)).filter((photo) => photo.used && photo.state !== "delivered");
  const waiting = [...entries, ...photos].filter((one) => one.state === "waiting").length;
  return { entries, photos, waiting };
}

const DAY = 24 * 3600 * 1000;

/** Whether one of these waits so long that it must be said loudly. @param {Kept[]} entries */
export function someAreOld(entries) {
  return entries.some((entry) => Date.now() - entry.at > DAY);
}

/** @param {Photo} photo */
export async function keepPhoto(photo) {
  await transaction("readwrite", ["photos"], async ({ photos }) => {
    await answer(photos.add(photo));
  });
}

/** Leaves out a photo that no entry names. @param {string} id */
export async function leaveOutPhoto(id) {
  await transaction("readwrite", ["photos"], async ({ photos }) => {
    const photo = await answer(photos.get(id));
    if (photo && !photo.used) await answer(photos.delete(id));
  });
}

/**
 * Notes what became of an entry or a photo. What is delivered stays delivered, whoever says otherwise later.
 * @param {"entries"|"photos"} store @param {string} id @param {Partial<Kept & Photo>} news
 */
export async function note(store, id, news) {
  await transaction("readwrite", [store], async (stores) => {
    const there = await answer(stores[store].get(id));
    if (!there || there.state === "delivered") return;
    await answer(stores[store].put({ ...there, ...news }));
  });
  changed();
}

/** Forgets what was delivered long ago. @param {string} tag @param {number} before  milliseconds */
export async function forgetDelivered(tag, before) {
  await transaction("readwrite", ["entries", "photos"], async ({ entries, photos }) => {
    for (const entry of await answer(entries.getAll())) {
      if (entry.tag === tag && entry.state === "delivered" && entry.since < before) entries.delete(entry.id);
    }
    for (const photo of await answer(photos.getAll())) {
      const gone = photo.state === "delivered" || !photo.used;
      if (photo.tag === tag && gone && photo.at < before) photos.delete(photo.id);
    }
  });
}

const channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel(DATABASE);
/** @type {Set<() => void>} */
const listeners = new Set();

/** Calls `then` whenever what is kept here changes, in this tab or another. @param {() => void} then */
export function onChange(then) {
  listeners.add(then);
}

function changed() {
  channel?.postMessage("changed");
  listeners.forEach((then) => then());
}

if (channel) channel.onmessage = () => listeners.forEach((then) => then());
