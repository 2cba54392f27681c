// SHA-256 (FIPS 180-4), for a tablet that is served over plain http: there the browser keeps its
// own from us. Where the browser has one, commands.js asks it first.

const primes = firstPrimes(64);
const ROUND = primes.map((prime) => fraction(Math.cbrt(prime)));
const START = primes.slice(0, 8).map((prime) => fraction(Math.sqrt(prime)));

/** @param {number} count @returns {number[]} */
function firstPrimes(count) {
  /** @type {number[]} */
  const found = [];
  for (let n = 2; found.length < count; n += 1) {
    if (found.every((prime) => n % prime !== 0)) found.push(n);
  }
  return found;
}

/** The first 32 bits after the point. @param {number} root */
function fraction(root) {
  return Math.floor((root - Math.floor(root)) * 2 ** 32) >>> 0;
}

/** @param {number} word @param {number} by */
function turned(word, by) {
  return (word >>> by) | (word << (32 - by));
}

/** @param {Uint8Array} bytes @returns {Uint8Array} filled to whole blocks of 64, length last */
function padded(bytes) {
  const all = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64);
  all.set(bytes);
  all[bytes.length] = 0x80;
  const view = new DataView(all.buffer);
  view.setUint32(all.length - 8, Math.floor((bytes.length * 8) / 2 ** 32));
  view.setUint32(all.length - 4, (bytes.length * 8) >>> 0);
  return all;
}

/** @param {Uint8Array} bytes @returns {string} 64 hexadecimal digits */
export function sha256(bytes) {
  const message = padded(bytes);
  const view = new DataView(message.buffer);
  const sum = Uint32Array.from(START);
  const w = new Uint32Array(64);
  /** @param {Uint32Array | number[]} words @param {number} index */
  const at = (words, index) => words[index] ?? 0;
  for (let offset = 0; offset < message.length; offset += 64) {
    for (let i = 0; i < 16; i += 1) w[i] = view.getUint32(offset + 4 * i);
    for (let i = 16; i < 64; i += 1) {
      const early = at(w, i - 15);
      const late = at(w, i - 2);
      const small = turned(early, 7) ^ turned(early, 18) ^ (early >>> 3);
      const large = turned(late, 17) ^ turned(late, 19) ^ (late >>> 10);
      w[i] = at(w, i - 16) + small + at(w, i - 7) + large;
    }
    let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = sum;
    for (let i = 0; i < 64; i += 1) {
      const first = h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g));
      const one = (first + at(ROUND, i) + at(w, i)) >>> 0;
      const two = (turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
      [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) >>> 0, c, b, a, (one + two) >>> 0];
    }
    [a, b, c, d, e, f, g, h].forEach((word, i) => { sum[i] = at(sum, i) + word; });
  }
  return Array.from(sum, (word) => word.toString(16).padStart(8, "0")).join("");
}
