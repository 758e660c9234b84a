/** Finds a table in a TrueType font by its tag (OpenType "table directory"). */
export const tableOf = (font: Buffer, tag: string): { offset: number; length: number } => {
  const count = font.readUInt16BE(4);
  for (let index = 0; index < count; index += 1) {
    const at = 12 + 16 * index;
    if (font.toString('latin1', at, at + 4) === tag)
      return { offset: font.readUInt32BE(at + 8), length: font.readUInt32BE(at + 12) };
  }
  throw new Error(`the report font has no table "${tag}"; install the packages again with: npm ci`);
};
