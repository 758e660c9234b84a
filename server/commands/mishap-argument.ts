/** How a mishap of the emulated board is said on the command line: KIND[:HOW][@PROBE][+FROM[-UNTIL]], minutes. */
import { kindsOfMishap, mishapProblem } from '../../firmware-protocol/emulator/mishaps/list.ts';
import { type Mishap, type MishapKind, mishapKinds } from '../../firmware-protocol/emulator/mishaps/mishap.ts';
import { type EmulatedThermocouple, printedTables } from '../../firmware-protocol/emulator/printed-table.ts';
import type { Probe } from '../weld/probe.ts';

export type SaidMishap = { readonly mishap: Mishap } | { readonly problem: string };

const wires = Object.keys(printedTables) as EmulatedThermocouple[];
const minutes = '(\\d+(?:\\.\\d+)?)';
const form = new RegExp(`^([a-z-]+?)(?::(.+?))?(?:@(.+?))?(?:\\+${minutes}(?:-${minutes})?)?$`);

export function readMishap(text: string, probes: readonly Probe[]): SaidMishap {
  const [, kind, how, probe, from = '0', until] = form.exec(text) ?? [];
  if (kind === undefined) return { problem: `"${text}" is not of the form KIND[:HOW][@PROBE][+FROM[-UNTIL]]` };
  if (!isKind(kind)) return { problem: `there is no mishap "${kind}". There are: ${mishapKinds.join(', ')}` };
  const rule = kindsOfMishap[kind];
  if (probe === undefined && rule.wholeBoard !== true) {
    return { problem: `${kind} asks for a probe: ${kind}@${probes[0]?.id ?? 'PROBE'}. ${known(probes)}` };
  }
  const channel = probe === undefined ? 'all' : channelOf(probe, probes);
  if (channel === undefined) return { problem: `there is no probe "${probe}". ${known(probes)}` };
  const way = how === undefined ? {} : readHow(how, kind, probes);
  if ('problem' in way) return way;
  const times = {
    fromSeconds: Number(from) * 60,
    ...(until === undefined ? {} : { untilSeconds: Number(until) * 60 }),
  };
  const mishap: Mishap = { kind, channel, ...way, ...times };
  const problem = mishapProblem(mishap);
  return problem === undefined ? { mishap } : { problem };
}

/** The lines of the help: each kind, what HOW means for it, and what is then seen. */
export function mishapLines(): string {
  const lines = mishapKinds.map((kind) => {
    const { what, severity, asks, wholeBoard } = kindsOfMishap[kind];
    const how = asks === 'wire' ? ':TYPE' : asks === 'other' ? ':PROBE' : severity === undefined ? '' : ':NUMBER';
    const where = wholeBoard === true ? '[@PROBE]' : '@PROBE';
    const usual = severity === undefined ? '' : `\n      ${severity.means}; usually ${severity.usual} ${severity.unit}`;
    return `  ${`${kind}${how === ':NUMBER' ? `[${how}]` : how}${where}`}\n      ${what}${usual.trimEnd()}`;
  });
  return lines.join('\n');
}

function readHow(
  how: string,
  kind: MishapKind,
  probes: readonly Probe[],
): Partial<Mishap> | { readonly problem: string } {
  const { asks } = kindsOfMishap[kind];
  if (asks === 'wire') {
    const wire = wires.find((letter) => letter === how);
    return wire === undefined ? { problem: `"${how}" is no type of wire here: ${wires.join(', ')}` } : { wire };
  }
  if (asks === 'other') {
    const other = channelOf(how, probes);
    return other === undefined ? { problem: `there is no probe "${how}". ${known(probes)}` } : { other };
  }
  const severity = Number(how);
  return Number.isFinite(severity) ? { severity } : { problem: `"${how}" is not a number: ${kind} takes a severity` };
}

const isKind = (text: string): text is MishapKind => (mishapKinds as readonly string[]).includes(text);

const channelOf = (id: string, probes: readonly Probe[]): number | undefined =>
  probes.find((probe) => probe.id === id)?.channel;

const known = (probes: readonly Probe[]): string => `The probes are: ${probes.map(({ id }) => id).join(', ')}`;
