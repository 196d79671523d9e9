// Square codes (QR codes) after ISO/IEC 18004: byte mode, versions 1 to 20, levels L and M.

/** Error correction codewords a block and number of blocks, version 1 first. Source: ISO/IEC 18004:2015, table 9. */
const BLOCKS = {
  L: [[7, 1], [10, 1], [15, 1], [20, 1], [26, 1], [18, 2], [20, 2], [24, 2], [30, 2], [18, 4],
    [20, 4], [24, 4], [26, 4], [30, 4], [22, 6], [24, 6], [28, 6], [30, 6], [28, 7], [28, 8]],
  M: [[10, 1], [16, 1], [26, 1], [18, 2], [24, 2], [16, 4], [18, 4], [22, 4], [22, 5], [26, 5],
    [30, 5], [22, 8], [22, 9], [24, 9], [24, 10], [28, 10], [28, 11], [26, 13], [26, 14], [26, 16]],
};
/** The two bits that name a level. Source: table 12. */
const LEVEL_BITS = { L: 1, M: 0 };
/** Light modules round the code. Source: 6.3.8. */
const MARGIN = 4;
const MOST_VERSION = 20;
const SVG = "http://www.w3.org/2000/svg";

/** Whether a mask turns the module in column x and row y. Source: table 10. */
const MASKS = [
  (x, y) => (x + y) % 2 === 0,
  (x, y) => y % 2 === 0,
  (x) => x % 3 === 0,
  (x, y) => (x + y) % 3 === 0,
  (x, y) => (Math.floor(y / 2) + Math.floor(x / 3)) % 2 === 0,
  (x, y) => ((x * y) % 2) + ((x * y) % 3) === 0,
  (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2 === 0,
  (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2 === 0,
];

/**
 * How a version is made up at a level.
 * @param {number} version 1 to 20
 * @param {"L"|"M"} level
 * @returns {{total: number, data: number, correction: number, blocks: number, bytes: number}} codewords in all, of data, of
 *   correction in each block, blocks, and the most bytes that fit
 */
export function qrMakeUp(version, level) {
  const [correction, blocks] = BLOCKS[level][version - 1];
  const total = Math.floor(freeModules(version) / 8);
  const data = total - correction * blocks;
  return { total, data, correction, blocks, bytes: Math.floor((data * 8 - 4 - countBits(version)) / 8) };
}

/**
 * The modules of the code for some bytes: the smallest version that holds them, or the one asked for; the mask of least penalty, or
 * the one asked for.
 * @param {Uint8Array} bytes
 * @param {{level: "L"|"M", version?: number, mask?: number}} options
 * @returns {{size: number, version: number, mask: number, dark: (x: number, y: number) => boolean}}
 * @throws {RangeError} where the bytes do not fit
 */
export function qrModules(bytes, { level, version, mask }) {
  const chosen = version ?? smallest(bytes.length, level);
  if (!(chosen >= 1 && chosen <= MOST_VERSION) || qrMakeUp(chosen, level).bytes < bytes.length) {
    throw new RangeError(`${bytes.length} bytes do not fit`);
  }
  const grid = functionPatterns(chosen);
  placeData(grid, codewords(bytes, chosen, level));
  const masked = (mask === undefined ? MASKS.map((_, i) => i) : [mask]).map((i) => withMask(grid, level, i));
  const best = masked.reduce((a, b) => (b.penalty < a.penalty ? b : a));
  const { size } = grid;
  return { size, version: chosen, mask: best.mask, dark: (x, y) => best.cells[y * size + x] === 1 };
}

/**
 * The code as a drawing with its light margin, to be scaled by its container.
 * @param {Uint8Array} bytes
 * @param {{level: "L"|"M", version?: number, title: string}} options the title is what is read out instead
 * @returns {SVGElement}
 */
export function qrSvg(bytes, { level, version, title }) {
  const code = qrModules(bytes, { level, version });
  const side = code.size + 2 * MARGIN;
  const svg = element("svg", { viewBox: `0 0 ${side} ${side}`, role: "img", "shape-rendering": "crispEdges" });
  const name = element("title", {});
  name.textContent = title;
  svg.append(
    name,
    element("rect", { width: side, height: side, fill: "#fff" }),
    element("path", { d: outline(code), fill: "#000" }),
  );
  return svg;
}

function element(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

/** Runs of dark modules, row by row. */
function outline({ size, dark }) {
  let path = "";
  for (let y = 0; y < size; y += 1) {
    for (let x = 0; x < size; x += 1) {
      if (!dark(x, y)) continue;
      const from = x;
      while (x + 1 < size && dark(x + 1, y)) x += 1;
      path += `M${from + MARGIN} ${y + MARGIN}h${x - from + 1}v1h${from - x - 1}z`;
    }
  }
  return path;
}

function smallest(length, level) {
  for (let version = 1; version <= MOST_VERSION; version += 1) {
    if (qrMakeUp(version, level).bytes >= length) return version;
  }
  return MOST_VERSION + 1;
}

/** Bits of the length that stands before the bytes. Source: table 3. */
function countBits(version) {
  return version < 10 ? 8 : 16;
}

function sizeOf(version) {
  return 17 + 4 * version;
}

/** Modules left for data and correction: all, less the patterns below. */
function freeModules(version) {
  const alignments = centres(version).length;
  const crossed = alignments > 2 ? 2 * (alignments - 2) : 0;
  const patterns = alignments ? (alignments * alignments - 3) * 25 - crossed * 5 : 0;
  const timing = 2 * (sizeOf(version) - 16);
  return sizeOf(version) ** 2 - 3 * 64 - timing - patterns - 31 - (version >= 7 ? 36 : 0);
}

/** Where the alignment patterns' centres are, in both directions. Source: annex E. */
function centres(version) {
  if (version === 1) return [];
  const count = Math.floor(version / 7) + 2;
  const last = sizeOf(version) - 7;
  const step = Math.ceil((last - 6) / (count - 1) / 2) * 2;
  const rest = Array.from({ length: count - 1 }, (_, i) => last - i * step).reverse();
  return [6, ...rest];
}

// --- From bytes to codewords: 7.4 and 7.5 ---

function codewords(bytes, version, level) {
  const { total, data, correction, blocks } = qrMakeUp(version, level);
  const words = dataWords(bytes, version, data);
  const short = Math.floor(data / blocks);
  const long = data % blocks;
  const generator = generatorOf(correction);
  const parts = [];
  for (let i = 0, at = 0; i < blocks; i += 1) {
    const end = at + short + (i >= blocks - long ? 1 : 0);
    const part = words.subarray(at, end);
    parts.push({ part, check: remainder(part, generator) });
    at = end;
  }
  const out = [];
  for (let i = 0; i <= short; i += 1) for (const { part } of parts) if (i < part.length) out.push(part[i]);
  for (let i = 0; i < correction; i += 1) for (const { check } of parts) out.push(check[i]);
  if (out.length !== total) throw new RangeError("codewords do not add up");
  return out;
}

function dataWords(bytes, version, length) {
  const words = new Uint8Array(length);
  let at = 0;
  const put = (value, bits) => {
    for (let bit = bits - 1; bit >= 0; bit -= 1, at += 1) words[at >> 3] |= ((value >>> bit) & 1) << (7 - (at & 7));
  };
  put(4, 4);
  put(bytes.length, countBits(version));
  for (const byte of bytes) put(byte, 8);
  // The terminator and the filling up to a whole codeword are noughts, which are there already.
  const used = Math.min(Math.ceil((at + 4) / 8), length);
  for (let i = used; i < length; i += 1) words[i] = (i - used) % 2 ? 0x11 : 0xec;
  return words;
}

// The field of 256 elements over x^8 + x^4 + x^3 + x^2 + 1.
const POWERS = new Uint8Array(255);
const LOGS = new Uint8Array(256);
for (let i = 0, value = 1; i < 255; i += 1) {
  POWERS[i] = value;
  LOGS[value] = i;
  value = (value << 1) ^ (value & 0x80 ? 0x11d : 0);
}

function times(a, b) {
  return a && b ? POWERS[(LOGS[a] + LOGS[b]) % 255] : 0;
}

/** The product of (x - 2^i) for i below the degree, without its leading one. */
function generatorOf(degree) {
  let product = [1];
  for (let i = 0; i < degree; i += 1) {
    const next = [...product, 0];
    product.forEach((term, j) => {
      next[j + 1] ^= times(term, POWERS[i]);
    });
    product = next;
  }
  return product.slice(1);
}

function remainder(words, generator) {
  const rest = new Uint8Array(generator.length);
  for (const word of words) {
    const factor = word ^ rest[0];
    rest.copyWithin(0, 1);
    rest[rest.length - 1] = 0;
    generator.forEach((term, i) => {
      rest[i] ^= times(term, factor);
    });
  }
  return rest;
}

// --- From codewords to modules: 6.3 and 7.7 ---

function functionPatterns(version) {
  const size = sizeOf(version);
  const grid = { size, version, cells: new Uint8Array(size * size), fixed: new Uint8Array(size * size) };
  for (let i = 0; i < size; i += 1) {
    fix(grid, 6, i, i % 2 === 0);
    fix(grid, i, 6, i % 2 === 0);
  }
  for (const [x, y] of [[3, 3], [size - 4, 3], [3, size - 4]]) square(grid, x, y, 4, [2, 4]);
  const at = centres(version);
  const last = at.length - 1;
  at.forEach((x, i) => at.forEach((y, j) => {
    const corner = (i === 0 && j === 0) || (i === 0 && j === last) || (i === last && j === 0);
    if (!corner) square(grid, x, y, 2, [1]);
  }));
  formatBits(grid, 0);
  if (version >= 7) versionBits(grid);
  return grid;
}

function fix({ size, cells, fixed }, x, y, dark) {
  cells[y * size + x] = dark ? 1 : 0;
  fixed[y * size + x] = 1;
}

/** Rings round a centre, dark but for those named. */
function square(grid, x, y, reach, light) {
  for (let dy = -reach; dy <= reach; dy += 1) {
    for (let dx = -reach; dx <= reach; dx += 1) {
      const ring = Math.max(Math.abs(dx), Math.abs(dy));
      const inside = x + dx >= 0 && x + dx < grid.size && y + dy >= 0 && y + dy < grid.size;
      if (inside) fix(grid, x + dx, y + dy, !light.includes(ring));
    }
  }
}

/** Both copies of the fifteen bits that name level and mask. Source: 7.9 and annex C. */
function formatBits(grid, value) {
  const { size } = grid;
  let rest = value;
  for (let i = 0; i < 10; i += 1) rest = (rest << 1) ^ ((rest >>> 9) * 0x537);
  const bits = ((value << 10) | rest) ^ 0x5412;
  const bit = (i) => ((bits >>> i) & 1) === 1;
  for (let i = 0; i < 15; i += 1) {
    if (i < 6) fix(grid, 8, i, bit(i));
    else if (i < 8) fix(grid, 8, i + 1, bit(i));
    else if (i === 8) fix(grid, 7, 8, bit(i));
    else fix(grid, 14 - i, 8, bit(i));
    if (i < 8) fix(grid, size - 1 - i, 8, bit(i));
    else fix(grid, 8, size - 15 + i, bit(i));
  }
  fix(grid, 8, size - 8, true);
}

/** Both copies of the eighteen bits that name the version. Source: 7.10 and annex D. */
function versionBits(grid) {
  let rest = grid.version;
  for (let i = 0; i < 12; i += 1) rest = (rest << 1) ^ ((rest >>> 11) * 0x1f25);
  const bits = (grid.version << 12) | rest;
  for (let i = 0; i < 18; i += 1) {
    const along = grid.size - 11 + (i % 3);
    const across = Math.floor(i / 3);
    fix(grid, along, across, ((bits >>> i) & 1) === 1);
    fix(grid, across, along, ((bits >>> i) & 1) === 1);
  }
}

/** Two columns at a time from the right, up and down in turn, passing over the upright timing pattern. */
function placeData({ size, cells, fixed }, words) {
  let at = 0;
  let upwards = true;
  for (let right = size - 1; right > 0; right -= 2, upwards = !upwards) {
    if (right === 6) right = 5;
    for (let step = 0; step < size; step += 1) {
      const y = upwards ? size - 1 - step : step;
      for (const x of [right, right - 1]) {
        if (fixed[y * size + x]) continue;
        // The few modules that are left over stay light.
        if (at < words.length * 8) cells[y * size + x] = (words[at >> 3] >>> (7 - (at & 7))) & 1;
        at += 1;
      }
    }
  }
}

function withMask(grid, level, mask) {
  const { size, fixed } = grid;
  const cells = grid.cells.slice();
  for (let y = 0; y < size; y += 1) {
    for (let x = 0; x < size; x += 1) {
      if (!fixed[y * size + x] && MASKS[mask](x, y)) cells[y * size + x] ^= 1;
    }
  }
  formatBits({ size, cells, fixed }, (LEVEL_BITS[level] << 3) | mask);
  return { mask, cells, penalty: penaltyOf(cells, size) };
}

/** How hard a pattern is to read. Source: 7.8.3.1, table 11. */
function penaltyOf(cells, size) {
  let penalty = 0;
  let dark = 0;
  for (let a = 0; a < size; a += 1) {
    penalty += linePenalty((b) => cells[a * size + b], size) + linePenalty((b) => cells[b * size + a], size);
    for (let b = 0; b < size; b += 1) {
      const at = a * size + b;
      dark += cells[at];
      const sum = a && b ? cells[at] + cells[at - 1] + cells[at - size] + cells[at - size - 1] : 1;
      if (sum === 0 || sum === 4) penalty += 3;
    }
  }
  return penalty + 10 * Math.floor(Math.abs(dark * 20 - size * size * 10) / (size * size));
}

/** Runs of five and more, and what looks like a finder pattern beside four light modules. */
function linePenalty(cell, size) {
  let penalty = 0;
  let run = 0;
  let seen = 0;
  for (let i = 0; i < size; i += 1) {
    run = i && cell(i) === cell(i - 1) ? run + 1 : 1;
    if (run === 5) penalty += 3;
    else if (run > 5) penalty += 1;
    seen = ((seen << 1) | cell(i)) & 0x7ff;
    if (i >= 10 && (seen === 0x05d || seen === 0x5d0)) penalty += 40;
  }
  return penalty;
}
