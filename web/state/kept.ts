/** What this device remembers between visits. A full or forbidden store loses the memory, never the page. */

export const kept = <T>(key: string, isT: (value: unknown) => value is T): T | undefined => {
  try {
    const text = localStorage.getItem(key);
    if (text === null) return undefined;
    const value: unknown = JSON.parse(text);
    return isT(value) ? value : undefined;
  } catch {
    return undefined;
  }
};

export const keep = (key: string, value: unknown): void => {
  try {
    if (value === undefined) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // The page goes on without a memory.
  }
};
