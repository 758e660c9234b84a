/** A part of the page that is loaded when it is first needed, or when the browser has nothing else to do. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';

export type Loaded<T> = T | 'loading' | 'failed';

export const useLoaded = <T,>(load: () => Promise<T>): Loaded<T> => {
  const loaded = useSignal<Loaded<T>>('loading');
  useEffect(() => {
    let gone = false;
    load().then(
      (value) => {
        if (!gone) loaded.value = value;
      },
      () => {
        if (!gone) loaded.value = 'failed';
      },
    );
    return () => {
      gone = true;
    };
  }, []);
  return loaded.value;
};

export function NotLoaded({ state }: { readonly state: 'loading' | 'failed' }) {
  return (
    <p class="notice" role="status">
      {state === 'loading'
        ? 'Opening this part of the page.'
        : 'This part of the page could not be fetched from the station. Load the page again.'}
    </p>
  );
}
