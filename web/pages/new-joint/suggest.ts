/** What a new probe begins with. Only a beginning: every field can be changed, and nothing here is judged. */
import { toInches } from '../../../server/measure/units.ts';
import type { JointDraft, ProbeDraft } from './draft.ts';
import { emptyChain } from './empty-draft.ts';
import { type DraftUnits, readQuantity } from './quantity.ts';

/**
 * ISO 13916: up to 50 mm thick at 4 times the thickness, at most 50 mm; thicker, 75 mm. Empty while the thickness
 * is not known. In inches to the hundredth, on the side that the rule asks for.
 */
export const zoneDistance = (thickness: string, units: DraftUnits = 'metric'): string => {
  const read = readQuantity(thickness, 'length', units);
  if (read.kind !== 'number' || read.value <= 0) return '';
  const thick = read.value > 50;
  const millimetres = thick ? 75 : Math.min(4 * read.value, 50);
  if (units !== 'inch') return String(millimetres);
  const hundredths = toInches(millimetres) * 100;
  return String((thick ? Math.ceil(hundredths) : Math.floor(hundredths)) / 100);
};

export const nextProbe = ({ probes, parts, units }: JointDraft, boards: readonly string[]): ProbeDraft => {
  const last = probes.at(-1);
  const board = last?.board ?? boards[0] ?? '';
  const used = probes.filter((probe) => probe.board === board).map((probe) => Number(probe.channel));
  const side = last === undefined ? 'A' : last.side === 'A' ? 'B' : 'A';
  const part = parts.find((each) => each.side === side) ?? parts[0];
  const ids = new Set(probes.map((probe) => probe.id));
  let number = probes.length + 1;
  while (ids.has(`T${number}`)) number += 1;
  return {
    id: `T${number}`,
    board,
    channel: String(Math.max(0, ...used.filter((channel) => Number.isFinite(channel))) + 1),
    thermocouple: last?.thermocouple ?? 'K',
    use: last?.use ?? 'zone',
    placed: true,
    part: part?.id ?? '',
    side,
    face: last?.face ?? 'front',
    distance: zoneDistance(part?.thickness ?? '', units),
    clock: '',
    ...emptyChain,
  };
};
