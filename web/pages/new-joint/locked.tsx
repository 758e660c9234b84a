/** Fields whose values are those of a recorded revision: to be read, not changed here. */
import type { ComponentChildren } from 'preact';
import type { BesideField } from '../../../server/weld/procedure-revision.ts';
import type { Entry } from './entry.tsx';

/** `stated`: locked only where the revision states this; absent: the procedure itself. */
export function Locked({
  entry,
  stated,
  children,
}: {
  readonly entry: Entry;
  readonly stated?: BesideField;
  readonly children: ComponentChildren;
}) {
  const { recorded } = entry.draft;
  const locked = recorded !== undefined && (stated === undefined || recorded.revision[stated] !== undefined);
  return (
    <fieldset class="locked" disabled={locked}>
      {children}
    </fieldset>
  );
}
