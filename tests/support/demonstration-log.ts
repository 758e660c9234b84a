/**
 * Makes demo-data/demonstration-log.csv and its events: the emulated board of the demonstration joint, heated
 * until the far face is warm and on while three passes are laid. The same bytes each time; a test holds the files to it.
 */
import { readFileSync } from 'node:fs';
import type { Board } from '../../firmware-protocol/emulator/board.ts';
import { readDemonstrationJoint } from '../../server/station/demonstration.ts';
import { demonstrationFaults } from '../../server/station/demonstration-faults.ts';
import { setPointOf } from '../../server/station/follow-acts.ts';
import { boardOf } from '../../server/station/joint-board.ts';

const root = new URL('../../', import.meta.url);
const period = 10_000;

interface Happening {
  readonly second: number;
  readonly kind: 'heat on' | 'heat off' | 'pass start' | 'pass end' | 'close';
  readonly pass?: string;
}

const happenings: readonly Happening[] = [
  { second: 60, kind: 'heat on' },
  { second: 5760, kind: 'pass start', pass: '1' },
  { second: 6000, kind: 'pass end', pass: '1' },
  { second: 6120, kind: 'pass start', pass: '2' },
  { second: 6360, kind: 'pass end', pass: '2' },
  { second: 6480, kind: 'pass start', pass: '3' },
  { second: 6720, kind: 'pass end', pass: '3' },
  { second: 6780, kind: 'heat off' },
  { second: 6840, kind: 'close' },
];
const endSecond = 6900;

export function demonstrationLog(): { readonly log: string; readonly events: string } {
  const joint = readDemonstrationJoint(new URL('demo-data/demonstration-joint.json', root));
  const board = boardOf(joint, period, 7, demonstrationFaults(joint, 1));
  const rows = [['time s', ...joint.probes.map((probe) => `${probe.id} (°C)`)].join(',')];
  for (let second = 0; second <= endSecond; second += period / 1000) {
    for (const each of happenings.filter((one) => one.second === second)) happen(board, each, setPointOf(joint));
    rows.push([second, ...joint.probes.map((probe) => board.celsius(probe.channel).toFixed(1))].join(','));
    board.advance(period);
  }
  const events = ['time,kind,place,who,role,pass,pass kind,welder'];
  for (const { second, kind, pass } of happenings) events.push(eventRow(second, kind, pass));
  return { log: `${rows.join('\n')}\n`, events: `${events.join('\n')}\n` };
}

export const kept = (name: string): string => readFileSync(new URL(`demo-data/${name}`, root), 'utf8');

function happen(board: Board, { kind }: Happening, setPointCelsius: number): void {
  if (kind === 'heat on' || kind === 'heat off') board.heater({ on: kind === 'heat on', setPointCelsius });
  if (kind === 'pass start' || kind === 'pass end') board.arc(kind === 'pass start');
}

function eventRow(second: number, kind: Happening['kind'], pass: string | undefined): string {
  if (kind === 'pass start')
    return `${second},${kind},A,Jorun Vik,welder,${pass},${pass === '1' ? 'root' : 'fill'},Jorun Vik`;
  if (kind === 'pass end') return `${second},${kind},A,Jorun Vik,welder,${pass},,`;
  return kind === 'close'
    ? `${second},${kind},,Mara Lind,inspector,,,`
    : `${second},${kind},,Imke Sorel,heater operator,,,`;
}
