/** A part of the page that is loaded when it is first needed, or when the browser has nothing else to do. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { fetchPart } from '../feed/part-of-page.ts';

export type Loaded<T> = T | 'loading' | 'failed';

export const useLoaded = <T,>(load: () => Promise<T>): Loaded<T> => {
  const loaded = useSignal<Loaded<T>>('loading');
  useEffect(
    () =>
      fetchPart(load, {
        here: (part) => {
          loaded.value = part;
        },
        failed: () => {
          loaded.value = 'failed';
        },
      }),
    [],
  );
  return loaded.value;
};

export function NotLoaded({ state }: { readonly state: 'loading' | 'failed' }) {
  return (
    <p class="notice" role="status">
      {state === 'loading'
        ? 'Opening this part of the page.'
        : 'This part of the page could not be fetched from the station. It is asked for again every few seconds; if it does not come though the line stands, load the page again.'}
    </p>
  );
}
