/** A named group of facts that few jobs need: folded away while it is empty, open as soon as something stands in it. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';

interface Props {
  readonly title: string;
  /** What stands in it, or what it is for, in a few words. */
  readonly about?: string;
  readonly filled: boolean;
  readonly children: ComponentChildren;
}

export function More({ title, about, filled, children }: Props) {
  const open = useSignal(filled);
  useEffect(() => {
    if (filled) open.value = true;
  }, [filled]);
  return (
    <details
      class="more"
      open={open.value}
      onToggle={(event) => {
        open.value = event.currentTarget.open;
      }}
    >
      <summary>
        <span>
          {title}
          {about !== undefined && <span class="optional"> {about}</span>}
        </span>
      </summary>
      {children}
    </details>
  );
}

/** Whether anything stands in one of these. */
export const anyFilled = (...texts: readonly string[]): boolean => texts.some((text) => text.trim() !== '');
