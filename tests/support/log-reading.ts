/**
 * The right reading of an awkward log, as it stands in a text beside it:
 *
 *   given KEY VALUE   what a person says of the file
 *   probes A B        the joint's probes, all of type K; T1 and T2 where nothing is said
 *   reads TIME V V    a row: instant, or seconds from the start with a plus; degrees, none or beyond
 *   skipped 1 2       lines that are listed as no readings; absent: none
 *   remark WORDS      words of a remark
 *   asks KIND         the one thing that has to be asked before anything is read
 *   refused WORDS     words of the problem
 */
import { expect } from 'vitest';
import type { ThermocoupleType } from '../../server/measure/thermocouple.ts';
import type { Probe } from '../../server/weld/probe.ts';
import type { Log, LogMapping } from '../../server/wire/log-file.ts';
import { elapsedEpoch, offsetMinutesOf } from '../../server/wire/log-time.ts';

/** A probe whose readings a log holds; nothing else of it matters there. */
export const logProbe = (id: string, thermocouple: ThermocoupleType = 'K'): Probe => ({
  id,
  board: 'log',
  channel: 1,
  thermocouple,
  use: 'spare',
});

export interface LogReading {
  readonly mapping: LogMapping;
  /** Fails where the log was read in another way. */
  holds(log: Log): void;
}

export function logReading(text: string): LogReading {
  const lines = text
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => [line.split(' ')[0]!, line.slice(line.indexOf(' ') + 1)] as const);
  const said = (key: string): readonly string[] => lines.flatMap(([of, rest]) => (of === key ? [rest] : []));
  return {
    mapping: mappingOf(said('given'), said('probes')[0] ?? 'T1 T2'),
    holds(log) {
      const asked = log.problems.map(({ question }) => question?.asks ?? 'nothing');
      expect([...new Set(asked)], JSON.stringify(log.problems)).toEqual(
        said('refused').length > 0 ? [...new Set(asked)] : said('asks'),
      );
      const told = log.problems.map(({ message }) => message).join('\n');
      for (const words of said('refused')) expect(told).toContain(words);
      if (said('refused').length > 0) expect(told).not.toBe('');
      if (log.problems.length > 0) return;
      expect(rowsOf(log)).toEqual(said('reads'));
      expect(log.skipped.map(({ line }) => line).join(' ')).toBe(said('skipped').join(' '));
      const remarks = log.remarks.map(({ message }) => message);
      for (const words of said('remark')) expect(remarks.join('\n')).toContain(words);
      expect(remarks.length, remarks.join('\n')).toBe(said('remark').length);
    },
  };
}

function mappingOf(given: readonly string[], probes: string): LogMapping {
  const told = Object.fromEntries(
    given.map((each) => [each.split(' ')[0], each.includes(' ') ? each.slice(each.indexOf(' ') + 1) : 'true']),
  );
  return {
    ...told,
    probes: probes.split(' ').map((id) => logProbe(id)),
    leaveOut: told.leaveOut?.split('|'),
    leaveOutRows: told.leaveOutRows === 'true',
    ...(told.offset === undefined ? {} : { offsetMinutes: offsetMinutesOf(told.offset) }),
    ...(told.day === undefined ? {} : { day: Date.parse(told.day) }),
  };
}

const rowsOf = ({ scans, timeForm }: Log): readonly string[] =>
  [...scans].map(({ measuredAt, values }) => {
    const time =
      timeForm === 'elapsed'
        ? `+${(measuredAt - elapsedEpoch) / 1000}`
        : new Date(measuredAt).toISOString().replace('.000Z', 'Z');
    const cells = values.map(({ quality, temperature }) =>
      quality === 'good' ? `${temperature! / 1000}` : quality === 'out of range' ? 'beyond' : 'none',
    );
    return [time, ...cells].join(' ');
  });
