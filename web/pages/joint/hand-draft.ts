/** From the text of the form of a reading by hand to the act that it makes. */
import { milliCelsius } from '../../../server/measure/quantity.ts';
import { fromFahrenheit, fromInches, unitsOf } from '../../../server/measure/units.ts';
import type { Act } from '../../../server/weld/entry.ts';
import { emissivityHighest, emissivityLowest } from '../../../server/weld/hand-reading.ts';
import { type HandKind, handKinds, isHandKind } from '../../../server/weld/instrument.ts';
import type { Joint } from '../../../server/weld/joint.ts';
import type { Place, Probe } from '../../../server/weld/probe.ts';
import { keep, kept } from '../../state/kept.ts';
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
    use: useOf(draft, probe),
    place: probe?.place ?? placeOf(draft, isInch, form),
    ...ago,
  };
}

/** Of a twin reading what its probe answers for; a probe that answers for nothing else is read for its zone. */
function useOf(draft: Draft, probe: Probe | undefined): HandAct['use'] {
  const uses = ['interpass', 'zone', 'opposite face'] as const;
  return uses.find((each) => each === (draft.use ?? probe?.use)) ?? 'zone';
}

/**
 * The instrument that the next reading is most likely taken with: the one used last on this device, else the only one of
 * the register. A crayon is left out: it has no value to compare.
 */
export function lastHandInstrument({ instruments = [] }: Pick<Joint, 'instruments'>): Draft {
  const used = kept(instrumentPlace, isUsed);
  if (used !== undefined) return { instrument: used.instrument, instrumentKind: used.instrumentKind };
  const [first, ...more] = instruments.filter(({ kind }) => isHandKind(kind) && kind !== 'crayon');
  return first !== undefined && more.length === 0
    ? { instrument: first.id, instrumentKind: first.kind }
    : { instrument: '', instrumentKind: 'contact thermometer' };
}

export const rememberInstrument = ({ instrument, instrumentKind, emissivity }: HandAct): void => {
  if (instrumentKind === undefined || instrumentKind === 'crayon') return;
  keep(instrumentPlace, {
    instrument,
    instrumentKind,
    ...(emissivity === undefined ? {} : { emissivity: `${emissivity}` }),
  });
};

/** What a pyrometer was set to when it was last used here. */
export const lastEmissivity = (): string => kept(instrumentPlace, isUsed)?.emissivity ?? '';

const instrumentPlace = 'preheat.hand-instrument';
interface Used {
  readonly instrument: string;
  readonly instrumentKind: string;
  readonly emissivity?: string;
}
const isUsed = (value: unknown): value is Used =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as Used).instrument === 'string' &&
  typeof (value as Used).instrumentKind === 'string' &&
  ['string', 'undefined'].includes(typeof (value as Used).emissivity);

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
