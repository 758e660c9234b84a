/**
 * Resolves when a person asks the program to end (Ctrl+C, or a signal of the system). To be called before anything
 * is said: whoever is told that it runs may ask at once.
 */
export const untilAsked = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
