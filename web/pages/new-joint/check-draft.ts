/** Checks and points of inspection as they stand in the form, and from there to the joint file and back. */
import type { Check, Point } from '../../../server/weld/checks.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import { usualChecks, usualPoint } from '../../../server/weld/usual-checks.ts';

/** An empty role is that of anybody on the job. */
export interface CheckDraft {
  readonly id: string;
  readonly text: string;
  readonly weight: string;
  readonly role: string;
}

export interface PointDraft {
  readonly id: string;
  readonly text: string;
  readonly kind: string;
  readonly before: string;
  readonly pass: string;
  readonly role: string;
}

export interface ChecksDraft {
  readonly checks: readonly CheckDraft[];
  readonly points: readonly PointDraft[];
}

export const emptyChecks: ChecksDraft = { checks: [], points: [] };

const checkDraft = ({ role = '', ...check }: Omit<Check, 'role'> & { role?: string | undefined }): CheckDraft => ({
  ...check,
  role,
});

const pointDraft = ({ text = '', pass = '', ...point }: Point): PointDraft => ({ ...point, text, pass });

export const checksDraftOf = (procedure: Joint['procedure']): ChecksDraft => ({
  checks: (procedure?.checks ?? []).map(checkDraft),
  points: (procedure?.points ?? []).map(pointDraft),
});

/** Under the names of the procedure; what is empty is left out. */
export const checksOf = ({ checks, points }: ChecksDraft): Record<string, unknown> => ({
  ...(checks.length === 0
    ? {}
    : {
        checks: checks.map(({ id, text, weight, role }) => ({
          id: id.trim(),
          text: text.trim(),
          weight,
          ...(role === '' ? {} : { role }),
        })),
      }),
  ...(points.length === 0
    ? {}
    : {
        points: points.map(({ id, text, kind, before, pass, role }) => ({
          id: id.trim(),
          ...(text.trim() === '' ? {} : { text: text.trim() }),
          kind,
          before,
          ...(before === 'pass' ? { pass: pass.trim() } : {}),
          role,
        })),
      }),
});

/** The usual ones that are not there yet. */
export const missingUsual = ({ checks }: ChecksDraft): readonly CheckDraft[] =>
  usualChecks.filter(({ id }) => !checks.some((each) => each.id === id)).map(checkDraft);

/** A check of one's own, with an id that is free. */
export const freshCheck = ({ checks }: ChecksDraft): CheckDraft => ({
  id: free(
    'check',
    checks.map(({ id }) => id),
  ),
  text: '',
  weight: 'blocks',
  role: '',
});

export const freshPoint = ({ points }: ChecksDraft): PointDraft =>
  points.length === 0
    ? pointDraft(usualPoint)
    : {
        ...pointDraft(usualPoint),
        id: free(
          'H',
          points.map(({ id }) => id),
        ),
        text: '',
      };

const free = (stem: string, taken: readonly string[]): string => {
  let count = taken.length + 1;
  while (taken.includes(`${stem}${count}`)) count += 1;
  return `${stem}${count}`;
};
