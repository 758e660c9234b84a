/** The form by which a pass is put right: it begins with what stands, and only what is changed goes into the act. */
import type { Instant } from '../../../server/measure/quantity.ts';
import type { UnitSystem } from '../../../server/measure/units.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { detailFields, type PassKind } from '../../../server/weld/pass-acts.ts';
import type { LiveJoint } from '../../feed/live-joint.ts';
import { clockText } from '../../format/time.ts';
import type { Draft } from './act-draft.ts';
import { detailsIn, draftOfDetails, type Readers } from './pass-draft.ts';

type PassStatus = LiveJoint['assessment']['passes'][number];

export const freshCorrection = (pass: PassStatus, units: UnitSystem): Draft => ({
  what: '',
  name: pass.pass,
  passKind: pass.passKind,
  welder: pass.welder,
  started: clockText(pass.startedAt),
  ended: pass.endedAt === undefined ? '' : clockText(pass.endedAt),
  travel: 'speed',
  ...draftOfDetails(pass.details, units),
  text: '',
});

export function correctionOf(pass: PassStatus, draft: Draft, units: UnitSystem, read: Readers): Act {
  const reason = read.text('text', 'Why is it put right? A word or two.');
  if (draft.what === 'struck') return { kind: 'correct pass', pass: pass.pass, struck: true, reason };
  const name = read.text('name', 'A pass needs a name or number.');
  const welder = read.text('welder', 'Who welded? A name is needed.');
  const details = detailsIn(draft, units, read);
  const changed = Object.fromEntries(
    detailFields.flatMap((field) =>
      details[field] === undefined || details[field] === pass.details[field] ? [] : [[field, details[field]]],
    ),
  );
  const started = timeOf(draft, 'started', pass.startedAt, read);
  const ended = pass.endedAt === undefined ? undefined : timeOf(draft, 'ended', pass.endedAt, read);
  const right = {
    ...(name === pass.pass ? {} : { name }),
    ...(draft.passKind === pass.passKind ? {} : { passKind: draft.passKind as PassKind }),
    ...(welder === pass.welder ? {} : { welder }),
    ...(started === undefined ? {} : { startedAt: started }),
    ...(ended === undefined ? {} : { endedAt: ended }),
    ...changed,
  };
  if (Object.keys(right).length === 0 && reason !== '')
    read.problem('text', 'Nothing is changed yet: put right above what is wrong.');
  return { kind: 'correct pass', pass: pass.pass, ...right, reason };
}

/** "10:38" or "10:38:20" on the day of the instant that stands, in this browser's zone; undefined where it is unchanged. */
function timeOf(draft: Draft, field: string, stands: Instant, { problem }: Readers): number | undefined {
  const typed = (draft[field] ?? '').trim();
  if (typed === clockText(stands)) return undefined;
  const [, hours, minutes, seconds = '0'] = /^(\d{1,2}):(\d{2})(?::(\d{2}))?$/.exec(typed) ?? [];
  if (hours === undefined || Number(hours) > 23 || Number(minutes) > 59 || Number(seconds) > 59) {
    problem(field, `"${typed}" is not a time; write it as 14:05 or 14:05:30.`);
    return undefined;
  }
  const day = new Date(stands);
  const at = [-1, 0, 1].map((days) =>
    new Date(
      day.getFullYear(),
      day.getMonth(),
      day.getDate() + days,
      Number(hours),
      Number(minutes),
      Number(seconds),
    ).getTime(),
  );
  // Passes run over midnight: the day on which the time lies nearest.
  return at.reduce((best, each) => (Math.abs(each - stands) < Math.abs(best - stands) ? each : best));
}
