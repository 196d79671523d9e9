// The pocket page of one machine: shows one view at a time, keeps what is written, and never says more than it knows.

import { button, make } from "./element.js";
import { canKeep, entriesOf, keepPhoto, keepThing, leaveOutPhoto, notDelivered, onChange, thing } from "./keep.js";
import { showList, startList } from "./on-this-phone.js";
import { asker, chosen, readHours, readPoint, typed } from "./read.js";
import { speaker } from "./say.js";
import { shrink } from "./shrink.js";
import { signOut, tellSignedOut } from "./sign-out.js";
import { startWorker } from "./start-worker.js";
import { newId, write } from "./write.js";

const pocket = /** @type {HTMLElement} */ (document.getElementById("pocket"));
const dictionary = JSON.parse(pocket.dataset.words ?? "{}");
const voice = speaker(dictionary);
const { say, age } = voice;
const ask = asker(voice);
const HOUR = 3600 * 1000;

/** @param {string} id */
const element = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/** What came with the page: ids, what is answered, the verdict and its times by the clock of the yard's computer. @type {any} */
let page;
/** @type {HTMLElement[]} */
let views;
/** @type {HTMLElement[]} */
let stations;
/** When this page was asked for, by this phone's clock: its verdict knows what was delivered before. */
let askedAt = 0;

/** Takes in the page as it stands in the document. @param {number} asked */
function adopt(asked) {
  page = JSON.parse(pocket.dataset.pocket ?? "{}");
  views = [...pocket.querySelectorAll("section[data-view]")].map((view) => /** @type {HTMLElement} */ (view));
  stations = views.filter((view) => "station" in view.dataset);
  askedAt = asked;
}
// A page that this phone kept is as old as the worker says.
adopt(Number(document.body.dataset.kept ?? Date.now() - performance.now()));

/**
 * @typedef {Object} Walk  The round as this phone knows it.
 * @property {string} round
 * @property {string} book
 * @property {string} person
 * @property {number} begun
 * @property {string[]} answered
 * @property {boolean} closed
 */
const WALK = `walk ${page.tag} ${page.machine}`;
/** @type {Walk|null} */
let walk = null;
/** @type {(() => Promise<void>)|undefined} */
let deliverNow;
let deliveredHere = 0;

// --- The round, as far as this phone knows it ----------------------------------------------------------------------

async function loadWalk() {
  const there = /** @type {Walk|undefined} */ (await thing(WALK));
  const young = there && Date.now() - there.begun < page.holdsHours * HOUR;
  const own = there && young && there.book === page.book && there.person === page.person ? there : null;
  const same = own !== null && own.round === page.round;
  if (own && !own.closed) {
    walk = { ...own, answered: union(own.answered, same ? page.kept : []) };
  } else {
    // What was closed here is not gone on with, whether or not the yard's computer knows of it yet.
    walk = page.round && !same ? begun(page.round, page.begun, page.kept) : null;
  }
}

/** A round under way. @param {string} round @param {number} since @param {string[]} answered @returns {Walk} */
function begun(round, since, answered) {
  return { round, book: page.book, person: page.person, begun: since, answered, closed: false };
}

/** @param {string[]} a @param {string[]} b */
function union(a, b) {
  return [...new Set([...a, ...b])];
}

/** The round to write into: the one under way, or a new one from now on. */
function roundNow() {
  walk ??= begun(newId(Date.now()), Date.now(), []);
  return walk;
}

/** The point that a round is asked to show: the last eight bytes of its id, counted round the points. The yard's computer comes to the same one. */
function shownBy(/** @type {string} */ round) {
  const points = /** @type {string[]} */ (page.showMe ?? []);
  const low = BigInt(`0x${round.replaceAll("-", "").slice(-16)}`);
  return points.length === 0 ? null : points[Number(low % BigInt(points.length))];
}

/** Says at its point, and only there, that the round under way asks for a photo. */
function showMe() {
  const wanted = walk && !walk.closed ? shownBy(walk.round) : null;
  for (const box of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".show-me"))) {
    const point = /** @type {HTMLElement|null} */ (box.closest("fieldset[data-point]"))?.dataset.point;
    box.hidden = point === undefined || point !== wanted;
    if (!box.hidden) /** @type {HTMLDetailsElement|null} */ (box.closest("fieldset")?.querySelector("details:last-of-type"))?.setAttribute("open", "");
  }
}

/** @param {HTMLElement} station */
function pointsOf(station) {
  return /** @type {HTMLElement[]} */ ([...station.querySelectorAll("fieldset[data-point]")]);
}

/** @param {HTMLElement} fields */
const isAnswered = (fields) => walk?.answered.includes(fields.dataset.point ?? "") ?? false;

/** @param {HTMLElement} station */
const leftAt = (station) => pointsOf(station).filter((fields) => !isAnswered(fields)).length;

// --- Writing --------------------------------------------------------------------------------------------------------

/** @param {string} kind @param {object} body @param {{worse?: string[], photos?: string[]}} [more] */
async function keep(kind, body, more) {
  if (!holds) throw new Error("nobody is signed in on this phone");
  const writer = { yard: page.yard, tag: page.tag, machine: page.machine, person: page.person };
  const kept = await write(writer, kind, body, more);
  tell(say("phone-kept-here"));
  deliverNow?.();
  return kept;
}

/** @param {{answers?: object[], hours?: any, closes?: object, noPhoto?: string}} part @param {{worse?: string[], photos?: string[]}} more */
function keepPart(part, more) {
  const { round } = roundNow();
  const body = {
    round, book: page.book, purpose: page.purpose, from_paper: false,
    ...(part.hours === undefined ? {} : { hours: part.hours }), ...(part.closes ? { closes: part.closes } : {}),
    ...(part.noPhoto ? { no_photo: part.noPhoto } : {}),
    ...(part.answers && part.answers.length > 0 ? { answers: part.answers } : {}),
  };
  return keep("walk-round", body, more);
}

/** @type {Record<string, (form: HTMLFormElement, button: HTMLButtonElement|null) => Promise<void>>} */
const keepers = {
  station: keepStation,
  close: closeRound,
  handover: keepHandover,
  fault: keepFault,
  run: (form) => keepRun(form, "start"),
  "run-end": (form) => keepRun(form, "end"),
  hours: async (form) => {
    const read = readHours(typed(form, "hours"), page.comma, voice);
    if (!read.hours) return askOn(form, [read.asked ?? ask("ask-hours-empty")]);
    await keep("meter-reading", { shows: read.hours });
    done(form);
  },
  note: (form) => keepText(form, "text", (text) => keep("note", { text })),
  "stand-down": (form) => keepText(form, "why", (why) => keep("stand-down", { why }, { worse: [why] })),
  photo: async (form) => {
    const photos = photosIn(form);
    if (photos.length === 0) return askOn(form, [ask("ask-photo")]);
    const text = typed(form, "text");
    for (const photo of photos) await keep("photo", { photo, ...(text ? { text } : {}) }, { photos: [photo] });
    done(form);
  },
};

/** @param {HTMLFormElement} form @param {HTMLButtonElement|null} button */
async function keepStation(form, button) {
  const station = /** @type {HTMLElement} */ (form.closest("section"));
  const restWell = button?.value === "well";
  /** @type {object[]} */
  const answers = [];
  /** @type {string[]} */
  const [worse, photos, points] = [[], [], []];
  let asked = false;
  let noPhoto = "";
  for (const fields of pointsOf(station)) {
    const point = fields.dataset.point ?? "";
    if (walk && shownBy(walk.round) === point) noPhoto = typed(fields, `np.${point}`);
    const read = readPoint(fields, restWell && !isAnswered(fields), page.comma, voice);
    askAt(fields, read.asked ?? (read.nothing && !isAnswered(fields) ? [ask("ask-not-answered")] : []));
    asked ||= Boolean(read.asked) || (Boolean(read.nothing) && !isAnswered(fields));
    if (!read.answer) continue;
    const note = typed(fields, `n.${point}`);
    const pictures = photosIn(fields);
    answers.push({ point, answer: read.answer, ...(note ? { note } : {}), ...(pictures.length > 0 ? { photos: pictures } : {}) });
    points.push(point);
    photos.push(...pictures);
    if (read.worse) worse.push(JSON.parse(fields.dataset.reads ?? "{}").what);
  }
  if (answers.length > 0) {
    await keepPart({ answers, noPhoto }, { worse, photos });
    const now = roundNow();
    now.answered = union(now.answered, points);
    await keepThing(WALK, now);
    for (const fields of pointsOf(station)) if (points.includes(fields.dataset.point ?? "")) settle(fields);
  }
  await refresh();
  if (asked) {
    /** @type {HTMLElement|null} */ (station.querySelector(".asked.now"))?.scrollIntoView({ block: "center" });
    return;
  }
  location.hash = after(station);
}

/** A point that was just kept: its fields are emptied, what was kept is said. @param {HTMLElement} fields */
function settle(fields) {
  for (const input of fields.querySelectorAll("input, textarea")) {
    if (input instanceof HTMLInputElement && (input.type === "radio" || input.type === "checkbox")) input.checked = false;
    else /** @type {HTMLInputElement} */ (input).value = "";
  }
  fields.querySelectorAll(".photos").forEach((place) => place.replaceChildren());
}

/** The next stop along the lap with something left, else the list. @param {HTMLElement} station */
function after(station) {
  const at = stations.indexOf(station);
  const order = [...stations.slice(at + 1), ...stations.slice(0, at + 1)];
  const next = order.find((other) => leftAt(other) > 0 && !mayNotStart(other));
  return next?.dataset.view ?? "round";
}

/** The hour meter as typed, or the words that nobody read it. @param {HTMLFormElement} form */
function hoursOrNot(form) {
  const text = typed(form, "hours");
  const notRead = text.toLowerCase() === say("hours-not-read").toLowerCase();
  return { ...readHours(notRead ? "" : text, page.comma, voice), notRead };
}

/** @param {HTMLFormElement} form */
async function closeRound(form) {
  const read = hoursOrNot(form);
  if (read.asked) return askOn(form, [read.asked]);
  if (page.meter && read.hours === undefined && !read.notRead) return askOn(form, [ask("ask-hours")]);
  const found = await worseNow();
  // Whoever is out of range gives no verdict; what was found here stands it down all the same.
  const verdict = found.length > 0 ? "stand-down" : "not-given";
  await keepPart({ hours: read.hours, closes: { verdict, reasons: [], book: page.book, program: page.program } }, {});
  const now = { ...roundNow(), closed: true };
  await keepThing(WALK, now);
  walk = null;
  tell(say("pocket-round-closed"));
  done(form);
}

/** @param {HTMLFormElement} form */
async function keepHandover(form) {
  /** @type {import("./read.js").Asked[]} */
  const asked = [];
  const engine = chosen(form, "engine");
  if (!engine) asked.push(ask("ask-engine"));
  const steps = [];
  for (const input of form.querySelectorAll('input[name^="s."]')) {
    const name = /** @type {HTMLInputElement} */ (input).name;
    if (steps.some((step) => `s.${step.step}` === name)) continue;
    const [step, state] = [name.slice(2), chosen(form, name)];
    const note = typed(form, `n.${step}`);
    steps.push({ step, state, ...(note ? { note } : {}) });
    const legend = input.closest("fieldset")?.querySelector("legend")?.lastChild?.textContent ?? step;
    if (!state) asked.push(ask("ask-rest-step", { step: legend }));
  }
  const read = hoursOrNot(form);
  if (read.asked) asked.push(read.asked);
  if (asked.length > 0) return askOn(form, asked);
  const next = typed(form, "next");
  const hours = read.hours === undefined ? {} : { hours: read.hours };
  const worse = engine === "running" ? [say("pocket-left-running")] : [];
  for (const lock of form.querySelectorAll('fieldset[data-lock] input[value="not-done"]:checked')) {
    const what = lock.closest("fieldset")?.querySelector("legend")?.lastChild?.textContent ?? "";
    worse.push(`${say("pocket-left-unlocked")}: ${what}`);
  }
  await keep("handover", { book: page.book, engine, ...hours, ...(next ? { next } : {}), steps }, { worse });
  // Whoever comes next walks their own round.
  walk = null;
  await keepThing(WALK, undefined);
  done(form);
}

/** @param {HTMLFormElement} form */
async function keepFault(form) {
  const [what, severity] = [typed(form, "what"), chosen(form, "severity")];
  const asked = [...(what ? [] : [ask("ask-fault-what")]), ...(severity ? [] : [ask("ask-fault-severity")])];
  if (asked.length > 0) return askOn(form, asked);
  const photos = photosIn(form);
  const kept = await keep("fault", { what, severity }, { worse: severity === "stand-down" ? [what] : [] });
  for (const photo of photos) await keep("photo", { photo, of: kept.id, text: what }, { photos: [photo] });
  done(form);
}

/** @param {HTMLFormElement} form @param {"start"|"end"} part */
async function keepRun(form, part) {
  const read = hoursOrNot(form);
  if (read.asked) return askOn(form, [read.asked]);
  if (part === "start" && !(await mayStart())) return refresh();
  const [work, amiss] = [typed(form, "work"), typed(form, "amiss")];
  await keep("run", {
    part, ...(read.hours === undefined ? {} : { hours: read.hours }), ...(work ? { work } : {}), ...(amiss ? { amiss: [amiss] } : {}),
  });
  done(form);
}

/** @param {HTMLFormElement} form @param {string} name @param {(text: string) => Promise<any>} then */
async function keepText(form, name, then) {
  const text = typed(form, name);
  if (!text) return askOn(form, [ask("ask-empty")]);
  await then(text);
  done(form);
}

/** @param {HTMLFormElement} form */
function done(form) {
  askOn(form, []);
  form.reset();
  form.querySelectorAll(".photos").forEach((place) => place.replaceChildren());
  dirty = false;
  refresh();
  location.hash = "home";
}

// --- Photos -----------------------------------------------------------------------------------------------------------

/** @param {ParentNode} within */
function photosIn(within) {
  return [...within.querySelectorAll("[data-photo-id]")].map((shown) => /** @type {HTMLElement} */ (shown).dataset.photoId ?? "");
}

/** @param {HTMLInputElement} field */
async function takePhoto(field) {
  const file = field.files?.[0];
  const place = field.closest("label")?.nextElementSibling;
  if (!file || !place) return;
  const small = await shrink(file);
  const photo = { id: newId(Date.now()), tag: page.tag, blob: small ?? file, state: /** @type {const} */ ("waiting"), used: false, at: Date.now() };
  await keepPhoto(photo);
  place.append(thumbnail(photo.id, photo.blob, small !== null));
  field.value = "";
  dirty = true;
}

/** @param {string} id @param {Blob} blob @param {boolean} small */
function thumbnail(id, blob, small) {
  const shown = small ? make("img", { alt: say("phone-photo-kept"), src: URL.createObjectURL(blob) }) : say("phone-photo-not-read");
  const out = button(say("phone-remove-photo"), async () => {
    await leaveOutPhoto(id);
    figure.remove();
  });
  const figure = make("figure", {}, shown, out);
  figure.dataset.photoId = id;
  return figure;
}

// --- What is asked and told ---------------------------------------------------------------------------------------

/** @param {import("./read.js").Asked[]} asked @param {string} [id] */
function askedBox(asked, id) {
  const lines = asked.flatMap((one) => [one.what, make("small", { textContent: one.next })]);
  return make("div", { className: "asked now", role: "alert", ...(id ? { id } : {}) }, ...lines);
}

/** @param {HTMLFormElement} form @param {import("./read.js").Asked[]} asked */
function askOn(form, asked) {
  const place = /** @type {HTMLElement} */ (form.querySelector(".told"));
  place.replaceChildren(...(asked.length > 0 ? [askedBox(asked)] : []));
  if (asked.length > 0) place.scrollIntoView({ block: "center" });
}

/** @param {HTMLElement} fields @param {import("./read.js").Asked[]} asked */
function askAt(fields, asked) {
  fields.querySelector(".asked.now")?.remove();
  fields.removeAttribute("aria-describedby");
  if (asked.length === 0) return;
  const id = `asked-${fields.dataset.point}`;
  fields.querySelector("legend")?.after(askedBox(asked, id));
  fields.setAttribute("aria-describedby", id);
}

/** @param {string} text */
function tell(text) {
  const place = element("said");
  place.textContent = text;
  place.hidden = false;
}

// --- What the machine's state is, as far as this phone may say ------------------------------------------------------

/**
 * What was written here of this machine since the page's verdict. What the yard's computer took before it gave that verdict is in
 * it. Its clock and ours may differ: it goes by delivery.
 */
async function since() {
  const entries = await entriesOf(page.tag);
  return entries.filter((entry) => entry.machine === page.machine && (entry.state !== "delivered" || (entry.since ?? 0) > askedAt));
}

/** What was written here since the page's verdict and stands the machine down. */
async function worseNow() {
  return (await since()).flatMap((entry) => entry.worse);
}

/** Whether the machine was handed over here since the page's verdict: that was for the run that is over. */
async function handedOver() {
  return (await since()).some((entry) => entry.kind === "handover");
}

/** How far this phone's clock is ahead of that of the yard's computer, milliseconds, as last compared. */
let ahead = 0;
const yardNow = () => Date.now() - ahead;

/** Less than this back is a clock that is put right, not one that is set, milliseconds. */
const PUT_RIGHT = 2 * 60_000;
/** The latest that this phone's clock was seen at since it was last compared, milliseconds. */
let latest = 0;

/** Notes what the clock shows. One that was set back cannot tell how old a verdict is, until it is compared again. */
async function lookAtClock() {
  const now = Date.now();
  if (now <= latest) return;
  latest = now;
  await keepThing("clock", latest);
}

/** The clock was just compared: what it showed before counts no more. */
async function clockCompared() {
  latest = 0;
  await lookAtClock();
}

/** Whether the verdict on this page has run out, or nobody can tell any more. */
function verdictGone() {
  const setBack = Date.now() < latest - PUT_RIGHT;
  const ranOut = page.until !== null && (setBack || yardNow() > page.until);
  return page.verdict !== "stand-down" && (ranOut || standsDownNow);
}

async function mayStart() {
  const found = await worseNow();
  const over = verdictGone() || (await handedOver());
  return holds && page.verdict !== "stand-down" && !over && found.length === 0;
}

/** @param {HTMLElement} station */
const mayNotStart = (station) => "starts" in station.dataset && stoodDown;
let stoodDown = Boolean(page.stoodDown);
/** The yard's computer said since this page came that the machine stands down. */
let standsDownNow = false;
/** Why, in its words. @type {string[]} */
let saidByYard = [];
let holds = false;

async function refresh() {
  await lookAtClock();
  const found = await worseNow();
  found.push(...saidByYard.filter((what) => !found.includes(what)));
  stoodDown = Boolean(page.stoodDown) || found.length > 0;
  const handed = await handedOver();
  const worse = element("worse");
  worse.hidden = found.length === 0;
  if (found.length > 0) worse.replaceChildren(...askedBox([{ what: say("pocket-worse", { what: [...new Set(found)].join("; ") }), next: say("pocket-worse.next") }]).childNodes);
  const gone = verdictGone() || handed || found.length > 0;
  element("verdict-gone").hidden = !verdictGone() || handed || found.length > 0;
  element("handed-over").hidden = !handed || found.length > 0;
  element("verdict-now").hidden = gone;
  const reasons = document.getElementById("reasons");
  if (reasons) reasons.hidden = gone;
  element("verdict-age").textContent = say("pocket-verdict-age", { age: age(yardNow() - page.at) });
  const start = await mayStart();
  element("no-start").hidden = start;
  element("may-start").hidden = !start;
  element("nobody").hidden = holds;
  for (const form of pocket.querySelectorAll("form[data-keeps]")) form.classList.toggle("nobody", !holds);
  refreshRound();
}

function refreshRound() {
  for (const stops of pocket.querySelectorAll("ul[data-starts]")) {
    const list = /** @type {HTMLElement} */ (stops);
    list.hidden = stoodDown;
    /** @type {HTMLElement} */ (list.previousElementSibling).hidden = !stoodDown;
  }
  showMe();
  const all = stations.reduce((sum, station) => sum + pointsOf(station).length, 0);
  const left = stations.reduce((sum, station) => sum + leftAt(station), 0);
  element("progress-words").textContent = say("pocket-progress", { done: all - left, all });
  for (const station of stations) {
    const [of, open] = [pointsOf(station).length, leftAt(station)];
    const small = pocket.querySelector(`[data-stop="${CSS.escape(station.dataset.view ?? "")}"]`);
    if (small) small.textContent = open === 0 ? say("pocket-stop-done") : say("pocket-stop-left", { done: of - open, all: of });
    const stopped = mayNotStart(station);
    const told = /** @type {HTMLElement|null} */ (station.querySelector(".not-started"));
    if (told) told.hidden = !stopped;
    const form = /** @type {HTMLElement} */ (station.querySelector("form"));
    form.hidden = stopped;
    for (const fields of pointsOf(station)) markAnswered(fields);
  }
  element("close-round").textContent = left === 0 ? say("close-round") : say("pocket-close-unfinished", { n: left });
  element("close-round").className = left === 0 ? "main" : "";
  element("to-round").textContent = say(walk && walk.answered.length > 0 ? "go-on-round" : "do-walk-round");
}

/** @param {HTMLElement} fields */
function markAnswered(fields) {
  const there = fields.querySelector(".answered-before");
  if (!isAnswered(fields)) return there?.remove();
  if (there) return;
  const told = make("p", { className: "strong answered-before", textContent: say("pocket-answered-before") });
  fields.querySelector("legend")?.after(told);
}

// --- Views ------------------------------------------------------------------------------------------------------------

let dirty = false;

function showView() {
  const name = decodeURIComponent(location.hash.slice(1)) || "home";
  const view = views.find((other) => other.dataset.view === name) ?? views[0];
  for (const other of views) other.hidden = other !== view;
  /** @type {HTMLElement} */ (document.querySelector(".to-round")).hidden = !("station" in view.dataset);
  element("where").textContent = "station" in view.dataset ? element("progress-words").textContent : "";
  view.querySelector("h2")?.focus({ preventScroll: true });
  window.scrollTo(0, 0);
}

/** "Walk it round": on to the first stop with something left. */
function goOn() {
  const next = stations.find((station) => leftAt(station) > 0 && !mayNotStart(station));
  location.hash = next?.dataset.view ?? "round";
}

async function start() {
  startWorker(document.body.dataset.mark ?? "");
  pocket.hidden = false;
  const able = await canKeep();
  if (able) {
    await knowHolder();
    await loadWalk();
    await refresh();
  }
  listen();
  showView();
  element("cannot-keep").hidden = able;
  if (!able) return;
  const back = () => location.pathname + location.hash;
  deliverNow = await startList({ tag: page.tag, speaker: voice, address: page.address, words: dictionary, back, onDelivered });
}

function listen() {
  document.addEventListener("submit", (event) => {
    const form = /** @type {HTMLFormElement} */ (event.target);
    const keeper = keepers[form.dataset.keeps ?? ""];
    if ("signsOut" in form.dataset) {
      event.preventDefault();
      leave(form);
      return;
    }
    if (!keeper) return;
    event.preventDefault();
    const { submitter } = /** @type {SubmitEvent} */ (event);
    submitOnce(form, () => keeper(form, /** @type {HTMLButtonElement|null} */ (submitter)));
  });
  pocket.addEventListener("change", (event) => {
    const field = /** @type {HTMLInputElement} */ (event.target);
    dirty = true;
    if (field.type === "file") takePhoto(field);
  });
  pocket.addEventListener("click", (event) => {
    if (!/** @type {HTMLElement} */ (event.target).closest("#to-round")) return;
    event.preventDefault();
    goOn();
  });
  for (const sign of ["pointerdown", "keydown"]) document.addEventListener(sign, () => touch(), { passive: true });
  window.addEventListener("hashchange", showView);
  onChange(() => refresh());
  setInterval(() => {
    if (page.idle && Date.now() - touched > page.idle) letGo();
    hearMachine().catch(() => {});
    refresh();
  }, 30_000);
}

/** When this phone's pages were last touched, as kept: a page that is opened anew does not count as touched. */
let touched = Date.now();
let touchKept = 0;

/** @param {number} [at] */
async function touch(at = Date.now()) {
  touched = at;
  if (at - touchKept < 20_000) return;
  touchKept = at;
  await keepThing("touched", at);
}

/** On a device of several people, whoever has put it down writes no more: the next one signs in. What they kept stays. */
async function letGo() {
  await signOut(page.tag);
  holds = false;
}

/** Signs out here at once, and with the yard's computer as soon as it is in reach. @param {HTMLFormElement} form */
async function leave(form) {
  const heard = await signOut(page.tag);
  holds = false;
  if (heard) {
    location.href = `/y/${page.tag}`;
    return;
  }
  form.hidden = true;
  tell(say("pocket-signed-out"));
  await refresh();
  await showList();
}

/** What the yard's computer says of this machine now: somebody else may have found something since this page came. */
async function hearMachine() {
  const got = await fetch(`/api/y/${page.tag}/machines/${page.machine}`, { cache: "no-store", signal: AbortSignal.timeout(3000) });
  if (!got.ok) return;
  const { verdict, reasons } = await got.json();
  const down = reasons.filter((/** @type {any} */ reason) => reason.weighs === "stand-down" && !reason.unknown && reason.finding);
  standsDownNow = verdict === "stand-down";
  saidByYard = down.map((/** @type {any} */ reason) => reason.what);
  await refresh();
}

/** A double tap is one tap. @param {HTMLFormElement} form @param {() => Promise<void>} work */
async function submitOnce(form, work) {
  if (form.dataset.busy) return;
  form.dataset.busy = "yes";
  try {
    await work();
  } catch (trouble) {
    // What could not be kept must not look as if it were.
    console.error(trouble);
    element("cannot-keep").hidden = false;
    tell(element("cannot-keep").textContent ?? "");
  } finally {
    delete form.dataset.busy;
  }
}

/** Who writes on this phone, and how far its clock is off: as the yard's computer says, and as last heard where it is out of reach. */
async function knowHolder() {
  // A page that no worker kept came straight from the yard's computer: for whoever is signed in, just now.
  const fromYard = document.body.dataset.kept === undefined;
  await tellSignedOut(page.tag).catch(() => false);
  const known = await thing("me");
  if (fromYard) {
    ahead = Date.now() - page.at;
    await clockCompared();
    await touch();
    await keepThing("me", known?.person === page.person ? known : { person: page.person, name: "" });
  } else {
    ahead = (await thing("ahead")) ?? 0;
    latest = (await thing("clock")) ?? 0;
    touched = (await thing("touched")) ?? 0;
    if (page.idle && Date.now() - touched > page.idle) await letGo();
  }
  await hearHolder().catch(() => {});
  await keepThing("ahead", ahead);
  holds = (await thing("me"))?.person === page.person;
}

async function hearHolder() {
  const got = await fetch(`/api/y/${page.tag}/me`, { cache: "no-store", signal: AbortSignal.timeout(3000) });
  if (!got.ok) return;
  const date = Date.parse(got.headers.get("Date") ?? "");
  if (Number.isFinite(date)) {
    ahead = Date.now() - date;
    await clockCompared();
  }
  const { person, name } = await got.json();
  await keepThing("me", { person, name });
}

/** With everything delivered and nothing half written, the page is taken in anew: with the verdict that counts it in. @param {import("./deliver.js").Round} round */
async function onDelivered(round) {
  deliveredHere += round.delivered;
  if (round.delivered > 0) hearMachine().catch(() => {});
  const { entries } = await notDelivered(page.tag);
  const waiting = entries.some((entry) => entry.state === "waiting");
  const home = (location.hash || "#home") === "#home";
  if (deliveredHere === 0 || !round.reached || round.signIn || waiting || !home || dirty) return;
  // The old page stays until the new one is here: on a plain address it could not be opened again.
  const asked = Date.now();
  const got = await fetch(location.pathname, { cache: "no-store" });
  if (!got.ok || got.redirected) return;
  const fresh = new DOMParser().parseFromString(await got.text(), "text/html").getElementById("pocket");
  if (!fresh) return;
  deliveredHere = 0;
  pocket.dataset.pocket = fresh.dataset.pocket;
  pocket.replaceChildren(...fresh.childNodes);
  adopt(asked);
  standsDownNow = false;
  saidByYard = [];
  await loadWalk();
  await refresh();
  showView();
  await showList();
}

start();
