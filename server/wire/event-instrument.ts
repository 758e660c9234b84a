/** What an events file says of instruments: a calibration with its points, a verification beside another instrument. */
import { readNumber } from '../measure/number-text.ts';
import type { EventAct } from './event-act.ts';
import type { EventFields } from './event-fields.ts';

export const calibration = (fields: EventFields): EventAct => {
  const corrections: object[] = [];
  for (const point of (fields.get('corrections') ?? '').split('|').map((each) => each.trim())) {
    if (point === '') continue;
    const numbers = point.split(':').map((each) => readNumber(each));
    const [at, added, expanded, factor] = numbers.map((each) => (each.kind === 'number' ? each.value : undefined));
    if (numbers.length !== 4 || numbers.some(({ kind }) => kind !== 'number')) {
      return {
        column: 'corrections',
        problem: `"${point}" is not a point; write celsius:added:U:k for each and | between them, as in 100:-0.4:0.8:2 | 200:-0.6:0.8:2`,
      };
    }
    corrections.push({ atCelsius: at, correctionKelvin: added, expandedKelvin: expanded, coverageFactor: factor });
  }
  const due = fields.get('due on') ?? '';
  return {
    act: {
      kind: 'calibration',
      instrument: fields.get('instrument') ?? '',
      certificate: fields.get('certificate') ?? '',
      calibratedOn: fields.get('calibrated on') ?? '',
      ...(due === '' ? {} : { dueOn: due }),
      ...(corrections.length === 0 ? {} : { corrections }),
    },
  };
};

export const verification = (fields: EventFields): EventAct => {
  const read = readNumber(fields.get('celsius') ?? '');
  const reference = readNumber(fields.get('reference celsius') ?? '');
  if (read.kind !== 'number')
    return { column: 'celsius', problem: 'a verification needs what the instrument read, in degrees Celsius' };
  if (reference.kind !== 'number')
    return { column: 'reference celsius', problem: 'a verification needs what the reference read, in degrees Celsius' };
  return {
    act: {
      kind: 'verification',
      instrument: fields.get('instrument') ?? '',
      reference: fields.get('reference') ?? '',
      readCelsius: read.value,
      referenceCelsius: reference.value,
      result: (fields.get('result') ?? '').toLowerCase(),
    },
  };
};
