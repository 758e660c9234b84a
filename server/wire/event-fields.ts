/** The fields of one line of an events file, by column. */
export type EventFields = ReadonlyMap<string, string>;

/** Undefined where the column is missing or empty. */
export const text = (fields: EventFields, name: string): string | undefined => {
  const found = fields.get(name);
  return found === undefined || found === '' ? undefined : found;
};
