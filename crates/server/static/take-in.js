// The page that takes in what another phone could not send: parts out of addresses or pasted text, put together and delivered.

import { button, make } from "./element.js";
import { KeptParts } from "./kept-parts.js";
import { fromFragment, join, NotWhole, readText } from "./parts.js";
import { sayer } from "./say.js";

/** @typedef {import("./kept-parts.js").Series} Series */
/** @typedef {import("./kept-parts.js").Told} Told */

/** What one delivery may hold. */
const MOST_ENTRIES = 200;
const MOST_LETTERS = 1 << 20;
const SAFE = ["new", "known"];

const root = document.querySelector("[data-take-in]");
const say = sayer(JSON.parse(root.dataset.words));
const yard = root.dataset.takeIn;
const kept = new KeptParts(yard, localStorage);
const list = root.querySelector("[data-list]");
const said = root.querySelector("[data-said]");
const form = document.querySelector("form[data-text]");
/** What was delivered since this page was opened: its results stay to be read. @type {Map<string, {texts: string[], told: Told[]}>} */
const delivered = new Map();
/** The drawing under way: each waits for the one before. */
let drawing = Promise.resolve();

fromAddress();
addEventListener("hashchange", fromAddress);
// Each code opens a tab of its own; the others show the new part as well.
addEventListener("storage", show);
form.addEventListener("submit", fromText);
show();

function fromAddress() {
  const part = fromFragment(location.hash);
  if (part === undefined) return;
  history.replaceState(null, "", location.pathname + location.search);
  tell(part === null ? [say("take-in-damaged-code")] : [sentence(kept.keep(part), part)]);
  show();
}

function sentence(kind, { n, of }) {
  return { kept: say("take-in-part-kept", { n, of }), done: say("take-in-done-before"), full: say("take-in-full") }[kind];
}

function fromText(event) {
  event.preventDefault();
  const box = form.querySelector("textarea");
  const { parts, damaged, missing, of } = readText(box.value);
  const kinds = new Set(parts.map((part) => kept.keep(part)));
  const lines = [];
  if (!of) lines.push(say("take-in-text-nothing"));
  if (damaged.length) lines.push(say("take-in-text-damaged", { parts: damaged.join(", "), of }));
  if (missing.length) lines.push(say("take-in-text-missing", { parts: missing.join(", "), of }));
  if (kinds.has("full")) lines.push(say("take-in-full"));
  if (kinds.has("done")) lines.push(say("take-in-done-before"));
  if (!lines.length) {
    lines.push(say("take-in-text-read"));
    box.value = "";
  }
  tell(lines);
  show();
}

// --- What is shown ---

function tell(lines) {
  said.replaceChildren(...lines.map((line) => make("p", { textContent: line })));
}

/** Draws the list anew. */
function show() {
  drawing = drawing.then(async () => {
    const boxes = await Promise.all(kept.series().map(seriesBox));
    const done = [...delivered.values()].map(deliveredBox);
    list.replaceChildren(...done, ...boxes);
    list.dataset.list = "drawn";
  });
  return drawing;
}

/** @param {Series} series */
async function seriesBox(series) {
  const heading = make("h2", { textContent: say("take-in-series-title", { name: series.whole.slice(0, 4) }) });
  if (series.missing.length) {
    const have = say("take-in-have", { n: series.parts.length, of: series.of });
    const lacking = say("take-in-lacking", { parts: series.missing.join(", ") });
    return box(heading, make("p", { textContent: have }), make("p", { textContent: lacking }), forgetButton(series));
  }
  try {
    return wholeBox(heading, series, await join(series.parts));
  } catch (error) {
    if (!(error instanceof NotWhole)) throw error;
    const why = error.why === "damaged" ? say("take-in-not-whole") : say("take-in-cannot-unpack");
    return box(heading, make("p", { textContent: why }), forgetButton(series));
  }
}

function wholeBox(heading, series, load) {
  const told = new Map(kept.told(series.whole).map((one) => [one.id, one]));
  const photos = load.photos.length ? [make("p", { textContent: say("take-in-photos", { n: load.photos.length }) })] : [];
  const status = make("div", { role: "status" });
  const press = make("button", { type: "button", className: "main", textContent: say("take-in-deliver") });
  press.addEventListener("click", () => deliver(series, load.entries, status, press));
  return box(
    heading,
    make("p", { textContent: say("take-in-holds", { n: load.entries.length }) }),
    entryList(load.entries, told),
    ...photos,
    press,
    status,
    ...(told.size ? [forgetButton(series)] : []),
  );
}

function deliveredBox({ texts, told }) {
  const heading = make("h2", { textContent: say("take-in-delivered-title") });
  return box(heading, entryList(texts, new Map(told.map((one) => [one.id, one]))));
}

/** One line an entry: of whom, which machine, when; and what became of it. */
function entryList(texts, told) {
  const lines = texts.map((text) => {
    const entry = outside(text);
    const item = make("li", { textContent: entryLine(entry) });
    const result = told.get(nameOf(text));
    if (result) item.append(make("small", { textContent: result.told }));
    if (result && !SAFE.includes(result.is)) item.append(rawText(text));
    item.dataset.entry = entry.id;
    item.dataset.is = result ? result.is : "";
    return item;
  });
  return make("ul", { className: "plain taken" }, ...lines);
}

function entryLine({ by, machine, at }) {
  const when = new Date(at);
  const time = Number.isNaN(when.getTime())
    ? at
    : when.toLocaleString(document.documentElement.lang, { dateStyle: "medium", timeStyle: "short" });
  return say("take-in-entry", { who: by.slice(-4), machine: machine || say("take-in-no-machine"), when: time });
}

/** The outside of an entry; what does not read is shown empty, and the yard's computer says what it is. */
function outside(text) {
  const entry = { id: "", by: "", machine: "", at: "" };
  try {
    const read = JSON.parse(text);
    for (const field of Object.keys(entry)) if (typeof read?.[field] === "string") entry[field] = read[field];
  } catch {
    // It stays as it is.
  }
  return entry;
}

/** What its results are kept under: its id, or where it has none all of it. */
function nameOf(text) {
  return outside(text).id || text;
}

function rawText(text) {
  const shown = make("pre", { textContent: text, tabIndex: 0 });
  return make("details", {}, make("summary", { textContent: say("take-in-as-written") }), shown);
}

/** Nothing goes by one slip of a glove: the button asks again. */
function forgetButton({ whole }) {
  const press = make("button", { type: "button", className: "small", textContent: say("take-in-forget") });
  press.addEventListener("click", () => {
    if (press.dataset.asked) {
      kept.forget(whole);
      show();
    }
    press.dataset.asked = "yes";
    press.textContent = say("take-in-forget-again");
  });
  return press;
}

function box(...children) {
  return make("section", { className: "sheet" }, ...children);
}

// --- Delivery ---

/** Sends what is not safe yet. What was refused stays here; what is safe everywhere is put away. */
async function deliver({ whole }, texts, status, press) {
  press.disabled = true;
  status.replaceChildren(make("p", { textContent: say("take-in-delivering") }));
  const told = new Map(kept.told(whole).map((one) => [one.id, one]));
  const waiting = texts.filter((text) => !SAFE.includes(told.get(nameOf(text))?.is));
  let trouble = [];
  for (const some of portions(waiting)) {
    const answer = await send(some);
    answer.entries.forEach((one, i) => told.set(nameOf(some[i]), { ...one, id: nameOf(some[i]) }));
    kept.keepTold(whole, [...told.values()]);
    trouble = answer.trouble;
    if (trouble.length) break;
  }
  const safe = texts.every((text) => SAFE.includes(told.get(nameOf(text))?.is));
  if (safe) {
    delivered.set(whole, { texts, told: [...told.values()] });
    kept.finish(whole);
  }
  if (trouble.length || !safe) await show();
  if (trouble.length) said.replaceChildren(...trouble);
  else tell([safe ? say("take-in-all-safe") : say("take-in-some-not")]);
  if (safe) await show();
  said.scrollIntoView({ block: "center" });
}

function portions(texts) {
  const all = [];
  let letters = MOST_LETTERS;
  for (const text of texts) {
    const last = all.at(-1);
    if (!last || last.length >= MOST_ENTRIES || letters + text.length > MOST_LETTERS) {
      all.push([text]);
      letters = text.length;
    } else {
      last.push(text);
      letters += text.length;
    }
  }
  return all;
}

/** One delivery: the results, and what stood in the way as lines to show. */
async function send(entries) {
  // No clock is told: the one of the phone that wrote them is not here, and this phone's says nothing about it.
  const body = JSON.stringify({ entries });
  const headers = { "Content-Type": "application/json" };
  let response;
  try {
    response = await fetch(`/api/y/${yard}/deliveries`, { method: "POST", headers, body });
  } catch {
    return { entries: [], trouble: [make("p", { textContent: say("take-in-no-connection") })] };
  }
  const answer = await response.json().catch(() => ({}));
  if (response.ok && Array.isArray(answer.entries)) return { entries: answer.entries, trouble: [] };
  const line = make("p", { textContent: answer.told || say("take-in-not-taken", { status: response.status }) });
  return { entries: [], trouble: response.status === 401 ? [line, signIn()] : [line] };
}

function signIn() {
  const here = encodeURIComponent(location.pathname);
  return make("a", { className: "button small", href: `/y/${yard}/sign-in?back=${here}`, textContent: say("take-in-sign-in") });
}
