/** From the text of the form of a reading by hand to the act that it makes. */
import { milliCelsius } from '../../../server/measure/quantity.ts';
import { fromFahrenheit, fromInches, unitsOf } from '../../../server/measure/units.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { emissivityHighest, emissivityLowest } from '../../../server/weld/hand-reading.ts';
import { type HandKind, handKinds, isHandKind } from '../../../server/weld/instrument.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import type { Place } from '../../../server/weld/probe.ts';
import type { Draft } from './act-draft.ts';

/** Reads an entry of the form; what is wrong with it is noted as its problem. */
export interface FormReader {
  readonly text: (field: string, ask: string) => string;
  readonly number: (field: string, ask: string, low: number, high: number) => number;
  readonly problem: (field: string, ask: string) => void;
}

type HandAct = Act & { kind: 'contact reading' };

export function handReadingOf(
  draft: Draft,
  joint: Joint,
  form: FormReader,
  ago: { readonly happenedAt?: number },
): HandAct {
  const isInch = unitsOf(joint) === 'inch';
  const ask =
    draft.instrumentKind === 'crayon' ? 'Which temperature is it made for?' : 'What does the instrument read?';
  const kind = handKinds.find((each) => each === draft.instrumentKind);
  const probe = joint.probes.find(({ id }) => id === draft.probe);
  return {
    kind: 'contact reading',
    celsius: isInch
      ? milliCelsius(fromFahrenheit(form.number('celsius', ask, -76, 2552))) / 1000
      : form.number('celsius', ask, -60, 1400),
    instrument: form.text('instrument', 'Which instrument? Its name or number is needed.'),
    ...(kind === undefined ? {} : { instrumentKind: kind }),
    ...shown(draft, kind, form),
    ...(probe === undefined ? {} : { probe: probe.id }),
    use: draft.use as HandAct['use'],
    place: probe?.place ?? placeOf(draft, isInch, form),
    ...ago,
  };
}

/** The instrument that the next reading is most likely taken with: the only one of the register. */
export function lastHandInstrument({ instruments = [] }: Pick<Joint, 'instruments'>): Draft {
  const [first, ...more] = instruments.filter(({ kind }) => isHandKind(kind));
  return first !== undefined && more.length === 0
    ? { instrument: first.id, instrumentKind: first.kind }
    : { instrument: '', instrumentKind: 'contact thermometer' };
}

function shown(draft: Draft, kind: HandKind | undefined, form: FormReader): Pick<HandAct, 'shows' | 'emissivity'> {
  if (kind === 'pyrometer')
    return {
      emissivity: form.number('emissivity', 'Which emissivity is set on it?', emissivityLowest, emissivityHighest),
    };
  if (kind !== 'crayon') return {};
  if (draft.shows === 'at least' || draft.shows === 'below') return { shows: draft.shows };
  form.problem('shows', 'Did it melt or not?');
  return {};
}

function placeOf(draft: Draft, isInch: boolean, form: FormReader): Place {
  const far = 'How far from the groove?';
  return {
    part: form.text('part', 'On which part?'),
    side: draft.side === 'B' ? 'B' : 'A',
    face: draft.face === 'back' ? 'back' : 'front',
    distanceMillimetres: isInch
      ? fromInches(form.number('distance', far, 0, 196))
      : form.number('distance', far, 0, 5000),
  };
}
