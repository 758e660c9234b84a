/**
 * A button that opens the form of an act. Where whoever is signed on may not make it, it says who may; where nobody is
 * signed on, it asks for that first and goes on afterwards.
 */
import type { ComponentChildren } from 'preact';
import type { DutyKind } from '../../server/weld/duties.ts';
import { forWhomOf, person, signsOn } from '../state/person.ts';
import { askWho } from '../state/sign-on.ts';

interface Props {
  /** What the form may record; one of them is enough. */
  readonly may: DutyKind | readonly DutyKind[];
  readonly opens: string;
  readonly press: () => void;
  readonly class?: string;
  readonly under?: string | undefined;
  readonly children: ComponentChildren;
}

export function Opens({ may, opens, press, under, children, ...rest }: Props) {
  const against = forWhomOf(typeof may === 'string' ? [may] : may);
  const below = against ?? under;
  const pressed = (): void => {
    if (against !== undefined) return;
    if (signsOn.value && person.value === undefined) askWho(press);
    else press();
  };
  return (
    <button
      type="button"
      {...rest}
      data-opens={opens}
      {...(against === undefined ? {} : { 'aria-disabled': true })}
      onClick={pressed}
    >
      {children}
      {below !== undefined && <span class="under">{below}</span>}
    </button>
  );
}
