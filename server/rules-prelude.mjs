/**
 * What the rules use of a platform beside the language itself, in the language itself: it stands at the head of the script
 * of the rules, so that the script runs where nothing is handed in. Kept to what the judge needs: plain data and UTF-8.
 */

export class TextEncoder {
  encode(text) {
    const bytes = new Uint8Array(text.length * 3);
    let length = 0;
    for (let index = 0; index < text.length; index += 1) {
      let code = text.charCodeAt(index);
      if (code < 0x80) {
        bytes[length++] = code;
        continue;
      }
      if (code >= 0xd800 && code < 0xe000) {
        const low = code < 0xdc00 ? text.charCodeAt(index + 1) : Number.NaN;
        if (low >= 0xdc00 && low < 0xe000) {
          code = 0x10000 + ((code - 0xd800) << 10) + (low - 0xdc00);
          index += 1;
        } else code = 0xfffd;
      }
      if (code >= 0x10000) bytes[length++] = 0xf0 | (code >> 18);
      if (code >= 0x10000) bytes[length++] = 0x80 | ((code >> 12) & 0x3f);
      else if (code >= 0x800) bytes[length++] = 0xe0 | (code >> 12);
      if (code >= 0x800) bytes[length++] = 0x80 | ((code >> 6) & 0x3f);
      else bytes[length++] = 0xc0 | (code >> 6);
      bytes[length++] = 0x80 | (code & 0x3f);
    }
    return bytes.slice(0, length);
  }
}

export class TextDecoder {
  /** Of bytes that the encoder above made: they are well formed. */
  decode(bytes) {
    const parts = [];
    let units = [];
    for (let index = 0; index < bytes.length; ) {
      const first = bytes[index];
      const more = first < 0x80 ? 0 : first < 0xe0 ? 1 : first < 0xf0 ? 2 : 3;
      let code = more === 0 ? first : first & (0x3f >> more);
      for (let step = 1; step <= more; step += 1) code = (code << 6) | (bytes[index + step] & 0x3f);
      index += more + 1;
      if (code >= 0x10000) units.push(0xd800 + ((code - 0x10000) >> 10), 0xdc00 + ((code - 0x10000) & 0x3ff));
      else units.push(code);
      if (units.length > 8000) {
        parts.push(String.fromCharCode.apply(null, units));
        units = [];
      }
    }
    return parts.join('') + String.fromCharCode.apply(null, units);
  }
}

/** Plain data, maps, sets and typed arrays; shared parts are copied once. */
export function structuredClone(value) {
  const copies = new Map();
  const copy = (each) => {
    if (typeof each !== 'object' || each === null) return each;
    if (copies.has(each)) return copies.get(each);
    if (ArrayBuffer.isView(each)) return each.slice();
    const made = Array.isArray(each) ? [] : each instanceof Map ? new Map() : each instanceof Set ? new Set() : {};
    copies.set(each, made);
    if (made instanceof Map) for (const [key, member] of each) made.set(copy(key), copy(member));
    else if (made instanceof Set) for (const member of each) made.add(copy(member));
    else if (Array.isArray(made)) for (const member of each) made.push(copy(member));
    else for (const key of Object.keys(each)) made[key] = copy(each[key]);
    return made;
  };
  return copy(value);
}
