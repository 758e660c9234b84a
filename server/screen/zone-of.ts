/** A zone that this system does not know is answered in UTC rather than not at all. */
export function zoneOf(asked: unknown): string {
  if (typeof asked !== 'string') return 'UTC';
  try {
    return new Intl.DateTimeFormat('en', { timeZone: asked }).resolvedOptions().timeZone;
  } catch {
    return 'UTC';
  }
}
