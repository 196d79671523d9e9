// Reading a form into what an entry says. The shapes are those of the journal's entries; the choices' codes stand in the page.

import { quantity } from "./quantity.js";

/** @typedef {{what: string, next: string}} Asked  Something to mend before it can be kept. */
/** @typedef {{answer?: object, worse?: boolean, asked?: Asked[], nothing?: true}} Answered */
/** @typedef {import("./say.js").Speaker} Speaker */

/** @param {Speaker} speaker */
export function asker(speaker) {
  /** @param {string} key @param {Record<string, string>} [args] @returns {Asked} */
  return (key, args = {}) => ({ what: speaker.say(key, args), next: speaker.say(`${key}.next`) });
}

/** @param {ParentNode} within @param {string} name */
export function chosen(within, name) {
  const input = /** @type {HTMLInputElement|null} */ (within.querySelector(`input[name="${CSS.escape(name)}"]:checked`));
  return input?.value ?? "";
}

/** @param {ParentNode} within @param {string} name */
export function typed(within, name) {
  const field = /** @type {HTMLInputElement|null} */ (within.querySelector(`[name="${CSS.escape(name)}"]`));
  return field?.value.trim() ?? "";
}

/** @param {string} code */
const yesNo = (code) => ({ yes: true, no: false })[code] ?? null;

/**
 * Reads one point's fields. `restWell`: what was not touched and allows it counts as well.
 * @param {HTMLElement} fields @param {boolean} restWell @param {boolean} comma @param {Speaker} speaker
 * @returns {Answered}
 */
export function readPoint(fields, restWell, comma, speaker) {
  const id = fields.dataset.point ?? "";
  const data = JSON.parse(fields.dataset.reads ?? "{}");
  const ask = asker(speaker);
  const because = chosen(fields, `why.${id}`);
  if (because) return { answer: { "not-checked": { because } } };
  const read = readers[data.kind]?.({ fields, id, data, ask, comma }) ?? { nothing: true };
  if (read.nothing && restWell && data.oneTap && data.well) return { answer: data.well };
  if (read.answer) read.worse = Boolean(read.worse) || fields.querySelector("input[data-worse]:checked") !== null;
  return read;
}

/**
 * @typedef {{fields: HTMLElement, id: string, data: any, ask: ReturnType<typeof asker>, comma: boolean}} Point
 * @type {Record<string, (point: Point) => Answered>}
 */
const readers = {
  level,
  fitting: ({ fields, id, ask }) => {
    const took = chosen(fields, `a.${id}`);
    const strokes = whole(typed(fields, `strokes.${id}`));
    if (strokes === undefined) return { asked: [ask("ask-whole-number")] };
    return took ? { answer: { fitting: { took, ...(strokes === null ? {} : { strokes }) } } } : { nothing: true };
  },
  "pin-clip": word("pin-clip"),
  bolts: ({ fields, id, ask }) => {
    const state = chosen(fields, `a.${id}`);
    const count = whole(typed(fields, `count.${id}`));
    if (count === undefined) return { asked: [ask("ask-whole-number")] };
    return state ? { answer: { bolts: { state, how_many: count ?? (state === "tight" ? 0 : 1) } } } : { nothing: true };
  },
  leak: word("leak"),
  hose: word("hose"),
  structure: word("structure"),
  function: word("function"),
  look: word("look"),
  measure,
  crank,
};

/** An answer that is one word. @param {string} kind @returns {(point: Point) => Answered} */
function word(kind) {
  return ({ fields, id }) => {
    const code = chosen(fields, `a.${id}`);
    return code ? { answer: { [kind]: code } } : { nothing: true };
  };
}

/** Digits only; none where nothing is written, undefined where it is no whole number. @param {string} text */
function whole(text) {
  if (text === "") return null;
  return /^\d{1,9}$/.test(text) ? Number(text) : undefined;
}

/** @param {Point} point @returns {Answered} */
function level({ fields, id, data, ask }) {
  const reads = chosen(fields, `a.${id}`);
  if (reads === "as-it-must-be" && data.asItMustBe) return { answer: data.asItMustBe };
  const [looks, pose, oil] = ["looks", "pose", "oil"].map((name) => chosen(fields, `${name}.${id}`));
  if (!reads) return looks || pose || oil ? { asked: [ask("ask-missing-level")] } : { nothing: true };
  const missing = [
    ...(looks ? [] : [ask("ask-missing-looks")]),
    ...(pose ? [] : [ask("ask-missing-pose")]),
    ...(data.heat && !oil ? [ask("ask-missing-heat")] : []),
  ];
  if (missing.length > 0) return { asked: missing };
  return { answer: { level: { reads, ...(pose === "other" ? {} : { pose }), ...(oil ? { oil } : {}), looks } } };
}

/** @param {Point} point @returns {Answered} */
function measure({ fields, id, data, ask, comma }) {
  const texts = data.readings.map((/** @type {string} */ _, /** @type {number} */ i) => typed(fields, `v${i}.${id}`));
  const [byMethod, held] = [yesNo(chosen(fields, `m.${id}`)), yesNo(chosen(fields, `c.${id}`))];
  if (texts.every((/** @type {string} */ text) => text === "")) {
    return byMethod === null && held === null ? { nothing: true } : { asked: [ask("ask-missing-reading")] };
  }
  /** @type {Asked[]} */
  const asked = [];
  /** @type {object[]} */
  const readings = [];
  let worse = false;
  texts.forEach((/** @type {string} */ text, /** @type {number} */ i) => {
    if (text === "") {
      asked.push(ask("ask-missing-one-reading", { name: data.readings[i] }));
      return;
    }
    const read = reading(text, data, comma);
    if (!read) asked.push(ask("ask-quantity"));
    else {
      readings.push(read.said);
      worse ||= read.worse;
    }
  });
  if (byMethod === null) asked.push(ask("ask-missing-method"));
  if (data.condition && held === null) asked.push(ask("ask-missing-condition"));
  if (asked.length > 0) return { asked };
  const judged = byMethod === true && (!data.condition || held === true);
  return {
    answer: { measure: { readings, by_method: byMethod, ...(held === null ? {} : { condition_held: held }) } },
    worse: worse && judged,
  };
}

/** One reading: a value, or between two gauges. @param {string} text @param {any} data @param {boolean} comma */
function reading(text, data, comma) {
  const between = /^(?:over |>)\s*(?<over>.+?)(?:\s*under\s+(?<under>.+))?$|^(?:under |<)\s*(?<only>.+)$/i.exec(text.trim());
  if (between?.groups) {
    const { over, under, only } = between.groups;
    const [low, high] = [over, under ?? only].map((part) => (part === undefined ? null : quantity(part, data.unit, { comma, bare: true })));
    if ((over !== undefined && !low) || ((under ?? only) !== undefined && !high)) return null;
    return { said: { between: { ...(low ? { over: low.written } : {}), ...(high ? { under: high.written } : {}) } }, worse: false };
  }
  // The unit stands beside the field: a number without one is in it.
  const read = quantity(text, data.unit, { comma, bare: true });
  if (!read) return null;
  const spread = Math.max(read.plusMinus, Number(data.plusMinus ?? 0));
  const { number } = read;
  const outside = number !== null && ((data.over && number - spread > Number(data.over)) || (data.under && number + spread < Number(data.under)));
  return { said: { value: read.written }, worse: Boolean(outside) };
}

/** @param {Point} point @returns {Answered} */
function crank({ fields, id, data, ask }) {
  const said = Array.from({ length: data.cases }, (_, i) => chosen(fields, `k${i}.${id}`));
  const bypassed = yesNo(chosen(fields, `by.${id}`));
  if (said.every((code) => code === "") && bypassed === null) return { nothing: true };
  if (bypassed === null) return { asked: [ask("ask-missing-bypassed")] };
  return { answer: { crank: { cranked: said.map(yesNo), bypassed } } };
}

/**
 * The hour meter: nothing, a reading, or what is wrong with it.
 * @param {string} text @param {boolean} comma @param {Speaker} speaker
 * @returns {{hours?: any, asked?: Asked}}
 */
export function readHours(text, comma, speaker) {
  if (text === "") return {};
  const read = quantity(text, "h", { comma, bare: true });
  if (!read) return { asked: asker(speaker)("ask-quantity") };
  if (read.number !== null && read.number < 0) return { asked: asker(speaker)("ask-hours-negative") };
  return { hours: read.written };
}
