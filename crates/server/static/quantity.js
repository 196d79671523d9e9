// Reading a number with its unit as far as a phone must: enough to ask at once about a slip of the pen. The yard's computer reads it for good.

/** Spellings of units that the yard's computer reads; kept short: whoever writes another one is asked. */
const UNITS = /^(?:mm|cm|m|km|in|inch|inches|ft|foot|feet|yd|″|”|"|′|’|'|h|hr|hrs|hours?|min|minutes?|s|days?|bar|mbar|psi|kPa|MPa|Pa|L|l|litres?|liters?|mL|ml|US gal|gal|qt|pt|fl oz|g|kg|lb|lbs|oz|t|N|kN|lbf|N m|N·m|Nm|lb ft|lbf ft|°|deg|°C|°F|C|F|rpm|%|V|A|Ah|W|kW|hp)$/;
const FRACTIONS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞";
const NUMBER = new RegExp(`^[+\\-−]?(?:\\d+[ -]\\d+\\/\\d+|\\d+\\/\\d+|\\d+ ?[${FRACTIONS}]|[${FRACTIONS}]|\\d+(?:[.,]\\d+)?|[.,]\\d+)`);

/** @typedef {{number: number, unit: string, rest: string}} Piece */

/** The number and unit at the beginning of a text. @param {string} text @returns {Piece|null} */
function piece(text) {
  const found = NUMBER.exec(text);
  if (!found) return null;
  const after = text.slice(found[0].length).trimStart();
  const unit = /^[^\d±+]*?(?=\s*(?:±|\+\/?-|\d|$))/.exec(after)?.[0].trim() ?? "";
  return { number: value(found[0]), unit, rest: after.slice(after.indexOf(unit) + unit.length).trim() };
}

/** @param {string} written */
function value(written) {
  const text = written.replace("−", "-").replace(",", ".");
  const sign = text.startsWith("-") ? -1 : 1;
  const plain = text.replace(/^[+-]/, "");
  const parts = plain.split(/[ -]/).filter(Boolean);
  let sum = 0;
  for (const part of parts) {
    const [above, below] = part.split("/");
    if (below) sum += Number(above) / Number(below);
    else if ([...part].some((letter) => FRACTIONS.includes(letter))) {
      const vulgar = part.slice(-1).normalize("NFKD").split("⁄");
      sum += Number(part.slice(0, -1) || 0) + Number(vulgar[0]) / Number(vulgar[1]);
    } else sum += Number(part);
  }
  return sign * sum;
}

/**
 * @typedef {Object} Read
 * @property {string|{text: string, comma: "decimal"}} written  as it stands in an entry
 * @property {number|null} number   in `unit`; none where it was written in parts or in another unit
 * @property {number} plusMinus
 */

/**
 * Reads a quantity; none where it is none.
 * @param {string} text
 * @param {string|null} unit  the unit that `number` is to be in
 * @param {{comma: boolean, bare: boolean}} habits  whether a comma is the decimal sign here; whether a bare number is taken to be in `unit`
 * @returns {Read|null}
 */
export function quantity(text, unit, { comma, bare: bareIsRight }) {
  const trimmed = text.trim().replace(/\s+/g, " ");
  const [main, plusMinus, ...more] = trimmed.split(/\s*(?:±|\+\/-|\+-)\s*/);
  if (more.length > 0 || main === "" || plusMinus === "") return null;
  if (!comma && trimmed.includes(",")) return null;
  const pieces = pieceByPiece(main);
  if (!pieces) return null;
  const bare = pieces.length === 1 && pieces[0].unit === "";
  if (bare && !(unit && bareIsRight)) return null;
  if (!bare && !pieces.every((part) => UNITS.test(part.unit))) return null;
  const spread = plusMinus === undefined ? null : pieceByPiece(plusMinus);
  if (plusMinus !== undefined && (!spread || !spread.every((part) => part.unit === "" || UNITS.test(part.unit)))) return null;
  const whole = bare ? `${main} ${unit}${plusMinus === undefined ? "" : ` ± ${plusMinus}`}` : trimmed;
  const comparable = pieces.length === 1 && (bare || pieces[0].unit === unit);
  const alike = !spread || (spread.length === 1 && (spread[0].unit === "" || spread[0].unit === unit));
  return {
    written: whole.includes(",") ? { text: whole, comma: "decimal" } : whole,
    number: comparable && alike ? pieces[0].number : null,
    plusMinus: spread ? spread[0].number : 0,
  };
}

/** @param {string} text */
function pieceByPiece(text) {
  const pieces = [];
  for (let rest = text; rest !== ""; ) {
    const next = piece(rest);
    if (!next || !Number.isFinite(next.number) || pieces.length > 3) return null;
    pieces.push(next);
    rest = next.rest;
  }
  return pieces.length > 0 ? pieces : null;
}
