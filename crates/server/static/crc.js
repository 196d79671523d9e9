// CRC-32, as ISO 3309 and RFC 1952 define it: finds a slip in copying, not a forger.

const TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let bit = 0; bit < 8; bit += 1) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1;
  return c;
});

/**
 * The checksum of some bytes.
 * @param {Uint8Array} bytes
 * @returns {number} 0 to 2^32 - 1
 */
export function crc32(bytes) {
  let c = 0xffffffff;
  for (const byte of bytes) c = TABLE[(c ^ byte) & 0xff] ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

/**
 * The same as eight small hex digits.
 * @param {Uint8Array} bytes
 * @returns {string}
 */
export function crcHex(bytes) {
  return crc32(bytes).toString(16).padStart(8, "0");
}
