/**
 * Whether the joint's probes and what the board says of its channels agree. Checked when a board says
 * hello or a joint is entered, so that a person can be told the cause before a reading is missed.
 */
import type { Hello } from '../../firmware-protocol/codec/frame.ts';
import { type ThermocoupleType, usableRange } from '../measure/thermocouple.ts';
import type { Probe } from '../weld/probe.ts';

export interface WiringProblem {
  readonly probe: string;
  readonly kind:
    | 'channel not fitted'
    /** The instrument converts with another type: its temperature is not accepted. */
    | 'instrument set to another type'
    /** The board states another type but sends voltage: the probe's type is used. */
    | 'board states another type'
    | 'type not usable at preheat temperatures';
  readonly joint: ThermocoupleType;
  readonly board?: ThermocoupleType;
  /** What is, and what to do. */
  readonly message: string;
}

export const wiringProblems = (hello: Hello, probes: readonly Probe[]): readonly WiringProblem[] =>
  probes.filter((probe) => probe.board === hello.board).flatMap((probe) => problemsOf(hello, probe));

const problemsOf = (hello: Hello, probe: Probe): readonly WiringProblem[] => {
  const channel = hello.channels.find((candidate) => candidate.channel === probe.channel);
  const about = { probe: probe.id, joint: probe.thermocouple };
  const problems: WiringProblem[] = [];
  if (probe.thermocouple === 'B') {
    problems.push({
      ...about,
      kind: 'type not usable at preheat temperatures',
      message: `Probe ${probe.id} is type B, which cannot be read below ${usableRange.B.lowest} °C. Use type K or N.`,
    });
  }
  if (channel === undefined) {
    problems.push({
      ...about,
      kind: 'channel not fitted',
      message: `Board ${hello.board} has no channel ${probe.channel}, where probe ${probe.id} should be. Correct the channel in the joint.`,
    });
    return problems;
  }
  if (channel.thermocouple !== probe.thermocouple) problems.push(typesDiffer(hello, probe, channel));
  return problems;
};

const typesDiffer = (hello: Hello, probe: Probe, channel: Hello['channels'][number]): WiringProblem => {
  const both = { probe: probe.id, joint: probe.thermocouple, board: channel.thermocouple };
  const says = `Probe ${probe.id} is type ${probe.thermocouple} in the joint, but board ${hello.board} says type ${channel.thermocouple} on channel ${channel.channel}.`;
  return channel.form === 'temperature'
    ? {
        ...both,
        kind: 'instrument set to another type',
        message: `${says} Its temperatures are not used. Look at the wire, then set the instrument or correct the joint.`,
      }
    : {
        ...both,
        kind: 'board states another type',
        message: `${says} The board sends voltage, so type ${probe.thermocouple} is used. Look at the wire to be sure.`,
      };
};
