/** What lies on the time line besides the readings: limits, passes, heat on and off, contact readings, lost links. */
import type { Assessment } from '../../server/judgement/assessment.ts';
import type { TimelineEvent } from '../../server/screen/contract.ts';
import { limitText } from '../../server/wording/temperature.ts';

export interface LimitMark {
  readonly kind: 'minimum' | 'maximum';
  readonly celsius: number;
  readonly text: string;
}
export interface PassMark {
  readonly from: number;
  /** Absent while it runs. */
  readonly to?: number;
  readonly text: string;
  readonly outside: boolean;
}
export interface MomentMark {
  readonly at: number;
  readonly kind: 'heat on' | 'heat off' | 'contact' | 'link';
  readonly text: string;
  readonly celsius?: number;
}
export interface Marks {
  readonly limits: readonly LimitMark[];
  readonly passes: readonly PassMark[];
  readonly moments: readonly MomentMark[];
}

export const marksOf = (assessment: Assessment, timeline: readonly TimelineEvent[]): Marks => ({
  limits: limitMarks(assessment),
  passes: assessment.passes.map((pass) => ({
    from: pass.startedAt,
    ...(pass.endedAt === undefined ? {} : { to: pass.endedAt }),
    text: pass.pass,
    outside: pass.outside.length > 0 || pass.minimum !== 'met' || pass.maximum === 'not met',
  })),
  moments: timeline.flatMap(momentOf).sort((a, b) => a.at - b.at),
});

const limitMarks = ({ limits, requirement }: Assessment): LimitMark[] => [
  ...(limits.preheatMinimum === undefined
    ? []
    : [
        {
          kind: 'minimum' as const,
          celsius: limits.preheatMinimum / 1000,
          text: `minimum ${limitText(limits.preheatMinimum, requirement.units)}`,
        },
      ]),
  ...(limits.interpassMaximum === undefined
    ? []
    : [
        {
          kind: 'maximum' as const,
          celsius: limits.interpassMaximum / 1000,
          text: `interpass maximum ${limitText(limits.interpassMaximum, requirement.units)}`,
        },
      ]),
  ...(limits.highest === undefined
    ? []
    : [
        {
          kind: 'maximum' as const,
          celsius: limits.highest / 1000,
          text: `highest allowed ${limitText(limits.highest, requirement.units)}`,
        },
      ]),
];

const momentOf = ({ at, kind, body }: TimelineEvent): MomentMark[] => {
  const said = (typeof body === 'object' && body !== null ? body : {}) as Record<string, unknown>;
  const when = typeof said.happenedAt === 'number' ? said.happenedAt : at;
  if (kind === 'heat') {
    const on = said.state === 'on';
    return [{ at: when, kind: on ? 'heat on' : 'heat off', text: on ? 'heat on' : 'heat off' }];
  }
  if (kind === 'contact reading' && typeof said.celsius === 'number') {
    return [{ at: when, kind: 'contact', text: 'by hand', celsius: said.celsius }];
  }
  if (kind === 'link' && said.state === 'lost') return [{ at, kind: 'link', text: 'link lost' }];
  return [];
};
