/** What stands on the tab of the browser: the state of a joint can be told without opening it. */
import { useEffect } from 'preact/hooks';

export const useTitle = (...parts: readonly string[]): void => {
  const title = [...parts, 'Preheat Ledger'].join(' \u2013 ');
  useEffect(() => {
    document.title = title;
  }, [title]);
};
