/** What every form of an act has: a heading that takes the keyboard, what went wrong, and one large button. */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { entryOf, TextField } from '../../parts/field.tsx';
import { actAs, person, signsOn } from '../../state/person.ts';
import type { Sheet } from './use-sheet.ts';

/** "Now" unless minutes or a time of day are given; both times stay in the record. */
export function Ago({ sheet, what }: { readonly sheet: Sheet; readonly what: string }) {
  const value = sheet.draft.ago ?? '';
  return (
    <fieldset>
      <legend>{what}</legend>
      <div class="choices">
        {['', '1', '2', '5', '10'].map((minutes) => (
          <label key={minutes} class={value === minutes ? 'chosen' : ''}>
            <input type="radio" checked={value === minutes} onChange={() => sheet.set('ago', minutes)} />
            {minutes === '' ? 'now' : `${minutes} min ago`}
          </label>
        ))}
        <span class="inline">
          <TextField
            label="or minutes ago, or at (13:05)"
            value={value}
            problem={sheet.problems.ago}
            onValue={(minutes) => sheet.set('ago', minutes)}
          />
        </span>
      </div>
    </fieldset>
  );
}

export function SheetFrame({
  title,
  sheet,
  back,
  action,
  loud,
  children,
  submit,
  later,
}: {
  readonly title: string;
  readonly sheet: Sheet;
  readonly back: () => void;
  readonly action: string;
  readonly loud?: boolean;
  readonly children: ComponentChildren;
  readonly submit?: () => void;
  /** What is seldom needed: folded below the button, open when something stands in it. */
  readonly later?: { readonly title: string; readonly content: ComponentChildren };
}) {
  const heading = useRef<HTMLHeadingElement>(null);
  const name = useSignal('');
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    heading.current?.closest('form')?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <form
      class="sheet act-sheet"
      aria-label={title}
      onSubmit={(event) => {
        event.preventDefault();
        if (!signsOn.value && person.value === undefined && name.value.trim() !== '')
          actAs({ name: name.value.trim() });
        if (submit === undefined) void sheet.submit();
        else submit();
      }}
    >
      <h2 tabIndex={-1} ref={heading}>
        {title}
      </h2>
      {person.value === undefined && !signsOn.value && (
        <TextField label="Your name, for the record" {...entryOf(name)} />
      )}
      {children}
      {sheet.failure !== undefined && (
        <p class="notice loud" role="alert">
          {sheet.failure}
        </p>
      )}
      <div class="row end">
        <button type="button" class="plain" onClick={back}>
          Back
        </button>
        <button type="submit" class={loud === true ? 'act loud' : 'act'} disabled={sheet.sending}>
          {sheet.sending ? 'Sending' : action}
        </button>
      </div>
      {later !== undefined && (
        <details open={(sheet.draft.ago ?? '') !== ''}>
          <summary>{later.title}</summary>
          <div class="later">{later.content}</div>
        </details>
      )}
    </form>
  );
}
